using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// An after-cooler by its hardware: how far water or air cools a stream of real heat capacity, condensing included. One pressure; the conductance is taken as
/// spread evenly over the heat's path. Stateless and thread-safe. For a given outlet temperature see <see cref="AfterCooler"/>.
/// </summary>
public static class GasCooler
{
    /// <summary>
    /// How many times the capacity rate of the stream stands for that of a medium of one temperature: the temperature is then wrong by this share of the
    /// difference.
    /// </summary>
    private const double Unlimited = 1e7;

    /// <summary>Cools a stream in a water jacket, the water against it.</summary>
    /// <param name="jacket">The jacket.</param>
    /// <param name="stream">Isobar of the stream, from its inlet down to the temperature of the water that enters.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="inlet">Temperature of the stream, above that of the water that enters.</param>
    /// <exception cref="ArgumentException">A figure is out of its range, or the isobar is too short.</exception>
    public static GasCoolerResult InJacket(WaterJacket jacket, Isobar stream, MolarFlow flow, Temperature inlet)
    {
        ArgumentNullException.ThrowIfNull(jacket);
        return Cool(stream, flow, inlet, jacket.WaterInlet.Kelvins, jacket.WaterCapacityRateWattsPerKelvin, null, jacket.ConductanceWattsPerKelvin);
    }

    /// <summary>Cools a stream in a coil with a fan.</summary>
    /// <param name="radiator">The radiator.</param>
    /// <param name="air">Flow of air before the coil, a tenth to three times that of the catalogue.</param>
    /// <param name="airInlet">Temperature of the air before the coil, -50 to 100 degC.</param>
    /// <param name="stream">Isobar of the stream, from its inlet down to the temperature of the air.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="inlet">Temperature of the stream, above that of the air.</param>
    /// <param name="atmosphere">Absolute, 0.3 to 2 bar; 1.01325 bar where left out.</param>
    /// <exception cref="ArgumentException">A figure is out of its range, or the isobar is too short.</exception>
    public static GasCoolerResult InRadiator(
        Radiator radiator, VolumeFlow air, Temperature airInlet, Isobar stream, MolarFlow flow, Temperature inlet, Pressure? atmosphere = null)
    {
        ArgumentNullException.ThrowIfNull(radiator);
        double conductance = radiator.ToFreshAirWattsPerKelvin(air, airInlet, atmosphere);
        return Cool(stream, flow, inlet, airInlet.Kelvins, null, Radiator.CapacityRate(air, airInlet, atmosphere), conductance);
    }

    private static GasCoolerResult Cool(
        Isobar stream, MolarFlow flow, Temperature inlet, double medium, double? mediumRate, double? mixedRate, double conductance)
    {
        ArgumentNullException.ThrowIfNull(stream);
        double moles = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        double highest = stream.Highest.Kelvins;
        double warm = Guard.InRange(inlet.Kelvins, medium + 1e-6, Math.Max(highest, medium + 1e-6), "K", nameof(inlet));
        if (stream.Lowest.Kelvins > medium)
        {
            throw new ArgumentException(
                $"stream is known from {stream.Lowest.Kelvins:G6} K up; it must reach down to {medium:G6} K, at which the medium enters.", nameof(stream));
        }

        double greatest = moles * (stream.Table.Enthalpy(warm) - stream.Table.EnthalpyBelow(medium));
        double rate = mediumRate ?? (Unlimited * greatest / (warm - medium));

        // The medium as an isobar of one mole a second with a constant heat capacity.
        double span = warm - medium;
        IsobarTable own = new(
            stream.Pressure.Pascals, [medium, warm], [0, rate * span], [0, rate * Math.Log(warm / medium)], [rate], [rate], [PhaseRegion.Liquid]);
        CounterFlowKernel kernel = CounterFlowKernel.FromInletTemperatures(stream.Table, moles, warm, own, 1, medium);
        double duty = kernel.Duty(conductance);
        return new(
            stream.Fluid.AtEnthalpy(stream.Pressure, MolarEnergy.FromJoulesPerMole(kernel.HotOutletEnthalpy(duty))),
            Power.FromWatts(duty),
            Temperature.FromKelvins(medium + (duty / (mediumRate ?? mixedRate!.Value))),
            TemperatureDelta.FromKelvins(kernel.Pinch(duty).Approach),
            conductance);
    }
}
