namespace CryoThermo.Coolers;

/// <summary>A named place in the refrigerant loop and the state there.</summary>
/// <param name="Place">For example "throttle inlet".</param>
/// <param name="State">The state.</param>
public sealed record LoopPoint(string Place, State State);
