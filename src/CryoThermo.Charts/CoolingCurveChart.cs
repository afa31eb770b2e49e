using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>
/// Greatest cooling of a throttle cooler against its cold temperature: with an ideal recuperator and with the conductance
/// it has, the demand, and the lowest temperatures. Kelvins below, degrees Celsius above. Curves that fall below zero are
/// followed down to a tenth of the greatest cooling shown; where none is above zero, the chart shows what is missing. Immutable and thread-safe.
/// </summary>
public sealed class CoolingCurveChart : Chart
{
    private const double ShownBelowZero = 0.1;
    private readonly string title;
    private readonly double[] cold;
    private readonly double[] ideal;
    private readonly double[]? withConductance;
    private readonly double? conductance;
    private readonly CoolingDemand? demand;
    private readonly double? lowestIdeal;
    private readonly double? lowestWithConductance;

    /// <summary>Creates the chart; the data are copied.</summary>
    /// <param name="data">What to show.</param>
    /// <exception cref="ArgumentException">A list has the wrong length, or the cold temperatures do not rise.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or a temperature is not above zero.</exception>
    public CoolingCurveChart(CoolingCurveData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        title = data.Title;
        cold = ChartArguments.Temperatures(ChartArguments.Rising(data.ColdKelvins, nameof(data.ColdKelvins), "K"), nameof(data.ColdKelvins));
        ideal = ChartArguments.OnePerStation(data.IdealWatts, cold.Length, nameof(data.IdealWatts), "W");
        withConductance = data.WithConductanceWatts is null
            ? null
            : ChartArguments.OnePerStation(data.WithConductanceWatts, cold.Length, nameof(data.WithConductanceWatts), "W");
        conductance = data.ConductanceWattsPerKelvin is { } given
            ? ChartArguments.Finite(given, nameof(data.ConductanceWattsPerKelvin), "W/K")
            : null;
        demand = data.Demand;
        if (demand is not null)
        {
            ChartArguments.Temperature(demand.ColdKelvins, "Demand.ColdKelvins");
            ChartArguments.Finite(demand.LoadWatts, "Demand.LoadWatts", "W");
        }

        lowestIdeal = Lowest(data.LowestIdealKelvins, nameof(data.LowestIdealKelvins));
        lowestWithConductance = Lowest(data.LowestWithConductanceKelvins, nameof(data.LowestWithConductanceKelvins));
    }

    private static double? Lowest(double? kelvins, string name) => kelvins is { } given ? ChartArguments.Temperature(given, name) : null;

    private static void Curve(Plot plot, double[] x, double[] y, Color color, LinePattern pattern, string name)
    {
        var curve = plot.Add.ScatterLine(x, y, color);
        curve.LineWidth = ChartStyle.CurveWidth;
        curve.LinePattern = pattern;
        curve.LegendText = name;
    }

    private static void MarkLowest(Plot plot, double? kelvins, Color color, MarkerShape shape, string name)
    {
        if (kelvins is { } lowest)
        {
            var marker = plot.Add.Marker(lowest, 0, shape, 13, color);
            marker.LegendText = FormattableString.Invariant($"{name} {lowest:F1} K");
        }
    }

    private protected override Plot Draw(int width, int height)
    {
        Plot plot = ChartStyle.NewPlot(title);
        double least = Math.Min(ideal.Min(), withConductance?.Min() ?? 0);
        double greatest = Greatest() > 0 ? Greatest() : Math.Max(1e-3, 0.1 * -least);
        PowerScale power = PowerScale.For(greatest);
        double low = least >= 0 ? -0.04 * greatest : Math.Max(least * 1.05, -(Greatest() > 0 ? ShownBelowZero : 10) * greatest);
        plot.Axes.Left.Label.Text = $"cooling, {power.Unit}";
        plot.Axes.SetLimitsY(power.From(low), power.From(1.06 * greatest));

        double[] across = [.. cold, .. new[] { demand?.ColdKelvins, lowestIdeal, lowestWithConductance }.OfType<double>()];
        double margin = 0.03 * (across.Max() - across.Min());
        ChartStyle.TemperatureAcross(plot, across.Min() - margin, across.Max() + margin, "cold temperature");

        var zero = plot.Add.HorizontalLine(0, 1, ChartStyle.Black, LinePattern.Solid);
        zero.EnableAutoscale = false;
        Curve(plot, cold, power.From(ideal), ChartStyle.Blue, LinePattern.Solid, "perfect recuperator");
        string? figure = conductance is { } value ? $"{PowerScale.ThreeDigits(value)} W/K" : null;
        if (withConductance is not null)
        {
            Curve(
                plot, cold, power.From(withConductance), ChartStyle.Vermilion, LinePattern.Solid,
                figure is null ? "given conductance" : $"conductance {figure}");
        }

        MarkLowest(plot, lowestIdeal, ChartStyle.Blue, MarkerShape.FilledTriangleUp, "lowest, perfect:");
        MarkLowest(
            plot, lowestWithConductance, ChartStyle.Vermilion, MarkerShape.FilledDiamond,
            figure is null ? "lowest, given conductance:" : $"lowest, with {figure}:");
        if (demand is not null)
        {
            var marker = plot.Add.Marker(demand.ColdKelvins, power.From(demand.LoadWatts), MarkerShape.FilledSquare, 13, ChartStyle.BluishGreen);
            marker.LegendText = FormattableString.Invariant($"demand: {power.Text(demand.LoadWatts)} at {demand.ColdKelvins:G4} K");
        }

        ChartStyle.LegendBelow(plot, width);
        return plot;
    }

    private double Greatest() => Math.Max(Math.Max(ideal.Max(), withConductance?.Max() ?? double.NegativeInfinity), demand?.LoadWatts ?? double.NegativeInfinity);
}
