using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// Which substances a fluid is made of and in which mole fractions. Nothing is renormalised silently: mole fractions
/// must add up to 1 within 1e-6; the other constructors divide by the total they were given, which is what they are for.
/// Immutable and thread-safe.
/// </summary>
public sealed class Composition
{
    /// <summary>Largest accepted difference of the sum of mole fractions from 1.</summary>
    public const double SumTolerance = 1e-6;

    private readonly Substance[] components;
    private readonly double[] moleFractions;
    private readonly SubstanceIdentityTable identities;

    private Composition(SubstanceIdentityTable identities, Substance[] components, double[] moleFractions)
    {
        this.identities = identities;
        this.components = components;
        this.moleFractions = moleFractions;
    }

    /// <summary>The components, in the order given.</summary>
    public IReadOnlyList<Substance> Components => components;

    /// <summary>Mole fractions in component order; they sum to 1 to rounding.</summary>
    public IReadOnlyList<double> MoleFractions => moleFractions;

    /// <summary>Molar mass of the mixture.</summary>
    public MolarMass MolarMass
    {
        get
        {
            double sum = 0;
            for (int i = 0; i < components.Length; i++)
            {
                sum += moleFractions[i] * components[i].MolarMass;
            }

            return MolarMass.FromKilogramsPerMole(sum);
        }
    }

    internal ReadOnlySpan<double> Fractions => moleFractions;

    /// <summary>Mole fraction of a component by any of its names; zero when it is not part of the composition.</summary>
    /// <param name="name">Chemical name, formula or ISO 817 designation.</param>
    /// <exception cref="ArgumentException">No substance of this name is known.</exception>
    public double this[string name]
    {
        get
        {
            int index = IndexOf(name);
            return index < 0 ? 0 : moleFractions[index];
        }
    }

    /// <summary>Index of a component by any of its names; -1 when it is not part of the composition.</summary>
    internal int IndexOf(string name)
    {
        SubstanceIdentity identity = identities.Find(name);
        return Array.FindIndex(components, c => c.Identity.Equals(identity));
    }

    /// <summary>A composition from mole fractions that sum to 1 within <see cref="SumTolerance"/>.</summary>
    /// <param name="parts">Substance names and mole fractions.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative fraction, sum off by more than the tolerance.</exception>
    public static Composition FromMoleFractions(params (string Substance, double MoleFraction)[] parts) =>
        FromMoleFractions(SubstanceCatalog.Default, parts);

    /// <summary>A composition from mole fractions, with the substances of a given catalogue.</summary>
    /// <param name="catalog">Where the substances come from.</param>
    /// <param name="parts">Substance names and mole fractions.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative fraction, sum off by more than the tolerance.</exception>
    public static Composition FromMoleFractions(SubstanceCatalog catalog, params (string Substance, double MoleFraction)[] parts) =>
        FromFractions(catalog, parts, 1, "mole fractions");

    /// <summary>A composition from mole percentages that sum to 100 within 1e-4.</summary>
    /// <param name="parts">Substance names and mole percentages.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative value, sum off by more than the tolerance.</exception>
    public static Composition FromMolePercent(params (string Substance, double MolePercent)[] parts) =>
        FromFractions(SubstanceCatalog.Default, parts, 100, "mole percentages");

    /// <summary>A composition from amounts; their total is the whole.</summary>
    /// <param name="parts">Substance names and amounts.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative amount, nothing at all.</exception>
    public static Composition FromMoles(params (string Substance, AmountOfSubstance Amount)[] parts) =>
        FromAmounts(SubstanceCatalog.Default, [.. parts.Select(p => (p.Substance, p.Amount.Moles))], (_, value) => value, "mol");

    /// <summary>A composition from masses; their total is the whole.</summary>
    /// <param name="parts">Substance names and masses.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative mass, nothing at all.</exception>
    public static Composition FromMasses(params (string Substance, Mass Mass)[] parts) =>
        FromMasses(SubstanceCatalog.Default, parts);

    /// <summary>A composition from masses, with the substances of a given catalogue.</summary>
    /// <param name="catalog">Where the substances come from.</param>
    /// <param name="parts">Substance names and masses.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative mass, nothing at all.</exception>
    public static Composition FromMasses(SubstanceCatalog catalog, params (string Substance, Mass Mass)[] parts) =>
        FromAmounts(catalog, [.. parts.Select(p => (p.Substance, p.Mass.Kilograms))], (s, value) => value / s.MolarMass, "kg");

    /// <summary>A composition from partial pressures of ideal gases in one volume at one temperature.</summary>
    /// <param name="parts">Substance names and partial pressures.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative pressure, nothing at all.</exception>
    public static Composition FromPartialPressures(params (string Substance, Pressure Partial)[] parts) =>
        FromPartialPressures(SubstanceCatalog.Default, parts);

    /// <summary>A composition from partial pressures, with the substances of a given catalogue.</summary>
    /// <param name="catalog">Where the substances come from.</param>
    /// <param name="parts">Substance names and partial pressures.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative pressure, nothing at all.</exception>
    public static Composition FromPartialPressures(SubstanceCatalog catalog, params (string Substance, Pressure Partial)[] parts) =>
        FromAmounts(catalog, [.. parts.Select(p => (p.Substance, p.Partial.Pascals))], (_, value) => value, "Pa");

    /// <summary>Mass fractions in component order.</summary>
    public IReadOnlyList<double> ToMassFractions()
    {
        double[] result = new double[components.Length];
        double total = MolarMass.KilogramsPerMole;
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = moleFractions[i] * components[i].MolarMass / total;
        }

        return result;
    }

    /// <inheritdoc/>
    public override string ToString() =>
        string.Join(", ", components.Select((c, i) => $"{c.Name} {moleFractions[i]:0.####}"));

    /// <summary>The same components in other mole fractions, as a solved phase has them.</summary>
    internal Composition WithFractions(double[] fractions) => new(identities, components, fractions);

    private static Composition FromFractions(
        SubstanceCatalog catalog, (string Substance, double Value)[] parts, double whole, string what)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        ArgumentNullException.ThrowIfNull(parts);
        Substance[] substances = Resolve(catalog, parts, what);
        double sum = 0;
        foreach ((_, double value) in parts)
        {
            sum += value;
        }

        if (Math.Abs(sum - whole) > SumTolerance * whole)
        {
            throw new ArgumentException(
                $"The {what} sum to {sum:R}; they must sum to {whole} within {SumTolerance * whole:G1}. Use the constructors from masses, moles or partial pressures for amounts.",
                nameof(parts));
        }

        double[] fractions = new double[parts.Length];
        for (int i = 0; i < fractions.Length; i++)
        {
            fractions[i] = parts[i].Value / sum;
        }

        return new(catalog.Identities, substances, fractions);
    }

    private static Composition FromAmounts(
        SubstanceCatalog catalog, (string Substance, double Value)[] parts, Func<Substance, double, double> toMoles, string unit)
    {
        ArgumentNullException.ThrowIfNull(catalog);
        Substance[] substances = Resolve(catalog, parts, unit);
        double[] moles = [.. parts.Select((p, i) => toMoles(substances[i], p.Value))];
        double sum = moles.Sum();
        if (!(sum > 0) || !double.IsFinite(sum))
        {
            throw new ArgumentException($"The amounts sum to {sum:G6} {unit}; they must sum to more than zero.", nameof(parts));
        }

        return new(catalog.Identities, substances, [.. moles.Select(m => m / sum)]);
    }

    private static Substance[] Resolve(SubstanceCatalog catalog, (string Substance, double Value)[] parts, string unit)
    {
        if (parts.Length is < 1 or > EquationsOfState.MixtureKernel.MaxComponents)
        {
            throw new ArgumentException(
                $"A composition has {parts.Length} components; allowed is 1 to {EquationsOfState.MixtureKernel.MaxComponents}.", nameof(parts));
        }

        Substance[] substances = new Substance[parts.Length];
        for (int i = 0; i < parts.Length; i++)
        {
            substances[i] = catalog.Find(parts[i].Substance);
            if (!(parts[i].Value >= 0) || !double.IsFinite(parts[i].Value))
            {
                throw new ArgumentException(
                    $"The share of {substances[i].Name} is {parts[i].Value:G9} ({unit}); it must be finite and not negative.", nameof(parts));
            }

            for (int j = 0; j < i; j++)
            {
                if (substances[j].Identity.Equals(substances[i].Identity))
                {
                    throw new ArgumentException($"{substances[i].Name} is given twice ('{parts[j].Substance}' and '{parts[i].Substance}').", nameof(parts));
                }
            }
        }

        return substances;
    }
}
