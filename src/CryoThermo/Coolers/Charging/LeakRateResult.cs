using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>A leak rate with its uncertainty. Immutable and thread-safe.</summary>
/// <param name="LeakRatePascalCubicMetersPerSecond">Gas lost at 293.15 K, Pa m3/s; negative when the machine gained gas.</param>
/// <param name="StandardUncertaintyPascalCubicMetersPerSecond">Its standard uncertainty, Pa m3/s.</param>
/// <param name="ChangeByTemperature">
/// Part of the change of pressure that the amount does not explain, second less first reading: what the temperature did.
/// </param>
/// <param name="LossAtStart">Fall of the pressure that the loss alone would have caused at the conditions of the start.</param>
/// <param name="UncorrectedPascalCubicMetersPerSecond">What the fall of the pressure alone suggests, V dp/dt, Pa m3/s.</param>
/// <param name="IdealGasPascalCubicMetersPerSecond">The rate with an ideal gas, corrected for temperature, Pa m3/s.</param>
public sealed record LeakRateResult(
    double LeakRatePascalCubicMetersPerSecond,
    double StandardUncertaintyPascalCubicMetersPerSecond,
    Pressure ChangeByTemperature,
    Pressure LossAtStart,
    double UncorrectedPascalCubicMetersPerSecond,
    double IdealGasPascalCubicMetersPerSecond)
{
    /// <summary>The rate in mbar L/s: 1 Pa m3/s = 10 mbar L/s.</summary>
    public double LeakRateMillibarLitersPerSecond => 10 * LeakRatePascalCubicMetersPerSecond;

    /// <summary>Whether the rate differs from zero by more than twice its standard uncertainty; otherwise wait longer.</summary>
    public bool IsResolved => Math.Abs(LeakRatePascalCubicMetersPerSecond) > 2 * StandardUncertaintyPascalCubicMetersPerSecond;

    /// <summary>The result as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        IsResolved ? "Leak rate at 293.15 K" : "Leak rate at 293.15 K: not resolved, wait longer",
        ["", "Pa m3/s", "mbar L/s"],
        [
            Row("leak rate, real gas", LeakRatePascalCubicMetersPerSecond),
            Row("standard uncertainty", StandardUncertaintyPascalCubicMetersPerSecond),
            Row("ideal gas", IdealGasPascalCubicMetersPerSecond),
            Row("without correction for temperature", UncorrectedPascalCubicMetersPerSecond),
        ]);

    private static IReadOnlyList<string> Row(string name, double value) => [name, $"{value:E3}", $"{10 * value:E3}"];
}
