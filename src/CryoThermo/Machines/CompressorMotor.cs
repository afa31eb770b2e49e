using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>The motor of a compressor by its nameplate. Immutable and thread-safe.</summary>
public sealed record CompressorMotor
{
    /// <summary>Temperature at which the resistance of copper would vanish, degC below zero: IEC 60034-1, from memory.</summary>
    private const double CopperIntercept = 235;

    /// <summary>Describes the motor.</summary>
    /// <param name="voltage">Between the lines, 1 to 50 000 V.</param>
    /// <param name="phases">1 or 3.</param>
    /// <param name="powerFactor">True over apparent power under load, 0.1 to 1.</param>
    /// <param name="efficiency">
    /// Shaft power over electrical power, above 0 to 1; leave it out where the compressor's efficiency counts from the terminals, as that of a hermetic machine does.
    /// </param>
    /// <param name="startingCurrent">Current with the shaft held, by the nameplate; leave it out where it is not known.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorMotor(ElectricPotential voltage, int phases, double powerFactor, double? efficiency = null, ElectricCurrent? startingCurrent = null)
    {
        Guard.InRange(voltage.Volts, 1, 50_000, "V", nameof(voltage));
        if (phases is not (1 or 3))
        {
            throw new ArgumentOutOfRangeException(nameof(phases), phases, $"phases is {phases}; allowed is 1 or 3.");
        }

        PowerFactor = Guard.InRange(powerFactor, 0.1, 1, "(ratio)");
        Efficiency = efficiency is { } given ? Guard.InRange(given, 0.01, 1, "(ratio)", nameof(efficiency)) : null;
        if (startingCurrent is { } held)
        {
            Guard.Positive(held.Amperes, "A", nameof(startingCurrent));
        }

        Voltage = voltage;
        Phases = phases;
        StartingCurrent = startingCurrent;
    }

    /// <summary>Between the lines.</summary>
    public ElectricPotential Voltage { get; }

    /// <summary>1 or 3.</summary>
    public int Phases { get; }

    /// <summary>True over apparent power under load.</summary>
    public double PowerFactor { get; }

    /// <summary>Shaft power over electrical power; null where the compressor's efficiency counts from the terminals.</summary>
    public double? Efficiency { get; }

    /// <summary>Current with the shaft held, by the nameplate; null where it is not known.</summary>
    public ElectricCurrent? StartingCurrent { get; }

    /// <summary>What the motor takes while the compressor does what a result tells.</summary>
    /// <param name="result">The compressor.</param>
    public MotorDraw Driving(CompressorResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        double electrical = (double)result.Power.Watts / (Efficiency ?? 1);
        double current = electrical / VoltAmperesPerAmpere / PowerFactor;

        // Where the nameplate is silent: five to eight times the running current for small induction motors.
        FigureBand<ElectricCurrent> starting = StartingCurrent is { } held
            ? new(held, held, held)
            : new(ElectricCurrent.FromAmperes(6 * current), ElectricCurrent.FromAmperes(5 * current), ElectricCurrent.FromAmperes(8 * current));
        return new(
            Power.FromWatts(electrical),
            ElectricCurrent.FromAmperes(current),
            Power.FromWatts(electrical - (double)result.Power.Watts),
            starting,
            StartingCurrent is null
                ? Source.CommonPractice
                : new("starting current as stated for the motor", FromMemory: false));
    }

    /// <summary>Electrical power of a current.</summary>
    /// <param name="current">In each line, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The current is not above zero.</exception>
    public Power PowerOf(ElectricCurrent current) =>
        Power.FromWatts(Guard.Positive(current.Amperes, "A", nameof(current)) * VoltAmperesPerAmpere * PowerFactor);

    /// <summary>Temperature of a copper winding by its resistance, measured at once after switching off: (235 K + hot) / (235 K + cold) = ratio of resistance (IEC 60034-1, from memory).</summary>
    /// <param name="cold">Temperature at the first measurement, the machine at rest for long; -30 to 60 degC.</param>
    /// <param name="resistanceRatio">Resistance hot over resistance cold, 1 to 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static Temperature WindingTemperature(Temperature cold, double resistanceRatio)
    {
        double before = Guard.InRange(cold.DegreesCelsius, -30, 60, "degC", nameof(cold));
        Guard.InRange(resistanceRatio, 1, 2, "(ratio)");
        return Temperature.FromDegreesCelsius((resistanceRatio * (CopperIntercept + before)) - CopperIntercept);
    }

    private double VoltAmperesPerAmpere => Voltage.Volts * (Phases == 3 ? Math.Sqrt(3) : 1);
}
