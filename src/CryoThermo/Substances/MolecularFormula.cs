using System.Collections.Frozen;

namespace CryoThermo.Substances;

/// <summary>What a plain molecular formula such as "C2H2F4" says: atoms of each element, molar mass, kind of molecule.</summary>
internal sealed class MolecularFormula
{
    /// <summary>
    /// Molar masses of the elements, g/mol. Conventional atomic weights, IUPAC (Meija et al., Pure Appl. Chem. 88 (2016) 265), from memory.
    /// </summary>
    private static readonly FrozenDictionary<string, double> AtomicWeights = new Dictionary<string, double>(StringComparer.Ordinal)
    {
        ["H"] = 1.008,
        ["D"] = 2.014,
        ["He"] = 4.0026,
        ["B"] = 10.81,
        ["C"] = 12.011,
        ["N"] = 14.007,
        ["O"] = 15.999,
        ["F"] = 18.998,
        ["Ne"] = 20.180,
        ["Si"] = 28.085,
        ["P"] = 30.974,
        ["S"] = 32.06,
        ["Cl"] = 35.45,
        ["Ar"] = 39.948,
        ["Br"] = 79.904,
        ["Kr"] = 83.798,
        ["I"] = 126.904,
        ["Xe"] = 131.293,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private readonly SortedDictionary<string, int> atomCounts;

    private MolecularFormula(SortedDictionary<string, int> atoms) => atomCounts = atoms;

    /// <summary>Molar mass in kg/mol from the atomic weights.</summary>
    public double MolarMass
    {
        get
        {
            double sum = 0;
            foreach ((string element, int count) in atomCounts)
            {
                sum += count * AtomicWeights[element];
            }

            return sum / 1000;
        }
    }

    /// <summary>Number of atoms in the molecule.</summary>
    public int AtomCount => atomCounts.Values.Sum();

    /// <summary>True when the molecule consists of carbon and hydrogen only.</summary>
    public bool IsHydrocarbon => atomCounts.Count == 2 && atomCounts.ContainsKey("C") && atomCounts.ContainsKey("H");

    /// <summary>True for hydrogen, deuterium, helium and neon, whose liquids show quantum effects.</summary>
    public bool IsQuantumGas =>
        atomCounts.Count == 1 && (atomCounts.ContainsKey("H") || atomCounts.ContainsKey("D") || atomCounts.ContainsKey("He") || atomCounts.ContainsKey("Ne"));

    /// <summary>True when both formulas count the same atoms.</summary>
    public bool HasSameAtoms(MolecularFormula other) => atomCounts.SequenceEqual(other.atomCounts);

    /// <summary>Reads a formula; false when it has characters or elements this table does not know.</summary>
    public static bool TryParse(string? text, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out MolecularFormula? formula)
    {
        formula = null;
        SortedDictionary<string, int> atoms = new(StringComparer.Ordinal);
        int i = 0;
        while (text is not null && i < text.Length)
        {
            int start = i++;
            while (i < text.Length && char.IsAsciiLetterLower(text[i]))
            {
                i++;
            }

            string element = text[start..i];
            if (!AtomicWeights.ContainsKey(element))
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

            atoms[element] = atoms.GetValueOrDefault(element) + count;
        }

        if (atoms.Count == 0)
        {
            return false;
        }

        formula = new MolecularFormula(atoms);
        return true;
    }
}
