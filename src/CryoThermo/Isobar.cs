using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// Enthalpy, entropy and heat capacity of a fluid over temperature at one pressure: exact at its nodes, which include
/// every phase boundary, and within 1 J/mol and 1e-4 of the enthalpy span between them. No bound is given on stretches
/// marked <see cref="PhaseRegion.UnresolvedPhases"/>, where a fourth phase exists and the answer itself can jump. Immutable and thread-safe.
/// </summary>
public sealed class Isobar
{
    internal Isobar(WorkingFluid fluid, IsobarTable table)
    {
        Fluid = fluid;
        Table = table;
    }

    /// <summary>The fluid.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Absolute pressure.</summary>
    public Pressure Pressure => Pressure.FromPascals(Table.Pressure);

    /// <summary>Lowest temperature covered.</summary>
    public Temperature Lowest => Temperature.FromKelvins(Table.MinTemperature);

    /// <summary>Highest temperature covered.</summary>
    public Temperature Highest => Temperature.FromKelvins(Table.MaxTemperature);

    /// <summary>The stretches of temperature with the same phases, from cold to warm.</summary>
    public IReadOnlyList<IsobarStretch> Stretches
    {
        get
        {
            List<IsobarStretch> stretches = [];
            ReadOnlySpan<double> nodes = Table.NodeTemperatures;
            ReadOnlySpan<PhaseRegion> regions = Table.Regions;
            int start = 0;
            for (int i = 0; i < regions.Length; i++)
            {
                if (i + 1 == regions.Length || regions[i + 1] != regions[i])
                {
                    stretches.Add(new(regions[i], Temperature.FromKelvins(nodes[start]), Temperature.FromKelvins(nodes[i + 1])));
                    start = i + 1;
                }
            }

            return stretches;
        }
    }

    internal IsobarTable Table { get; }

    /// <summary>Molar enthalpy at a temperature; where a pure fluid boils, that of the vapour.</summary>
    /// <param name="temperature">Within the range covered.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range covered.</exception>
    public MolarEnergy MolarEnthalpy(Temperature temperature) => MolarEnergy.FromJoulesPerMole(Table.Enthalpy(temperature.Kelvins));

    /// <summary>Molar entropy at a temperature; where a pure fluid boils, that of the vapour.</summary>
    /// <param name="temperature">Within the range covered.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range covered.</exception>
    public MolarEntropy MolarEntropy(Temperature temperature) =>
        UnitsNet.MolarEntropy.FromJoulesPerMoleKelvin(Table.EntropyAtEnthalpy(Table.Enthalpy(temperature.Kelvins)));

    /// <summary>Temperature at a molar enthalpy.</summary>
    /// <param name="molarEnthalpy">Within the range covered.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range covered.</exception>
    public Temperature TemperatureAt(MolarEnergy molarEnthalpy) =>
        Temperature.FromKelvins(Table.TemperatureAtEnthalpy(molarEnthalpy.JoulesPerMole));
}
