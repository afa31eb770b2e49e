using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>What natural convection needs of a fluid at its film temperature; SI.</summary>
internal readonly record struct Medium(double Conductivity, double KinematicViscosity, double Diffusivity, double Prandtl, double Expansion)
{
    public const double Gravity = 9.80665;

    /// <summary>The fluid midway between two temperatures.</summary>
    /// <exception cref="ArgumentException">It has several phases there.</exception>
    public static Medium Between(WorkingFluid fluid, Pressure pressure, double first, double second)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        State film = fluid.At(Temperature.FromKelvins(0.5 * (first + second)), pressure);
        if (film.Phases.Count != 1)
        {
            throw new ArgumentException(
                $"{fluid} is {film.PhaseDescription} at the film temperature of {film.Temperature.Kelvins:G5} K; natural convection here is that of one phase.", nameof(fluid));
        }

        Phase phase = film.Phases[0];
        TransportProperties transport = phase.Transport;
        double nu = transport.Viscosity.PascalSeconds / phase.Density.KilogramsPerCubicMeter;
        return new(
            transport.ThermalConductivity.WattsPerMeterKelvin,
            nu,
            nu / transport.PrandtlNumber,
            transport.PrandtlNumber,
            phase.IsobaricExpansionCoefficient.PerKelvin);
    }

    /// <summary>Rayleigh number for a difference of temperature over a length.</summary>
    public double Rayleigh(double difference, double length) =>
        Gravity * Math.Abs(Expansion * difference) * length * length * length / (KinematicViscosity * Diffusivity);
}
