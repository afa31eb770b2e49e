using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// The air of a well-mixed room into which gas is let: oxygen and the share of that gas over time. Balances of a mixed volume, as the practice of oxygen-deficiency
/// assessment writes them (from memory; derived here). Real rooms do not mix: cold vapours lie in pits, helium and hydrogen under the ceiling. Immutable and thread-safe.
/// </summary>
public sealed class RoomAir
{
    /// <summary>Oxygen of clean air, per cent by volume.</summary>
    public const double NormalOxygenPercent = 20.9;

    private static readonly Source Thresholds = new("OSHA 29 CFR 1910.146; leaflets of EIGA and CGA on oxygen deficiency", FromMemory: true);

    /// <summary>Describes a room.</summary>
    /// <param name="volume">Free volume that the gas mixes with.</param>
    /// <param name="airFlow">Air drawn out or blown in, zero or more.</param>
    /// <param name="ventilation">Which.</param>
    /// <param name="temperature">Of the room; null for 293.15 K.</param>
    /// <param name="atmosphere">Null for one standard atmosphere.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public RoomAir(
        Volume volume, VolumeFlow airFlow = default, VentilationKind ventilation = VentilationKind.Exhaust, Temperature? temperature = null, Pressure? atmosphere = null)
    {
        Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        Guard.InRange(airFlow.CubicMetersPerHour, 0, 1e9, "m3/h", nameof(airFlow));
        Volume = volume;
        AirFlow = airFlow;
        Ventilation = Enum.IsDefined(ventilation) ? ventilation : throw new ArgumentOutOfRangeException(nameof(ventilation), ventilation, "ventilation is not a kind of ventilation.");
        Temperature = temperature ?? Temperature.FromKelvins(293.15);
        Atmosphere = atmosphere ?? Pressure.FromPascals(101325);
        Guard.InRange(Temperature.Kelvins, 200, 350, "K", nameof(temperature));
        Guard.InRange(Atmosphere.Pascals, 3e4, 1.2e5, "Pa", nameof(atmosphere));
    }

    /// <summary>Free volume.</summary>
    public Volume Volume { get; }

    /// <summary>Air drawn out or blown in.</summary>
    public VolumeFlow AirFlow { get; }

    /// <summary>Which.</summary>
    public VentilationKind Ventilation { get; }

    /// <summary>Of the room.</summary>
    public Temperature Temperature { get; }

    /// <summary>Of the room.</summary>
    public Pressure Atmosphere { get; }

    /// <summary>Volume that an amount takes as gas at the conditions of the room, as ideal gas.</summary>
    /// <param name="amount">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The amount is negative.</exception>
    public Volume GasVolume(AmountOfSubstance amount) => Volume.FromCubicMeters(
        Guard.InRange(amount.Moles, 0, 1e12, "mol", nameof(amount)) * SubstanceReader.GasConstant * Temperature.Kelvins / Atmosphere.Pascals);

    /// <summary>Volume of gas at a temperature and one atmosphere that a volume of boiling liquid becomes.</summary>
    /// <param name="fluid">A fluid that boils at one atmosphere; of a blend its bubble point counts.</param>
    /// <param name="temperature">Of the gas.</param>
    public static double ExpansionRatio(WorkingFluid fluid, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        Pressure atmosphere = Pressure.FromPascals(101325);
        return fluid.BubblePoint(atmosphere).Density / fluid.At(temperature, atmosphere).Density;
    }

    /// <summary>Oxygen after all of a gas has spread at once, mixed while it pushes air out: 20.9 exp(-V_gas/V), per cent by volume.</summary>
    /// <param name="gas">Volume of the gas at the conditions of the room.</param>
    /// <exception cref="ArgumentOutOfRangeException">The volume is negative.</exception>
    public double OxygenPercentAfter(Volume gas) => NormalOxygenPercent * Math.Exp(-Guard.InRange(gas.CubicMeters, 0, 1e12, "m3", nameof(gas)) / Volume.CubicMeters);

    /// <summary>Share of the gas itself after all of it has spread at once, per cent by volume.</summary>
    /// <param name="gas">Volume of the gas at the conditions of the room.</param>
    /// <exception cref="ArgumentOutOfRangeException">The volume is negative.</exception>
    public double GasPercentAfter(Volume gas) => 100 * (1 - (OxygenPercentAfter(gas) / NormalOxygenPercent));

    /// <summary>Oxygen while gas enters evenly, per cent by volume.</summary>
    /// <param name="gasFlow">Volume flow of the gas at the conditions of the room; where it is more than a fan draws out, only the gas enters.</param>
    /// <param name="time">Since it began to enter, zero or more; null for how it ends.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public double OxygenPercentDuring(VolumeFlow gasFlow, Duration? time = null)
    {
        double q = Guard.InRange(gasFlow.CubicMetersPerSecond, 0, 1e6, "m3/s", nameof(gasFlow));
        double elapsed = time is { } t ? Guard.InRange(t.Seconds, 0, 1e12, "s", nameof(time)) : double.PositiveInfinity;
        double leaving = Leaving(q);
        double end = leaving > 0 ? Math.Max(0, leaving - q) / leaving : 1;
        return NormalOxygenPercent * (q == 0 ? 1 : end + ((1 - end) * Math.Exp(-leaving * elapsed / Volume.CubicMeters)));
    }

    /// <summary>Time until oxygen falls to a share while gas enters evenly; null where it never does.</summary>
    /// <param name="oxygenPercent">Above 0, below 20.9.</param>
    /// <param name="gasFlow">Volume flow of the gas at the conditions of the room, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public Duration? TimeTo(double oxygenPercent, VolumeFlow gasFlow)
    {
        Guard.InRange(oxygenPercent, 1e-6, NormalOxygenPercent - 1e-6, "% by volume");
        double q = Guard.Positive(gasFlow.CubicMetersPerSecond, "m3/s", nameof(gasFlow));
        double end = OxygenPercentDuring(gasFlow);
        return end >= oxygenPercent
            ? null
            : Duration.FromSeconds(Volume.CubicMeters / Leaving(q) * Math.Log((NormalOxygenPercent - end) / (oxygenPercent - end)));
    }

    /// <summary>Air flow of a fan of this kind that keeps oxygen at a share while gas enters for ever.</summary>
    /// <param name="oxygenPercent">Above 0, below 20.9.</param>
    /// <param name="gasFlow">Volume flow of the gas at the conditions of the room.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public VolumeFlow AirFlowFor(double oxygenPercent, VolumeFlow gasFlow)
    {
        Guard.InRange(oxygenPercent, 1e-6, NormalOxygenPercent - 1e-6, "% by volume");
        Guard.InRange(gasFlow.CubicMetersPerSecond, 0, 1e6, "m3/s", nameof(gasFlow));
        double lost = 1 - (oxygenPercent / NormalOxygenPercent);
        return gasFlow * (Ventilation == VentilationKind.Exhaust ? 1 / lost : (1 - lost) / lost);
    }

    /// <summary>What a share of oxygen does to people; null from 19.5 to 23.5 %.</summary>
    /// <param name="oxygenPercent">Per cent by volume, 0 to 100.</param>
    /// <param name="cause">What lowers it, for the figure, for example "2.1 kg of nitrogen in 30 m3".</param>
    /// <exception cref="ArgumentOutOfRangeException">The share is outside its range.</exception>
    public static Caution? CautionFor(double oxygenPercent, string cause)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(cause);
        Guard.InRange(oxygenPercent, 0, 100, "% by volume");
        (CautionSeverity Severity, string Effect)? found = oxygenPercent switch
        {
            < 6 => (CautionSeverity.Danger, "below 6 % one or two breaths take consciousness"),
            < 10 => (CautionSeverity.Danger, "below 10 % people collapse within minutes, without a warning"),
            < 16 => (CautionSeverity.Danger, "below 16 % judgement fails before anything is felt"),
            < 18 => (CautionSeverity.Danger, "below 18 % the room is left (common second alarm)"),
            < 19.5 => (CautionSeverity.Warning, "below 19.5 % the room counts as short of oxygen (alarm, legal limit of confined spaces)"),
            > 23.5 => (CautionSeverity.Danger, "above 23.5 % clothing, oil and most organic matter burn violently"),
            _ => null,
        };
        return found is not { } hit
            ? null
            : new(
                hit.Severity,
                hit.Severity == CautionSeverity.Danger && oxygenPercent > NormalOxygenPercent ? "Room enriched in oxygen" : "Room short of oxygen",
                FormattableString.Invariant($"{cause}: {oxygenPercent:F1} % oxygen by volume, well mixed"),
                hit.Effect,
                $"Ventilate, fit an oxygen monitor where people breathe and where the gas gathers, lead vents and reliefs outdoors, never ride a lift with a dewar. {Caution.Deference}",
                Thresholds);
    }

    // m3/s that leave: with a fan that blows in, or none, all that enters; a fan that draws out takes at least the gas.
    private double Leaving(double gas)
    {
        double air = AirFlow.CubicMetersPerSecond;
        return Ventilation == VentilationKind.Supply ? air + gas : Math.Max(air, gas);
    }
}
