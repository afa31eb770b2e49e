using CryoThermo.Insulation;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace CryoThermo.Charts;

/// <summary>
/// A heat-leak budget as bars, the item that costs the most work on top, each with a line from its least to its greatest. Immutable and thread-safe.
/// </summary>
public sealed class HeatLeakChart : Chart
{
    private readonly string title;
    private readonly (string Name, double Watts, double Least, double Greatest, bool ToIntercept)[] bars;

    /// <summary>Creates the chart.</summary>
    /// <param name="budget">What to show.</param>
    public HeatLeakChart(HeatLeakBudget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        title = FormattableString.Invariant(
            $"Heat into {budget.Cold.Kelvins:0.#} K from {budget.Room.Kelvins:0.#} K: {(double)budget.Total.Nominal.Watts:G3} W ({(double)budget.Total.Least.Watts:G3} to {(double)budget.Total.Greatest.Watts:G3} W)");
        bars =
        [
            .. budget.Items.Select(i => (
                i.Name, (double)i.Heat.Nominal.Watts, (double)i.Heat.Least.Watts, (double)i.Heat.Greatest.Watts, i.ColdEnd.Kelvins > budget.Cold.Kelvins + 1e-6)),
        ];
    }

    private protected override Plot Draw(int width, int height)
    {
        Plot plot = ChartStyle.NewPlot(title);
        PowerScale power = PowerScale.For(bars.Max(b => b.Greatest));
        Row(false, ChartStyle.Blue, "into the cold");
        Row(true, ChartStyle.BluishGreen, "into an intercept");
        for (int i = 0; i < bars.Length; i++)
        {
            double y = -i;
            var band = plot.Add.Line(power.From(bars[i].Least), y, power.From(bars[i].Greatest), y);
            band.LineColor = ChartStyle.Black;
            band.LineWidth = 2;
            foreach (double end in (double[])[bars[i].Least, bars[i].Greatest])
            {
                var cap = plot.Add.Line(power.From(end), y - 0.15, power.From(end), y + 0.15);
                cap.LineColor = ChartStyle.Black;
                cap.LineWidth = 2;
            }
        }

        plot.Axes.Left.TickGenerator = new NumericManual([.. bars.Select((_, i) => (double)-i)], [.. bars.Select(b => b.Name)]);
        plot.Axes.Bottom.Label.Text = $"heat, {power.Unit}; line: least to greatest";
        double span = Math.Max(bars.Max(b => b.Greatest), 1e-12);
        double lowest = Math.Min(0, bars.Min(b => b.Least));
        plot.Axes.SetLimitsX(power.From(lowest * 1.05), power.From(span * 1.05));
        plot.Axes.SetLimitsY(-bars.Length + 0.4, 0.6);
        ChartStyle.LegendBelow(plot, width);
        return plot;

        void Row(bool toIntercept, Color color, string legend)
        {
            Bar[] some =
            [
                .. bars.Select((b, i) => (b, i)).Where(x => x.b.ToIntercept == toIntercept).Select(x => new Bar
                {
                    Position = -x.i, Value = power.From(x.b.Watts), FillColor = color, LineWidth = 0, Size = 0.6, Orientation = Orientation.Horizontal,
                }),
            ];
            if (some.Length > 0)
            {
                var drawn = plot.Add.Bars(some);
                drawn.LegendText = legend;
            }
        }
    }
}
