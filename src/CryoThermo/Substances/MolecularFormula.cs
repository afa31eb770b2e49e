namespace CryoThermo.Substances;

/// <summary>What a plain molecular formula such as "C2H2F4" says: atoms of each element, molar mass, kind of molecule.</summary>
internal sealed class MolecularFormula
{
    /// <summary>
    /// Molar masses of the elements, g/mol. Conventional atomic weights, IUPAC (Meija et al., Pure Appl. Chem. 88 (2016) 265), from memory.
    /// </summary>
    private static readonly (string Symbol, double MolarMass)[] Elements =
    [
        ("H", 1.008),
        ("D", 2.014),
        ("He", 4.0026),
        ("B", 10.81),
        ("C", 12.011),
        ("N", 14.007),
        ("O", 15.999),
        ("F", 18.998),
        ("Ne", 20.180),
        ("Si", 28.085),
        ("P", 30.974),
        ("S", 32.06),
        ("Cl", 35.45),
        ("Ar", 39.948),
        ("Br", 79.904),
        ("Kr", 83.798),
        ("I", 126.904),
        ("Xe", 131.293),
    ];

    /// <summary>Number of atoms of each element of the table.</summary>
    private readonly int[] atomCounts;

    private MolecularFormula(int[] atoms)
    {
        atomCounts = atoms;
        for (int i = 0; i < atoms.Length; i++)
        {
            MolarMass += atoms[i] * Elements[i].MolarMass / 1000;
            AtomCount += atoms[i];
        }
    }

    /// <summary>Molar mass in kg/mol from the atomic weights.</summary>
    public double MolarMass { get; }

    /// <summary>Number of atoms in the molecule.</summary>
    public int AtomCount { get; }

    /// <summary>True when the molecule consists of carbon and hydrogen only.</summary>
    public bool IsHydrocarbon => Count("C") > 0 && Count("H") > 0 && Count("C") + Count("H") == AtomCount;

    /// <summary>True for hydrogen, deuterium, helium and neon, whose liquids show quantum effects.</summary>
    public bool IsQuantumGas =>
        Count("H") == AtomCount || Count("D") == AtomCount || Count("He") == AtomCount || Count("Ne") == AtomCount;

    /// <summary>True for argon, krypton, xenon, nitrogen, oxygen and carbon monoxide: small molecules with weak forces between them, without quantum effects.</summary>
    public bool IsSimpleGas =>
        (AtomCount == 1 && !IsQuantumGas)
        || (AtomCount == 2 && (Count("N") == 2 || Count("O") == 2 || (Count("C") == 1 && Count("O") == 1)));

    /// <summary>True when the molecule holds fluorine.</summary>
    public bool IsFluorinated => Count("F") > 0;

    /// <summary>True when both formulas count the same atoms.</summary>
    public bool HasSameAtoms(MolecularFormula other) => atomCounts.AsSpan().SequenceEqual(other.atomCounts);

    /// <summary>Reads a formula; false when it has characters or elements this table does not know.</summary>
    public static bool TryParse(string? text, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out MolecularFormula? formula)
    {
        formula = null;
        int[] atoms = new int[Elements.Length];
        int i = 0;
        while (text is not null && i < text.Length)
        {
            int start = i++;
            while (i < text.Length && char.IsAsciiLetterLower(text[i]))
            {
                i++;
            }

            int element = IndexOf(text.AsSpan(start, i - start));
            if (element < 0)
            {
                return false;
            }

            int count = 0;
            int digitsStart = i;
            while (i < text.Length && char.IsAsciiDigit(text[i]) && i - digitsStart < 4)
            {
                count = (10 * count) + (text[i++] - '0');
            }

            count = i == digitsStart ? 1 : count;
            if (count == 0)
            {
                return false;
            }

            atoms[element] += count;
        }

        formula = string.IsNullOrEmpty(text) ? null : new MolecularFormula(atoms);
        return formula is not null;
    }

    private static int IndexOf(ReadOnlySpan<char> symbol)
    {
        for (int i = 0; i < Elements.Length; i++)
        {
            if (symbol.SequenceEqual(Elements[i].Symbol))
            {
                return i;
            }
        }

        return -1;
    }

    internal int Count(string symbol) => atomCounts[IndexOf(symbol)];
}
