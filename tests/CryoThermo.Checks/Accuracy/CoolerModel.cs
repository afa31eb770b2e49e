using CryoThermo.Checks.Values;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A model that published cooler mixtures are computed with.</summary>
/// <param name="Name">Its name in a table.</param>
/// <param name="Model">The model.</param>
/// <param name="HasTablePairs">True for the pairs the independent program took instead of those the library ships.</param>
public sealed record CoolerModel(string Name, FluidModel Model, bool HasTablePairs)
{
    private static readonly Lazy<Substances.SubstanceCatalog> TableCatalog = new(() => PairCatalog.With(CheckValues.TableInteractions));

    /// <summary>The default of the library.</summary>
    public static CoolerModel Recommended { get; } = new("Recommended", FluidModel.Recommended, false);

    /// <summary>Peng-Robinson with the pairs of the library.</summary>
    public static CoolerModel PengRobinson { get; } = new("Peng-Robinson", FluidModel.PengRobinson, false);

    /// <summary>Peng-Robinson with the pairs of the tables: like with like.</summary>
    public static CoolerModel SameEquation { get; } = new("Peng-Robinson with the pairs of the table", FluidModel.PengRobinson, true);

    /// <summary>Both models of the library.</summary>
    public static IReadOnlyList<CoolerModel> Both { get; } = [Recommended, PengRobinson];

    /// <summary>The fluid of a mixture.</summary>
    /// <param name="moleFractions">Mole fractions.</param>
    public WorkingFluid FluidOf(IReadOnlyDictionary<string, double> moleFractions)
    {
        Substances.SubstanceCatalog catalog = HasTablePairs ? TableCatalog.Value : Substances.SubstanceCatalog.Default;
        return (moleFractions.Count == 1 ? catalog.Pure(moleFractions.Keys.Single()) : catalog.Mixture([.. moleFractions.Select(p => (p.Key, p.Value))])).WithModel(Model);
    }
}
