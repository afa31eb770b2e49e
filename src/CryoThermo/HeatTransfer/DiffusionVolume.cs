using CryoThermo.Substances;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Diffusion volumes of E. N. Fuller, K. Ensley, J. C. Giddings, J. Phys. Chem. 73 (1969) 3679, cm3/mol: of simple molecules as found, of others the sum of
/// those of their atoms. Every figure is recalled from memory, unchecked but by the diffusion coefficients of the tests.
/// </summary>
internal static class DiffusionVolume
{
    // Name, volume; each from memory.
    private static readonly (string Name, double Volume)[] Molecules =
    [
        ("helium", 2.67), // from memory
        ("neon", 5.98), // from memory
        ("argon", 16.2), // from memory
        ("krypton", 24.5), // from memory
        ("xenon", 32.7), // from memory
        ("hydrogen", 6.12), // from memory
        ("parahydrogen", 6.12), // as hydrogen
        ("orthohydrogen", 6.12), // as hydrogen
        ("deuterium", 6.84), // from memory
        ("nitrogen", 18.5), // from memory
        ("oxygen", 16.3), // from memory
        ("air", 19.7), // from memory
        ("carbon monoxide", 18.0), // from memory
        ("carbon dioxide", 26.9), // from memory
        ("nitrous oxide", 35.9), // from memory
        ("ammonia", 20.7), // from memory
        ("water", 13.1), // from memory
        ("sulfur hexafluoride", 71.3), // from memory
    ];

    // Symbol, volume of the atom; each from memory.
    private static readonly (string Symbol, double Volume)[] Atoms =
    [
        ("C", 15.9), // from memory
        ("H", 2.31), // from memory
        ("O", 6.11), // from memory
        ("N", 4.54), // from memory
        ("F", 14.7), // from memory
        ("Cl", 21.0), // from memory
        ("S", 22.9), // from memory
    ];

    /// <summary>Taken off for each aromatic ring; from memory. Of the library's substances benzene has one.</summary>
    private const double Ring = 18.3;

    /// <summary>The volume and what it rests on; null where an atom has none.</summary>
    public static (double Volume, string Basis)? Of(Substance substance)
    {
        foreach ((string name, double volume) in Molecules)
        {
            if (name == substance.Name)
            {
                return (volume, $"{name}: {volume} cm3/mol, found for the molecule, from memory");
            }
        }

        if (substance.Identity.Molecule is not { } molecule)
        {
            return null;
        }

        double sum = substance.Name == "benzene" ? -Ring : 0;
        int counted = 0;
        foreach ((string symbol, double volume) in Atoms)
        {
            int atoms = molecule.Count(symbol);
            sum += atoms * volume;
            counted += atoms;
        }

        return counted == molecule.AtomCount ? (sum, $"{substance.Name}: {sum:G4} cm3/mol, sum of its atoms, from memory") : null;
    }
}
