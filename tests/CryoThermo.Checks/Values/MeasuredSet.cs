namespace CryoThermo.Checks.Values;

/// <summary>One set of measured values from one publication. Units as in the columns.</summary>
public sealed record MeasuredSet(
    string Name,
    MeasuredKind Kind,
    IReadOnlyList<string> Components,
    string Source,
    string? Doi,
    string Via,
    bool FromMemory,
    string? Method,
    string? Note,
    int PointsInSource,
    IReadOnlyList<StatedUncertainty> ExpandedUncertainty,
    IReadOnlyList<NotedDeviation>? NotedDeviations,
    IReadOnlyList<MeasuredColumn> Columns,
    IReadOnlyList<IReadOnlyList<double?>> Points)
{
    /// <summary>The column of a quantity (of a component); null when there is none.</summary>
    public int? ColumnOf(MeasuredQuantity quantity, string? of = null)
    {
        for (int i = 0; i < Columns.Count; i++)
        {
            if (Columns[i].Quantity == quantity && (of is null || Columns[i].Of == of))
            {
                return i;
            }
        }

        return null;
    }

    /// <summary>A value of a point; null when the set or the point has none.</summary>
    public double? ValueOf(int point, MeasuredQuantity quantity, string? of = null) => ColumnOf(quantity, of) is { } column ? Points[point][column] : null;

    /// <summary>Mole fractions of a point in the order of the components; the one not listed is the balance. Null when one is missing.</summary>
    public double[]? FractionsOf(int point, MeasuredQuantity quantity)
    {
        double[] x = new double[Components.Count];
        double sum = 0;
        int balance = -1;
        for (int i = 0; i < x.Length; i++)
        {
            if (ColumnOf(quantity, Components[i]) is { } column)
            {
                if (Points[point][column] is not { } fraction)
                {
                    return null;
                }

                x[i] = fraction;
                sum += fraction;
            }
            else
            {
                balance = balance < 0 ? i : throw new InvalidOperationException($"{Name}: more than one component has no {quantity}.");
            }
        }

        if (balance >= 0)
        {
            x[balance] = Math.Max(0, 1 - sum);
        }

        return x;
    }
}
