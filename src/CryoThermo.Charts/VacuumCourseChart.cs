using CryoThermo.Insulation;
using ScottPlot;
using ScottPlot.TickGenerators;

namespace CryoThermo.Charts;

/// <summary>
/// Pressure of a vacuum and of its gases against time, in decades: millibars on the left, pascals on the right. Immutable and thread-safe.
/// </summary>
public sealed class VacuumCourseChart : Chart
{
    /// <summary>A gas below this share of the lowest pressure is not drawn.</summary>
    private const double LeastShare = 1e-3;
    private const double FirstShare = 1e-4;
    private static readonly Color[] Colors = [ChartStyle.Blue, ChartStyle.Vermilion, ChartStyle.BluishGreen];

    private readonly VacuumCourse course;

    internal VacuumCourseChart(VacuumCourse course) => this.course = course;

    private static NumericManual Decades(double low, double high)
    {
        NumericManual ticks = new();
        int every = Math.Max(1, (int)Math.Ceiling((high - low) / 10));
        for (int decade = (int)Math.Ceiling(low); decade <= high; decade += every)
        {
            ticks.AddMajor(decade, decade is >= -3 and <= 3 ? FormattableString.Invariant($"{Math.Pow(10, decade):0.###}") : FormattableString.Invariant($"1e{decade}"));
        }

        return ticks;
    }

    private protected override Plot Draw(int width, int height)
    {
        VacuumPoint last = course.Last;
        Plot plot = ChartStyle.NewPlot(FormattableString.Invariant(
            $"Vacuum of {course.Space.Volume.Liters:0.##} L, {(course.Pumps is null ? "valve shut" : "pumped")}: {last.AbsolutePressure.Millibars:G2} mbar after {last.Time.Hours:0.##} h"));
        double start = course.Points[0].Time.Hours;
        double end = last.Time.Hours;
        VacuumPoint[] shown = [.. course.Points.Where(p => p.Time.Hours - start >= FirstShare * (end - start))];
        double[] across = [.. shown.Select(p => Math.Log10(p.Time.Hours - start))];
        double least = shown.Min(p => p.AbsolutePressure.Millibars);
        double most = shown.Max(p => p.AbsolutePressure.Millibars);

        Curve(shown, p => p.AbsolutePressure.Millibars, ChartStyle.Black, LinePattern.Solid, "all gases");
        string[] gases = [.. last.PartialPressures.Where(g => shown.Max(p => p.PartialPressures[g.Key].Millibars) > LeastShare * least).OrderByDescending(g => g.Value.Pascals).Select(g => g.Key)];
        for (int i = 0; i < gases.Length && gases.Length > 1; i++)
        {
            string gas = gases[i];
            Curve(shown, p => p.PartialPressures[gas].Millibars, Colors[i % Colors.Length], i < Colors.Length ? LinePattern.Dashed : LinePattern.Dotted, gas);
        }

        double low = Math.Log10(least) - 0.3;
        double high = Math.Log10(most) + 0.3;
        plot.Axes.Left.Label.Text = "absolute pressure, mbar";
        plot.Axes.Right.Label.Text = "absolute pressure, Pa";
        plot.Axes.SetLimitsY(low, high, plot.Axes.Left);
        plot.Axes.SetLimitsY(low + 2, high + 2, plot.Axes.Right);
        plot.Axes.Left.TickGenerator = Decades(low, high);
        plot.Axes.Right.TickGenerator = Decades(low + 2, high + 2);
        plot.Axes.Bottom.Label.Text = course.Pumps is null ? "time since the valve was shut, h" : "time of pumping, h";
        plot.Axes.SetLimitsX(across[0], across[^1] + 0.02);
        plot.Axes.Bottom.TickGenerator = Decades(across[0], across[^1]);
        ChartStyle.LegendBelow(plot, width);
        return plot;

        void Curve(VacuumPoint[] points, Func<VacuumPoint, double> pressure, Color color, LinePattern pattern, string name)
        {
            var curve = plot.Add.ScatterLine(across, [.. points.Select(p => Math.Log10(Math.Max(LeastShare * least, pressure(p))))], color);
            curve.LineWidth = ChartStyle.CurveWidth;
            curve.LinePattern = pattern;
            curve.LegendText = name;
        }
    }
}
