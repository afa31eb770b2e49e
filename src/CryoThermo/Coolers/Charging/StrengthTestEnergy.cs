using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Energy that a gas under test pressure sets free when the vessel bursts: it expands isentropically to the atmosphere, n (u1 - u0) with the
/// real gas, part of it condensing where it does. Beside it the usual ideal-gas expression. Immutable and thread-safe.
/// </summary>
/// <param name="StoredEnergy">n (u1 - u0), real gas, isentropic.</param>
/// <param name="IdealGasEnergy">p V/(k - 1) [1 - (p0/p)^((k - 1)/k)] with k = cp/cv of the gas at the atmosphere: ASME PCC-2 article 501, from memory.</param>
/// <param name="BareEnergy">(p - p0) V/(k - 1): all the internal energy above the atmosphere at constant volume, an upper figure (Brode, Phys. Fluids 2 (1959) 217, from memory).</param>
/// <param name="ExpandedTemperature">Temperature of the gas after the expansion.</param>
/// <param name="TrinitrotolueneEquivalent">Mass of TNT with the stored energy, 4.184 MJ/kg by convention (NIST SP 811, from memory).</param>
/// <param name="Cautions">What to do.</param>
public sealed record StrengthTestEnergy(
    Energy StoredEnergy,
    Energy IdealGasEnergy,
    Energy BareEnergy,
    Temperature ExpandedTemperature,
    Mass TrinitrotolueneEquivalent,
    IReadOnlyList<Caution> Cautions)
{
    private const double JoulesPerKilogramOfTnt = 4.184e6;

    /// <summary>Computes the energy of a test.</summary>
    /// <param name="gas">The test gas.</param>
    /// <param name="volume">Volume under pressure.</param>
    /// <param name="testPressure">Absolute pressure of the test, above the atmosphere.</param>
    /// <param name="temperature">Temperature of the gas.</param>
    /// <param name="localAtmosphere">The atmosphere, absolute: 25 to 115 kPa.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ConvergenceException">The expanded state was not found.</exception>
    public static StrengthTestEnergy Of(WorkingFluid gas, Volume volume, Pressure testPressure, Temperature temperature, Pressure localAtmosphere)
    {
        ArgumentNullException.ThrowIfNull(gas);
        double space = Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        _ = GaugePressure.FromAbsolute(Pressure.FromPascals(1), localAtmosphere);
        double p = testPressure.Pascals;
        double p0 = localAtmosphere.Pascals;
        if (!(p > p0) || !double.IsFinite(p))
        {
            throw new ArgumentOutOfRangeException(
                nameof(testPressure), testPressure, $"testPressure is {p / 1e5:G6} bar absolute; it must be above the atmosphere, {p0 / 1e5:G6} bar absolute.");
        }

        State pressed = gas.At(temperature, testPressure);
        State expanded = gas.AtEntropy(localAtmosphere, pressed.MolarEntropy);
        double moles = space * pressed.MolarDensity.MolesPerCubicMeter;
        double energy = moles * (pressed.MolarInternalEnergy.JoulesPerMole - expanded.MolarInternalEnergy.JoulesPerMole);
        Phase thin = gas.At(temperature, localAtmosphere).Phases[0];
        double k = thin.IsobaricHeatCapacity.JoulesPerMoleKelvin / thin.IsochoricHeatCapacity.JoulesPerMoleKelvin;
        double ideal = p * space / (k - 1) * (1 - Math.Pow(p0 / p, (k - 1) / k));
        double bare = (p - p0) * space / (k - 1);
        List<Caution> cautions =
        [
            new(
                CautionSeverity.Danger,
                "Gas strength test stores energy",
                $"{energy / 1000:G4} kJ in {1000 * space:G4} L at {p / 1e5:G4} bar absolute, as much as {1000 * energy / JoulesPerKilogramOfTnt:G3} g of TNT",
                "a part that bursts under gas throws fragments with this energy; water at the same pressure holds a small part of it (threshold: any gas test)",
                $"Test with water where the part allows it. With gas: behind a barrier or in a pit, nobody near, raised in steps by a regulator with a relief device, read from afar; never with oxygen, never with air where oil or fuel is. Test pressure, distance and who may do it: ASME PCC-2, EN 378, ISO 5149 as they apply. {Caution.Deference}",
                new Source("energy of a pneumatic test: ASME PCC-2 article 501", FromMemory: true)),
        ];
        ChargeCautions.TestGas(gas.Composition, cautions);
        return new(
            Energy.FromJoules(energy), Energy.FromJoules(ideal), Energy.FromJoules(bare), expanded.Temperature, Mass.FromKilograms(energy / JoulesPerKilogramOfTnt), cautions);
    }

    /// <summary>The energies as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        "Energy of a gas strength test",
        ["", "kJ"],
        [
            ["real gas, isentropic", $"{StoredEnergy.Kilojoules:F3}"],
            ["ideal gas, isentropic", $"{IdealGasEnergy.Kilojoules:F3}"],
            ["ideal gas, constant volume", $"{BareEnergy.Kilojoules:F3}"],
            ["the first as TNT, g", $"{TrinitrotolueneEquivalent.Grams:F2}"],
        ]);
}
