using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// A range of measured resistances between two surfaces, to choose from: contact depends on pressure, finish and temperature, and a figure of one's own
/// is worth more. Immutable and thread-safe.
/// </summary>
/// <param name="Description">Which contact.</param>
/// <param name="Least">Resistance of an area, the best met.</param>
/// <param name="Greatest">Resistance of an area, the worst met.</param>
/// <param name="Source">Where the range comes from.</param>
public sealed record ContactResistance(string Description, ThermalResistance Least, ThermalResistance Greatest, Source Source)
{
    private static readonly Source Textbook = new("F. P. Incropera, D. P. DeWitt, Fundamentals of Heat and Mass Transfer, table of contact resistances, near 300 K", FromMemory: true);

    /// <summary>Ranges commonly met, all near room temperature; dry contacts grow several times worse when cold.</summary>
    public static IReadOnlyList<ContactResistance> Typical { get; } =
    [
        Of("stainless steel on stainless steel, dry, in vacuum, 1 to 100 bar pressed", 0.7e-4, 25e-4, Textbook),
        Of("copper on copper, dry, in vacuum, 1 to 100 bar pressed", 0.1e-4, 10e-4, Textbook),
        Of("aluminium on aluminium, dry, in vacuum, 1 to 100 bar pressed", 0.2e-4, 5e-4, Textbook),
        Of("aluminium on aluminium, 10 micrometre rough, 1 bar, in air", 2.5e-4, 3e-4, Textbook),
        Of("aluminium on aluminium, 10 micrometre rough, 1 bar, in helium", 1e-4, 1.1e-4, Textbook),
        Of("aluminium on aluminium with silicone grease, 35 bar", 0.06e-4, 0.08e-4, Textbook),
        Of("aluminium on aluminium with indium foil, 1 bar", 0.06e-4, 0.08e-4, Textbook),
        Of("brass on brass, 15 micrometres of tin solder", 0.025e-4, 0.14e-4, Textbook),
        Of("fin rolled or pressed on a tube", 0.1e-4, 2e-4, Source.CommonPractice),
        Of("epoxy joint of 0.02 mm", 0.2e-4, 0.9e-4, Textbook),
    ];

    /// <summary>Temperature step where a heat flux crosses a contact.</summary>
    /// <param name="resistance">Resistance of an area, 0 to 1 m2 K/W.</param>
    /// <param name="flux">Heat for each area.</param>
    /// <exception cref="ArgumentOutOfRangeException">The resistance is out of its range.</exception>
    public static TemperatureDelta Step(ThermalResistance resistance, HeatFlux flux) =>
        TemperatureDelta.FromKelvins(Guard.InRange(resistance.SquareMeterKelvinsPerWatt, 0, 1, "m2 K/W", nameof(resistance)) * flux.WattsPerSquareMeter);

    private static ContactResistance Of(string description, double least, double greatest, Source source) => new(
        description, ThermalResistance.FromSquareMeterKelvinsPerWatt(least), ThermalResistance.FromSquareMeterKelvinsPerWatt(greatest), source);
}
