namespace CryoThermo.Flow;

/// <summary>Opening of a valve and its flow coefficient. Immutable and thread-safe.</summary>
/// <param name="Steps">Steps of the drive from the closed stop.</param>
/// <param name="FlowCoefficientKv">Kv, m3/h of water at 1 bar.</param>
/// <param name="IsExtrapolated">True beyond the openings that are known.</param>
public sealed record OpeningPoint(double Steps, double FlowCoefficientKv, bool IsExtrapolated = false);
