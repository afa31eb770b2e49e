using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>All of a charge let out into a room: what the air becomes. Immutable and thread-safe. An estimate for a well-mixed room, or a share of it.</summary>
public sealed class LostCharge
{
    /// <summary>Computes it.</summary>
    /// <param name="contents">Substances and mole fractions.</param>
    /// <param name="amount">Moles of the charge, above zero.</param>
    /// <param name="room">The room.</param>
    /// <param name="mixedShare">Share of the room that the gas mixes with: cold vapour lies low, and a quarter is not too little (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    /// <exception cref="ArgumentException">The fire behaviour of a substance is not known.</exception>
    public LostCharge(IReadOnlyList<SubstanceShare> contents, AmountOfSubstance amount, RoomAir room, double mixedShare = 1)
    {
        ArgumentNullException.ThrowIfNull(room);
        Guard.Positive(amount.Moles, "mol", nameof(amount));
        Guard.InRange(mixedShare, 0.01, 1, "(share)");
        Fire = new(contents);
        Room = room;
        MixedShare = mixedShare;
        GasVolume = room.GasVolume(amount);
        Volume spread = GasVolume / mixedShare;
        GasPercent = room.GasPercentAfter(spread);
        double oxygen = contents.Sum(s => HazardTable.TryFind(s.Substance, out SubstanceHazard? h) && h.Name == "oxygen" ? s.MoleFraction : 0);
        OxygenPercent = room.OxygenPercentAfter(spread) + (GasPercent * oxygen);
        ShareOfLowerLimit = Fire.LowerLimitPercent is { } limit ? GasPercent / limit : null;
    }

    /// <summary>How the charge burns.</summary>
    public BlendFlammability Fire { get; }

    /// <summary>The room.</summary>
    public RoomAir Room { get; }

    /// <summary>Share of the room that the gas mixes with.</summary>
    public double MixedShare { get; }

    /// <summary>Volume of the charge as gas in the room.</summary>
    public Volume GasVolume { get; }

    /// <summary>Charge in the air, per cent by volume.</summary>
    public double GasPercent { get; }

    /// <summary>Oxygen in the air, per cent by volume.</summary>
    public double OxygenPercent { get; }

    /// <summary>Charge in the air over its lower flammability limit; null without fuel.</summary>
    public double? ShareOfLowerLimit { get; }

    /// <summary>The cautions that apply, the gravest first.</summary>
    public IReadOnlyList<Caution> Cautions
    {
        get
        {
            List<Caution> found = [];
            string cause = FormattableString.Invariant($"{GasVolume.CubicMeters:G3} m3 of gas lost into {100 * MixedShare:F0} % of {Room.Volume.CubicMeters:G4} m3");
            if (ShareOfLowerLimit is { } share && Fire.Burns && share > BlendFlammability.AllowedShareOfLowerLimit)
            {
                found.Add(new(
                    share >= 1 ? CautionSeverity.Danger : CautionSeverity.Warning,
                    share >= 1 ? "A lost charge makes the room flammable" : "A lost charge comes near the lower limit",
                    FormattableString.Invariant($"{cause}: {GasPercent:F2} % by volume, {100 * share:F0} % of the lower limit of {Fire.LowerLimitPercent:F2} %"),
                    "a whole charge lost stays below a fifth of the lower flammability limit (practical limit of A3 refrigerants)",
                    $"Less charge, a larger or ventilated room, or the machine outdoors; a gas detector that cuts the power. Charge limits: IEC 60335-2-40, ISO 5149, EN 378 as they apply. {Caution.Deference}",
                    new Source("ISO 5149, EN 378: practical limit 0.008 kg/m3 of A3; IEC 60335-2-40", FromMemory: true)));
            }

            if (RoomAir.CautionFor(OxygenPercent, cause) is { } caution)
            {
                found.Add(caution);
            }

            return [.. found.OrderByDescending(c => c.Severity)];
        }
    }
}
