using System.Collections.Immutable;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// Estimates the interaction parameters nobody has published or fitted, and tells how wrong the same rule is for the pairs that are known.
/// </summary>
/// <remarks>
/// Hydrocarbons among themselves: k = 1 - 2 (Vci Vcj)^(1/6) / (Vci^(1/3) + Vcj^(1/3)) with critical molar volumes
/// (Chueh, Prausnitz, AIChE J. 13 (1967) 1099, with exponent 1). All others: k = 0. Neither rule has a fitted parameter, so leaving a known
/// pair out changes nothing in the rule: its residual is its leave-one-out residual. For Peng-Robinson with quantum corrections few pairs
/// are published, and none of a helium, neon or hydrogen with another gas: its band is taken over these few and the same class of plain
/// Peng-Robinson together, whose parameters themselves do not apply.
/// </remarks>
internal sealed class CubicPairEstimator
{
    private const double Coverage = 0.95;

    private const double RepresentativeReducedTemperature = 0.7;

    private static readonly Source CriticalVolumeRule =
        new("estimated by the critical-volume rule: Chueh, Prausnitz, AIChE J. 13 (1967) 1099, exponent 1", FromMemory: true);

    private static readonly Source PlainRule =
        new("estimated as zero: plain geometric combining rule, common practice, no source", FromMemory: true);

    private readonly Dictionary<(CubicPairClass, CubicModelKind), ErrorBand> bands = [];

    /// <summary>Takes the residuals of the rules over the known pairs.</summary>
    /// <param name="known">The known pairs, one value for each pair and model.</param>
    /// <param name="find">Finds the constants of a substance; null when there are none.</param>
    public CubicPairEstimator(IEnumerable<CubicPair> known, Func<string, Substance?> find)
    {
        Dictionary<(CubicPairClass, CubicModelKind), List<double>> residuals = [];
        foreach (CubicPair pair in known)
        {
            CubicPairClass kind = ClassOf(pair.First, pair.Second);
            double estimate = 0;
            if (kind == CubicPairClass.Hydrocarbons)
            {
                if (find(pair.First.Key) is not { } first || find(pair.Second.Key) is not { } second)
                {
                    continue;
                }

                estimate = FromCriticalVolumes(first, second);
            }

            double residual = Math.Abs(RepresentativeOf(pair, find) - estimate);
            Add(kind, pair.Model, residual);
            if (kind == CubicPairClass.WithQuantumGas && pair.Model == CubicModelKind.PengRobinson)
            {
                Add(kind, CubicModelKind.PengRobinsonQuantumCorrected, residual);
            }
        }

        foreach (((CubicPairClass, CubicModelKind) key, List<double> list) in residuals)
        {
            bands[key] = BandOf(list);
        }

        void Add(CubicPairClass kind, CubicModelKind model, double residual)
        {
            if (!residuals.TryGetValue((kind, model), out List<double>? list))
            {
                residuals[(kind, model)] = list = [];
            }

            list.Add(residual);
        }
    }

    /// <summary>The known value an estimate is compared with: k, or k(T) at 0.7 of the geometric mean of the critical temperatures, where both are liquids.</summary>
    public static double RepresentativeOf(CubicPair pair, Func<string, Substance?> find) =>
        pair.InverseTemperatureCoefficient != 0 && find(pair.First.Key) is { } first && find(pair.Second.Key) is { } second
            ? pair.InteractionAt(RepresentativeReducedTemperature * Math.Sqrt(first.CriticalTemperature * second.CriticalTemperature))
            : pair.InteractionParameter;

    public static CubicPairClass ClassOf(SubstanceIdentity first, SubstanceIdentity second)
    {
        if (first.Molecule?.IsHydrocarbon == true && second.Molecule?.IsHydrocarbon == true)
        {
            return CubicPairClass.Hydrocarbons;
        }

        return first.Molecule?.IsQuantumGas == true || second.Molecule?.IsQuantumGas == true
            ? CubicPairClass.WithQuantumGas
            : CubicPairClass.Other;
    }

    public static double FromCriticalVolumes(Substance first, Substance second)
    {
        double a = Math.Cbrt(1 / first.CriticalMolarDensity);
        double b = Math.Cbrt(1 / second.CriticalMolarDensity);
        return 1 - (2 * Math.Sqrt(a * b) / (a + b));
    }

    /// <summary>The band of a class. With quantum corrections only pairs with a quantum gas have their own; all others are pairs of Peng-Robinson.</summary>
    public ErrorBand Band(CubicPairClass kind, CubicModelKind model) =>
        bands[(kind, kind != CubicPairClass.WithQuantumGas && model == CubicModelKind.PengRobinsonQuantumCorrected ? CubicModelKind.PengRobinson : model)];

    public CubicPair Estimate(Substance first, Substance second, CubicModelKind model)
    {
        CubicPairClass kind = model == CubicModelKind.PengRobinsonQuantumCorrected
            ? CubicPairClass.WithQuantumGas
            : ClassOf(first.Identity, second.Identity);
        bool hydrocarbons = kind == CubicPairClass.Hydrocarbons;
        ErrorBand band = Band(kind, model);
        Source rule = hydrocarbons ? CriticalVolumeRule : PlainRule;
        return new CubicPair(
            first.Identity,
            second.Identity,
            model,
            hydrocarbons ? FromCriticalVolumes(first, second) : 0,
            PairTier.Estimated,
            rule with
            {
                Verified = $"against the {band.Count} known pairs of its class: root mean square error {band.RootMeanSquare:F4}, "
                    + $"95 % within {band.HalfWidth95:F4}",
            },
            FittedTo: null,
            PairConfidence.NotStated,
            band.RootMeanSquare,
            band.HalfWidth95);
    }

    /// <summary>
    /// The half-width is the residual of rank ceil(0.95 (n + 1)): the next pair of the class exceeds it with a probability of at most 5 % if
    /// it is drawn like the known ones (order statistics, no distribution assumed). With fewer than 19 pairs it is the largest residual.
    /// </summary>
    private static ErrorBand BandOf(List<double> residuals)
    {
        ImmutableArray<double> sorted = [.. residuals.Order()];
        int rank = Math.Min((int)Math.Ceiling(Coverage * (sorted.Length + 1)), sorted.Length);
        double meanSquare = sorted.Sum(r => r * r) / sorted.Length;
        return new ErrorBand(sorted.Length, Math.Sqrt(meanSquare), sorted[rank - 1]);
    }

    /// <summary>How far a rule is from the known pairs of a class.</summary>
    /// <param name="Count">Number of known pairs.</param>
    /// <param name="RootMeanSquare">Root mean square residual.</param>
    /// <param name="HalfWidth95">Half-width that holds 95 % of them.</param>
    internal sealed record ErrorBand(int Count, double RootMeanSquare, double HalfWidth95);
}
