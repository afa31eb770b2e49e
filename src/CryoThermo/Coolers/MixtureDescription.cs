using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>A mixture as a cooler file states it; amounts are kept as given, never renormalised. Immutable and thread-safe.</summary>
/// <param name="Basis">What the amounts are.</param>
/// <param name="Components">The components in the file's order, each substance once.</param>
public sealed record MixtureDescription(MixtureBasis Basis, IReadOnlyList<ComponentAmount> Components)
{
    /// <summary>
    /// The composition in mole fractions. The single component "air" stands for dry air of nitrogen 0.7812, oxygen 0.2096,
    /// argon 0.0092 (Lemmon, Jacobsen, Penoncello, Friend, J. Phys. Chem. Ref. Data 29 (2000) 331).
    /// </summary>
    /// <exception cref="ArgumentException">A substance is unknown, or the amounts do not sum to the whole.</exception>
    public Composition ToComposition()
    {
        if (Components.Count == 1 && string.Equals(Components[0].Substance, "air", StringComparison.OrdinalIgnoreCase))
        {
            return Composition.FromMoleFractions(("nitrogen", 0.7812), ("oxygen", 0.2096), ("argon", 0.0092));
        }

        return Basis switch
        {
            MixtureBasis.MoleFraction => Composition.FromMoleFractions([.. Components.Select(c => (c.Substance, c.Amount))]),
            MixtureBasis.MolePercent => Composition.FromMolePercent([.. Components.Select(c => (c.Substance, c.Amount))]),
            MixtureBasis.MassFraction => FromMassFractions(),
            MixtureBasis.PartialPressure => Composition.FromPartialPressures([.. Components.Select(c => (c.Substance, Pressure.FromPascals(c.Amount)))]),
            _ => throw new InvalidOperationException($"Unknown mixture basis {Basis}."),
        };
    }

    private Composition FromMassFractions()
    {
        double sum = Components.Sum(c => c.Amount);
        return Math.Abs(sum - 1) <= Composition.SumTolerance
            ? Composition.FromMasses([.. Components.Select(c => (c.Substance, Mass.FromKilograms(c.Amount)))])
            : throw new ArgumentException($"The mass fractions sum to {sum:R}; they must sum to 1 within {Composition.SumTolerance:G1}.");
    }
}
