using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Air and water vapour that evacuating and purging leave: each purge dilutes what is there by evacuated over purge pressure, at one
/// temperature and as an ideal gas. Water that is adsorbed on walls or dissolved in oil is not in it: it comes off later and is as a rule the
/// larger part, so the water figure is a lower bound. Immutable and thread-safe.
/// </summary>
public sealed class PurgeCycles
{
    // Dry air, mole fractions: nitrogen, oxygen and argon ISO 2533:1975; carbon dioxide 420 ppm, from memory (that of 2023).
    private static readonly (string Substance, double Fraction)[] DryAir =
        [("nitrogen", 0.78084), ("oxygen", 0.209476), ("argon", 0.00934), ("carbon dioxide", 0.00042)];

    private PurgeCycles(double[] residual, string[] names, double charge)
    {
        Residual = [.. names.Select((n, i) => (n, Pressure.FromPascals(residual[i])))];
        ChargePressure = Pressure.FromPascals(charge);
        Traces = [.. names.Select((n, i) => (Name: n, Ppm: 1e6 * residual[i] / charge))
            .Where(x => x.Ppm is > 0 and <= TraceImpurity.HighestPartsPerMillion)
            .Select(x => new TraceImpurity(x.Name, x.Ppm))];
        ResidualAir = Pressure.FromPascals(residual[..DryAir.Length].Sum());
        ResidualWater = Pressure.FromPascals(residual[^1]);
    }

    /// <summary>Partial pressure of each gas left after the last evacuation; purge gas not counted.</summary>
    public IReadOnlyList<(string Substance, Pressure Partial)> Residual { get; }

    /// <summary>Partial pressure of dry air left.</summary>
    public Pressure ResidualAir { get; }

    /// <summary>Partial pressure of water vapour left, without what walls and oil still give off.</summary>
    public Pressure ResidualWater { get; }

    /// <summary>Absolute pressure of the charge that the traces are counted in, taken at the same temperature as an ideal gas.</summary>
    public Pressure ChargePressure { get; }

    /// <summary>The gases left as traces of the charge; those above 10 000 ppm are no traces and stand in <see cref="Residual"/> only.</summary>
    public IReadOnlyList<TraceImpurity> Traces { get; }

    /// <summary>Follows evacuations and purges that begin with room air in the machine.</summary>
    /// <param name="room">Temperature of room and machine, 274 to 340 K.</param>
    /// <param name="atmosphere">The atmosphere, absolute: 25 to 115 kPa.</param>
    /// <param name="relativeHumidity">Of the room air, 0 to 1.</param>
    /// <param name="evacuated">Absolute pressure each evacuation reaches.</param>
    /// <param name="purge">Absolute pressure each purge fills to, above the evacuated one.</param>
    /// <param name="purges">How many purges lie between the first evacuation and the last: 0 means one evacuation alone.</param>
    /// <param name="chargePressure">Absolute pressure of the charge filled at the end.</param>
    /// <param name="purgeGasWaterPartsPerMillion">Water in the purge gas, ppm (mole), 0 to 10 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static PurgeCycles FromRoomAir(
        Temperature room,
        Pressure atmosphere,
        double relativeHumidity,
        Pressure evacuated,
        Pressure purge,
        int purges,
        Pressure chargePressure,
        double purgeGasWaterPartsPerMillion = 0)
    {
        Guard.InRange(room.Kelvins, 274, 340, "K", nameof(room));
        _ = GaugePressure.FromAbsolute(Pressure.FromPascals(1), atmosphere);
        Guard.InRange(relativeHumidity, 0, 1, "of saturation");
        double low = Guard.InRange(evacuated.Pascals, 1e-6, atmosphere.Pascals, "Pa absolute", nameof(evacuated));
        double high = purge.Pascals;
        if (!(high > low) || !double.IsFinite(high))
        {
            throw new ArgumentOutOfRangeException(nameof(purge), purge, $"purge is {high:G6} Pa absolute; it must be above the evacuated pressure, {low:G6} Pa absolute.");
        }

        Guard.InRange(purges, 0, 1000, "purges");
        double charge = Guard.Positive(chargePressure.Pascals, "Pa absolute", nameof(chargePressure));
        Guard.InRange(purgeGasWaterPartsPerMillion, 0, 10000, "ppm (mole)");

        double water = relativeHumidity * WaterVapor.Pressure(room.Kelvins);
        double waterFraction = water / atmosphere.Pascals;
        double dry = 1 - waterFraction;
        double sum = DryAir.Sum(a => a.Fraction);
        string[] names = [.. DryAir.Select(a => a.Substance), "water"];
        double[] partial = [.. DryAir.Select(a => low * dry * a.Fraction / sum), low * waterFraction];
        for (int k = 0; k < purges; k++)
        {
            // Filled with purge gas from low to high, mixed, evacuated to low again.
            partial[^1] += (high - low) * 1e-6 * purgeGasWaterPartsPerMillion;
            for (int i = 0; i < partial.Length; i++)
            {
                partial[i] *= low / high;
            }
        }

        return new(partial, names, charge);
    }

    /// <summary>
    /// What the traces mean for a charge: the temperature at which each freezes out at the low pressure, and how soon its frost closes a
    /// restriction at the cold end.
    /// </summary>
    /// <param name="charge">The charge.</param>
    /// <param name="lowPressure">Absolute pressure behind the throttle.</param>
    /// <param name="coldEnd">Temperature there.</param>
    /// <param name="flow">Circulating flow.</param>
    /// <param name="bore">Diameter of the restriction.</param>
    /// <param name="length">Its length.</param>
    /// <returns>Water and carbon dioxide, as far as they are left as traces and no part of the charge.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public IReadOnlyList<TraceMeaning> MeaningIn(
        WorkingFluid charge, Pressure lowPressure, Temperature coldEnd, MolarFlow flow, Length bore, Length length)
    {
        ArgumentNullException.ThrowIfNull(charge);
        return
        [
            .. Traces
                .Where(t => t.Substance is "water" or "carbon dioxide" && charge.Composition[t.Substance] == 0)
                .Select(t => new TraceMeaning(
                    t,
                    charge.FreezeOut.FrostPoint(t, lowPressure),
                    charge.FreezeOut.Plugging(t, flow, coldEnd, lowPressure, bore, length))),
        ];
    }

    /// <summary>What is left as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Left by evacuating and purging, in a charge at {ChargePressure.Bars:F3} bar absolute (water on walls and in oil not counted)",
        ["gas", "partial pressure, Pa", "in the charge, ppm (mole)"],
        [.. Residual.Select(r => (IReadOnlyList<string>)[r.Substance, $"{r.Partial.Pascals:G4}", $"{1e6 * r.Partial.Pascals / ChargePressure.Pascals:G4}"])]);
}
