using System.Text.Json;
using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Foam, wool, powder or blanket: its mean conductivity between two temperatures, at 1 atm, evacuated, and between where the half pressure of its pores is known.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Most figures are apparent means between 300 and 77 K. What gas adds, the difference between 1 atm and vacuum, follows the mean conductivity of the gas over
/// the temperatures asked for and its pressure, k_gas/(1 + p_half/p) (Kaganer; Verschoor and Greebler); solid and radiation stay as they are, and so does all of a
/// material that is known at 1 atm only. The half pressure of another gas than air goes with its mean free path.
/// </remarks>
public sealed class PorousInsulation
{
    private const double Atmosphere = 101_325;

    /// <summary>Up to here a pressure counts as evacuated, Pa.</summary>
    private const double Vacuum = 0.1;

    private static readonly Lazy<IReadOnlyList<PorousInsulation>> Loaded =
        new(() => MaterialFile.Read("Insulation/porous-insulations.json", "insulations", i => new PorousInsulation(i)));

    private static readonly Lazy<WorkingFluid> Air = new(() => WorkingFluid.Pure("air"));
    private static readonly Lazy<DiluteGas> AirOverAll = new(() => DiluteGas.Between(Air.Value, 77, 300));

    private readonly double lowest;
    private readonly double highest;
    private readonly double[]? fit;
    private readonly FigureBand<double>? fitShares;
    private readonly FigureBand<double>? full;
    private readonly FigureBand<double>? evacuated;
    private readonly FigureBand<double>? half;

    private PorousInsulation(JsonElement record)
    {
        Name = record.GetProperty("name").GetString()!;
        lowest = record.GetProperty("lowestKelvins").GetDouble();
        highest = record.GetProperty("highestKelvins").GetDouble();
        Remark = MaterialFile.Text(record, "remark");
        List<Source> sources = [];
        if (record.TryGetProperty("fit", out JsonElement given))
        {
            fit = MaterialFile.Numbers(given, "logarithmic");
            fitShares = new(1, given.GetProperty("leastShare").GetDouble(), given.GetProperty("greatestShare").GetDouble());
            Density = FromDensity(given);
            sources.Add(MaterialFile.Source(given));
        }

        if (record.TryGetProperty("atOneAtmosphere", out JsonElement atOne))
        {
            full = Band(atOne);
            Density = FromDensity(atOne);
            sources.Add(MaterialFile.Source(atOne));
        }

        if (record.TryGetProperty("evacuated", out JsonElement inVacuum))
        {
            evacuated = Band(inVacuum);
            EvacuatedDensity = FromDensity(inVacuum);
            sources.Add(MaterialFile.Source(inVacuum));
        }

        if (MaterialFile.Numbers(record, "halfPressurePascals") is { } ends)
        {
            half = new(Math.Sqrt(ends[0] * ends[1]), ends[0], ends[1]);
            sources.Add(MaterialFile.Source(record, "halfPressureSource"));
        }

        Sources = sources;
    }

    /// <summary>All insulations known.</summary>
    public static IReadOnlyList<PorousInsulation> All => Loaded.Value;

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Density of the sample at 1 atm; null where none was at 1 atm.</summary>
    public Density? Density { get; }

    /// <summary>Density of the sample in vacuum; null where none was in vacuum.</summary>
    public Density? EvacuatedDensity { get; }

    /// <summary>Lowest temperature of a boundary.</summary>
    public Temperature Lowest => Temperature.FromKelvins(lowest);

    /// <summary>Highest temperature of a boundary.</summary>
    public Temperature Highest => Temperature.FromKelvins(highest);

    /// <summary>Whether it is known at 1 atm.</summary>
    public bool IsKnownAtOneAtmosphere => fit is not null || full is not null;

    /// <summary>Whether it is known evacuated, below 0.1 Pa.</summary>
    public bool IsKnownEvacuated => evacuated is not null;

    /// <summary>Pressure of air, at the mean of 77 and 300 K, at which the gas in the pores conducts half of what it would between far walls; null where it is not known. Nominal is the geometric mean.</summary>
    public FigureBand<Pressure>? HalfPressure => half is null ? null : new(Pressure.FromPascals(half.Nominal), Pressure.FromPascals(half.Least), Pressure.FromPascals(half.Greatest));

    /// <summary>Width of the pores that the half pressure of air stands for, 2 beta times the mean free path there; null where it is not known.</summary>
    public FigureBand<Length>? PoreWidth => half is null ? null : new(Pore(half.Nominal), Pore(half.Greatest), Pore(half.Least));

    /// <summary>Where the figures come from.</summary>
    public IReadOnlyList<Source> Sources { get; }

    /// <summary>What to know before using it; null for nothing.</summary>
    public string? Remark { get; }

    /// <summary>Finds an insulation.</summary>
    /// <param name="name">Its name, for example "perlite, coarse"; case does not matter.</param>
    /// <exception cref="ArgumentException">There is none; the message lists them.</exception>
    public static PorousInsulation Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return All.FirstOrDefault(i => string.Equals(i.Name, name.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"name is '{name}'; known are {string.Join("; ", All.Select(i => i.Name))}.", nameof(name));
    }

    /// <summary>Mean conductivity between two boundaries: the integral of k dT over their difference.</summary>
    /// <param name="cold">Within the range of the insulation.</param>
    /// <param name="warm">Within the range of the insulation; either may be the warmer.</param>
    /// <param name="pressure">Of the gas in its pores, absolute, up to 1.1 atm; 1 atm where left out.</param>
    /// <param name="gas">The gas; air where left out.</param>
    /// <returns>Nominal, with least and greatest by the uncertainties stated.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside of what is known: there is no figure.</exception>
    public FigureBand<ThermalConductivity> MeanConductivity(Temperature cold, Temperature warm, Pressure? pressure = null, WorkingFluid? gas = null)
    {
        FigureBand<double> k = Mean(Check(cold, nameof(cold)), Check(warm, nameof(warm)), pressure?.Pascals ?? Atmosphere, gas);
        return new(ThermalConductivity.FromWattsPerMeterKelvin(k.Nominal), ThermalConductivity.FromWattsPerMeterKelvin(k.Least), ThermalConductivity.FromWattsPerMeterKelvin(k.Greatest));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The mean, W/(m K), between temperatures in K within the range, at a pressure in Pa.</summary>
    internal FigureBand<double> Mean(double cold, double warm, double pressure, WorkingFluid? gas)
    {
        Guard.InRange(pressure, 0, 1.1 * Atmosphere, "Pa absolute");
        bool isFull = pressure > 0.9 * Atmosphere;
        if (pressure <= Vacuum && evacuated is not null && full is null)
        {
            return evacuated;
        }

        if (fit is not null || evacuated is null || half is null)
        {
            if (!isFull || !IsKnownAtOneAtmosphere)
            {
                string known = string.Join(" and ", new[] { IsKnownAtOneAtmosphere ? "at 1 atm" : null, IsKnownEvacuated ? "below 0.1 Pa" : null }.OfType<string>());
                throw new ArgumentOutOfRangeException(nameof(pressure), pressure, $"pressure is {pressure:G4} Pa absolute; the conductivity of {Name} is known {known} only.");
            }

            if (gas is not null && Accommodation.KeyOf(gas) != "air")
            {
                throw new ArgumentException($"gas is {gas.Composition}; the conductivity of {Name} is known in air only.", nameof(gas));
            }
        }

        if (fit is not null)
        {
            double mean = Math.Abs(warm - cold) < 1e-6 ? Fit(cold) : TemperatureIntegral.Of(Fit, cold, warm, []) / (warm - cold);
            return new(mean, fitShares!.Least * mean, fitShares.Greatest * mean);
        }

        if (evacuated is null || half is null)
        {
            return full!;
        }

        DiluteGas air = AirOverAll.Value;
        DiluteGas own = DiluteGas.Between(gas ?? Air.Value, cold, warm);
        double conductivity = own.Conductivity / air.Conductivity;
        double free = Free(own) / Free(air);
        double Sum(double whole, double bare, double halfPressure)
        {
            double pores = pressure > 0 ? (1 + (halfPressure / Atmosphere)) / (1 + (free * halfPressure / pressure)) : 0;
            return bare + ((whole - bare) * conductivity * pores);
        }

        return new(
            Sum(full!.Nominal, evacuated.Nominal, half.Nominal),
            Sum(full.Least, evacuated.Least, half.Greatest),
            Sum(full.Greatest, evacuated.Greatest, half.Least));
    }

    internal double Check(Temperature temperature, string parameter)
    {
        double t = temperature.Kelvins;
        return t >= lowest && t <= highest
            ? t
            : throw new ArgumentOutOfRangeException(
                parameter, t, $"{parameter} is {t:G6} K; the conductivity of {Name} is known from {lowest:G6} to {highest:G6} K only. For a room warmer than that take {highest:G6} K and raise the heat with the difference of temperature.");
    }

    // 2 beta times mean free path times pressure, m Pa; beta = (2 gamma/(gamma+1))/Pr with full accommodation.
    private static double Free(in DiluteGas gas) => 2 * (2 * gas.Gamma / (gas.Gamma + 1)) / gas.Prandtl * gas.MeanFreePathPressure;

    private static Length Pore(double halfPressure) => Length.FromMeters(Free(AirOverAll.Value) / halfPressure);

    private static Density FromDensity(JsonElement record) => UnitsNet.Density.FromKilogramsPerCubicMeter(record.GetProperty("densityKilogramsPerCubicMeter").GetDouble());

    private static FigureBand<double> Band(JsonElement record)
    {
        double k = 1e-3 * record.GetProperty("milliwattsPerMeterKelvin").GetDouble();
        if (MaterialFile.Numbers(record, "rangeMilliwattsPerMeterKelvin") is { } range)
        {
            return new(k, 1e-3 * range[0], 1e-3 * range[1]);
        }

        double share = record.GetProperty("uncertaintyShare").GetDouble();
        return new(k, k * (1 - share), k * (1 + share));
    }

    private double Fit(double t)
    {
        double x = Math.Log10(t);
        double sum = 0;
        for (int i = fit!.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + fit[i];
        }

        return Math.Pow(10, sum);
    }
}
