using System.Globalization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>What an oil return brings back and what it costs. Immutable and thread-safe.</summary>
/// <param name="Return">The return.</param>
/// <param name="GasFlow">The flow of gas while it is open without oil before it.</param>
/// <param name="OilCapacity">Most oil it brings back, on average over time.</param>
/// <param name="IsStarving">Whether more oil comes than it brings back: the separator fills, and the compressor runs dry.</param>
/// <param name="OilTimeShare">Share of the time in which oil passes.</param>
/// <param name="StolenFlow">Gas that goes back without cooling, on average.</param>
/// <param name="StolenShare">The same over what the compressor delivers.</param>
public sealed record OilReturnResult(
    OilReturn Return, CapillaryFlow GasFlow, MassFlow OilCapacity, bool IsStarving, double OilTimeShare, MassFlow StolenFlow, double StolenShare)
{
    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        string.Create(CultureInfo.InvariantCulture, $"Oil return of {Return.Line.Sections.Min(s => s.Bore.Millimeters):0.00} mm, {Return.Line.Length.Meters:0.00} m, open {100 * Return.OpenShare:0.#} % of the time"),
        ["figure", "value"],
        [
            ["most oil it brings back, g/min", (OilCapacity.KilogramsPerSecond * 6e4).ToString("0.00", CultureInfo.InvariantCulture)],
            ["enough for the oil that comes", IsStarving ? "no: the compressor runs dry" : "yes"],
            ["time with oil, %", (100 * OilTimeShare).ToString("0.00", CultureInfo.InvariantCulture)],
            ["gas that goes back without cooling, g/s", StolenFlow.GramsPerSecond.ToString("0.0000", CultureInfo.InvariantCulture)],
            ["of what the compressor delivers, %", (100 * StolenShare).ToString("0.00", CultureInfo.InvariantCulture)],
        ]);
}
