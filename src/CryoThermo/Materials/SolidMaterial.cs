using System.Text.Json;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// A construction material and what is known of it when cold: thermal conductivity, heat capacity, density, contraction, and whether it is fit for the
/// cold, each with its sources and uncertainty, each missing where the library has no figure. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Heat through a bar is (A/L) times the integral of k dT between its end temperatures. Do not average k of the ends: pure metals have a
/// maximum between.
/// </remarks>
public sealed class SolidMaterial
{
    private static readonly Lazy<IReadOnlyList<SolidMaterial>> Loaded = new(() => MaterialFile.Read("Materials/solid-conductivity.json", "materials", m => new SolidMaterial(m)));

    private readonly SolidRecord? data;
    private readonly double fitEnd;
    private readonly double[][] table;
    private readonly double[] nodes;
    private readonly MonotoneCubic? integrals;

    private SolidMaterial(JsonElement record)
    {
        Name = record.GetProperty("name").GetString()!;
        AlsoKnownAs = MaterialFile.Texts(record, "alsoKnownAs");
        Family = Enum.Parse<MaterialFamily>(record.GetProperty("family").GetString()!, ignoreCase: true);
        data = SolidRecord.Read(record);
        double[][] given = data?.Table ?? [];
        fitEnd = data is null || (data.Logarithmic is null && data.Rational is null) ? double.NegativeInfinity : data.FitEndsAtKelvins ?? double.PositiveInfinity;

        // The table joins the fit where that ends.
        table = double.IsFinite(fitEnd) ? [[fitEnd, Fit(fitEnd)], .. given] : given;
        if (data?.IntegralTable is { } rows)
        {
            integrals = new([.. rows.Select(r => r[0])], [.. rows.Select(r => r[1])]);
        }

        nodes = [.. (data?.IntegralTable ?? table).Select(p => p[0])];
        Sources = [.. new[] { data?.Source, data?.TableSource }.OfType<Source>()];
        HeatCapacity = SolidHeatCapacity.Of(Name);
        Contraction = ThermalContraction.Of(Name);
        ColdService = ColdService.OfMaterial(Name);
    }

    /// <summary>All materials known.</summary>
    public static IReadOnlyList<SolidMaterial> All => Loaded.Value;

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Other names it is found by.</summary>
    public IReadOnlyList<string> AlsoKnownAs { get; }

    /// <summary>What kind of solid it is.</summary>
    public MaterialFamily Family { get; }

    /// <summary>Whether its thermal conductivity is known.</summary>
    public bool HasConductivity => data is not null;

    /// <summary>Lowest temperature of its conductivity.</summary>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public Temperature Lowest => Temperature.FromKelvins(Conductivity.LowestKelvins);

    /// <summary>Highest temperature of its conductivity.</summary>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public Temperature Highest => Temperature.FromKelvins(Conductivity.HighestKelvins);

    /// <summary>How far the conductivity may be off, as a share of it; what that rests on is in <see cref="UncertaintyBasis"/>.</summary>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public double UncertaintyShare => Conductivity.UncertaintyShare;

    /// <summary>What the uncertainty rests on.</summary>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public string UncertaintyBasis => Conductivity.UncertaintyBasis;

    /// <summary>Where the conductivity comes from; empty where the library has none.</summary>
    public IReadOnlyList<Source> Sources { get; }

    /// <summary>What to know before using the conductivity; null for nothing.</summary>
    public string? Remark => data?.Remark;

    /// <summary>Range, uncertainty and sources of heat capacity and density; null where the library has none.</summary>
    public SolidHeatCapacity? HeatCapacity { get; }

    /// <summary>How much it shrinks from 293 K; null where the library has no figure.</summary>
    public ThermalContraction? Contraction { get; }

    /// <summary>Whether it is fit for the cold; null where the library holds no statement.</summary>
    public ColdService? ColdService { get; }

    /// <summary>Density at 293 K; of metals within 1 % the same when cold.</summary>
    /// <exception cref="InvalidOperationException">The library has none for this material.</exception>
    public Density Density => Density.FromKilogramsPerCubicMeter(HeatCapacity?.DensityKilogramsPerCubicMeter ?? throw Unknown("density", m => m.HeatCapacity?.DensityKilogramsPerCubicMeter is not null));

    private SolidRecord Conductivity => data ?? throw Unknown("conductivity", m => m.HasConductivity);

    /// <summary>Finds a material.</summary>
    /// <param name="name">Its name or another of it, for example "stainless steel 304"; case does not matter.</param>
    /// <exception cref="ArgumentException">There is none; the message lists them.</exception>
    public static SolidMaterial Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return All.FirstOrDefault(m => m.AlsoKnownAs.Prepend(m.Name).Contains(name.Trim(), StringComparer.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"name is '{name}'; known are {string.Join("; ", All.Select(m => m.Name))}.", nameof(name));
    }

    /// <summary>Thermal conductivity at a temperature.</summary>
    /// <param name="temperature">Within the range of the conductivity.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public ThermalConductivity ConductivityAt(Temperature temperature) => ThermalConductivity.FromWattsPerMeterKelvin(At(Check(temperature, nameof(temperature))));

    /// <summary>Integral of k dT between two temperatures, W/m; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of the conductivity.</param>
    /// <param name="to">Within the range of the conductivity.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has no conductivity of it.</exception>
    public double ConductivityIntegralWattsPerMeter(Temperature from, Temperature to) => Integral(Check(from, nameof(from)), Check(to, nameof(to)));

    /// <summary>Heat capacity at a temperature, J/(kg K).</summary>
    /// <param name="temperature">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has none for this material.</exception>
    public SpecificEntropy HeatCapacityAt(Temperature temperature)
    {
        SolidHeatCapacity known = KnownHeatCapacity;
        return SpecificEntropy.FromJoulesPerKilogramKelvin(known.At(known.Check(temperature, Name, nameof(temperature))));
    }

    /// <summary>Heat that warms a kilogram from one temperature to another, J/kg; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <param name="to">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has none for this material.</exception>
    public double EnthalpyJoulesPerKilogram(Temperature from, Temperature to)
    {
        SolidHeatCapacity known = KnownHeatCapacity;
        return known.Integral(known.Check(from, Name, nameof(from)), known.Check(to, Name, nameof(to)));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>Refuses a material without a conductivity as an argument.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    internal void RequireConductivity(string parameter)
    {
        if (data is null)
        {
            throw new ArgumentException($"{parameter} is {Name}, whose thermal conductivity is not known here.", parameter);
        }
    }

    /// <summary>The integral, W/m, temperatures in K, with the conductivity of the warm end of the range held above it.</summary>
    internal double IntegralHeld(double from, double to)
    {
        double end = Conductivity.HighestKelvins;
        double sum = Integral(Math.Min(from, end), Math.Min(to, end));
        return sum + (At(end) * (Math.Max(to, end) - Math.Max(from, end)));
    }

    /// <summary>The conductivity, W/(m K), at a temperature in K, with that of the nearer end of its range held beyond.</summary>
    internal double ConductivityHeld(double temperature) => At(Math.Clamp(temperature, Conductivity.LowestKelvins, Conductivity.HighestKelvins));

    private SolidHeatCapacity KnownHeatCapacity => HeatCapacity ?? throw Unknown("heat capacity", m => m.HeatCapacity is not null);

    private InvalidOperationException Unknown(string what, Func<SolidMaterial, bool> isKnown) => new(
        $"The {what} of {Name} is not known here; known it is of {string.Join("; ", All.Where(isKnown).Select(m => m.Name))}.");

    private double Integral(double from, double to) => TemperatureIntegral.Of(At, from, to, nodes);

    private double Check(Temperature temperature, string parameter)
    {
        double t = temperature.Kelvins;
        SolidRecord known = Conductivity;
        return t >= known.LowestKelvins && t <= known.HighestKelvins
            ? t
            : throw new ArgumentOutOfRangeException(
                parameter, t, $"{parameter} is {t:G6} K; the conductivity of {Name} is known from {known.LowestKelvins:G6} to {known.HighestKelvins:G6} K only.{(Remark is null ? string.Empty : " " + Remark)}");
    }

    private double At(double t)
    {
        if (integrals is not null)
        {
            return integrals.SlopeAt(t);
        }

        if (t <= fitEnd)
        {
            return Fit(t);
        }

        int i = 1;
        while (i < table.Length - 1 && table[i][0] < t)
        {
            i++;
        }

        return table[i - 1][1] + ((table[i][1] - table[i - 1][1]) * (t - table[i - 1][0]) / (table[i][0] - table[i - 1][0]));
    }

    private double Fit(double t) => data!.Logarithmic is { } a
        ? Math.Pow(10, Polynomial(a, Math.Log10(t)))
        : Math.Pow(10, Polynomial(data!.Rational!.Numerator, Math.Sqrt(t)) / Polynomial(data.Rational.Denominator, Math.Sqrt(t)));

    private static double Polynomial(double[] coefficients, double x)
    {
        double sum = 0;
        for (int i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }
}
