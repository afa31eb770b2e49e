namespace CryoThermo.Substances;

/// <summary>
/// The ideal-gas part of a reduced Helmholtz energy in the terms of its publication,
/// alpha0 = ln(delta) + constant + slope tau + the sum of the terms. Immutable.
/// </summary>
/// <param name="ReducingTemperature">K.</param>
/// <param name="ReducingMolarDensity">mol/m3.</param>
/// <param name="Constant">Integration constant of the entropy.</param>
/// <param name="Slope">Integration constant of the enthalpy.</param>
/// <param name="Terms">The terms.</param>
/// <param name="HeatCapacity">cp0/R in canonical terms; equal to 1 - tau^2 d2(alpha0)/dtau2.</param>
internal sealed record PublishedIdealGas(
    double ReducingTemperature,
    double ReducingMolarDensity,
    double Constant,
    double Slope,
    IReadOnlyList<PublishedIdealGasTerm> Terms,
    IReadOnlyList<HeatCapacityTerm> HeatCapacity)
{
    /// <summary>alpha0 at a temperature, K, and a molar density, mol/m3.</summary>
    public double At(double temperature, double molarDensity)
    {
        double tau = ReducingTemperature / temperature;
        double sum = Math.Log(molarDensity / ReducingMolarDensity) + Constant + (Slope * tau);
        foreach (PublishedIdealGasTerm term in Terms)
        {
            sum += term.At(tau);
        }

        return sum;
    }

    /// <summary>tau d(alpha0)/dtau at a temperature, K.</summary>
    public double TauSlope(double temperature)
    {
        double tau = ReducingTemperature / temperature;
        double sum = Slope * tau;
        foreach (PublishedIdealGasTerm term in Terms)
        {
            sum += term.TauSlope(tau);
        }

        return sum;
    }
}
