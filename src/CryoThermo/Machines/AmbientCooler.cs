using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// An after-cooler or condenser by its hardware, against the air of the room or the water of the house: outlet state from its conductance along the stream's own heat
/// curve, condensing of blends included. For a given outlet temperature see <see cref="AfterCooler"/>. Immutable and thread-safe.
/// </summary>
/// <remarks>The loss of pressure of the stream is taken at its inlet, so that all of the cooling happens at the outlet pressure: a little less condenses than would.</remarks>
public sealed class AmbientCooler
{
    /// <summary>
    /// How many times the stream's own capacity rate stands for that of a medium of one temperature: the temperature is then wrong by this share of the difference.
    /// </summary>
    private const double Unlimited = 1e7;

    private readonly Radiator? radiator;
    private readonly VolumeFlow air;
    private readonly WaterJacket? jacket;

    private AmbientCooler(Radiator? radiator, VolumeFlow air, WaterJacket? jacket, Pressure pressureDrop)
    {
        this.radiator = radiator;
        this.air = air;
        this.jacket = jacket;
        Guard.InRange(pressureDrop.Pascals, 0, 1e8, "Pa", nameof(pressureDrop));
        PressureDrop = pressureDrop;
    }

    /// <summary>Pressure lost by the stream.</summary>
    public Pressure PressureDrop { get; }

    /// <summary>Whether it works against water; else against air.</summary>
    public bool IsWaterCooled => jacket is not null;

    /// <summary>A coil with a fan.</summary>
    /// <param name="radiator">The coil by its catalogue point.</param>
    /// <param name="air">Flow of air before the coil, a tenth to three times that of the catalogue.</param>
    /// <param name="pressureDrop">Pressure lost by the stream, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static AmbientCooler ByAir(Radiator radiator, VolumeFlow air, Pressure pressureDrop = default)
    {
        ArgumentNullException.ThrowIfNull(radiator);
        _ = radiator.ToFreshAirWattsPerKelvin(air, radiator.AirInlet);
        return new(radiator, air, null, pressureDrop);
    }

    /// <summary>A jacket or plate exchanger with water against the stream.</summary>
    /// <param name="conductanceWattsPerKelvin">UA from the stream to the water, above zero to 1e9 W/K.</param>
    /// <param name="water">Flow of water, 1e-6 to 1e4 kg/s.</param>
    /// <param name="pressureDrop">Pressure lost by the stream, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static AmbientCooler ByWater(double conductanceWattsPerKelvin, MassFlow water, Pressure pressureDrop = default) =>
        new(null, default, new(conductanceWattsPerKelvin, water, Temperature.FromDegreesCelsius(20)), pressureDrop);

    /// <summary>Cools a stream.</summary>
    /// <param name="inlet">State before it, warmer than the medium.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="medium">Temperature of the air before the coil, -50 to 100 degC, or of the water, 0 to 95 degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the stream is not warmer than the medium.</exception>
    /// <exception cref="ArgumentException">The loss of pressure is more than there is.</exception>
    public AmbientCoolerResult Cool(State inlet, MolarFlow flow, Temperature medium)
    {
        double moles = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        State start = AtWorkingPressure(inlet);
        (double conductance, double rate) = Against(medium);
        Guard.InRange(inlet.Temperature.Kelvins, medium.Kelvins + 1e-6, double.MaxValue, "K, warmer than the medium", nameof(inlet));
        if (start.Temperature.Kelvins <= medium.Kelvins + 1e-6)
        {
            throw new ArgumentOutOfRangeException(
                nameof(inlet), inlet.Temperature, $"inlet falls from {inlet.Temperature.Kelvins:F2} to {start.Temperature.Kelvins:F2} K by the loss of pressure alone; the medium enters at {medium.Kelvins:F2} K and would heat it.");
        }

        CounterFlowKernel kernel = Kernel(start, moles, medium, rate);
        double duty = kernel.Duty(conductance);
        State outlet = inlet.Fluid.AtEnthalpy(start.Pressure, MolarEnergy.FromJoulesPerMole(start.MolarEnthalpy.JoulesPerMole - (duty / moles)));
        return Result(inlet, outlet, moles, duty, medium, conductance, rate, kernel.Pinch(duty).Approach);
    }

    /// <summary>The same machine on the hottest and on the coldest day.</summary>
    /// <param name="inlet">State before it; the same on both days, since what the compressor makes of the other outlet is the cooler's whole answer.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="summer">Temperature of the air or water in summer.</param>
    /// <param name="winter">Temperature of the air or water in winter.</param>
    /// <exception cref="ArgumentException">As for <see cref="Cool"/>.</exception>
    public AmbientCoolerSeasons CoolInSummerAndWinter(State inlet, MolarFlow flow, Temperature summer, Temperature winter) =>
        new(Cool(inlet, flow, summer), Cool(inlet, flow, winter));

    /// <summary>The conductance, W/K, and the capacity rate of the medium as the stream meets it, W/K.</summary>
    internal (double Conductance, double Rate) Against(Temperature medium)
    {
        if (jacket is not null)
        {
            WaterJacket now = new(jacket.ConductanceWattsPerKelvin, jacket.Water, medium);
            return (now.ConductanceWattsPerKelvin, now.WaterCapacityRateWattsPerKelvin);
        }

        return (radiator!.ToFreshAirWattsPerKelvin(air, medium), double.PositiveInfinity);
    }

    /// <summary>The state at the outlet pressure with the enthalpy of the inlet.</summary>
    internal State AtWorkingPressure(State inlet)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        return PressureDrop.Pascals == 0
            ? inlet
            : PressureDrop.Pascals < inlet.Pressure.Pascals
                ? inlet.Fluid.AtEnthalpy(inlet.Pressure - PressureDrop, inlet.MolarEnthalpy)
                : throw new ArgumentException($"inlet is at {inlet.Pressure.Bars:G5} bar absolute; the cooler loses {PressureDrop.Bars:G5} bar.", nameof(inlet));
    }

    /// <summary>Stream against medium; the heat of any outlet between them is the walk along both.</summary>
    internal static CounterFlowKernel Kernel(State start, double moles, Temperature medium, double rate)
    {
        double cold = medium.Kelvins;
        double warm = start.Temperature.Kelvins;

        // A little above the start, so that rounding of its enthalpy stays within.
        IsobarTable table = start.Fluid.Isobar(
            start.Pressure, medium, Temperature.FromKelvins(Math.Min(warm + Math.Max(1e-3, 1e-3 * (warm - cold)), start.Fluid.Kernel.HighestTemperature))).Table;
        double enthalpy = Math.Clamp(start.MolarEnthalpy.JoulesPerMole, table.MinEnthalpy, table.MaxEnthalpy);
        double own = double.IsFinite(rate) ? rate : Unlimited * moles * (enthalpy - table.EnthalpyBelow(cold)) / (warm - cold);

        // The medium as an isobar of one mole a second with a constant heat capacity.
        double top = Math.Max(warm, table.TemperatureAtEnthalpy(enthalpy)) + 1e-6;
        double span = top - cold;
        IsobarTable mediumTable = new(start.Pressure.Pascals, [cold, top], [0, own * span], [0, own * Math.Log(top / cold)], [own], [own], [PhaseRegion.Liquid]);
        return new(table, moles, enthalpy, mediumTable, 1, 0);
    }

    internal AmbientCoolerResult Result(State inlet, State outlet, double moles, double duty, Temperature medium, double conductance, double rate, double approach)
    {
        double mixed = double.IsFinite(rate) ? rate : Radiator.CapacityRate(air, medium, null);
        double behind = medium.Kelvins + (duty / mixed);
        double made = (moles * (outlet.MolarEntropy - inlet.MolarEntropy).JoulesPerMoleKelvin) + (mixed * Math.Log(behind / medium.Kelvins));
        return new(
            inlet,
            outlet,
            MolarFlow.FromMolesPerSecond(moles),
            Power.FromWatts(duty),
            medium,
            Temperature.FromKelvins(behind),
            outlet.Fluid.TryDewPoint(outlet.Pressure, out State? dew) ? dew.Temperature : null,
            TemperatureDelta.FromKelvins(approach),
            conductance,
            Entropy.FromJoulesPerKelvin(made));
    }
}
