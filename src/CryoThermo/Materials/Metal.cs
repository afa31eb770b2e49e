using System.Text.Json;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Materials;

/// <summary>
/// A metal and its thermal conductivity from its lowest to its highest temperature, with sources and uncertainty; heat capacity and density where they
/// are known. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Heat through a bar is (A/L) times the integral of k dT between its end temperatures. Do not average k of the ends: pure metals have a
/// maximum between.
/// </remarks>
public sealed class Metal
{
    private const string ResourceName = "Materials/metal-conductivity.json";

    private static readonly Lazy<IReadOnlyList<Metal>> Loaded = new(Load);

    private readonly MetalRecord data;
    private readonly double fitEnd;
    private readonly double[][] table;
    private readonly double[] nodes;

    private Metal(MetalRecord data)
    {
        this.data = data;
        double[][] given = data.Table ?? [];
        fitEnd = data.Logarithmic is null && data.Rational is null ? double.NegativeInfinity : data.FitEndsAtKelvins ?? double.PositiveInfinity;

        // The table joins the fit where that ends.
        table = double.IsFinite(fitEnd) ? [[fitEnd, Fit(fitEnd)], .. given] : given;
        nodes = [.. table.Select(p => p[0])];
        Sources = [.. new[] { data.Source, data.TableSource }.OfType<Source>()];
        HeatCapacity = MetalHeatCapacity.Of(data.Name);
    }

    /// <summary>All metals known.</summary>
    public static IReadOnlyList<Metal> All => Loaded.Value;

    /// <summary>Its name.</summary>
    public string Name => data.Name;

    /// <summary>Other names it is found by.</summary>
    public IReadOnlyList<string> AlsoKnownAs => data.AlsoKnownAs;

    /// <summary>Lowest temperature of its conductivity.</summary>
    public Temperature Lowest => Temperature.FromKelvins(data.LowestKelvins);

    /// <summary>Highest temperature of its conductivity.</summary>
    public Temperature Highest => Temperature.FromKelvins(data.HighestKelvins);

    /// <summary>How far the conductivity may be off, as a share of it; what that rests on is in <see cref="UncertaintyBasis"/>.</summary>
    public double UncertaintyShare => data.UncertaintyShare;

    /// <summary>What the uncertainty rests on.</summary>
    public string UncertaintyBasis => data.UncertaintyBasis;

    /// <summary>Where the conductivity comes from.</summary>
    public IReadOnlyList<Source> Sources { get; }

    /// <summary>What to know before using it; null for nothing.</summary>
    public string? Remark => data.Remark;

    /// <summary>Range, uncertainty and sources of heat capacity and density; null where the library has none for this metal.</summary>
    public MetalHeatCapacity? HeatCapacity { get; }

    /// <summary>Density at 293 K; within 1 % the same when cold.</summary>
    /// <exception cref="InvalidOperationException">The library has none for this metal.</exception>
    public Density Density => Density.FromKilogramsPerCubicMeter(Known("density").DensityKilogramsPerCubicMeter);

    /// <summary>Finds a metal.</summary>
    /// <param name="name">Its name or another of it, for example "stainless steel 304"; case does not matter.</param>
    /// <exception cref="ArgumentException">There is none; the message lists them.</exception>
    public static Metal Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return All.FirstOrDefault(m => m.AlsoKnownAs.Prepend(m.Name).Contains(name.Trim(), StringComparer.OrdinalIgnoreCase))
            ?? throw new ArgumentException($"name is '{name}'; known are {string.Join(", ", All.Select(m => m.Name))}.", nameof(name));
    }

    /// <summary>Thermal conductivity at a temperature.</summary>
    /// <param name="temperature">Within the range of the metal.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public ThermalConductivity ConductivityAt(Temperature temperature) => ThermalConductivity.FromWattsPerMeterKelvin(At(Check(temperature, nameof(temperature))));

    /// <summary>Integral of k dT between two temperatures, W/m; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of the metal.</param>
    /// <param name="to">Within the range of the metal.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    public double ConductivityIntegralWattsPerMeter(Temperature from, Temperature to) => Integral(Check(from, nameof(from)), Check(to, nameof(to)));

    /// <summary>Heat capacity at a temperature, J/(kg K).</summary>
    /// <param name="temperature">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has none for this metal.</exception>
    public SpecificEntropy HeatCapacityAt(Temperature temperature)
    {
        MetalHeatCapacity known = Known("heat capacity");
        return SpecificEntropy.FromJoulesPerKilogramKelvin(known.At(known.Check(temperature, Name, nameof(temperature))));
    }

    /// <summary>Heat that warms a kilogram from one temperature to another, J/kg; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <param name="to">Within the range of <see cref="HeatCapacity"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range: there is no figure.</exception>
    /// <exception cref="InvalidOperationException">The library has none for this metal.</exception>
    public double EnthalpyJoulesPerKilogram(Temperature from, Temperature to)
    {
        MetalHeatCapacity known = Known("heat capacity");
        return known.Integral(known.Check(from, Name, nameof(from)), known.Check(to, Name, nameof(to)));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The integral, W/m, temperatures in K, with the conductivity of the warm end of the range held above it.</summary>
    internal double IntegralHeld(double from, double to)
    {
        double end = data.HighestKelvins;
        double sum = Integral(Math.Min(from, end), Math.Min(to, end));
        return sum + (At(end) * (Math.Max(to, end) - Math.Max(from, end)));
    }

    /// <summary>The conductivity, W/(m K), at a temperature in K, with that of the nearer end of its range held beyond.</summary>
    internal double ConductivityHeld(double temperature) => At(Math.Clamp(temperature, data.LowestKelvins, data.HighestKelvins));

    private MetalHeatCapacity Known(string what) => HeatCapacity ?? throw new InvalidOperationException(
        $"The {what} of {Name} is not known here; known it is of {string.Join(", ", All.Where(m => m.HeatCapacity is not null).Select(m => m.Name))}.");

    private double Integral(double from, double to) => TemperatureIntegral.Of(At, from, to, nodes);

    private double Check(Temperature temperature, string parameter)
    {
        double t = temperature.Kelvins;
        return t >= data.LowestKelvins && t <= data.HighestKelvins
            ? t
            : throw new ArgumentOutOfRangeException(
                parameter, t, $"{parameter} is {t:G6} K; the conductivity of {Name} is known from {data.LowestKelvins:G6} to {data.HighestKelvins:G6} K only.{(Remark is null ? string.Empty : " " + Remark)}");
    }

    private double At(double t)
    {
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

    private double Fit(double t) => data.Logarithmic is { } a
        ? Math.Pow(10, Polynomial(a, Math.Log10(t)))
        : Math.Pow(10, Polynomial(data.Rational!.Numerator, Math.Sqrt(t)) / Polynomial(data.Rational.Denominator, Math.Sqrt(t)));

    private static double Polynomial(double[] coefficients, double x)
    {
        double sum = 0;
        for (int i = coefficients.Length - 1; i >= 0; i--)
        {
            sum = (sum * x) + coefficients[i];
        }

        return sum;
    }

    private static Metal[] Load()
    {
        using Stream stream = typeof(Metal).Assembly.GetManifestResourceStream(ResourceName)
            ?? throw new SubstanceDataException(ResourceName, "(file)", "the embedded resource is missing.");
        using JsonDocument file = JsonDocument.Parse(stream);
        return [.. file.RootElement.GetProperty("metals").EnumerateArray().Select(m => new Metal(MetalRecord.Read(m)))];
    }
}
