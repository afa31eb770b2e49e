using UnitsNet;

namespace CryoThermo;

/// <summary>Where the three phases of two components become two on warming. Immutable and thread-safe.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="VaporMerges">True when the light liquid and the vapour become one phase there; false when the two liquids do.</param>
public sealed record ThreePhaseLineEnd(Temperature Temperature, Pressure Pressure, bool VaporMerges);
