using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A stream in a coil in a boiling bath of one pure liquid: liquid nitrogen, for example. The bath stays at its boiling point, and its cold vapour is not used. Ice and dry
/// ice are not in it. Immutable and thread-safe.
/// </summary>
public sealed class BathPreCooler
{
    private readonly Saturation boiling;

    /// <summary>Describes the bath.</summary>
    /// <param name="liquid">A pure fluid; a blend would change its boiling point as it boils away.</param>
    /// <param name="bathPressure">Absolute pressure over the bath; the standing head of the liquid is not counted.</param>
    /// <param name="conductanceWattsPerKelvin">UA from the stream to the bath, above zero to 1e6 W/K.</param>
    /// <param name="heatLeak">Heat that reaches the bath otherwise, zero to 1e5 W.</param>
    /// <exception cref="InvalidOperationException">The liquid is a blend.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the liquid does not boil at that pressure.</exception>
    public BathPreCooler(WorkingFluid liquid, Pressure bathPressure, double conductanceWattsPerKelvin, Power heatLeak = default)
    {
        ArgumentNullException.ThrowIfNull(liquid);
        Guard.Positive(bathPressure.Pascals, "Pa absolute", nameof(bathPressure));
        ConductanceWattsPerKelvin = Guard.InRange(conductanceWattsPerKelvin, 1e-9, 1e6, "W/K");
        Guard.InRange((double)heatLeak.Watts, 0, 1e5, "W", nameof(heatLeak));
        boiling = liquid.Saturation(bathPressure);
        Liquid = liquid;
        HeatLeak = heatLeak;
    }

    /// <summary>What boils.</summary>
    public WorkingFluid Liquid { get; }

    /// <summary>Temperature of the bath.</summary>
    public Temperature Temperature => boiling.Temperature;

    /// <summary>UA from the stream to the bath, W/K.</summary>
    public double ConductanceWattsPerKelvin { get; }

    /// <summary>Heat that reaches the bath otherwise.</summary>
    public Power HeatLeak { get; }

    /// <summary>Cools a stream.</summary>
    /// <param name="stream">The stream before the bath, warmer than it.</param>
    /// <param name="flow">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stream is not warmer than the bath, its model ends above the bath's temperature, or the flow is not above zero.</exception>
    public BathPreCoolerResult Cool(State stream, MolarFlow flow)
    {
        ArgumentNullException.ThrowIfNull(stream);
        double moles = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        double lowest = Math.Max(Temperature.Kelvins + 1e-6, stream.Fluid.Kernel.LowestTemperature);
        Guard.InRange(stream.Temperature.Kelvins, lowest, double.MaxValue, "K, warmer than the bath", nameof(stream));
        if (stream.Fluid.Kernel.LowestTemperature > Temperature.Kelvins)
        {
            throw new ArgumentOutOfRangeException(
                nameof(stream), stream.Temperature, $"stream: the model of {stream.Fluid.Composition} begins at {stream.Fluid.Kernel.LowestTemperature:F1} K, above the bath of {Temperature.Kelvins:F2} K.");
        }

        CounterFlowKernel kernel = AmbientCooler.Kernel(stream, moles, Temperature, double.PositiveInfinity);
        double duty = kernel.Duty(ConductanceWattsPerKelvin);
        State outlet = stream.Fluid.AtEnthalpy(stream.Pressure, MolarEnergy.FromJoulesPerMole(stream.MolarEnthalpy.JoulesPerMole - (duty / moles)));
        double boiled = (duty + (double)HeatLeak.Watts) / boiling.EnthalpyOfVaporization.JoulesPerMole;
        double mass = boiled * Liquid.Composition.MolarMass.KilogramsPerMole;
        double gas = boiled / Liquid.At(UnitsNet.Temperature.FromDegreesCelsius(20), Pressure.FromAtmospheres(1)).MolarDensity.MolesPerCubicMeter;
        double made = (moles * (outlet.MolarEntropy - stream.MolarEntropy).JoulesPerMoleKelvin) + (duty / Temperature.Kelvins);
        return new(
            stream,
            outlet,
            Power.FromWatts(duty),
            Temperature,
            MassFlow.FromKilogramsPerSecond(mass),
            VolumeFlow.FromCubicMetersPerSecond(mass / boiling.Liquid.Density.KilogramsPerCubicMeter),
            VolumeFlow.FromCubicMetersPerSecond(gas),
            TemperatureDelta.FromKelvins(kernel.Pinch(duty).Approach),
            Entropy.FromJoulesPerKelvin(made),
            CautionsOf(gas));
    }

    private IReadOnlyList<Caution> CautionsOf(double gas)
    {
        List<Caution> cautions =
        [
            new(
                CautionSeverity.Warning,
                "Gas from the bath fills the room",
                $"{3600 * gas:G3} m3/h of {Liquid.Composition.Components[0].Name} at room temperature",
                Liquid.Composition.Components[0].Name == "oxygen"
                    ? "oxygen above 23.5 % in a room makes clothes and oil burn fiercely (threshold as for oxygen-rich surfaces)"
                    : "a gas other than air takes the place of oxygen; below 19.5 % a room is not to be entered",
                $"Vent it outdoors, or see that fresh air is many times that; an oxygen monitor beside the bath. Never shut a boiling bath in without a relief device. {Caution.Deference}",
                new("19.5 and 23.5 %: OSHA 29 CFR 1910.146, CGA and EIGA leaflets", FromMemory: true)),
        ];
        Flammability charge = Flammability.Of([new(Liquid.Composition.Components[0].Name, 1)]);
        if (charge is { LowerLimitPercent: { } lower } && lower < 100)
        {
            cautions.Add(new(
                CautionSeverity.Danger,
                "Flammable gas boils off",
                $"{3600 * gas:G3} m3/h, lower flammability limit {lower:F1} % by volume in air",
                "an open bath of a flammable liquid fills a room with a mixture that burns (threshold: any)",
                $"Do not boil it off into a room. {Caution.Deference}",
                Source.CommonPractice));
        }

        return [.. cautions.OrderByDescending(c => c.Severity)];
    }
}
