using System.Globalization;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// Estimates the parameters of multi-fluid pairs that nobody has published or fitted, and tells how wrong the same rule is for the pairs that
/// are known.
/// </summary>
/// <remarks>
/// <para>
/// Rules of our own, no source; beta = 1 throughout, no departure function. With am = (Ti + Tj)/(2 sqrt(Ti Tj)), what the arithmetic mean of
/// the critical temperatures would give, gamma of the reducing temperature is 1 + a (am - 1) for two hydrocarbons and for a simple gas with a
/// hydrocarbon, with one slope a for each class by least squares over the known pairs; am with hydrogen, helium or neon; the mean of the known
/// pairs for a fluorinated substance with a hydrocarbon and for pairs with water; 1 for all others. The reducing volume is the arithmetic
/// mean for two hydrocarbons and for a simple gas with a hydrocarbon, else the Lorentz rule, gamma = 1.
/// </para>
/// <para>
/// How they were chosen: leave-one-out residual of the equimolar strength gamma 2 beta/(beta^2 + 1), root mean square over the pairs that rest
/// on measurements, for the rule taken, am, and 1: two hydrocarbons 0.034, 0.117, 0.176; simple gas with hydrocarbon 0.089, 0.222, 0.404;
/// with a quantum gas 0.73, 0.73, 1.56; fluorinated with hydrocarbon 0.026, 0.111, 0.106; with water 0.20, 0.37, 0.30; others 0.071,
/// 0.069, 0.071. The critical-volume rule of Chueh and Prausnitz, AIChE J. 13 (1967) 1099, is farther off than the rule taken in every class.
/// </para>
/// <para>
/// Where the rule follows the critical temperatures its residuals grow with their difference. They are then divided by
/// 0.2 + ln(Ti/Tj)^2 before their 95 % quantile is taken, and the band of a pair is that quantile times its own 0.2 + ln(Ti/Tj)^2: the coverage
/// does not depend on this shape, only the width does (a shape of our own, no source).
/// </para>
/// </remarks>
internal sealed class MultiFluidPairEstimator
{
    private const double Coverage = 0.95;
    private const double SpreadOfEquals = 0.2;

    // Fewer known pairs say nothing about the spread of a class: its pairs are then estimated like all others.
    private const int LeastKnown = 5;
    private const string Water = "7732-18-5";

    private readonly Dictionary<MultiFluidPairClass, ClassRule> rules = [];
    private readonly Func<string, Substance?> find;

    /// <summary>Takes slopes, means and residuals from the known pairs.</summary>
    /// <param name="known">The known pairs, each once; those that do not rest on measurements are left out here.</param>
    /// <param name="find">Finds the constants of a substance by its key; null when there are none.</param>
    public MultiFluidPairEstimator(IEnumerable<MultiFluidPair> known, Func<string, Substance?> find)
    {
        this.find = find;
        Dictionary<MultiFluidPairClass, List<KnownPair>> classes = [];
        foreach (MultiFluidPair pair in known.Where(p => p.RestsOnMeasurements))
        {
            if (find(pair.First.Key) is not { } first || find(pair.Second.Key) is not { } second)
            {
                continue;
            }

            MultiFluidPairClass kind = ClassOf(pair.First, pair.Second);
            if (!classes.TryGetValue(kind, out List<KnownPair>? list))
            {
                classes[kind] = list = [];
            }

            list.Add(new(StrengthOf(pair), ArithmeticMean(first, second), SpreadOf(kind, first, second)));
        }

        foreach ((MultiFluidPairClass kind, List<KnownPair> list) in classes.Where(c => c.Value.Count >= LeastKnown))
        {
            rules[kind] = RuleOf(kind, list);
        }
    }

    public static MultiFluidPairClass ClassOf(SubstanceIdentity first, SubstanceIdentity second)
    {
        MolecularFormula? one = first.Molecule;
        MolecularFormula? other = second.Molecule;
        if (one?.IsQuantumGas == true || other?.IsQuantumGas == true)
        {
            return MultiFluidPairClass.WithQuantumGas;
        }

        if (first.Key == Water || second.Key == Water)
        {
            return MultiFluidPairClass.WithWater;
        }

        if (one?.IsHydrocarbon != true)
        {
            (one, other) = (other, one);
        }

        return (one?.IsHydrocarbon, other) switch
        {
            (true, { IsHydrocarbon: true }) => MultiFluidPairClass.Hydrocarbons,
            (true, { IsSimpleGas: true }) => MultiFluidPairClass.GasWithHydrocarbon,
            (true, { IsFluorinated: true }) => MultiFluidPairClass.FluorinatedWithHydrocarbon,
            _ => MultiFluidPairClass.Other,
        };
    }

    /// <summary>The factor on sqrt(Ti Tj) in the equimolar mixture.</summary>
    public static double StrengthOf(MultiFluidPair pair) =>
        pair.Temperature.Gamma * 2 * pair.Temperature.Beta / ((pair.Temperature.Beta * pair.Temperature.Beta) + 1);

    public static double ArithmeticMean(Substance first, Substance second) =>
        (first.CriticalTemperature + second.CriticalTemperature) / (2 * Math.Sqrt(first.CriticalTemperature * second.CriticalTemperature));

    /// <summary>The rule of a class; that of all other pairs where the catalogue knows fewer than five pairs of the class.</summary>
    public ClassRule RuleOf(MultiFluidPairClass kind) =>
        rules.TryGetValue(kind, out ClassRule? rule) || rules.TryGetValue(MultiFluidPairClass.Other, out rule)
            ? rule
            : throw new InvalidOperationException("Too few pairs of the multi-fluid model rest on measurements to estimate others.");

    /// <summary>
    /// An estimate. A spin form of hydrogen is estimated as hydrogen.
    /// </summary>
    public MultiFluidPair Estimate(Substance first, Substance second)
    {
        Substance one = find(CasNumber.WithoutSuffix(first.Identity.Key)) ?? first;
        Substance other = find(CasNumber.WithoutSuffix(second.Identity.Key)) ?? second;
        MultiFluidPairClass kind = ClassOf(one.Identity, other.Identity);
        ClassRule rule = RuleOf(kind);
        double volume = kind is MultiFluidPairClass.Hydrocarbons or MultiFluidPairClass.GasWithHydrocarbon
            ? ArithmeticVolume(1 / one.CriticalMolarDensity, 1 / other.CriticalMolarDensity)
            : 1;
        return new(
            first.Identity,
            second.Identity,
            new(1, volume),
            new(1, rule.StrengthAt(ArithmeticMean(one, other))),
            null,
            0,
            PairTier.Estimated,
            new Source(
                $"estimated, a rule of this library: {rule.Text}", FromMemory: false, Verified: string.Create(
                CultureInfo.InvariantCulture,
                $"against the {rule.Count} known pairs of its class, each left out in turn: 95 % within {rule.Quantile95:F3}{(FollowsTemperatures(kind) ? " (0.2 + ln(Ti/Tj)^2)" : string.Empty)}")),
            null,
            null,
            null,
            rule.Quantile95 * SpreadOf(kind, one, other));
    }

    private static bool FollowsTemperatures(MultiFluidPairClass kind) =>
        kind is MultiFluidPairClass.Hydrocarbons or MultiFluidPairClass.GasWithHydrocarbon or MultiFluidPairClass.WithQuantumGas;

    private static double SpreadOf(MultiFluidPairClass kind, Substance first, Substance second)
    {
        double gap = Math.Log(first.CriticalTemperature / second.CriticalTemperature);
        return FollowsTemperatures(kind) ? SpreadOfEquals + (gap * gap) : 1;
    }

    /// <summary>gamma that makes the Lorentz rule the arithmetic mean of the two volumes.</summary>
    private static double ArithmeticVolume(double vi, double vj)
    {
        double edge = Math.Cbrt(vi) + Math.Cbrt(vj);
        return 4 * (vi + vj) / (edge * edge * edge);
    }

    private static ClassRule RuleOf(MultiFluidPairClass kind, List<KnownPair> known)
    {
        // Least squares in one number: its leverage turns each residual into that of the rule found without the pair.
        (double constant, double slope, Func<KnownPair, double> leverage, string text) = kind switch
        {
            MultiFluidPairClass.Hydrocarbons or MultiFluidPairClass.GasWithHydrocarbon => Sloped(known),
            MultiFluidPairClass.WithQuantumGas => (1, 1, _ => 0, "arithmetic mean of the critical temperatures"),
            MultiFluidPairClass.WithWater or MultiFluidPairClass.FluorinatedWithHydrocarbon => Mean(known),
            _ => (1.0, 0.0, (KnownPair _) => 0.0, "geometric mean of the critical temperatures"),
        };
        double[] residuals =
        [
            .. known.Select(p => Math.Abs(p.Strength - constant - (slope * (p.ArithmeticMean - 1))) / (1 - leverage(p)) / p.Spread).Order(),
        ];

        // The residual of rank ceil(0.95 (n + 1)): the next pair of the class exceeds it with a probability of at most 5 % if it is drawn like
        // the known ones (order statistics, no distribution assumed). With fewer than 19 pairs it is the largest residual.
        int rank = Math.Min((int)Math.Ceiling(Coverage * (residuals.Length + 1)), residuals.Length);
        return new(text, constant, slope, residuals.Length, residuals[rank - 1]);
    }

    private static (double Constant, double Slope, Func<KnownPair, double> Leverage, string Text) Sloped(List<KnownPair> known)
    {
        double squares = known.Sum(p => Square(p.ArithmeticMean - 1));
        double slope = known.Sum(p => (p.ArithmeticMean - 1) * (p.Strength - 1)) / squares;
        return (
            1,
            slope,
            p => Square(p.ArithmeticMean - 1) / squares,
            string.Create(CultureInfo.InvariantCulture, $"{slope:F2} times the step from the geometric to the arithmetic mean of the critical temperatures"));
    }

    private static (double Constant, double Slope, Func<KnownPair, double> Leverage, string Text) Mean(List<KnownPair> known) =>
        (known.Average(p => p.Strength), 0, _ => 1.0 / known.Count, "mean of the known pairs of its class");

    private static double Square(double value) => value * value;

    /// <summary>How the strength of a class is estimated, and how far the rule is from its known pairs.</summary>
    /// <param name="Text">The rule in words.</param>
    /// <param name="Constant">Strength of two substances with the same critical temperature.</param>
    /// <param name="Slope">Growth of the strength with the arithmetic over the geometric mean.</param>
    /// <param name="Count">Number of known pairs.</param>
    /// <param name="Quantile95">What 95 % of the residuals over their spread do not exceed.</param>
    internal sealed record ClassRule(string Text, double Constant, double Slope, int Count, double Quantile95)
    {
        /// <summary>The strength at a ratio of arithmetic to geometric mean of the critical temperatures.</summary>
        public double StrengthAt(double arithmeticMean) => Constant + (Slope * (arithmeticMean - 1));
    }

    private sealed record KnownPair(double Strength, double ArithmeticMean, double Spread);
}
