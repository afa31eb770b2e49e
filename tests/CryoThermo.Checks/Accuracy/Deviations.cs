using CryoThermo.Checks.Values;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Calculated minus measured of one quantity over the points of a set: percent, or mole fraction.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Of">The component, for mole fractions.</param>
/// <param name="Values">One value a point solved.</param>
/// <param name="Points">The points solved, as numbered in the set.</param>
public sealed record Deviations(MeasuredQuantity Quantity, string? Of, IReadOnlyList<double> Values, IReadOnlyList<int> Points)
{
    /// <summary>Number of points.</summary>
    public int Count => Values.Count;

    /// <summary>Mean of the absolute values.</summary>
    public double MeanAbsolute => Values.Count == 0 ? double.NaN : Values.Average(Math.Abs);

    /// <summary>Mean.</summary>
    public double Bias => Values.Count == 0 ? double.NaN : Values.Average();

    /// <summary>The one of largest absolute value.</summary>
    public double Largest => Values.Count == 0 ? double.NaN : Values.MaxBy(Math.Abs);

    /// <summary>The same on some points only.</summary>
    public Deviations On(IReadOnlySet<int> points)
    {
        int[] kept = [.. Enumerable.Range(0, Count).Where(i => points.Contains(Points[i]))];
        return this with { Values = [.. kept.Select(i => Values[i])], Points = [.. kept.Select(i => Points[i])] };
    }

    /// <summary>Percent for relative deviations, mole fraction for compositions.</summary>
    public bool IsFraction => Quantity == MeasuredQuantity.VaporFraction;
}
