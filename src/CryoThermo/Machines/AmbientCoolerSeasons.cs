using CryoThermo.Diagnostics;

namespace CryoThermo.Machines;

/// <summary>An after-cooler on the hottest and on the coldest day. Immutable and thread-safe.</summary>
/// <param name="Summer">On the hottest day.</param>
/// <param name="Winter">On the coldest day.</param>
public sealed record AmbientCoolerSeasons(AmbientCoolerResult Summer, AmbientCoolerResult Winter)
{
    /// <summary>Whether the outlet is all gas in the one season and holds liquid in the other: the warm end of the cooler then works differently.</summary>
    public bool ChangesPhase => (Summer.LiquidFraction > 0) != (Winter.LiquidFraction > 0);

    /// <summary>Both as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        "After-cooler in summer and winter",
        ["figure", "summer", "winter"],
        [
            Row("medium before it, degC", r => $"{r.MediumInlet.DegreesCelsius:F1}"),
            Row("medium behind it, degC", r => $"{r.MediumOutlet.DegreesCelsius:F1}"),
            Row("outlet, degC", r => $"{r.Outlet.Temperature.DegreesCelsius:F1}"),
            Row("outlet above its dew point, K", r => r.AboveDewPoint is { } above ? $"{above.Kelvins:F1}" : "no dew point"),
            Row("liquid at the outlet, % (mole)", r => $"{100 * r.LiquidFraction:F2}"),
            Row("heat rejected, W", r => $"{r.Duty.Watts:F1}"),
            Row("least difference, K", r => $"{r.LeastDifference.Kelvins:F2}"),
        ]);

    private IReadOnlyList<string> Row(string name, Func<AmbientCoolerResult, string> figure) => [name, figure(Summer), figure(Winter)];
}
