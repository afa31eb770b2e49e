using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Film coefficient, friction and hold-up at one place of a passage. Immutable and thread-safe.</summary>
/// <param name="Passage">The passage.</param>
/// <param name="State">What flows.</param>
/// <param name="MassFlux">Mass flow over free cross-section.</param>
/// <param name="Direction">Whether it is heated or cooled.</param>
/// <param name="Coefficient">Heat over area of the wall through which it goes and over the difference of wall and mean temperature of the stream.</param>
/// <param name="UncertaintyPercent">Stated uncertainty of the coefficient, percent of it: of the publication for turbulent flow of one phase in a straight tube, else estimated by this library.</param>
/// <param name="Method">By which correlations, with their publications.</param>
/// <param name="Regime">How the stream flows.</param>
/// <param name="Reynolds">With the hydraulic diameter; with two phases that of the liquid flowing alone.</param>
/// <param name="Prandtl">Of the only phase; with two phases of the liquid.</param>
/// <param name="Nusselt">Coefficient times hydraulic diameter over conductivity of the only phase; with two phases of the liquid.</param>
/// <param name="SensibleShare">Share of the heat that warms or cools the vapour of a blend in two phases; 0 elsewhere.</param>
/// <param name="FrictionPascalsPerMeter">Pressure gradient by friction, Pa/m, positive; what speeds up a flow that boils comes on top.</param>
/// <param name="FrictionUncertaintyPercent">Stated uncertainty of the friction, percent of it.</param>
/// <param name="FrictionMethod">By which correlations, with their publications.</param>
/// <param name="VoidFraction">Share of the cross-section that vapour takes.</param>
/// <param name="LiquidHoldUp">Mass of liquid over length; the models of slip differ in it by up to a factor of 2.</param>
/// <param name="Notes">What lies outside the range of a correlation used; empty when nothing does.</param>
public sealed record PassageFilm(
    FlowPassage Passage,
    State State,
    MassFlux MassFlux,
    HeatDirection Direction,
    HeatTransferCoefficient Coefficient,
    double UncertaintyPercent,
    string Method,
    FilmRegime Regime,
    double Reynolds,
    double Prandtl,
    double Nusselt,
    double SensibleShare,
    double FrictionPascalsPerMeter,
    double FrictionUncertaintyPercent,
    string FrictionMethod,
    double VoidFraction,
    LinearDensity LiquidHoldUp,
    IReadOnlyList<RangeNote> Notes)
{
    /// <summary>The figures as a table; <see cref="Method"/>, <see cref="FrictionMethod"/> and <see cref="Notes"/> hold the texts.</summary>
    public ResultTable ToTable() => new(
        $"{Passage}, {State}, {Direction.ToString().ToLowerInvariant()}",
        ["figure", "value"],
        [
            ["film coefficient, W/(m2 K)", $"{Coefficient.WattsPerSquareMeterKelvin:0.#}"],
            ["  within, %", $"{UncertaintyPercent:0}"],
            ["regime", Regime.ToString()],
            ["mass flux, kg/(m2 s)", $"{MassFlux.KilogramsPerSecondPerSquareMeter:0.##}"],
            ["Reynolds number", $"{Reynolds:0}"],
            ["Prandtl number", $"{Prandtl:0.###}"],
            ["Nusselt number", $"{Nusselt:0.##}"],
            ["share of heat to the vapour", $"{SensibleShare:0.###}"],
            ["friction, Pa/m", $"{FrictionPascalsPerMeter:G4}"],
            ["  within, %", $"{FrictionUncertaintyPercent:0}"],
            ["void fraction", $"{VoidFraction:0.###}"],
            ["liquid, g/m", $"{LiquidHoldUp.GramsPerMeter:0.###}"],
            ["notes", Notes.Count == 0 ? "none" : string.Join(", ", Notes.Select(static n => n.Subject))],
        ]);

    internal static PassageFilm Of(FlowPassage passage, State state, double flux, HeatDirection direction, double length, double heatFlux)
    {
        PassageKernel kernel = passage.Kernel;
        StreamProperties p = PassageStream.StreamPropertiesOf(state);
        FilmFigures film = kernel.Film(p, flux, direction, length, heatFlux);
        PhaseProperties phase = p.Quality == 1 ? p.Vapor : p.Liquid;
        double voids = kernel.VoidFraction(p, flux);
        return new(
            passage,
            state,
            MassFlux.FromKilogramsPerSecondPerSquareMeter(flux),
            direction,
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(film.Coefficient),
            100 * film.RelativeUncertainty,
            PassageText.FilmMethod(passage, film.Regime, direction, p),
            film.Regime,
            film.Reynolds,
            phase.Prandtl,
            film.Coefficient * kernel.HydraulicDiameter / phase.Conductivity,
            p.SensibleShare,
            kernel.FrictionGradient(p, flux),
            100 * kernel.FrictionUncertainty(p, flux),
            PassageText.FrictionMethod(passage, p.IsTwoPhase),
            voids,
            LinearDensity.FromKilogramsPerMeter(p.Quality == 1 ? 0 : (1 - voids) * p.Liquid.Density * kernel.FlowArea),
            PassageText.Notes(passage, state, p, flux, film, direction, length));
    }
}
