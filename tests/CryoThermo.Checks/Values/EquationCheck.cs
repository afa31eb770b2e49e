using CryoThermo.Substances;

namespace CryoThermo.Checks.Values;

/// <summary>A published value that an equation of state must give, or a well-known figure near which it must come.</summary>
/// <param name="Fluid">Substance.</param>
/// <param name="Standard">Which of its equations.</param>
/// <param name="Quantity">What the value is of.</param>
/// <param name="Temperature">K.</param>
/// <param name="Pressure">Pa.</param>
/// <param name="MolarDensity">mol/m3.</param>
/// <param name="MolarDensityHalfUnit">Half a unit of the last digit printed of the density, mol/m3; null when the density is exact.</param>
/// <param name="Value">The value, in the unit beside it.</param>
/// <param name="Unit">Unit of the value.</param>
/// <param name="RelativeTolerance">Allowed relative deviation; null when an absolute one is given.</param>
/// <param name="AbsoluteTolerance">Allowed deviation; half a unit of the last digit printed unless the rule says otherwise.</param>
/// <param name="Rule">Where the tolerance comes from.</param>
/// <param name="Source">Publication.</param>
/// <param name="FromMemory">Whether it was recalled.</param>
/// <param name="Evidence">Whether it was written down before or after it was computed.</param>
public sealed record EquationCheck(
    string Fluid,
    EquationStandard Standard,
    EquationQuantity Quantity,
    double? Temperature,
    double? Pressure,
    double? MolarDensity,
    double? MolarDensityHalfUnit,
    double Value,
    string Unit,
    double? RelativeTolerance,
    double? AbsoluteTolerance,
    string Rule,
    string Source,
    bool FromMemory,
    string Evidence)
{
    /// <summary>Fluid, equation, quantity and state in a line.</summary>
    public string Subject => string.Join(
        ", ",
        new[]
        {
            Fluid,
            Standard.ToString().ToLowerInvariant(),
            System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(Quantity.ToString()),
            Temperature is { } t ? $"{t} K" : null,
            Pressure is { } p ? $"{p} Pa" : null,
            MolarDensity is { } d ? $"{d} mol/m3" : null,
        }.OfType<string>());
}
