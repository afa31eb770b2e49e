namespace CryoThermo.Flow;

/// <summary>A liquid and a vapour that flow together, as the correlations of friction and void fraction take them. SI.</summary>
/// <param name="Quality">Vapour mass fraction, 0 to 1. In a single phase the figures of the other are not read.</param>
/// <param name="LiquidDensity">kg/m3.</param>
/// <param name="VaporDensity">kg/m3.</param>
/// <param name="LiquidViscosity">Pa s.</param>
/// <param name="VaporViscosity">Pa s.</param>
/// <param name="SurfaceTension">N/m.</param>
internal readonly record struct TwoPhaseStream(
    double Quality, double LiquidDensity, double VaporDensity, double LiquidViscosity, double VaporViscosity, double SurfaceTension)
{
    /// <summary>Standard acceleration of gravity, m/s2.</summary>
    public const double Gravity = 9.80665;

    /// <summary>Of a state, two liquids taken as one.</summary>
    public static TwoPhaseStream Of(State state)
    {
        PhaseLump liquid = PhaseLump.Of(state, PhaseKind.Liquid);
        PhaseLump vapor = PhaseLump.Of(state, PhaseKind.Vapor);
        double quality = liquid.MassShare <= 0 ? 1 : vapor.MassShare <= 0 ? 0 : vapor.MassShare / (vapor.MassShare + liquid.MassShare);
        return new(quality, liquid.Density, vapor.Density, liquid.Viscosity, vapor.Viscosity, quality is > 0 and < 1 ? TensionOf(state) : 0);
    }

    /// <summary>Surface tension of the liquids of a state with a vapour, weighted by mass, N/m.</summary>
    public static double TensionOf(State state)
    {
        double mass = 0;
        double tension = 0;
        foreach (Phase phase in state.Phases)
        {
            if (phase.Kind == PhaseKind.Liquid && !phase.IsIncipient)
            {
                double share = phase.Fraction * phase.Composition.MolarMass.KilogramsPerMole;
                mass += share;
                tension += share * state.SurfaceTensionOf(phase).Value.NewtonsPerMeter;
            }
        }

        return tension / mass;
    }

    /// <summary>Density of the phases at one velocity.</summary>
    public double HomogeneousDensity => 1 / ((Quality / VaporDensity) + ((1 - Quality) / LiquidDensity));

    /// <summary>Viscosity of the phases at one velocity.</summary>
    public double HomogeneousViscosity(TwoPhaseViscosity rule) => Mixed(
        rule, Quality, 1 - Quality, Quality / VaporDensity, (1 - Quality) / LiquidDensity, VaporViscosity, LiquidViscosity);

    /// <summary>A rule with masses and volumes of the phases in any unit.</summary>
    public static double Mixed(
        TwoPhaseViscosity rule, double vapor, double liquid, double vaporVolume, double liquidVolume, double vaporViscosity, double liquidViscosity)
    {
        return rule switch
        {
            TwoPhaseViscosity.McAdams => (vapor + liquid) / ((vapor / vaporViscosity) + (liquid / liquidViscosity)),
            TwoPhaseViscosity.Cicchitti => ((vapor * vaporViscosity) + (liquid * liquidViscosity)) / (vapor + liquid),
            _ => ((vaporVolume * vaporViscosity) + (liquidVolume * liquidViscosity)) / (vaporVolume + liquidVolume),
        };
    }
}
