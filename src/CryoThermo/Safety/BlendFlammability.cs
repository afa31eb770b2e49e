using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// How a blend burns in air, from published limits of its substances, the unfavourable end of every spread: Le Chatelier's rule for the limits (US Bureau of Mines
/// Bulletin 503), Zabetakis's corrections for temperature and pressure (Bulletin 627), ISO 10156 for whether it burns at all. All from memory. Immutable and thread-safe.
/// An estimate that points at a hazard: measured limits and local codes decide.
/// </summary>
public sealed class BlendFlammability
{
    /// <summary>Share of the lower limit that the loss of a whole charge may reach in a room: ISO 5149 and EN 378, practical limit of A3 refrigerants (from memory).</summary>
    public const double AllowedShareOfLowerLimit = 0.2;

    private const double JoulesPerCalorie = 4.184;
    private const double LimitKelvins = 298.15;

    private readonly List<(SubstanceHazard Hazard, double Share)> fuels = [];
    private readonly double molarMass;

    /// <summary>Assesses a blend.</summary>
    /// <param name="contents">Substances and mole fractions.</param>
    /// <exception cref="ArgumentException">A substance has no record: what is not known is not told to be safe.</exception>
    public BlendFlammability(IReadOnlyList<SubstanceShare> contents)
    {
        ArgumentNullException.ThrowIfNull(contents);
        Flammability found = Flammability.Of(contents);
        if (found.Unknown.Count > 0)
        {
            throw new ArgumentException($"contents holds {string.Join(", ", found.Unknown)}, of which the library knows no fire behaviour; ask its safety data sheet.", nameof(contents));
        }

        foreach (SubstanceShare share in contents.Where(s => s.MoleFraction > 0))
        {
            if (HazardTable.TryFind(share.Substance, out SubstanceHazard? hazard) && hazard.Behaviour == FireBehaviour.Flammable)
            {
                fuels.Add((hazard, share.MoleFraction));
            }
        }

        FuelFraction = found.FuelFraction;
        Burns = found.Burns;
        LowerLimitPercent = found.LowerLimitPercent;
        Index = found.Index;
        SafetyGroup = found.WorstGroup;
        Autoignition = found.LowestAutoignitionCelsius is { } celsius ? Temperature.FromDegreesCelsius(celsius) : null;
        FirstToIgnite = found.FirstToIgnite;
        molarMass = fuels.Sum(f => f.Share * f.Hazard.MolarMassGramsPerMole!.Value / 1000);
        FlammabilityClass = ClassOf(contents);
        if (fuels.Count > 0)
        {
            LimitingOxygenPercent = fuels.Min(f => f.Hazard.LimitingOxygenInNitrogenPercent);
            if (fuels.All(f => f.Hazard.UpperFlammabilityLimitPercent is not null))
            {
                UpperLimitPercent = 1 / fuels.Sum(f => f.Share / f.Hazard.UpperFlammabilityLimitPercent!.Most);
            }
        }
    }

    /// <summary>Mole fraction of what burns.</summary>
    public double FuelFraction { get; }

    /// <summary>Whether the blend burns in some proportion with air (ISO 10156), or holds an oxidiser beside a fuel.</summary>
    public bool Burns { get; }

    /// <summary>Lower limit of the whole blend in air of 25 °C, per cent by volume; above 100 when it cannot be reached; null without fuel.</summary>
    public double? LowerLimitPercent { get; }

    /// <summary>Upper limit, inert gas only diluting; null without fuel or where one of a fuel is not known. Inert gas narrows it in truth.</summary>
    public double? UpperLimitPercent { get; }

    /// <summary>Sum of ISO 10156: above 1 it burns; null without fuel.</summary>
    public double? Index { get; }

    /// <summary>Least limiting oxygen of its fuels in nitrogen, per cent by volume: below, no mixture burns. Null without fuel or where none is known.</summary>
    public double? LimitingOxygenPercent { get; }

    /// <summary>
    /// Flammability class the blend as a whole may expect by the thresholds of ISO 817 (from memory): "1" where it does not burn in air by ISO 10156, "3" with a lower limit of at most 3.5 %
    /// or 19 MJ/kg and more, else "2 or 2L", which a burning velocity of 10 cm/s tells apart; "not told" where a molar mass is not known. The standard classes the worst case of
    /// fractionation, after tests: never take this for the class.
    /// </summary>
    public string FlammabilityClass { get; }

    /// <summary>ISO 817 safety group of the worst component; null without fuel.</summary>
    public string? SafetyGroup { get; }

    /// <summary>Lowest autoignition temperature of its fuels; null without fuel.</summary>
    public Temperature? Autoignition { get; }

    /// <summary>The fuel it belongs to; null without fuel.</summary>
    public string? FirstToIgnite { get; }

    /// <summary>Lower limit as mass of the blend's fuel over volume of air at 25 °C and one atmosphere; null without fuel.</summary>
    public Density? LowerLimitMass => LowerLimitPercent is { } percent
        ? Density.FromKilogramsPerCubicMeter(percent / 100 * molarMass * 101325 / (SubstanceReader.GasConstant * LimitKelvins))
        : null;

    /// <summary>Lower limit at another temperature: each fuel's by 1 - 0.75 (T - 25)/(L Hc), Hc in kcal/mol.</summary>
    /// <param name="temperature">Of the mixture with air, 250 to 600 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    /// <exception cref="InvalidOperationException">The blend holds no fuel.</exception>
    public double LowerLimitPercentAt(Temperature temperature)
    {
        double above = Guard.InRange(temperature.Kelvins, 250, 600, "K", nameof(temperature)) - LimitKelvins;
        return 1 / Fuels().Sum(f =>
        {
            double limit = f.Hazard.LowerFlammabilityLimitPercent!.Least;
            return f.Share / (limit - (0.75 * above / (f.Hazard.NetHeatOfCombustionKilojoulesPerMole!.Value / JoulesPerCalorie)));
        });
    }

    /// <summary>Upper limit at a pressure, per cent by volume: 20.6 (log10(p/MPa) + 1) more for hydrocarbons above one atmosphere, at most 100.</summary>
    /// <param name="pressure">Absolute, 1 to 200 bar.</param>
    /// <returns>Null where no upper limit is known.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public double? UpperLimitPercentAt(Pressure pressure)
    {
        double bars = Guard.InRange(pressure.Bars, 1, 200, "bar absolute", nameof(pressure));
        return UpperLimitPercent is { } limit ? Math.Min(100, limit + (20.6 * Math.Max(0, Math.Log10(bars / 10) + 1))) : null;
    }

    /// <summary>
    /// The fuel that a room may take so that all of it, lost and well mixed, stays below a fifth of the lower limit. Standards limit the charge further: by
    /// the room's floor, the height of release, the kind of place and an absolute bound.
    /// </summary>
    /// <param name="room">Free volume.</param>
    /// <exception cref="ArgumentOutOfRangeException">The volume is not above zero.</exception>
    /// <exception cref="InvalidOperationException">The blend holds no fuel.</exception>
    public Mass ChargeFor(Volume room)
    {
        Guard.Positive(room.CubicMeters, "m3", nameof(room));
        Fuels();
        return Mass.FromKilograms(AllowedShareOfLowerLimit * LowerLimitMass!.Value.KilogramsPerCubicMeter * room.CubicMeters);
    }

    /// <summary>
    /// The fuel in the spirit of IEC 60335-2-40 for a flammable refrigerant that sinks: 2.5 L^(5/4) h sqrt(A), with the lower limit L in kg/m3 (from memory; check the
    /// edition in force).
    /// </summary>
    /// <param name="floor">Area of the room.</param>
    /// <param name="releaseHeight">Height at which a leak lets out: 0.6 m on the floor, 1.0 at a window, 1.8 on the wall, 2.2 under the ceiling.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    /// <exception cref="InvalidOperationException">The blend holds no fuel.</exception>
    public Mass ChargeFor(Area floor, Length releaseHeight)
    {
        double a = Guard.Positive(floor.SquareMeters, "m2", nameof(floor));
        double h = Guard.InRange(releaseHeight.Meters, 0.1, 3, "m", nameof(releaseHeight));
        Fuels();
        return Mass.FromKilograms(2.5 * Math.Pow(LowerLimitMass!.Value.KilogramsPerCubicMeter, 1.25) * h * Math.Sqrt(a));
    }

    private string ClassOf(IReadOnlyList<SubstanceShare> contents)
    {
        if (!Burns)
        {
            return "1";
        }

        if (LowerLimitPercent <= 3.5)
        {
            return "3";
        }

        double mass = 0;
        foreach (SubstanceShare share in contents.Where(s => s.MoleFraction > 0))
        {
            if (!SubstanceCatalog.Default.TryFind(share.Substance, out Substance? substance))
            {
                return "not told";
            }

            mass += share.MoleFraction * substance.MolarMass;
        }

        // kJ/mol over kg/mol is kJ/kg.
        double heat = fuels.Sum(f => f.Share * f.Hazard.NetHeatOfCombustionKilojoulesPerMole!.Value) / mass;
        return heat >= 19e3 ? "3" : "2 or 2L";
    }

    private List<(SubstanceHazard Hazard, double Share)> Fuels() =>
        fuels.Count > 0 ? fuels : throw new InvalidOperationException("The blend holds nothing that burns.");
}
