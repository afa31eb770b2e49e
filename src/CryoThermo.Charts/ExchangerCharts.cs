using CryoThermo.Machines;

namespace CryoThermo.Charts;

/// <summary>Charts of exchangers of tubes.</summary>
public static class ExchangerCharts
{
    /// <summary>Both streams' temperature against duty, pinch marked.</summary>
    /// <param name="rating">The recuperator with its streams.</param>
    /// <returns>The chart; null when no heat is exchanged.</returns>
    public static TemperatureDutyChart? TemperatureDuty(this TubeRecuperatorRating rating)
    {
        ArgumentNullException.ThrowIfNull(rating);
        List<TubeRecuperatorPoint> points = [];
        foreach (TubeRecuperatorPoint point in rating.Points.Reverse())
        {
            if (points.Count == 0 || point.DutyFromColdEnd > points[^1].DutyFromColdEnd)
            {
                points.Add(point);
            }
        }

        if (points.Count < 2)
        {
            return null;
        }

        return new(new(
            [.. points.Select(p => (double)p.DutyFromColdEnd.Watts)],
            [.. points.Select(p => p.HotTemperature.Kelvins)],
            [.. points.Select(p => p.ColdTemperature.Kelvins)])
        {
            HotTwoPhase = Spans(points, p => p.HotVaporMassFraction),
            ColdTwoPhase = Spans(points, p => p.ColdVaporMassFraction),
            Title = FormattableString.Invariant($"Recuperator of tubes, {rating.Recuperator.Length.Meters:0.##} m, UA {rating.ConductanceWattsPerKelvin.Nominal:0.#} W/K"),
        });
    }

    private static List<DutySpan> Spans(List<TubeRecuperatorPoint> points, Func<TubeRecuperatorPoint, double> quality)
    {
        List<DutySpan> spans = [];
        for (int i = 0; i < points.Count; i++)
        {
            int first = i;
            while (i < points.Count && quality(points[i]) is > 0 and < 1)
            {
                i++;
            }

            if (i - first > 1)
            {
                spans.Add(new((double)points[first].DutyFromColdEnd.Watts, (double)points[i - 1].DutyFromColdEnd.Watts));
            }
        }

        return spans;
    }
}
