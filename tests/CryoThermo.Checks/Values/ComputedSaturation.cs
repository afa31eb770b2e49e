using CryoThermo.Substances;

namespace CryoThermo.Checks.Values;

/// <summary>A saturation by an independent program: a regression. K, Pa, mol/m3.</summary>
public sealed record ComputedSaturation(
    string Fluid, EquationStandard Standard, double Temperature, double Pressure, double LiquidMolarDensity, double VaporMolarDensity);
