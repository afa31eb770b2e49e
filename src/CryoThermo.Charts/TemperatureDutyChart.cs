using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>
/// Temperature of both streams of a recuperator against the duty, with the pinch marked where they come closest and the
/// stretches with two phases shaded. Kelvins on the left, degrees Celsius on the right. Immutable and thread-safe.
/// </summary>
public sealed class TemperatureDutyChart : Chart
{
    private readonly string title;
    private readonly double[] duty;
    private readonly double[] hot;
    private readonly double[] cold;
    private readonly DutySpan[] hotTwoPhase;
    private readonly DutySpan[] coldTwoPhase;

    /// <summary>Creates the chart; the data are copied.</summary>
    /// <param name="data">What to show.</param>
    /// <exception cref="ArgumentException">A list has the wrong length, the duty does not rise, or a span is empty or outside the duty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or a temperature is not above zero.</exception>
    public TemperatureDutyChart(TemperatureDutyData data)
    {
        ArgumentNullException.ThrowIfNull(data);
        title = data.Title;
        duty = ChartArguments.Rising(data.DutyWatts, nameof(data.DutyWatts), "W");
        hot = Temperatures(data.HotKelvins, nameof(data.HotKelvins));
        cold = Temperatures(data.ColdKelvins, nameof(data.ColdKelvins));
        hotTwoPhase = Spans(data.HotTwoPhase, nameof(data.HotTwoPhase));
        coldTwoPhase = Spans(data.ColdTwoPhase, nameof(data.ColdTwoPhase));

        // Between stations both curves are straight, so the least difference is at a station.
        double[] difference = [.. hot.Zip(cold, static (h, c) => h - c)];
        PinchKelvins = difference.Min();
        PinchDutyWatts = duty[Array.IndexOf(difference, PinchKelvins)];
    }

    /// <summary>Least temperature difference between the streams, K; negative when the curves given cross.</summary>
    public double PinchKelvins { get; }

    /// <summary>Duty at the pinch, W.</summary>
    public double PinchDutyWatts { get; }

    private protected override Plot Draw(int width, int height)
    {
        Plot plot = ChartStyle.NewPlot(title);
        PowerScale power = PowerScale.For(duty.Max(Math.Abs));
        double lowest = Math.Min(hot.Min(), cold.Min());
        double highest = Math.Max(hot.Max(), cold.Max());
        double margin = 0.06 * Math.Max(highest - lowest, 1);
        var temperatures = (Low: lowest - margin, High: highest + margin);
        double dutyMargin = 0.02 * (duty[^1] - duty[0]);
        var duties = (Low: duty[0] - dutyMargin, High: duty[^1] + dutyMargin);

        plot.Axes.Bottom.Label.Text = $"duty from the cold end, {power.Unit}";
        plot.Axes.SetLimitsX(power.From(duties.Low), power.From(duties.High));
        ChartStyle.TemperatureUpwards(plot, temperatures.Low, temperatures.High);

        Curve(plot, power, hot, ChartStyle.Vermilion, LinePattern.Solid, "hot stream");
        Shade(plot, power, hotTwoPhase, hot, ChartStyle.Vermilion, "hot, two phases");
        Curve(plot, power, cold, ChartStyle.Blue, LinePattern.Solid, "cold stream");
        Shade(plot, power, coldTwoPhase, cold, ChartStyle.Blue, "cold, two phases");
        MarkPinch(plot, power, duties, temperatures, width, height);
        ChartStyle.LegendBelow(plot, width);
        return plot;
    }

    private void Curve(Plot plot, PowerScale power, double[] temperature, Color color, LinePattern pattern, string name)
    {
        var curve = plot.Add.ScatterLine(power.From(duty), temperature, color);
        curve.LineWidth = ChartStyle.CurveWidth;
        curve.LinePattern = pattern;
        curve.LegendText = name;
    }

    private void Shade(Plot plot, PowerScale power, DutySpan[] spans, double[] temperature, Color color, string name)
    {
        for (int i = 0; i < spans.Length; i++)
        {
            double[] along = [spans[i].FromWatts, .. duty.Where(d => d > spans[i].FromWatts && d < spans[i].ToWatts), spans[i].ToWatts];
            var band = plot.Add.ScatterLine(power.From(along), Array.ConvertAll(along, d => Between(temperature, d)), color.WithAlpha(0.25));
            band.LineWidth = 11;
            band.LegendText = i == 0 ? name : "";
        }
    }

    private void MarkPinch(
        Plot plot, PowerScale power, (double Low, double High) duties, (double Low, double High) temperatures, int width, int height)
    {
        double top = Between(hot, PinchDutyWatts);
        double bottom = Between(cold, PinchDutyWatts);
        double x = power.From(PinchDutyWatts);
        double middle = 0.5 * (top + bottom);
        string text = FormattableString.Invariant($"pinch {PinchKelvins:F1} K at {power.Text(PinchDutyWatts)}");

        // Sizes as fractions of the data area: what axes and legend leave of the picture, and the width of a letter, roughly.
        double dataWidth = Math.Max(width - 140, 60);
        double dataHeight = Math.Max(height - 130, 60);
        double boxWidth = Math.Min(0.52 * ChartStyle.TextSize * text.Length / dataWidth, 0.9);
        double boxHeight = Math.Min(1.6 * ChartStyle.TextSize / dataHeight, 0.9);
        (double X, double Y) place = LabelPlacement.Near(
            Across(PinchDutyWatts), Upwards(middle), boxWidth, boxHeight, [Points(hot), Points(cold)]);

        double labelX = power.From(duties.Low + (place.X * (duties.High - duties.Low)));
        double labelY = temperatures.Low + (place.Y * (temperatures.High - temperatures.Low));
        var leader = plot.Add.Line(x, middle, labelX, labelY);
        leader.LineColor = ChartStyle.Black;
        leader.LineWidth = 1;
        var gap = plot.Add.Line(x, bottom, x, top);
        gap.LineColor = ChartStyle.Black;
        gap.LineWidth = 2;
        plot.Add.Marker(x, middle, MarkerShape.OpenCircle, 13, ChartStyle.Black);
        var label = plot.Add.Text(text, labelX, labelY);
        label.LabelFontSize = ChartStyle.TextSize;
        label.LabelFontColor = ChartStyle.Black;
        label.LabelBackgroundColor = Colors.White;
        label.LabelPadding = 2;
        label.LabelAlignment = Alignment.MiddleCenter;

        double Across(double watts) => (watts - duties.Low) / (duties.High - duties.Low);
        double Upwards(double kelvins) => (kelvins - temperatures.Low) / (temperatures.High - temperatures.Low);
        (double X, double Y)[] Points(double[] temperature) => [.. duty.Zip(temperature, (d, t) => (Across(d), Upwards(t)))];
    }

    private double Between(double[] temperature, double watts)
    {
        int index = Array.BinarySearch(duty, watts);
        if (index >= 0)
        {
            return temperature[index];
        }

        int above = Math.Clamp(~index, 1, duty.Length - 1);
        double share = (watts - duty[above - 1]) / (duty[above] - duty[above - 1]);
        return temperature[above - 1] + (share * (temperature[above] - temperature[above - 1]));
    }

    private double[] Temperatures(IReadOnlyList<double> kelvins, string name) =>
        ChartArguments.Temperatures(ChartArguments.OnePerStation(kelvins, duty.Length, name, "K"), name);

    private DutySpan[] Spans(IReadOnlyList<DutySpan> spans, string name)
    {
        ArgumentNullException.ThrowIfNull(spans, name);
        foreach (DutySpan span in spans)
        {
            if (!(span.FromWatts >= duty[0] && span.ToWatts <= duty[^1] && span.FromWatts < span.ToWatts))
            {
                throw new ArgumentException(
                    $"{name} holds {span.FromWatts:R} to {span.ToWatts:R} W; a span must rise and lie within the duty, {duty[0]:R} to {duty[^1]:R} W.", name);
            }
        }

        return [.. spans];
    }
}
