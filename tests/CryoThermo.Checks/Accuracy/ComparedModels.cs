using System.Collections.Concurrent;
using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The models every measured set is compared with; each comparison is computed once, all of them by two threads.</summary>
public static class ComparedModels
{
    private static readonly ConcurrentDictionary<(string Set, FluidModel Model), Lazy<SetComparison?>> Comparisons = [];

    /// <summary>Peng-Robinson, Soave-Redlich-Kwong, the multi-fluid standard as it stands, the recommended model.</summary>
    public static IReadOnlyList<FluidModel> All { get; } = [FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong, FluidModel.MultiFluid, FluidModel.Recommended];

    /// <summary>Those of them that are cubic equations.</summary>
    public static IReadOnlyList<FluidModel> Cubics { get; } = [FluidModel.PengRobinson, FluidModel.SoaveRedlichKwong];

    /// <summary>The name of a model in a table.</summary>
    public static string NameOf(FluidModel model) => model switch
    {
        _ when ReferenceEquals(model, FluidModel.PengRobinson) => "Peng-Robinson",
        _ when ReferenceEquals(model, FluidModel.SoaveRedlichKwong) => "Soave-Redlich-Kwong",
        _ when ReferenceEquals(model, FluidModel.MultiFluid) => "MultiFluid",
        _ when ReferenceEquals(model, FluidModel.Recommended) => "Recommended",
        _ => model.Name,
    };

    /// <summary>A shorter name.</summary>
    public static string ShortNameOf(FluidModel model) => model switch
    {
        _ when ReferenceEquals(model, FluidModel.PengRobinson) => "PR",
        _ when ReferenceEquals(model, FluidModel.SoaveRedlichKwong) => "SRK",
        _ => NameOf(model),
    };

    /// <summary>Whether a model holds all components.</summary>
    public static bool Holds(FluidModel model, IEnumerable<string> components) =>
        !ReferenceEquals(model, FluidModel.MultiFluid)
        || components.All(c => SubstanceCatalog.Default.MultiFluid.Equations.ContainsKey(SubstanceCatalog.Default.Find(c).Identity.Key));

    /// <summary>The equimolar fluid of a set under a model; its pedigree tells the pairs.</summary>
    public static WorkingFluid FluidOf(MeasuredSet set, FluidModel model) =>
        WorkingFluid.Mixture([.. set.Components.Select(c => (c, 1.0 / set.Components.Count))]).WithModel(model);

    /// <summary>A set against a model; null when the model does not hold all its components.</summary>
    public static SetComparison? Of(MeasuredSet set, FluidModel model) => Comparisons.GetOrAdd(
        (set.Name, model),
        _ => new(() => Holds(model, set.Components) ? SetComparison.Create(set, model, SubstanceCatalog.Default, SetComparison.Inner(set)) : null)).Value;

    /// <summary>Computes all comparisons.</summary>
    public static void Prepare() => Parallel.ForEach(
        CheckValues.Measured.SelectMany(_ => All, (set, model) => (set, model)),
        new ParallelOptions { MaxDegreeOfParallelism = 2 },
        pair => Of(pair.set, pair.model));
}
