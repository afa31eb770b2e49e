namespace CryoThermo.Substances;

/// <summary>Who a substance is: its key, names, formula and refrigerant designation. Immutable and thread-safe; equal when the keys are equal.</summary>
public sealed class SubstanceIdentity : IEquatable<SubstanceIdentity>
{
    internal SubstanceIdentity(string key, string name, string? formula, string? designation, IReadOnlyList<string> spellings)
    {
        Key = key;
        Name = name;
        Formula = formula;
        Designation = designation;
        Spellings = spellings;
        Molecule = MolecularFormula.TryParse(formula, out MolecularFormula? molecule) ? molecule : null;
    }

    /// <summary>
    /// The key: the CAS registry number, with a suffix of our own for the spin forms of hydrogen ("1333-74-0/para"), or "own/..." for a
    /// substance that has no registry number.
    /// </summary>
    public string Key { get; }

    /// <summary>The chemical name in lower case, for example "n-butane"; "hydrogen" is normal hydrogen (75 % ortho, 25 % para).</summary>
    public string Name { get; }

    /// <summary>The molecular formula, for example "C4H10"; null for a mixture treated as one substance (air).</summary>
    public string? Formula { get; }

    /// <summary>The designation by ISO 817, for example "R-600"; null when there is none.</summary>
    public string? Designation { get; }

    /// <summary>Further spellings under which the substance is found.</summary>
    public IReadOnlyList<string> Spellings { get; }

    /// <summary>The formula taken apart; null when there is none or it could not be read.</summary>
    internal MolecularFormula? Molecule { get; }

    /// <inheritdoc/>
    public bool Equals(SubstanceIdentity? other) => other is not null && string.Equals(Key, other.Key, StringComparison.Ordinal);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as SubstanceIdentity);

    /// <inheritdoc/>
    public override int GetHashCode() => Key.GetHashCode(StringComparison.Ordinal);

    /// <summary>The name, with the designation where there is one.</summary>
    public override string ToString() => Designation is null ? Name : $"{Name} ({Designation})";
}
