using CryoThermo.Substances;

namespace CryoThermo.Equilibrium.Solids;

/// <summary>
/// Fugacity of a pure solid over that of its subcooled liquid at the same temperature and the triple pressure, by the enthalpy of fusion, the
/// difference of heat capacities and the transitions between crystal forms; the usual route, for example Prausnitz, Lichtenthaler, de Azevedo,
/// Molecular Thermodynamics of Fluid-Phase Equilibria (1999), chapter 11 (from memory).
/// </summary>
internal static class FusionRatio
{
    /// <summary>
    /// Below this share of the triple temperature the heat-capacity difference is taken as zero; it falls linearly to there. A constant
    /// difference makes solids too soluble below about 0.6 of the triple temperature. Common practice, no source.
    /// </summary>
    public const double NoDifferenceBelow = 0.5;

    /// <summary>ln of solid over liquid fugacity; negative below the triple temperature.</summary>
    /// <param name="solid">Figures of the solid.</param>
    /// <param name="temperature">K.</param>
    public static double Ln(SolidProperties solid, double temperature)
    {
        double r = SubstanceReader.GasConstant;
        double triple = solid.TripleTemperature;
        double ln = -(solid.FusionEnthalpy / r) * ((1 / temperature) - (1 / triple));
        ln += (solid.HeatCapacityDifference ?? 0) / r * HeatCapacityTerm(temperature / triple);
        foreach (SolidTransition transition in solid.Transitions)
        {
            if (transition.Temperature > temperature)
            {
                ln -= (transition.Enthalpy / r) * ((1 / temperature) - (1 / transition.Temperature));
            }
        }

        return ln;
    }

    /// <summary>Enthalpy of the liquid less that of the solid, J/mol; what d(ln ratio)/dT is times R T^2.</summary>
    public static double Enthalpy(SolidProperties solid, double temperature)
    {
        double triple = solid.TripleTemperature;
        double share = temperature / triple;
        double c = solid.HeatCapacityDifference ?? 0;
        double enthalpy = solid.FusionEnthalpy;
        if (share > 1)
        {
            enthalpy += c * (temperature - triple);
        }
        else
        {
            double at = Math.Max(share, NoDifferenceBelow);
            enthalpy -= c * triple * at * (1 - at);
        }

        foreach (SolidTransition transition in solid.Transitions)
        {
            enthalpy += transition.Temperature > temperature ? transition.Enthalpy : 0;
        }

        return enthalpy;
    }

    // Integral over the inverse square of temperature of what the heat-capacity difference takes off the enthalpy of fusion:
    // constant above the triple point, c (2 t - 1) below it, nothing below half of it.
    private static double HeatCapacityTerm(double share)
    {
        if (share >= 1)
        {
            return (1 / share) - 1 + Math.Log(share);
        }

        double at = Math.Max(share, NoDifferenceBelow);
        double term = at - 1 - Math.Log(at);
        return share >= NoDifferenceBelow
            ? term
            : term + (NoDifferenceBelow * (1 - NoDifferenceBelow) * ((1 / share) - (1 / NoDifferenceBelow)));
    }
}
