using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>Working fluids from a catalogue of one's own; the fronts of <see cref="WorkingFluid"/> use the shipped one.</summary>
public static class CatalogFluids
{
    /// <summary>A pure fluid by chemical name, formula or ISO 817 designation.</summary>
    /// <param name="catalog">Where the substance comes from.</param>
    /// <param name="name">For example "methane", "CH4" or "R-50".</param>
    /// <exception cref="ArgumentException">The name is unknown.</exception>
    public static WorkingFluid Pure(this SubstanceCatalog catalog, string name) =>
        catalog.Mixture(Composition.FromMoleFractions(catalog, (name, 1)));

    /// <summary>A mixture from mole fractions that sum to 1 within 1e-6.</summary>
    /// <param name="catalog">Where the substances and pair parameters come from.</param>
    /// <param name="moleFractions">Substance names and mole fractions.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative fraction, wrong sum.</exception>
    public static WorkingFluid Mixture(this SubstanceCatalog catalog, params (string Substance, double MoleFraction)[] moleFractions) =>
        catalog.Mixture(Composition.FromMoleFractions(catalog, moleFractions));

    /// <summary>A mixture from a composition.</summary>
    /// <param name="catalog">Where the pair parameters come from.</param>
    /// <param name="composition">Components and mole fractions.</param>
    public static WorkingFluid Mixture(this SubstanceCatalog catalog, Composition composition)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(composition);
        return WorkingFluid.Create(catalog, composition, FluidModel.Recommended);
    }
}
