namespace CryoThermo.Checks.Values;

/// <summary>A rounded vapour pressure.</summary>
public sealed record RoundedPressure(string Fluid, double Bar);
