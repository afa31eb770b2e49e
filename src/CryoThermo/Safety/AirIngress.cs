using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// Air drawn into a low side below the atmosphere: how much, what moisture comes with it, and how long until the charge could burn inside the machine.
/// Immutable and thread-safe. An estimate: a leak opens and clogs.
/// </summary>
public sealed class AirIngress
{
    private const double OxygenInAir = 0.2095;
    /// <summary>Describes a leak.</summary>
    /// <param name="contents">Substances and mole fractions of the charge.</param>
    /// <param name="charge">Moles in the machine, above zero.</param>
    /// <param name="leakPascalCubicMetersPerSecond">Air that enters, Pa m3/s at the temperature of the room, above zero: see <see cref="Rate"/>.</param>
    /// <param name="room">Temperature of the room; null for 293.15 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    /// <exception cref="ArgumentException">The fire behaviour of a substance is not known.</exception>
    public AirIngress(IReadOnlyList<SubstanceShare> contents, AmountOfSubstance charge, double leakPascalCubicMetersPerSecond, Temperature? room = null)
    {
        Fire = new(contents);
        Room = room ?? Temperature.FromKelvins(293.15);
        Guard.InRange(Room.Kelvins, 200, 350, "K", nameof(room));
        ChargeMoles = Guard.Positive(charge.Moles, "mol", nameof(charge));
        MolesPerSecond = Guard.Positive(leakPascalCubicMetersPerSecond, "Pa m3/s") / (SubstanceReader.GasConstant * Room.Kelvins);
    }

    /// <summary>How the charge burns.</summary>
    public BlendFlammability Fire { get; }

    /// <summary>Temperature of the room.</summary>
    public Temperature Room { get; }

    /// <summary>Moles of the charge.</summary>
    public double ChargeMoles { get; }

    /// <summary>Air that enters, mol/s.</summary>
    public double MolesPerSecond { get; }

    /// <summary>
    /// Oxygen at which a machine is stopped: two per cent points below the limiting oxygen, or 60 % of it where that is below 5 % (NFPA 69, from memory); null without fuel
    /// or where no limiting oxygen is known.
    /// </summary>
    public double? OxygenAlarmPercent => Fire.LimitingOxygenPercent is { } limit ? (limit < 5 ? 0.6 * limit : limit - 2) : null;

    /// <summary>Time until the oxygen in the charge is at the alarm; null without fuel.</summary>
    public Duration? TimeToAlarm => OxygenAlarmPercent is { } percent ? TimeTo(percent) : null;

    /// <summary>Time until the oxygen in the charge is at its limiting oxygen: from then on it can burn where its other limits allow; null without fuel.</summary>
    public Duration? TimeToFlammable => Fire.LimitingOxygenPercent is { } percent ? TimeTo(percent) : null;

    /// <summary>
    /// Air that enters through a leak known from a test with pressure inside: laminar flow goes with the difference of the squares of the pressures (common practice, no source).
    /// </summary>
    /// <param name="testPascalCubicMetersPerSecond">Leak of the test, Pa m3/s.</param>
    /// <param name="testPressure">Absolute, above the atmosphere.</param>
    /// <param name="lowPressure">Low side in service, absolute, below the atmosphere.</param>
    /// <param name="atmosphere">Null for one standard atmosphere.</param>
    /// <exception cref="ArgumentOutOfRangeException">A pressure is on the wrong side of the atmosphere, or a figure is not above zero.</exception>
    public static double Rate(double testPascalCubicMetersPerSecond, Pressure testPressure, Pressure lowPressure, Pressure? atmosphere = null)
    {
        double q = Guard.Positive(testPascalCubicMetersPerSecond, "Pa m3/s");
        double outside = (atmosphere ?? Pressure.FromPascals(101325)).Pascals;
        double inside = testPressure.Pascals;
        double low = lowPressure.Pascals;
        Guard.Positive(outside, "Pa", nameof(atmosphere));
        if (!(inside > outside))
        {
            throw new ArgumentOutOfRangeException(nameof(testPressure), testPressure, $"testPressure is {inside / 1e5:G6} bar absolute; it must lie above the atmosphere of {outside / 1e5:G6} bar.");
        }

        if (!(low >= 0 && low < outside))
        {
            throw new ArgumentOutOfRangeException(nameof(lowPressure), lowPressure, $"lowPressure is {low / 1e5:G6} bar absolute; it must lie below the atmosphere of {outside / 1e5:G6} bar: at or above it nothing is drawn in.");
        }

        return q * ((outside * outside) - (low * low)) / ((inside * inside) - (outside * outside));
    }

    /// <summary>Oxygen in the charge after a time, per cent by volume, mixed in all of it.</summary>
    /// <param name="time">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative.</exception>
    public double OxygenPercentAfter(Duration time)
    {
        double air = MolesPerSecond * Guard.InRange(time.Seconds, 0, 1e12, "s", nameof(time));
        return 100 * OxygenInAir * air / (ChargeMoles + air);
    }

    /// <summary>Water that enters with the air.</summary>
    /// <param name="humidity">Of the room.</param>
    public MassFlow Water(RelativeHumidity humidity)
    {
        double share = MoistAir.VaporPressure(Room, humidity) / 101325;
        return MassFlow.FromKilogramsPerSecond(MolesPerSecond * share / (1 - share) * 0.018015268);
    }

    /// <summary>The caution that belongs to it.</summary>
    public Caution Caution => new(
        Fire.FuelFraction > 0 ? CautionSeverity.Danger : CautionSeverity.Warning,
        "Air drawn into the low side",
        FormattableString.Invariant($"{1e6 * MolesPerSecond:G3} umol/s of air into {ChargeMoles:G4} mol of charge")
        + (TimeToAlarm is { } alarm
            ? FormattableString.Invariant($": {OxygenAlarmPercent:F1} % oxygen after {alarm.Days:G3} days, the limiting oxygen of {Fire.LimitingOxygenPercent:F1} % after {TimeToFlammable!.Value.Days:G3}")
            : string.Empty),
        "a charge that burns is stopped well below the oxygen at which it can (NFPA 69: two points below the limiting oxygen, or 60 % of it)",
        (Fire.FuelFraction > 0
            ? "The compressor ignites such a charge by compression. Keep the low side above the atmosphere, or stop the machine by a low-pressure switch; find the leak, recover the charge, evacuate. "
            : "Air raises the high pressure and its moisture freezes in the throttle. Keep the low side above the atmosphere and find the leak. ")
        + Diagnostics.Caution.Deference,
        new Source("NFPA 69; limiting oxygen: Zabetakis, US Bureau of Mines Bulletin 627 (1965)", FromMemory: true));

    private Duration TimeTo(double percent)
    {
        double y = percent / (100 * OxygenInAir);
        return Duration.FromSeconds(ChargeMoles * y / (1 - y) / MolesPerSecond);
    }
}
