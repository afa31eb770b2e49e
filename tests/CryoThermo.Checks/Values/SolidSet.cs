namespace CryoThermo.Checks.Values;

/// <summary>One set of measured equilibria with a solid: the first component is the solid, the last one the balance.</summary>
public sealed record SolidSet(
    string Name,
    SolidKind Kind,
    IReadOnlyList<string> Components,
    string Source,
    string? Doi,
    string Via,
    bool FromMemory,
    string? Method,
    string? Note,
    int PointsInSource,
    string Uncertainty,
    IReadOnlyList<IReadOnlyList<double?>> Points)
{
    /// <summary>Temperature of a point, K.</summary>
    public double Temperature(int point) => Points[point][0]!.Value;

    /// <summary>Pressure of a point, Pa; null where it was not measured.</summary>
    public double? Pressure(int point) => Points[point][1];

    /// <summary>Mole fractions of a point.</summary>
    public double[] Fractions(int point)
    {
        double[] x = new double[Components.Count];
        for (int i = 0; i < x.Length - 1; i++)
        {
            x[i] = Points[point][i + 2]!.Value;
        }

        x[^1] = 1 - x[..^1].Sum();
        return x;
    }
}
