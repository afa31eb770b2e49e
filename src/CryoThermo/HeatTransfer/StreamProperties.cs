using CryoThermo.Flow;

namespace CryoThermo.HeatTransfer;

/// <summary>What a film coefficient needs of a stream at one place. SI.</summary>
/// <param name="Quality">Vapour mass fraction, exactly 0 or 1 in a single phase: then that phase's properties alone are read.</param>
/// <param name="Liquid">All liquid.</param>
/// <param name="Vapor">All vapour.</param>
/// <param name="SurfaceTension">N/m.</param>
/// <param name="SensibleShare">Share of the heat along the equilibrium path that warms the vapour: heat capacity of the vapour times dT/dh times quality; 0 for a pure fluid.</param>
/// <param name="LatentHeat">Heat taken up by evaporating, J/kg of vapour.</param>
/// <param name="ReducedPressure">Pressure over critical pressure.</param>
/// <param name="MolarMass">kg/mol.</param>
internal readonly record struct StreamProperties(
    double Quality,
    PhaseProperties Liquid,
    PhaseProperties Vapor,
    double SurfaceTension,
    double SensibleShare,
    double LatentHeat,
    double ReducedPressure,
    double MolarMass)
{
    /// <summary>Quality between 0 and 1.</summary>
    public bool IsTwoPhase => Quality is > 0 and < 1;

    /// <summary>X_tt of R. W. Lockhart and R. C. Martinelli 1949: root of the friction of the liquid alone over that of the vapour alone, both turbulent.</summary>
    public double MartinelliParameter => Math.Pow((1 - Quality) / Quality, 0.9)
        * Math.Sqrt(Vapor.Density / Liquid.Density) * Math.Pow(Liquid.Viscosity / Vapor.Viscosity, 0.1);

    /// <summary>As the correlations of friction take it.</summary>
    public TwoPhaseStream Flow => new(Quality, Liquid.Density, Vapor.Density, Liquid.Viscosity, Vapor.Viscosity, SurfaceTension);
}
