using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>A nameplate or one line of a data sheet: capacity and power of a refrigerant at a condition. Immutable and thread-safe.</summary>
public sealed record CompressorRating
{
    /// <summary>A rating with the electrical power, without tolerance.</summary>
    /// <param name="refrigerant">What the rating is for.</param>
    /// <param name="condition">The condition of the rating.</param>
    /// <param name="capacity">Cooling: mass flow times the enthalpy from the liquid before the throttle to the suction gas, superheat included; above zero.</param>
    /// <param name="power">Electrical power, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorRating(WorkingFluid refrigerant, RatingCondition condition, Power capacity, Power power)
        : this(refrigerant, condition, capacity, power, 0.0)
    {
    }

    /// <summary>A rating with the electrical power.</summary>
    /// <param name="refrigerant">What the rating is for.</param>
    /// <param name="condition">The condition of the rating.</param>
    /// <param name="capacity">Cooling: mass flow times the enthalpy from the liquid before the throttle to the suction gas, superheat included; above zero.</param>
    /// <param name="power">Electrical power, above zero.</param>
    /// <param name="tolerance">Share by which capacity and power of one machine may each be off the nameplate, 0 to 0.3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorRating(WorkingFluid refrigerant, RatingCondition condition, Power capacity, Power power, double tolerance)
    {
        ArgumentNullException.ThrowIfNull(refrigerant);
        ArgumentNullException.ThrowIfNull(condition);
        Guard.Positive((double)capacity.Watts, "W", nameof(capacity));
        Guard.Positive((double)power.Watts, "W", nameof(power));
        Refrigerant = refrigerant;
        Condition = condition;
        Capacity = capacity;
        Power = power;
        Tolerance = Guard.InRange(tolerance, 0, 0.3, "of the figure");
    }

    /// <summary>A rating with the current of the motor.</summary>
    /// <param name="refrigerant">What the rating is for.</param>
    /// <param name="condition">The condition of the rating.</param>
    /// <param name="capacity">Cooling, above zero, as for the rating with a power.</param>
    /// <param name="current">In each line at that condition, above zero; the current of a nameplate is often the highest allowed, not that of the rating.</param>
    /// <param name="motor">Voltage, phases and power factor.</param>
    /// <param name="tolerance">Share by which capacity and power of one machine may each be off the nameplate, 0 to 0.3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public CompressorRating(
        WorkingFluid refrigerant, RatingCondition condition, Power capacity, ElectricCurrent current, CompressorMotor motor, double tolerance = 0)
        : this(refrigerant, condition, capacity, (motor ?? throw new ArgumentNullException(nameof(motor))).PowerOf(current), tolerance)
    {
    }

    /// <summary>What the rating is for.</summary>
    public WorkingFluid Refrigerant { get; }

    /// <summary>The condition.</summary>
    public RatingCondition Condition { get; }

    /// <summary>Cooling, superheat included.</summary>
    public Power Capacity { get; }

    /// <summary>Electrical power.</summary>
    public Power Power { get; }

    /// <summary>Share by which capacity and power of one machine may each be off.</summary>
    public double Tolerance { get; }
}
