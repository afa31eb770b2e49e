using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// Oil in the shell of the compressor, which takes up gas by Henry's law: the mole fraction dissolved is the partial pressure at the suction over a constant of each
/// component. Rough: constants hold at one temperature, and heavy components depart from the law. Immutable and thread-safe.
/// </summary>
public sealed class OilCharge
{
    private readonly Dictionary<string, double> constants;

    /// <summary>Describes the oil.</summary>
    /// <param name="mass">Mass of oil, above zero.</param>
    /// <param name="molarMass">Of the oil, 100 to 2000 g/mol; 300 to 400 for thin mineral and alkylbenzene oils (common practice, no source).</param>
    /// <param name="henryConstants">
    /// Component and its constant at the temperature of the shell, 0.1 to 1e6 bar: vapour pressure of the component for an ideal solution. A component left out does not dissolve.
    /// </param>
    /// <param name="source">Where the constants come from.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ArgumentException">A substance is unknown or named twice.</exception>
    public OilCharge(Mass mass, MolarMass molarMass, IReadOnlyList<(string Component, Pressure Constant)> henryConstants, Source source)
    {
        ArgumentNullException.ThrowIfNull(henryConstants);
        ArgumentNullException.ThrowIfNull(source);
        double kilograms = Guard.InRange(mass.Kilograms, 1e-9, 1e3, "kg", nameof(mass));
        double perMole = Guard.InRange(molarMass.GramsPerMole, 100, 2000, "g/mol", nameof(molarMass));
        Mass = mass;
        MolarMass = molarMass;
        Source = source;
        Moles = kilograms / (1e-3 * perMole);
        constants = new(StringComparer.Ordinal);
        foreach ((string component, Pressure constant) in henryConstants)
        {
            string name = SubstanceCatalog.Default.TryFind(component, out Substance? known)
                ? known.Name
                : throw new ArgumentException($"henryConstants names '{component}', which is not a substance of the catalogue.", nameof(henryConstants));
            if (!constants.TryAdd(name, Guard.InRange(constant.Bars, 0.1, 1e6, "bar", nameof(henryConstants)) * 1e5))
            {
                throw new ArgumentException($"henryConstants names {name} twice.", nameof(henryConstants));
            }
        }
    }

    /// <summary>Mass of oil.</summary>
    public Mass Mass { get; }

    /// <summary>Molar mass of the oil.</summary>
    public MolarMass MolarMass { get; }

    /// <summary>Where the constants come from.</summary>
    public Source Source { get; }

    private double Moles { get; }

    /// <summary>Moles dissolved of each component at a suction pressure, Pa; false where the law ends: the oil would be mostly gas.</summary>
    internal bool TryDissolved(IReadOnlyList<Substance> components, ReadOnlySpan<double> z, double pressure, Span<double> moles)
    {
        double sum = 0;
        for (int i = 0; i < moles.Length; i++)
        {
            moles[i] = constants.TryGetValue(components[i].Name, out double constant) ? z[i] * pressure / constant : 0;
            sum += moles[i];
        }

        bool holds = sum < MostDissolved;
        double scale = Moles / (1 - Math.Min(sum, MostDissolved));
        for (int i = 0; i < moles.Length; i++)
        {
            moles[i] *= scale;
        }

        return holds;
    }

    /// <summary>Mole fraction of gas in the oil above which Henry's law is not used.</summary>
    private const double MostDissolved = 0.9;
}
