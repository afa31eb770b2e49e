using CryoThermo.Numerics;

namespace CryoThermo.Design;

/// <summary>
/// Draws of a figure that several uncertainties move: with each it follows a parabola through its values at both bounds, and the changes add up. Bounds are two standard
/// deviations of normal distributions.
/// </summary>
internal sealed class ParabolaDraws
{
    /// <summary>Draws from the distributions.</summary>
    public const int Samples = 20000;

    /// <summary>Draws to be solved as they are.</summary>
    private const int MostKept = 6;

    private readonly double nominal;
    private readonly double?[] bounds;
    private readonly double[] slope;
    private readonly double[] bend;
    private readonly double[] variance;
    private readonly double[] sorted;

    /// <summary>Draws.</summary>
    /// <param name="nominal">The figure with everything nominal.</param>
    /// <param name="bounds">The figure with each uncertainty at its lower and at its upper bound, in turn; null where there is none, then the other side holds for both.</param>
    /// <param name="seed">Of the draws.</param>
    public ParabolaDraws(double nominal, double?[] bounds, int seed)
    {
        this.nominal = nominal;
        this.bounds = bounds;
        int n = bounds.Length / 2;
        slope = new double[n];
        bend = new double[n];
        for (int i = 0; i < n; i++)
        {
            (double? low, double? high) = (bounds[2 * i], bounds[(2 * i) + 1]);
            double less = (low ?? ((2 * nominal) - (high ?? nominal))) - nominal;
            double more = (high ?? ((2 * nominal) - (low ?? nominal))) - nominal;
            slope[i] = 0.5 * (more - less);
            bend[i] = 0.5 * (more + less);
        }

        // u = x/2 with x normal; the variance of a x + b x2 is a2 + 2 b2.
        variance = [.. slope.Zip(bend, (s, b) => (0.25 * s * s) + (2 * b * b / 16))];
        Random random = new(seed);
        sorted = new double[Samples];
        (double[] Shares, double Sum)[] kept = new (double[], double)[MostKept];
        double[] u = new double[n];
        for (int k = 0; k < Samples; k++)
        {
            double sum = nominal;
            for (int i = 0; i < n; i++)
            {
                u[i] = 0.5 * NormalDeviate.Next(random);
                sum += (slope[i] * u[i]) + (bend[i] * u[i] * u[i]);
            }

            sorted[k] = sum;
            if (k < MostKept)
            {
                kept[k] = ([.. u], sum);
            }
        }

        Array.Sort(sorted);
        Kept = kept;
    }

    /// <summary>The first draws: each uncertainty as a share of its bound, and the figure.</summary>
    public IReadOnlyList<(double[] Shares, double Sum)> Kept { get; }

    /// <summary>The uncertainties by what they do, the largest first.</summary>
    public IEnumerable<int> Ranked => Enumerable.Range(0, variance.Length).OrderByDescending(i => variance[i]);

    /// <summary>The figure that half of the draws lie below.</summary>
    public double Median => sorted[Samples / 2];

    /// <summary>The figure that 5 of 100 lie below.</summary>
    public double FifthOfHundred => sorted[Samples / 20];

    /// <summary>The figure that 5 of 100 lie above.</summary>
    public double NinetyFifthOfHundred => sorted[Samples - (Samples / 20)];

    /// <summary>The figure with an uncertainty at its lower bound.</summary>
    public double AtLowerBound(int uncertainty) => nominal - slope[uncertainty] + bend[uncertainty];

    /// <summary>The figure with an uncertainty at its upper bound.</summary>
    public double AtUpperBound(int uncertainty) => nominal + slope[uncertainty] + bend[uncertainty];

    /// <summary>What an uncertainty has of the variance, percent.</summary>
    public double PercentOfVariance(int uncertainty)
    {
        double all = variance.Sum();
        return all > 0 ? 100 * variance[uncertainty] / all : 0;
    }

    /// <summary>How many of 100 draws lie within limits.</summary>
    public double PercentWithin(double least, double most) => 100.0 * sorted.Count(d => d >= least && d <= most) / Samples;

    /// <summary>A remark on each uncertainty with a bound that has no figure.</summary>
    /// <param name="uncertainties">In the order of the bounds.</param>
    /// <param name="what">What happens there.</param>
    public IEnumerable<string> OneSided(IReadOnlyList<CoolerUncertainty> uncertainties, string what)
    {
        for (int i = 0; i < uncertainties.Count; i++)
        {
            (bool isLow, bool isHigh) = (bounds[2 * i] is null, bounds[(2 * i) + 1] is null);
            if (isLow || isHigh)
            {
                yield return $"With {uncertainties[i].Name} at {(isLow ? isHigh ? "both bounds" : "its lower bound" : "its upper bound")} {what}; {(isLow && isHigh ? "it is left out" : "what it does on the other side is taken for both")}.";
            }
        }
    }
}
