using ScottPlot;

namespace CryoThermo.Charts;

/// <summary>
/// Pressure against temperature: the boundary of the two-phase region with its critical points, cricondentherm and cricondenbar, and lines of
/// vapour fraction inside where given. Stretches on which another phase has formed before are drawn dotted. Immutable and thread-safe.
/// </summary>
public sealed class PhaseEnvelopeChart : Chart
{
    private const int FillPoints = 400;
    private readonly PhaseEnvelope envelope;
    private readonly PhaseEnvelope[] qualityLines;

    /// <summary>Creates the chart.</summary>
    /// <param name="envelope">The boundary, as from <see cref="WorkingFluid.PhaseEnvelope()"/>.</param>
    /// <param name="qualityLines">Lines of a vapour fraction between 0 and 1 of the same fluid; may be empty.</param>
    /// <exception cref="ArgumentException">A quality line is of another composition.</exception>
    public PhaseEnvelopeChart(PhaseEnvelope envelope, params ReadOnlySpan<PhaseEnvelope> qualityLines)
    {
        ArgumentNullException.ThrowIfNull(envelope);
        this.envelope = envelope;
        this.qualityLines = qualityLines.ToArray();
        foreach (PhaseEnvelope line in this.qualityLines)
        {
            if (line.Fluid.Composition.ToString() != envelope.Fluid.Composition.ToString())
            {
                throw new ArgumentException($"A quality line is of {line.Fluid.Composition}; the envelope is of {envelope.Fluid.Composition}.", nameof(qualityLines));
            }
        }
    }

    private static (Color Color, string Name) Look(EnvelopeBranch branch) => branch switch
    {
        EnvelopeBranch.Dew => (ChartStyle.Vermilion, "dew line"),
        EnvelopeBranch.Bubble => (ChartStyle.Blue, "bubble line"),
        EnvelopeBranch.SecondLiquid => (ChartStyle.BluishGreen, "second liquid"),
        _ => (ChartStyle.Black, "vapor fraction"),
    };

    private static string Place(EnvelopePoint point) => FormattableString.Invariant($"{point.Temperature.Kelvins:F1} K, {point.Pressure.Bars:F1} bar");

    private protected override Plot Draw(int width, int height)
    {
        Plot plot = ChartStyle.NewPlot($"Phase envelope of {envelope.Fluid.Composition}");
        double top = Math.Max(
            envelope.Cricondenbar?.Pressure.Bars ?? 0,
            envelope.CriticalPoints.Where(static c => c.IsStable).Select(static c => c.Pressure.Bars).DefaultIfEmpty(0).Max());

        // An open line is cut at a height that leaves the rest readable.
        double shown = top > 0 ? 1.15 * top : Math.Min(300, envelope.Points.Max(static p => p.Pressure.Bars));
        double cold = envelope.Points.Min(static p => p.Temperature.Kelvins);
        double hot = envelope.Points.Where(p => p.Pressure.Bars <= shown).Max(static p => p.Temperature.Kelvins);
        double margin = 0.04 * (hot - cold);
        ChartStyle.TemperatureAcross(plot, cold - margin, hot + margin, "temperature");
        plot.Axes.Left.Label.Text = "pressure, bar absolute";
        plot.Axes.SetLimitsY(0, shown);

        foreach (EnvelopeLine line in envelope.Lines)
        {
            Shade(plot, line, shown);
        }

        HashSet<string> named = [];
        foreach (EnvelopeLine line in envelope.Lines)
        {
            DrawLine(plot, line, null, named);
        }

        foreach (PhaseEnvelope quality in qualityLines)
        {
            foreach (EnvelopeLine line in quality.Lines)
            {
                DrawLine(plot, line, QualityName(quality.VaporFraction), named);
            }
        }

        foreach (CriticalPoint critical in envelope.CriticalPoints.Where(static c => c.IsStable))
        {
            var marker = plot.Add.Marker(critical.Temperature.Kelvins, critical.Pressure.Bars, MarkerShape.FilledCircle, 12, ChartStyle.Black);
            marker.LegendText = FormattableString.Invariant($"critical point: {critical.Temperature.Kelvins:F1} K, {critical.Pressure.Bars:F1} bar");
        }

        Mark(plot, envelope.Cricondentherm, MarkerShape.FilledTriangleUp, ChartStyle.Vermilion, "hottest point of two phases");
        Mark(plot, envelope.Cricondenbar, MarkerShape.FilledDiamond, ChartStyle.Blue, "highest pressure of two phases");
        ChartStyle.LegendBelow(plot, width);
        return plot;
    }

    private static void Mark(Plot plot, EnvelopePoint? point, MarkerShape shape, Color color, string name)
    {
        if (point is not null)
        {
            var marker = plot.Add.Marker(point.Temperature.Kelvins, point.Pressure.Bars, shape, 12, color);
            marker.LegendText = $"{name}: {Place(point)}";
        }
    }

    // A line that returns to low pressure encloses the two-phase region.
    private static void Shade(Plot plot, EnvelopeLine line, double shown)
    {
        bool isClosed = line.Start.Reason == EnvelopeEndReason.LowestPressure
            && line.End.Reason is EnvelopeEndReason.LowestPressure or EnvelopeEndReason.LowestTemperature
            && line.Points[0].Branch != line.Points[^1].Branch;
        if (!isClosed)
        {
            return;
        }

        Coordinates[] outline =
        [
            .. line.Points.Where(static p => p.IsStable).Select(p => new Coordinates(p.Temperature.Kelvins, Math.Min(p.Pressure.Bars, shown))),
            new(line.Points[^1].Temperature.Kelvins, 0),
            new(line.Points[0].Temperature.Kelvins, 0),
        ];
        if (outline.Length > 4 && outline.Length < FillPoints)
        {
            var area = plot.Add.Polygon(outline);
            area.FillColor = ChartStyle.Blue.WithAlpha(0.08);
            area.LineWidth = 0;
        }
    }

    private static void DrawLine(Plot plot, EnvelopeLine line, string? name, HashSet<string> named)
    {
        int from = 0;
        while (from < line.Points.Count - 1)
        {
            EnvelopePoint first = line.Points[from];
            int to = from + 1;
            while (to < line.Points.Count - 1 && line.Points[to].Branch == first.Branch && line.Points[to].IsStable == first.IsStable)
            {
                to++;
            }

            (Color color, string usual) = Look(first.Branch);
            double[] kelvins = [.. line.Points.Skip(from).Take(to - from + 1).Select(static p => p.Temperature.Kelvins)];
            double[] bars = [.. line.Points.Skip(from).Take(to - from + 1).Select(static p => p.Pressure.Bars)];
            var curve = plot.Add.ScatterLine(kelvins, bars, color);
            curve.LineWidth = name is null ? ChartStyle.CurveWidth : 1;
            curve.LinePattern = !first.IsStable ? LinePattern.Dotted : name is null ? LinePattern.Solid : LinePattern.Dashed;
            string shownName = first.IsStable ? name ?? usual : "another phase has formed before";
            if (named.Add(shownName))
            {
                curve.LegendText = shownName;
            }

            from = to;
        }
    }

    // A quality line runs through the critical point, beyond which the fraction is that of the other phase.
    private static string QualityName(double fraction) => Math.Abs(fraction - 0.5) < 1e-9
        ? "vapor fraction 0.5"
        : FormattableString.Invariant($"vapor fraction {fraction:0.###} and {1 - fraction:0.###}");
}
