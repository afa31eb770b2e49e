using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>The interaction parameter of two substances in the cubic equation with a temperature-dependent covolume.</summary>
internal sealed record QuantumCubicPair(SubstanceIdentity First, SubstanceIdentity Second, double InteractionParameter, Source Source);
