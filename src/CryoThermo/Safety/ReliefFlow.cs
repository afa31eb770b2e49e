using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>What a relief device must pass. Immutable and thread-safe.</summary>
/// <param name="MassFlow">Mass flow.</param>
/// <param name="Inlet">State at the inlet while relieving.</param>
public sealed record ReliefFlow(MassFlow MassFlow, State Inlet);
