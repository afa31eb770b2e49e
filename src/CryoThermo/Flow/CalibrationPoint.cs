namespace CryoThermo.Flow;

/// <summary>What one reading of a bench test tells. Immutable and thread-safe.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="FlowCoefficientKv">Kv with the known or measured flow, m3/h; an upper bound where the pressure was at its limit.</param>
/// <param name="UncertaintyShare">Standard uncertainty of this reading by itself, as a share: without the common error of the flow.</param>
/// <param name="IsAtLimit">True where the pressure was at its limit, so that the flow is not known; not fitted.</param>
public sealed record CalibrationPoint(BenchReading Reading, double FlowCoefficientKv, double UncertaintyShare, bool IsAtLimit);
