using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What two coolers in cascade do. Immutable and thread-safe.</summary>
/// <param name="Cascade">The coolers.</param>
/// <param name="AmbientTemperature">The room.</param>
/// <param name="Load">On the lower cold head.</param>
/// <param name="Upper">The upper cooler with the pre-cooling as a constant load.</param>
/// <param name="UpperState">Its state.</param>
/// <param name="Lower">The lower cooler, pre-cooled.</param>
/// <param name="LowerState">Its state.</param>
/// <param name="Approach">Of the lower stream to the upper cold head as it came out: the one asked for, but for the interpolation of the upper cooler's curve.</param>
public sealed record CoolerCascadeRating(CoolerCascade Cascade, Temperature AmbientTemperature, Power Load, CoolerRating Upper, CoolerState UpperState, CoolerRating Lower, CoolerState LowerState, TemperatureDelta Approach)
{
    /// <summary>Power taken up by the gas in both compressors.</summary>
    public Power Power => UpperState.Compression.Power + LowerState.Compression.Power;

    /// <summary>Net cooling over the power of both, times (room/cold - 1), percent.</summary>
    public double PercentOfCarnot =>
        100 * (double)(LowerState.NetCooling.Watts / Power.Watts) * ((AmbientTemperature.Kelvins / LowerState.ColdTemperature.Kelvins) - 1);

    /// <summary>Both as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Cascade with {Load.Watts:F1} W at {LowerState.ColdTemperature.Kelvins:F1} K ({LowerState.ColdTemperature.DegreesCelsius:F1} degC)"),
        ["figure", "upper", "lower"],
        [
            Row("cold head, K", s => s.ColdTemperature.Kelvins, "F2"),
            Row("net cooling, W", s => (double)s.NetCooling.Watts, "F2"),
            Row("suction, bar absolute", s => s.SuctionPressure.Bars, "F3"),
            Row("discharge, bar absolute", s => s.DischargePressure.Bars, "F3"),
            Row("flow, mmol/s", s => 1000 * s.Compression.MolarFlow.MolesPerSecond, "F2"),
            Row("power, W", s => (double)s.Compression.Power.Watts, "F1"),
        ]);

    private IReadOnlyList<string> Row(string name, Func<CoolerState, double> figure, string format) =>
    [
        name,
        figure(UpperState).ToString(format, System.Globalization.CultureInfo.InvariantCulture),
        figure(LowerState).ToString(format, System.Globalization.CultureInfo.InvariantCulture),
    ];
}
