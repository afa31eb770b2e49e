using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Fitting;

/// <summary>One measured point of a mixture. Immutable. The components and their order are those of its <see cref="MeasurementSet"/>.</summary>
public sealed record Measurement
{
    private Measurement(MeasurementKind kind, double temperature, double pressure, IReadOnlyList<double> fractions, MeasurementUncertainty? uncertainty)
    {
        Kind = kind;
        TemperatureKelvins = Guard.InRange(temperature, 2, 2000, "K", "temperature");
        PressurePascals = Guard.InRange(pressure, 1e-3, 1e9, "Pa", "pressure");
        ArgumentNullException.ThrowIfNull(fractions);
        Fractions = Checked(fractions, "fractions");
        Uncertainty = uncertainty ?? MeasurementUncertainty.Default;
    }

    /// <summary>What was measured.</summary>
    public MeasurementKind Kind { get; }

    /// <summary>Temperature; for <see cref="MeasurementKind.BubbleTemperature"/> and <see cref="MeasurementKind.DewTemperature"/> the measured one.</summary>
    public Temperature Temperature => Temperature.FromKelvins(TemperatureKelvins);

    /// <summary>Absolute pressure; not used for an excess Gibbs energy.</summary>
    public Pressure Pressure => Pressure.FromPascals(PressurePascals);

    /// <summary>Mole fractions in component order: of the liquid for bubble points, of the vapour for dew points and vapour compositions, else of the whole.</summary>
    public IReadOnlyList<double> Fractions { get; }

    /// <summary>Mole fractions of the vapour measured with a bubble point; null when they were not.</summary>
    public IReadOnlyList<double>? VaporFractions { get; private init; }

    /// <summary>Measured density: of the phase, or of the liquid measured with a bubble point; null when it was not.</summary>
    public Density? Density { get; private init; }

    /// <summary>Measured speed of sound; null when it was not.</summary>
    public Speed? SpeedOfSound { get; private init; }

    /// <summary>Measured excess Gibbs energy; null when it was not.</summary>
    public MolarEnergy? ExcessGibbsEnergy { get; private init; }

    /// <summary>Uncertainties.</summary>
    public MeasurementUncertainty Uncertainty { get; }

    /// <summary>Where the point came from, for messages: a line of a file, for example; may be empty.</summary>
    public string Place { get; init; } = string.Empty;

    internal double TemperatureKelvins { get; }

    internal double PressurePascals { get; }

    /// <summary>A bubble pressure, or a point of vapour-liquid equilibrium.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Measured absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="liquid">Mole fractions of the liquid; sum 1 within 1e-6.</param>
    /// <param name="vapor">Mole fractions of the vapour; null when not measured.</param>
    /// <param name="liquidDensity">Density of the saturated liquid; null when not measured.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfBubblePressure(
        Temperature temperature,
        Pressure pressure,
        IReadOnlyList<double> liquid,
        IReadOnlyList<double>? vapor = null,
        Density? liquidDensity = null,
        MeasurementUncertainty? uncertainty = null) =>
        Bubble(MeasurementKind.BubblePressure, temperature, pressure, liquid, vapor, liquidDensity, uncertainty);

    /// <summary>A boiling temperature at given pressure, with the composition of the vapour where it was measured.</summary>
    /// <param name="temperature">Measured temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="liquid">Mole fractions of the liquid; sum 1 within 1e-6.</param>
    /// <param name="vapor">Mole fractions of the vapour; null when not measured.</param>
    /// <param name="liquidDensity">Density of the saturated liquid; null when not measured.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfBubbleTemperature(
        Temperature temperature,
        Pressure pressure,
        IReadOnlyList<double> liquid,
        IReadOnlyList<double>? vapor = null,
        Density? liquidDensity = null,
        MeasurementUncertainty? uncertainty = null) =>
        Bubble(MeasurementKind.BubbleTemperature, temperature, pressure, liquid, vapor, liquidDensity, uncertainty);

    /// <summary>A dew pressure.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Measured absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="vapor">Mole fractions of the vapour; sum 1 within 1e-6.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfDewPressure(
        Temperature temperature, Pressure pressure, IReadOnlyList<double> vapor, MeasurementUncertainty? uncertainty = null) =>
        new(MeasurementKind.DewPressure, temperature.Kelvins, pressure.Pascals, vapor, uncertainty);

    /// <summary>A dew temperature.</summary>
    /// <param name="temperature">Measured temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="vapor">Mole fractions of the vapour; sum 1 within 1e-6.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfDewTemperature(
        Temperature temperature, Pressure pressure, IReadOnlyList<double> vapor, MeasurementUncertainty? uncertainty = null) =>
        new(MeasurementKind.DewTemperature, temperature.Kelvins, pressure.Pascals, vapor, uncertainty);

    /// <summary>The composition of a saturated vapour at temperature and pressure, for two components.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="vapor">Measured mole fractions of the vapour; sum 1 within 1e-6.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range, or there are not two components.</exception>
    public static Measurement OfVaporComposition(
        Temperature temperature, Pressure pressure, IReadOnlyList<double> vapor, MeasurementUncertainty? uncertainty = null)
    {
        Measurement point = new(MeasurementKind.VaporComposition, temperature.Kelvins, pressure.Pascals, vapor, uncertainty);
        return point.Fractions.Count == 2
            ? point
            : throw new ArgumentException($"vapor has {point.Fractions.Count} mole fractions; a vapour composition at temperature and pressure needs two.", nameof(vapor));
    }

    /// <summary>The density of a single phase.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="overall">Mole fractions; sum 1 within 1e-6.</param>
    /// <param name="density">Measured density, greater than zero.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfDensity(
        Temperature temperature, Pressure pressure, IReadOnlyList<double> overall, Density density, MeasurementUncertainty? uncertainty = null)
    {
        Guard.Positive(density.KilogramsPerCubicMeter, "kg/m3", nameof(density));
        return new(MeasurementKind.Density, temperature.Kelvins, pressure.Pascals, overall, uncertainty) { Density = density };
    }

    /// <summary>The speed of sound in a single phase.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="pressure">Absolute pressure, 0.001 Pa to 1 GPa.</param>
    /// <param name="overall">Mole fractions; sum 1 within 1e-6.</param>
    /// <param name="speedOfSound">Measured speed, greater than zero.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfSpeedOfSound(
        Temperature temperature, Pressure pressure, IReadOnlyList<double> overall, Speed speedOfSound, MeasurementUncertainty? uncertainty = null)
    {
        Guard.Positive(speedOfSound.MetersPerSecond, "m/s", nameof(speedOfSound));
        return new(MeasurementKind.SpeedOfSound, temperature.Kelvins, pressure.Pascals, overall, uncertainty) { SpeedOfSound = speedOfSound };
    }

    /// <summary>The excess Gibbs energy of a liquid, counted at its bubble pressure.</summary>
    /// <param name="temperature">Temperature, 2 to 2000 K.</param>
    /// <param name="liquid">Mole fractions; sum 1 within 1e-6.</param>
    /// <param name="excessGibbsEnergy">Measured value.</param>
    /// <param name="uncertainty">Uncertainties; null for the defaults.</param>
    /// <exception cref="ArgumentException">A value is outside its range.</exception>
    public static Measurement OfExcessGibbsEnergy(
        Temperature temperature, IReadOnlyList<double> liquid, MolarEnergy excessGibbsEnergy, MeasurementUncertainty? uncertainty = null) =>
        new(MeasurementKind.ExcessGibbsEnergy, temperature.Kelvins, 101325, liquid, uncertainty) { ExcessGibbsEnergy = excessGibbsEnergy };

    /// <summary>Kind, temperature, pressure and mole fractions.</summary>
    public override string ToString() =>
        $"{Kind} at {TemperatureKelvins:G7} K, {PressurePascals:G7} Pa, {string.Join(" / ", Fractions.Select(f => f.ToString("0.####")))}"
        + (Place.Length == 0 ? string.Empty : $" ({Place})");

    private static Measurement Bubble(
        MeasurementKind kind,
        Temperature temperature,
        Pressure pressure,
        IReadOnlyList<double> liquid,
        IReadOnlyList<double>? vapor,
        Density? liquidDensity,
        MeasurementUncertainty? uncertainty)
    {
        Measurement point = new(kind, temperature.Kelvins, pressure.Pascals, liquid, uncertainty);
        if (vapor is not null && vapor.Count != point.Fractions.Count)
        {
            throw new ArgumentException($"vapor has {vapor.Count} mole fractions; the liquid has {point.Fractions.Count}.", nameof(vapor));
        }

        if (liquidDensity is { } density)
        {
            Guard.Positive(density.KilogramsPerCubicMeter, "kg/m3", nameof(liquidDensity));
        }

        return point with { VaporFractions = vapor is null ? null : Checked(vapor, nameof(vapor)), Density = liquidDensity };
    }

    private static double[] Checked(IReadOnlyList<double> fractions, string parameter)
    {
        double sum = 0;
        foreach (double fraction in fractions)
        {
            sum += Guard.InRange(fraction, 0, 1, "mole fraction", parameter);
        }

        return Math.Abs(sum - 1) <= Composition.SumTolerance
            ? [.. fractions.Select(f => f / sum)]
            : throw new ArgumentException($"{parameter} add up to {sum:G9}; allowed is 1 within {Composition.SumTolerance:G1}.", parameter);
    }
}
