using UnitsNet;

namespace CryoThermo;

/// <summary>Two liquids and a vapour of two components in equilibrium. Immutable and thread-safe.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="Vapor">The vapour.</param>
/// <param name="LightLiquid">The liquid nearer to the vapour: it holds more of the component that boils at the lower temperature.</param>
/// <param name="HeavyLiquid">The other liquid.</param>
public sealed record ThreePhaseLinePoint(Temperature Temperature, Pressure Pressure, Composition Vapor, Composition LightLiquid, Composition HeavyLiquid);
