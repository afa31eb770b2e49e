using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A named place in a cold box with a phase separator.</summary>
/// <param name="Place">For example "liquid before its throttle".</param>
/// <param name="State">The state there.</param>
/// <param name="Flow">The flow there.</param>
public sealed record SeparatorPoint(string Place, State State, MolarFlow Flow)
{
    /// <summary>The same as mass.</summary>
    public MassFlow MassFlow => MassFlow.FromKilogramsPerSecond(Flow.MolesPerSecond * State.Fluid.Composition.MolarMass.KilogramsPerMole);
}
