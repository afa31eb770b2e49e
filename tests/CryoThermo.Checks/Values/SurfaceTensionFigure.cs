namespace CryoThermo.Checks.Values;

/// <summary>Surface tension of handbooks, K and mN/m.</summary>
public sealed record SurfaceTensionFigure(string Fluid, double Temperature, double Value, string Unit);
