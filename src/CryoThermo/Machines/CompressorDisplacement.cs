using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>Swept volume and speed of a compressor. Immutable and thread-safe.</summary>
public sealed record CompressorDisplacement
{
    /// <summary>Names volume and speed.</summary>
    /// <param name="perRevolution">Swept by all cylinders in one revolution, 1e-9 to 1 m3.</param>
    /// <param name="speed">Of the shaft, 1 to 100 000 revolutions a minute.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorDisplacement(Volume perRevolution, RotationalSpeed speed)
    {
        Guard.InRange(perRevolution.CubicMeters, 1e-9, 1, "m3", nameof(perRevolution));
        Guard.InRange(speed.RevolutionsPerMinute, 1, 1e5, "1/min", nameof(speed));
        PerRevolution = perRevolution;
        Speed = speed;
    }

    /// <summary>Swept by all cylinders in one revolution.</summary>
    public Volume PerRevolution { get; }

    /// <summary>Of the shaft.</summary>
    public RotationalSpeed Speed { get; }

    /// <summary>Displacement times speed.</summary>
    public VolumeFlow SweptVolumeFlow => VolumeFlow.FromCubicMetersPerSecond(PerRevolution.CubicMeters * Speed.RevolutionsPerSecond);

    /// <summary>Driven by an induction motor on the mains.</summary>
    /// <param name="perRevolution">Swept by all cylinders in one revolution, 1e-9 to 1 m3.</param>
    /// <param name="supply">Frequency of the supply, 1 to 1000 Hz.</param>
    /// <param name="poles">Poles of the motor, an even number from 2 to 48.</param>
    /// <param name="slip">Share by which the shaft lags, 0 to 0.3: 0.02 to 0.06 for small motors under load (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static CompressorDisplacement OnMains(Volume perRevolution, Frequency supply, int poles, double slip) =>
        new(perRevolution, MotorSpeed(supply, poles, slip));

    /// <summary>Of cylinders with pistons.</summary>
    /// <param name="bore">0.1 mm to 1 m.</param>
    /// <param name="stroke">0.1 mm to 1 m.</param>
    /// <param name="cylinders">1 to 64.</param>
    /// <param name="speed">Of the shaft, 1 to 100 000 revolutions a minute.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static CompressorDisplacement OfCylinders(Length bore, Length stroke, int cylinders, RotationalSpeed speed)
    {
        double d = Guard.InRange(bore.Meters, 1e-4, 1, "m", nameof(bore));
        double s = Guard.InRange(stroke.Meters, 1e-4, 1, "m", nameof(stroke));
        Guard.InRange(cylinders, 1, 64, "cylinders");
        return new(Volume.FromCubicMeters(Math.PI / 4 * d * d * s * cylinders), speed);
    }

    /// <summary>Speed of an induction motor: 2 f (1 - slip) / poles.</summary>
    /// <param name="supply">Frequency of the supply, 1 to 1000 Hz.</param>
    /// <param name="poles">An even number from 2 to 48.</param>
    /// <param name="slip">Share by which the shaft lags, 0 to 0.3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static RotationalSpeed MotorSpeed(Frequency supply, int poles, double slip)
    {
        double f = Guard.InRange(supply.Hertz, 1, 1000, "Hz", nameof(supply));
        Guard.InRange(poles, 2, 48, "poles");
        if (poles % 2 != 0)
        {
            throw new ArgumentOutOfRangeException(nameof(poles), poles, $"poles is {poles}; it must be even, from 2 to 48.");
        }

        Guard.InRange(slip, 0, 0.3, "of the speed");
        return RotationalSpeed.FromRevolutionsPerSecond(2 * f * (1 - slip) / poles);
    }

    /// <summary>The displacement that delivers a stated flow of free air.</summary>
    /// <param name="freeAir">Volume flow of air delivered, referred to the inlet: 20 degC and 1 bar absolute, dry (reference condition of ISO 1217, from memory).</param>
    /// <param name="dischargePressure">Absolute, at which that was stated; 1.01 to 100 bar.</param>
    /// <param name="filling">How the cylinder fills.</param>
    /// <remarks>Displacement is free air over volumetric efficiency. Air: nitrogen, oxygen and argon 78.12 : 20.96 : 0.92 (any table, from memory).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the clearance gas fills the cylinder at that pressure.</exception>
    public static VolumeFlow FromFreeAirDelivery(VolumeFlow freeAir, Pressure dischargePressure, CylinderFilling filling)
    {
        ArgumentNullException.ThrowIfNull(filling);
        double delivered = Guard.Positive(freeAir.CubicMetersPerSecond, "m3/s", nameof(freeAir));
        Guard.InRange(dischargePressure.Bars, 1.01, 100, "bar absolute", nameof(dischargePressure));
        State inlet = WorkingFluid.Mixture(("nitrogen", 0.7812), ("oxygen", 0.2096), ("argon", 0.0092)).At(Temperature.FromDegreesCelsius(20), Pressure.FromBars(1));
        return VolumeFlow.FromCubicMetersPerSecond(delivered / Compressor.Fill(filling, inlet, dischargePressure, out _, out _));
    }
}
