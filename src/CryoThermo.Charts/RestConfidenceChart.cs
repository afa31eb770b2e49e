using System.Globalization;
using CryoThermo.Design;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace CryoThermo.Charts;

/// <summary>
/// Where a cooler comes to rest with its load when what is not known about it lies at either bound, the largest on top, with the nominal cold temperature, the band of all together and
/// what is wanted. Kelvins below, degrees Celsius above. Immutable and thread-safe.
/// </summary>
public sealed class RestConfidenceChart : Chart
{
    /// <summary>Thinner bars cannot be seen: an uncertainty that does less has a line, of the whole width.</summary>
    private const double ThinnestBar = 0.002;
    private readonly RestConfidence confidence;

    internal RestConfidenceChart(RestConfidence confidence) => this.confidence = confidence;

    private protected override Plot Draw(int width, int height)
    {
        double nominal = confidence.NominalColdTemperature.Kelvins;
        double least = confidence.ColdTemperature.Least.Kelvins;
        double greatest = confidence.ColdTemperature.Greatest.Kelvins;
        double wanted = confidence.Wanted.Kelvins;
        IReadOnlyList<RestContribution> rows = confidence.Contributions;
        double[] ends = [least, greatest, wanted, nominal, .. rows.SelectMany(c => (double[])[nominal + c.AtLowerBound.Kelvins, nominal + c.AtUpperBound.Kelvins])];
        double margin = Math.Max(1, 0.05 * (ends.Max() - ends.Min()));
        Plot plot = ChartStyle.NewPlot(FormattableString.Invariant(
            $"Rests with {confidence.Rating.Load.Watts:0.#} W at {least:F1} to {greatest:F1} K in 90 of 100,\nat {wanted:0.#} K or colder in {Percent(confidence.ProbabilityPercent)} of 100"));
        ChartStyle.TemperatureAcross(plot, ends.Min() - margin, ends.Max() + margin, "cold temperature");
        var band = plot.Add.HorizontalSpan(least, greatest, ChartStyle.Blue.WithAlpha(0.12));
        band.LineWidth = 0;
        band.EnableAutoscale = false;
        band.LegendText = "all together, 90 of 100";
        double thinnest = ThinnestBar * (ends.Max() - ends.Min());
        Row(c => c.AtLowerBound.Kelvins, ChartStyle.Blue, "at its lower bound");
        Row(c => c.AtUpperBound.Kelvins, ChartStyle.Vermilion, "at its upper bound");
        Line(nominal, ChartStyle.Black, LinePattern.Solid, FormattableString.Invariant($"nominal {nominal:F1} K"));
        Line(wanted, ChartStyle.BluishGreen, LinePattern.Dashed, FormattableString.Invariant($"wanted {wanted:0.#} K"));
        plot.Axes.Left.TickGenerator = new NumericManual([.. rows.Select((_, i) => (double)-i)], [.. rows.Select(c => c.Uncertainty.Name)]);
        plot.Axes.SetLimitsY(-rows.Count + 0.4, 0.6);

        // Names take from the width that the legend has: about half their size a letter.
        int names = (int)(0.5 * ChartStyle.TextSize * rows.Select(c => c.Uncertainty.Name.Length).DefaultIfEmpty().Max());
        ChartStyle.LegendBelow(plot, Math.Max(width / 2, width - names));
        return plot;

        void Row(Func<RestContribution, double> warmer, Color color, string legend)
        {
            if (rows.Count == 0)
            {
                return;
            }

            Bar[] bars =
            [
                .. rows.Select((c, i) => new Bar
                {
                    Position = -i, ValueBase = nominal, Value = nominal + Seen(warmer(c)), FillColor = color, LineWidth = 0, Size = 0.6, Orientation = Orientation.Horizontal,
                }),
            ];
            var drawn = plot.Add.Bars(bars);
            drawn.LegendText = legend;
        }

        static string Percent(double percent) => percent.ToString(percent is > 0 and < 1 or > 99 and < 100 ? "0.##" : "0", CultureInfo.InvariantCulture);

        double Seen(double kelvins) => Math.CopySign(Math.Max(Math.Abs(kelvins), thinnest), kelvins);

        void Line(double kelvins, Color color, LinePattern pattern, string name)
        {
            var line = plot.Add.VerticalLine(kelvins, 2, color, pattern);
            line.EnableAutoscale = false;
            line.LegendText = name;
        }
    }
}
