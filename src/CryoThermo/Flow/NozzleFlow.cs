using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>What passes a frictionless nozzle. Immutable and thread-safe.</summary>
/// <param name="Flux">Mass flow over the area of the throat.</param>
/// <param name="Throat">The state in the throat, on the isentrope of the inlet.</param>
/// <param name="IsChoked">True where a lower back pressure brings no more.</param>
public sealed record NozzleFlow(MassFlux Flux, State Throat, bool IsChoked);
