using System.Text.Json;
using System.Text.Json.Serialization;

namespace CryoThermo.Checks.Values;

/// <summary>All check values, read once. Each number keeps its source beside it in the files of the Data folder.</summary>
public static class CheckValues
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        NumberHandling = JsonNumberHandling.Strict,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    private static readonly Lazy<IReadOnlyList<MeasuredSet>> MeasuredSets = new(static () =>
    [
        .. Read<SetFile>("measured-phase-equilibrium.json").Sets,
        .. Read<SetFile>("measured-saturation.json").Sets,
        .. Read<SetFile>("measured-densities.json").Sets,
        .. Read<SetFile>("measured-sound-and-heat-capacity.json").Sets,
    ]);

    private static readonly Lazy<RegressionFile> RegressionValues = new(static () => Read<RegressionFile>("regression-states.json"));
    private static readonly Lazy<ExampleFile> ExampleValues = new(static () => Read<ExampleFile>("published-examples.json"));
    private static readonly Lazy<ReasonFile> ReasonValues = new(static () => Read<ReasonFile>("difference-reasons.json"));
    private static readonly Lazy<MultiFluidStateFile> MultiFluidValues = new(static () => Read<MultiFluidStateFile>("multi-fluid-states.json"));
    private static readonly Lazy<SolidFile> SolidValues = new(static () => Read<SolidFile>("measured-solids.json"));
    private static readonly Lazy<TableFile> TableValues = new(static () => Read<TableFile>("enthalpy-difference-tables.json"));

    /// <summary>Measured sets that a fluid model without solids and transport can be compared with.</summary>
    public static IReadOnlyList<MeasuredSet> Measured => MeasuredSets.Value;

    /// <summary>Measured sets with a solid.</summary>
    public static IReadOnlyList<SolidSet> SolidSets => SolidValues.Value.Sets;

    /// <summary>Single measured solubilities of solids.</summary>
    public static IReadOnlyList<SolidSolubilityPoint> SolidSolubilities => SolidValues.Value.Solubilities;

    /// <summary>Measured eutectics.</summary>
    public static IReadOnlyList<EutecticPoint> Eutectics => SolidValues.Value.Eutectics;

    /// <summary>Limits for freezing that are known not to be kept.</summary>
    public static IReadOnlyList<KnownMiss> KnownFreezingMisses { get; } = Read<KnownMissFile>("known-freezing-misses.json").Misses;

    /// <summary>Single equilibrium points.</summary>
    public static IReadOnlyList<EquilibriumPoint> EquilibriumPoints { get; } = Read<PointFile>("equilibrium-points.json").Points;

    /// <summary>Boiling points of designated blends.</summary>
    public static IReadOnlyList<BlendBoilingPoint> Blends { get; } = Read<BlendFile>("blend-boiling-points.json").Blends;

    /// <summary>Excess properties of cryogenic liquids.</summary>
    public static IReadOnlyList<ExcessProperty> Excess { get; } = Read<ExcessFile>("excess-properties.json").Mixtures;

    /// <summary>Published worked examples.</summary>
    public static IReadOnlyList<PublishedExample> Examples => ExampleValues.Value.Examples;

    /// <summary>Published examples the library cannot compute yet.</summary>
    public static IReadOnlyList<UncoveredExample> Uncovered => ExampleValues.Value.NotCovered;

    /// <summary>Published figures of pure fluids.</summary>
    public static IReadOnlyList<PureFluidFigure> PureFluidFigures { get; } = Read<FigureFile>("published-pure-fluid-figures.json").Figures;

    /// <summary>Published values of pure-fluid equations of state.</summary>
    public static IReadOnlyList<EquationCheck> EquationChecks { get; } = Read<EquationCheckFile>("published-equation-checks.json").Checks;

    /// <summary>Those of them that are known not to be met.</summary>
    public static IReadOnlyList<EquationMiss> EquationMisses { get; } = Read<EquationMissFile>("equation-misses.json").Misses;

    /// <summary>Single-phase states of pure-fluid equations by an independent program.</summary>
    public static IReadOnlyList<ComputedEquationState> EquationStates { get; } = Read<EquationStateFile>("computed-equation-states.json").SinglePhase;

    /// <summary>Saturation of pure-fluid equations by an independent program.</summary>
    public static IReadOnlyList<ComputedSaturation> EquationSaturations { get; } = Read<EquationStateFile>("computed-equation-states.json").Saturation;

    /// <summary>Deviations of the recommended equations from measured sets as noted with the data.</summary>
    public static IReadOnlyList<NotedEquationDeviation> NotedEquationDeviations { get; } = Read<NotedEquationFile>("noted-equation-deviations.json").Deviations;

    /// <summary>Deviations of the multi-fluid standard from measured sets as noted with the data.</summary>
    public static IReadOnlyList<NotedMultiFluidDeviation> NotedMultiFluidDeviations { get; } = Read<NotedMultiFluidFile>("noted-multi-fluid-deviations.json").Deviations;

    /// <summary>Limits that are known not to be kept.</summary>
    public static IReadOnlyList<KnownMiss> KnownMisses { get; } = Read<KnownMissFile>("known-misses.json").Misses;

    /// <summary>Isothermal enthalpy differences by reference equations.</summary>
    public static IReadOnlyList<ReferenceDifference> ReferenceDifferences { get; } = Read<DifferenceFile>("reference-enthalpy-differences.json").Differences;

    /// <summary>Equilibria by an independent program.</summary>
    public static IReadOnlyList<RegressionSplit> Splits => RegressionValues.Value.Splits;

    /// <summary>Single states by an independent program.</summary>
    public static IReadOnlyList<RegressionState> States => RegressionValues.Value.States;

    /// <summary>The check point of the mixture standard with all its components.</summary>
    public static MultiFluidCheckPoint MultiFluidCheckPoint => MultiFluidValues.Value.CheckPoint;

    /// <summary>Single-phase states of the mixture standard by a separate program.</summary>
    public static IReadOnlyList<MultiFluidState> MultiFluidStates => MultiFluidValues.Value.States;

    /// <summary>Bubble and dew points of the mixture standard by a separate program.</summary>
    public static IReadOnlyList<MultiFluidEquilibrium> MultiFluidEquilibria => MultiFluidValues.Value.Equilibria;

    /// <summary>Enthalpy difference tables by an independent program.</summary>
    public static IReadOnlyList<EnthalpyDifferenceTable> Tables => TableValues.Value.Blends;

    /// <summary>The interaction parameters of the tables.</summary>
    public static IReadOnlyList<PairInteraction> TableInteractions => TableValues.Value.Interactions;

    /// <summary>Rounded vapour pressures.</summary>
    public static RoundedPressureList VaporPressures { get; } = Read<RoundedPressureList>("vapor-pressures.json");

    /// <summary>Published values of transport correlations and figures of handbooks.</summary>
    public static TransportCheckList Transport { get; } = Read<TransportCheckList>("published-transport-checks.json");

    /// <summary>Measured viscosities, thermal conductivities and surface tensions.</summary>
    public static IReadOnlyList<MeasuredSet> MeasuredTransport { get; } = Read<SetFile>("measured-transport.json").Sets;

    /// <summary>Limits for transport that are known not to be kept.</summary>
    public static IReadOnlyList<KnownMiss> KnownTransportMisses { get; } = Read<KnownMissFile>("known-transport-misses.json").Misses;

    /// <summary>Published mixtures of throttle coolers.</summary>
    public static IReadOnlyList<CoolerMixture> CoolerMixtures { get; } = Read<CoolerMixtureFile>("published-cooler-mixtures.json").Mixtures;

    /// <summary>Figures of them that are known not to be met.</summary>
    public static IReadOnlyList<KnownMiss> KnownCoolerMisses { get; } = Read<KnownMissFile>("known-cooler-misses.json").Misses;

    /// <summary>Why some noted deviations are not met, by set and quantity.</summary>
    public static IReadOnlyList<DifferenceReason> Reasons => ReasonValues.Value.Reasons;

    /// <summary>What a reader of a set should know.</summary>
    public static IReadOnlyList<SetRemark> Remarks => ReasonValues.Value.Remarks;

    private static T Read<T>(string file)
    {
        using Stream stream = typeof(CheckValues).Assembly.GetManifestResourceStream(file) ?? throw new InvalidOperationException($"{file} is not embedded.");
        return JsonSerializer.Deserialize<T>(stream, Options) ?? throw new InvalidOperationException($"{file} is empty.");
    }

    private sealed record SetFile(string About, IReadOnlyList<MeasuredSet> Sets);

    private sealed record SolidFile(
        string About, IReadOnlyList<SolidSet> Sets, IReadOnlyList<SolidSolubilityPoint> Solubilities, IReadOnlyList<EutecticPoint> Eutectics);

    private sealed record PointFile(string About, IReadOnlyList<EquilibriumPoint> Points);

    private sealed record BlendFile(string About, IReadOnlyList<BlendBoilingPoint> Blends);

    private sealed record ExcessFile(string About, IReadOnlyList<ExcessProperty> Mixtures);

    private sealed record ExampleFile(string About, IReadOnlyList<PublishedExample> Examples, IReadOnlyList<UncoveredExample> NotCovered);

    private sealed record FigureFile(string About, IReadOnlyList<PureFluidFigure> Figures);

    private sealed record DifferenceFile(string About, IReadOnlyList<ReferenceDifference> Differences);

    private sealed record RegressionFile(string About, IReadOnlyList<RegressionSplit> Splits, IReadOnlyList<RegressionState> States);

    private sealed record TableFile(string About, IReadOnlyList<PairInteraction> Interactions, IReadOnlyList<EnthalpyDifferenceTable> Blends);

    private sealed record ReasonFile(string About, IReadOnlyList<DifferenceReason> Reasons, IReadOnlyList<SetRemark> Remarks);

    private sealed record EquationMissFile(string About, IReadOnlyList<EquationMiss> Misses);

    private sealed record EquationCheckFile(string About, IReadOnlyList<EquationCheck> Checks);

    private sealed record EquationStateFile(string About, IReadOnlyList<ComputedEquationState> SinglePhase, IReadOnlyList<ComputedSaturation> Saturation);

    private sealed record MultiFluidStateFile(
        string About, MultiFluidCheckPoint CheckPoint, IReadOnlyList<MultiFluidState> States, IReadOnlyList<MultiFluidEquilibrium> Equilibria);

    private sealed record NotedEquationFile(string About, IReadOnlyList<NotedEquationDeviation> Deviations);

    private sealed record NotedMultiFluidFile(string About, IReadOnlyList<NotedMultiFluidDeviation> Deviations);

    private sealed record CoolerMixtureFile(string About, IReadOnlyList<CoolerMixture> Mixtures);

    private sealed record KnownMissFile(string About, IReadOnlyList<KnownMiss> Misses);
}
