namespace CryoThermo.Equilibrium;

/// <summary>A solved equilibrium state. SI, molar, per mole of the whole.</summary>
/// <param name="Temperature">K.</param>
/// <param name="Pressure">Pa.</param>
/// <param name="Phases">The phases, lightest first; fractions sum to one.</param>
/// <param name="Totals">Sums over the phases.</param>
/// <param name="StillUnstable">True when a further phase exists that the answer does not hold.</param>
/// <param name="Residual">Largest difference of ln fugacity between the phases.</param>
/// <param name="TangentPlaneDistance">Most negative tangent-plane distance found in the final stability test.</param>
internal sealed record EquilibriumResult(
    double Temperature,
    double Pressure,
    PhaseResult[] Phases,
    CaloricFigures Totals,
    bool StillUnstable,
    double Residual,
    double TangentPlaneDistance)
{
    /// <summary>Moles of vapour over moles of the whole.</summary>
    public double VaporFraction
    {
        get
        {
            double sum = 0;
            foreach (PhaseResult phase in Phases)
            {
                sum += phase.IsVapor ? phase.Fraction : 0;
            }

            return sum;
        }
    }
}
