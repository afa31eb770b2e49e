namespace CryoThermo.Insulation;

/// <summary>What enters a vacuum, or leaves it, at a time. Immutable and thread-safe.</summary>
/// <param name="Name">Whence or whither.</param>
/// <param name="Gas">The gas.</param>
/// <param name="PascalCubicMetersPerSecond">Pa m3/s at the temperature of the space; negative where it leaves.</param>
public sealed record VacuumFlow(string Name, string Gas, double PascalCubicMetersPerSecond);
