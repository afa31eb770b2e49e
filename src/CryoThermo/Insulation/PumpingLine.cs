using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A round tube between a vacuum and its pump, from molecular flow to laminar flow: M. Knudsen, Ann. Phys. 28 (1909) 75, as in the handbooks of vacuum
/// technique (from memory). Its ends count as 4/3 of its diameter more of length (common practice, from memory). Immutable and thread-safe.
/// </summary>
public sealed record PumpingLine
{
    /// <summary>Creates a line.</summary>
    /// <param name="length">Length, bends with it.</param>
    /// <param name="bore">Inner diameter.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not above zero.</exception>
    public PumpingLine(Length length, Length bore)
    {
        Guard.Positive(length.Meters, "m", nameof(length));
        Guard.Positive(bore.Meters, "m", nameof(bore));
        Length = length;
        Bore = bore;
    }

    /// <summary>Length.</summary>
    public Length Length { get; }

    /// <summary>Inner diameter.</summary>
    public Length Bore { get; }

    /// <summary>Conductance: throughput over the difference of pressure.</summary>
    /// <param name="gas">Its composition matters, not its model.</param>
    /// <param name="temperature">Of the gas and the tube.</param>
    /// <param name="meanPressure">Mean of the pressures at its ends, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is negative.</exception>
    /// <exception cref="ArgumentException">The viscosity of the gas is not known.</exception>
    public VolumeFlow Conductance(WorkingFluid gas, Temperature temperature, Pressure meanPressure)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Guard.InRange(meanPressure.Pascals, 0, 1e7, "Pa", nameof(meanPressure));
        Guard.Positive(temperature.Kelvins, "K", nameof(temperature));
        return VolumeFlow.FromCubicMetersPerSecond(At(
            gas.Composition.MolarMass.KilogramsPerMole, ViscosityOf(gas, temperature.Kelvins), temperature.Kelvins, meanPressure.Pascals));
    }

    /// <summary>Viscosity of a dilute gas, Pa s.</summary>
    internal static double ViscosityOf(WorkingFluid gas, double temperature)
    {
        double viscosity = gas.TransportKernel.Viscosity(temperature, 0, gas.Composition.Fractions);
        return viscosity > 0 && double.IsFinite(viscosity)
            ? viscosity
            : throw new ArgumentException($"The viscosity of {gas} at {temperature:G5} K is not known here.", nameof(gas));
    }

    /// <summary>The conductance, m3/s.</summary>
    internal double At(double molarMass, double viscosity, double temperature, double meanPressure)
    {
        double d = Bore.Meters;
        double l = Length.Meters + (4.0 / 3 * d);
        double thermalSpeed = Math.Sqrt(8 * SubstanceReader.GasConstant * temperature / (Math.PI * molarMass));
        double molecular = Math.PI * d * d * d * thermalSpeed / (12 * l);
        double viscous = Math.PI * d * d * d * d * meanPressure / (128 * viscosity * l);

        // Knudsen writes sqrt(rho/p) d p/viscosity for what stands here, with the density over pressure M/(R T).
        double slip = Math.Sqrt(molarMass / (SubstanceReader.GasConstant * temperature)) * d * meanPressure / viscosity;
        return viscous + (molecular * (1 + slip) / (1 + (1.24 * slip)));
    }
}
