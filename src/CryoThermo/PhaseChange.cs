using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// A place on an isobar or isotherm where a phase appears or vanishes: a bubble or dew point, the first vapour beside two liquids, the beginning
/// or end of a second liquid. Immutable and thread-safe.
/// </summary>
public sealed class PhaseChange
{
    private readonly PhaseChangeFinder.Change change;

    internal PhaseChange(WorkingFluid fluid, PhaseChangeFinder.Change change)
    {
        this.change = change;
        State = new(fluid, change.State);
    }

    /// <summary>Temperature.</summary>
    public Temperature Temperature => State.Temperature;

    /// <summary>Absolute pressure.</summary>
    public Pressure Pressure => State.Pressure;

    /// <summary>The state there: the phases that are there on both sides, and in an amount of zero the one that appears or vanishes.</summary>
    public State State { get; }

    /// <summary>The phase that appears or vanishes, with the composition it then has; one of the phases of <see cref="State"/>.</summary>
    public Phase Phase => State.Phases[change.Changing];

    /// <summary>
    /// True where the phase appears as temperature rises along an isobar, or pressure along an isotherm; false where it vanishes. Where one phase
    /// takes the place of another at once, as with three phases of two components, the one that has none of its own on the other side.
    /// </summary>
    public bool Appears => change.Appears;

    /// <summary>The phases at slightly lower temperature, or pressure along an isotherm.</summary>
    public PhaseRegion Below => change.Below;

    /// <summary>The phases at slightly higher temperature, or pressure along an isotherm.</summary>
    public PhaseRegion Above => change.Above;

    /// <summary>False where a fourth phase is known to exist on a side: the change is then only bracketed, and the phases are those of the best answer.</summary>
    public bool IsResolved => !State.HasUnresolvedPhase;

    /// <inheritdoc/>
    public override string ToString() =>
        $"{Temperature.Kelvins:0.###} K, {Pressure.Bars:0.####} bar: {(Phase.Kind == PhaseKind.Vapor ? "vapor" : "liquid")} {(Appears ? "appears" : "vanishes")}, {Below} to {Above}{(IsResolved ? string.Empty : " (a further phase unresolved)")}";
}
