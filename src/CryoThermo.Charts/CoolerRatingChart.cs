using CryoThermo.Coolers.Rating;
using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>
/// Cooling left by a rated cooler against its cold temperature, the load, and the steady states with it and without. Kelvins below, degrees Celsius above. Immutable and
/// thread-safe.
/// </summary>
public sealed class CoolerRatingChart : Chart
{
    private const double ShownBelowZero = 0.1;
    private readonly CoolerRating rating;

    internal CoolerRatingChart(CoolerRating rating) => this.rating = rating;

    private static void Mark(Plot plot, PowerScale power, CoolerState state, double load, MarkerShape shape, Color color, string name)
    {
        var marker = plot.Add.Marker(state.ColdTemperature.Kelvins, power.From(load), shape, 13, color);
        marker.LegendText = FormattableString.Invariant($"{name} {state.ColdTemperature.Kelvins:F1} K");
    }

    private protected override Plot Draw(int width, int height)
    {
        Plot plot = ChartStyle.NewPlot(
            FormattableString.Invariant($"Cooling of the machine with {rating.Charge.Mass.Grams:0.#} g charged, room at {rating.AmbientTemperature.DegreesCelsius:0.#} °C")
            + (rating.CapacityError is { } error ? FormattableString.Invariant($"\nmodel error {error.LowPercent:+0;-0;0} to {error.HighPercent:+0;-0;0} %") : string.Empty));
        double load = (double)rating.Load.Watts;

        // The steady states lie on the curve between the points it was walked in.
        (double Kelvins, double Watts)[] curve =
        [
            .. rating.Curve.Select(p => (Kelvins: p.ColdTemperature.Kelvins, Watts: (double)p.NetCooling.Watts))
                .Concat(rating.SteadyStates.Select(s => (s.ColdTemperature.Kelvins, load)))
                .Concat(rating.NoLoad is { } empty ? [(empty.ColdTemperature.Kelvins, 0.0)] : [])
                .DistinctBy(p => p.Kelvins)
                .OrderBy(p => p.Kelvins),
        ];
        double[] cold = [.. curve.Select(p => p.Kelvins)];
        double[] net = [.. curve.Select(p => p.Watts)];
        double most = Math.Max(net.Max(), load);
        double least = net.Min();
        double greatest = most > 0 ? most : Math.Max(1e-3, -0.1 * least);
        PowerScale power = PowerScale.For(greatest);
        double low = Math.Min(-0.04 * greatest, Math.Max(1.05 * least, -(most > 0 ? ShownBelowZero : 10) * greatest));
        plot.Axes.Left.Label.Text = $"cooling left, {power.Unit}";
        plot.Axes.SetLimitsY(power.From(low), power.From(1.06 * greatest));
        double margin = Math.Max(1, 0.03 * (cold[^1] - cold[0]));
        ChartStyle.TemperatureAcross(plot, cold[0] - margin, cold[^1] + margin, "cold temperature");
        var zero = plot.Add.HorizontalLine(0, 1, ChartStyle.Black, LinePattern.Solid);
        zero.EnableAutoscale = false;
        var line = plot.Add.ScatterLine(cold, power.From(net), ChartStyle.Blue);
        line.LineWidth = ChartStyle.CurveWidth;
        line.LegendText = "cooling left after the leak";
        if (load > 0)
        {
            var demand = plot.Add.HorizontalLine(power.From(load), 2, ChartStyle.BluishGreen, LinePattern.Solid);
            demand.EnableAutoscale = false;
            demand.LegendText = $"load {power.Text(load)}";
        }

        foreach (CoolerState state in rating.SteadyStates)
        {
            bool isReached = ReferenceEquals(state, rating.Reached);
            Mark(
                plot, power, state, load, state.IsStable ? MarkerShape.FilledSquare : MarkerShape.OpenSquare, ChartStyle.BluishGreen,
                isReached ? "reached:" : state.IsStable ? "further steady state:" : "not stable:");
        }

        if (rating.NoLoad is { } unloaded && !ReferenceEquals(unloaded, rating.Reached))
        {
            Mark(plot, power, unloaded, 0, MarkerShape.FilledDiamond, ChartStyle.Vermilion, "without load:");
        }

        ChartStyle.LegendBelow(plot, width);
        return plot;
    }
}
