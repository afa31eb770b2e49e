using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A value the multi-fluid models are to keep below a limit. The limits are set for this library: common practice, no source.</summary>
/// <param name="Subject">Set, model, which figure.</param>
/// <param name="Value">The value reached, percent.</param>
/// <param name="Limit">The limit, percent.</param>
public sealed record LimitCheck(string Subject, double Value, double Limit)
{
    private const double LiquidMean = 0.3;
    private const double LiquidWorst = 0.6;
    private const double Difference = 1;

    private static readonly string[] NaturalGas = ["methane", "ethane", "propane"];

    private static readonly string[] Gases = ["nitrogen", "argon", "oxygen", "methane"];

    /// <summary>The models to be checked.</summary>
    public static IReadOnlyList<FluidModel> Models { get; } = [FluidModel.MultiFluid, FluidModel.Recommended];

    /// <summary>Whether the limit is kept.</summary>
    public bool IsMet => Value <= Limit;

    /// <summary>Measured liquid densities of methane, ethane, propane and their blends: mean and largest deviation.</summary>
    public static IReadOnlyList<LimitCheck> LiquidDensities { get; } =
    [
        .. from set in CheckValues.Measured
           where set.Kind is MeasuredKind.Density or MeasuredKind.SaturatedLiquidDensity && set.Components.All(NaturalGas.Contains)
           let liquid = LiquidPoints(set)
           where liquid.Count > 0
           from model in Models
           let deviations = ComparedModels.Of(set, model)!.Of(MeasuredQuantity.Density, null)!.On(liquid)
           from check in new LimitCheck[]
           {
               new($"{set.Name}, {deviations.Count} liquid points, {ComparedModels.NameOf(model)}, mean", deviations.MeanAbsolute, LiquidMean),
               new($"{set.Name}, {deviations.Count} liquid points, {ComparedModels.NameOf(model)}, largest", Math.Abs(deviations.Largest), LiquidWorst),
           }
           select check,
    ];

    /// <summary>Isothermal enthalpy differences of the gases of the reference list.</summary>
    public static IReadOnlyList<LimitCheck> EnthalpyDifferences { get; } =
    [
        .. from reference in CheckValues.ReferenceDifferences
           where Gases.Contains(reference.Fluid)
           from model in Models
           select new LimitCheck(
               $"{reference.Fluid}, {reference.HighPressure / 1e5:G4} to {reference.LowPressure / 1e5:G4} bar, {ComparedModels.NameOf(model)}, enthalpy difference",
               100 * Math.Abs((AccuracyDocument.DifferenceOf(reference, model).Difference / reference.Difference) - 1),
               Difference),
    ];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<LimitCheck> All { get; } = [.. LiquidDensities, .. EnthalpyDifferences];

    /// <summary>Points of a set that are liquid-like: denser than one and a half times the critical density of the blend's mean critical volume.</summary>
    public static IReadOnlySet<int> LiquidPoints(MeasuredSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        return SetComparison.Inner(set).Where(IsLiquid).ToHashSet();

        bool IsLiquid(int point)
        {
            double[] z = set.Components.Count == 1 ? [1] : set.FractionsOf(point, MeasuredQuantity.OverallFraction)!;
            Substance[] substances = [.. set.Components.Select(SubstanceCatalog.Default.Find)];
            double mass = z.Zip(substances, (x, s) => x * s.MolarMass).Sum();
            double volume = z.Zip(substances, (x, s) => x / s.CriticalMolarDensity).Sum();
            return set.ValueOf(point, MeasuredQuantity.MassDensity) / mass * volume > 1.5;
        }
    }
}
