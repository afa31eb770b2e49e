namespace CryoThermo.Checks.Values;

/// <summary>Rounded vapour pressures at one temperature.</summary>
public sealed record RoundedPressureList(string About, double Temperature, string Source, double RelativeTolerance, IReadOnlyList<RoundedPressure> Pressures);
