namespace CryoThermo.Design;

/// <summary>What is kept of an explored blend.</summary>
/// <param name="Fractions">Mole fractions.</param>
/// <param name="Low">Pa.</param>
/// <param name="High">Pa.</param>
/// <param name="Violation">Sum of scaled violations.</param>
/// <param name="Merit">By the weights of its start.</param>
/// <param name="GoalLogs">Logarithm of each goal.</param>
internal sealed record ExploredBlend(double[] Fractions, double Low, double High, double Violation, double Merit, double[] GoalLogs)
{
    public static ExploredBlend Of(BlendFigures f) => new(f.Fractions, f.Low, f.High, f.Violation, f.Merit, f.GoalLogs);

    public bool IsBetterThan(ExploredBlend? other) => other is null
        || (Violation > 0 || other.Violation > 0
            ? Violation < other.Violation || (Violation == other.Violation && Merit > other.Merit)
            : Merit > other.Merit);

    /// <summary>Largest difference of a fraction, pressures by a quarter of their logarithm.</summary>
    public double DistanceTo(ExploredBlend other)
    {
        double largest = 0.25 * Math.Max(Math.Abs(Math.Log(Low / other.Low)), Math.Abs(Math.Log(High / other.High)));
        for (int i = 0; i < Fractions.Length; i++)
        {
            largest = Math.Max(largest, Math.Abs(Fractions[i] - other.Fractions[i]));
        }

        return largest;
    }
}
