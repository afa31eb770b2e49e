using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Vapour that condenses on a cold wall. Means over the surface. Immutable and thread-safe.</summary>
/// <param name="Surface">The wall.</param>
/// <param name="Vapor">The vapour far from it.</param>
/// <param name="Wall">Temperature of the wall.</param>
/// <param name="DewPoint">Where the vapour begins to condense at its pressure.</param>
/// <param name="Interface">Temperature at the surface of the film.</param>
/// <param name="HeatFlux">Into the wall.</param>
/// <param name="SensibleHeatFlux">Share of it that the vapour brings by being warmer than the film's surface.</param>
/// <param name="CondensationFlux">Mass that condenses on an area.</param>
/// <param name="Coefficient">Heat flux over the difference from dew point to wall.</param>
/// <param name="FilmCoefficient">Heat flux over the difference from the film's surface to the wall.</param>
/// <param name="FilmReynoldsNumber">Four times the condensate on a width over its viscosity, where it leaves the wall.</param>
/// <param name="Regime">How the film runs.</param>
/// <param name="NonCondensable">The component held back; null for a pure vapour.</param>
/// <param name="NonCondensableAtInterface">Its mole fraction in the vapour at the film's surface.</param>
/// <param name="MassTransferCoefficientMetersPerSecond">Of the vapour's layer, before the correction for the flow towards the wall; null for a pure vapour.</param>
/// <param name="Diffusion">The diffusion coefficient taken; null for a pure vapour.</param>
/// <param name="PureHeatFlux">Heat flux of the condensing component alone at the same pressure, on the same wall.</param>
/// <param name="UncertaintyPercent">How far the heat flux may be off, percent; judged from the parts: film 15 (waves and turbulence 25), vapour's layer 30.</param>
/// <param name="Notes">What to know about the case.</param>
public sealed record WallCondensationResult(
    CondensingSurface Surface,
    State Vapor,
    Temperature Wall,
    Temperature DewPoint,
    Temperature Interface,
    HeatFlux HeatFlux,
    HeatFlux SensibleHeatFlux,
    MassFlux CondensationFlux,
    HeatTransferCoefficient Coefficient,
    HeatTransferCoefficient FilmCoefficient,
    double FilmReynoldsNumber,
    CondensateRegime Regime,
    string? NonCondensable,
    double NonCondensableAtInterface,
    double? MassTransferCoefficientMetersPerSecond,
    DiffusionEstimate? Diffusion,
    HeatFlux PureHeatFlux,
    double UncertaintyPercent,
    IReadOnlyList<string> Notes)
{
    /// <summary>Heat into the whole wall.</summary>
    public Power Heat => Power.FromWatts(HeatFlux.WattsPerSquareMeter * Surface.Area.SquareMeters);

    /// <summary>Mass that condenses on the whole wall.</summary>
    public MassFlow Condensate => MassFlow.FromKilogramsPerSecond(CondensationFlux.KilogramsPerSecondPerSquareMeter * Surface.Area.SquareMeters);

    /// <summary>How many percent of the heat flux of the pure vapour the held-back component costs; 0 for a pure vapour.</summary>
    public double CostPercent => 100 * (1 - (HeatFlux.WattsPerSquareMeter / PureHeatFlux.WattsPerSquareMeter));

    /// <summary>Where it comes from.</summary>
    public static Source Source { get; } = new(
        "film: W. Nusselt (1916), S. S. Kutateladze (1963), D. A. Labuntsov (1957); vapour's layer: A. P. Colburn, O. A. Hougen, Ind. Eng. Chem. 26 (1934) 1178, G. Ackermann (1937), with the analogy of heat and mass",
        FromMemory: true,
        Verified: "Nusselt's closed forms; limits of a pure vapour and of a layer alone; measured steam with air by order of size");

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        $"{Vapor.Fluid.Composition} at {Vapor.Pressure.Bars:G4} bar on a {Surface} of {Wall.Kelvins:F2} K",
        ["figure", "value"],
        [
            ["dew point, K", $"{DewPoint.Kelvins:F2}"],
            ["surface of the film, K", $"{Interface.Kelvins:F2}"],
            ["heat into the wall, W", $"{(double)Heat.Watts:G4}"],
            ["heat flux, W/m2", $"{HeatFlux.WattsPerSquareMeter:G4}"],
            ["condensate, g/s", $"{Condensate.GramsPerSecond:G4}"],
            ["coefficient from dew point to wall, W/(m2 K)", $"{Coefficient.WattsPerSquareMeterKelvin:G4}"],
            ["film", $"{Regime.ToString().ToLowerInvariant()}, Re {FilmReynoldsNumber:G3}"],
            ["held back at the film's surface", NonCondensable is null ? "nothing" : $"{NonCondensable}, {100 * NonCondensableAtInterface:G3} mol %"],
            ["that costs, %", $"{CostPercent:F0}"],
            ["known within, %", $"{UncertaintyPercent:F0}"],
        ]);
}
