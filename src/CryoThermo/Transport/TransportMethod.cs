namespace CryoThermo.Transport;

/// <summary>How a transport figure was computed and how sure it is. Immutable and thread-safe.</summary>
/// <param name="Description">The correlation or method in words, with its publication.</param>
/// <param name="UncertaintyPercent">Stated uncertainty, percent of the value; where a publication states none, an estimate of this library.</param>
/// <param name="IsEstimated">True when a substance without data of its own takes part: typical coefficients were taken for it.</param>
public sealed record TransportMethod(string Description, double UncertaintyPercent, bool IsEstimated);
