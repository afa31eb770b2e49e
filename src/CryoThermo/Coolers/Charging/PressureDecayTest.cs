using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// A leak test by the fall of the pressure in a shut machine, corrected for temperature with the real gas: the amount V rho(T, p) at both
/// times, its loss as leak rate q = dn R T0/dt with T0 = 293.15 K, the reference temperature of leak rates (EN 1330-8, from memory).
/// Immutable and thread-safe.
/// </summary>
public sealed class PressureDecayTest
{
    private const double ReferenceKelvins = 293.15;
    private const double GasConstant = 8.314462618;

    private readonly double volume;
    private readonly double volumeShare;
    private readonly double pressureError;
    private readonly double temperatureError;

    /// <summary>Describes machine, gas and instruments.</summary>
    /// <param name="gas">The test gas, for example nitrogen. Never air or oxygen where a fuel was or will be.</param>
    /// <param name="volume">Volume of the shut machine.</param>
    /// <param name="pressureUncertainty">Standard uncertainty of one absolute pressure: gauge and barometer. Only what differs between the two readings counts.</param>
    /// <param name="temperatureUncertainty">Standard uncertainty of one temperature, likewise.</param>
    /// <param name="volumeShareUncertainty">Standard uncertainty of the volume as a share of it, 0 to 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public PressureDecayTest(
        WorkingFluid gas, Volume volume, Pressure pressureUncertainty, TemperatureDelta temperatureUncertainty, double volumeShareUncertainty = 0)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Gas = gas;
        this.volume = Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        pressureError = Guard.InRange(pressureUncertainty.Pascals, 0, 1e6, "Pa", nameof(pressureUncertainty));
        temperatureError = Guard.InRange(temperatureUncertainty.Kelvins, 0, 30, "K", nameof(temperatureUncertainty));
        volumeShare = Guard.InRange(volumeShareUncertainty, 0, 0.5, "of the volume");
        List<Caution> cautions =
        [
            new(
                CautionSeverity.Warning,
                "Gas under pressure",
                $"{volume.Liters:G4} L of {gas.Composition}",
                "a leak test comes after the strength test, at a lower pressure (threshold: any pressure above the atmosphere)",
                $"Fill through a regulator with a relief device; do not tighten joints under pressure. Test pressure: EN 378, ISO 5149 as they apply. {Caution.Deference}",
                Source.CommonPractice),
        ];
        ChargeCautions.TestGas(gas.Composition, cautions);
        Cautions = [.. cautions.OrderByDescending(c => c.Severity)];
    }

    /// <summary>The test gas.</summary>
    public WorkingFluid Gas { get; }

    /// <summary>What can hurt people.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Evaluates two readings.</summary>
    /// <param name="start">The first.</param>
    /// <param name="end">The second.</param>
    /// <param name="duration">Time between them, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The duration is not above zero, a state is out of the range of the model, or the gas condenses.</exception>
    public LeakRateResult Evaluate(PressureDecayReading start, PressureDecayReading end, Duration duration)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(end);
        double seconds = Guard.Positive(duration.Seconds, "s", nameof(duration));
        (double first, double byPressure1, double byTemperature1) = Amount(start, nameof(start));
        (double second, double byPressure2, double byTemperature2) = Amount(end, nameof(end));
        double toRate = GasConstant * ReferenceKelvins / seconds;
        double rate = (first - second) * toRate;
        double variance = Square(byPressure1 * pressureError) + Square(byPressure2 * pressureError)
            + Square(byTemperature1 * temperatureError) + Square(byTemperature2 * temperatureError) + Square((first - second) * volumeShare);
        double p1 = start.Gauge.Absolute.Pascals;
        double p2 = end.Gauge.Absolute.Pascals;
        return new(
            rate,
            Math.Sqrt(variance) * toRate,
            Pressure.FromPascals(p2 - (p1 * second / first)),
            Pressure.FromPascals((first - second) / first * p1),
            (p1 - p2) * volume / seconds,
            ((p1 / start.Temperature.Kelvins) - (p2 / end.Temperature.Kelvins)) * ReferenceKelvins * volume / seconds);
    }

    /// <summary>
    /// How long to wait until a leak of a given rate shows: when the loss reaches twice the standard uncertainty of the difference of two
    /// readings (about 95 %).
    /// </summary>
    /// <param name="conditions">Pressure and temperature of the test.</param>
    /// <param name="leakRatePascalCubicMetersPerSecond">The rate to find, Pa m3/s, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not above zero, or the state out of the range of the model.</exception>
    public Duration TimeToResolve(PressureDecayReading conditions, double leakRatePascalCubicMetersPerSecond)
    {
        ArgumentNullException.ThrowIfNull(conditions);
        Guard.Positive(leakRatePascalCubicMetersPerSecond, "Pa m3/s");
        (_, double byPressure, double byTemperature) = Amount(conditions, nameof(conditions));
        double deviation = Math.Sqrt(2 * (Square(byPressure * pressureError) + Square(byTemperature * temperatureError)));
        return Duration.FromSeconds(2 * deviation * GasConstant * ReferenceKelvins / leakRatePascalCubicMetersPerSecond);
    }

    private (double Amount, double ByPressure, double ByTemperature) Amount(PressureDecayReading reading, string parameter)
    {
        State state = Gas.At(reading.Temperature, reading.Gauge.Absolute);
        if (state.Phases.Count > 1 || ChargeRecipe.Condensed(Gas, reading.Temperature, state.Pressure.Pascals) is not null)
        {
            throw new ArgumentOutOfRangeException(
                parameter, $"{parameter} is {reading.Gauge} at {reading.Temperature.Kelvins:G6} K; {Gas.Composition} condenses there, so that its pressure tells no leak.");
        }

        Phase phase = state.Phases[0];
        double amount = volume * phase.MolarDensity.MolesPerCubicMeter;
        return (amount, amount * phase.IsothermalCompressibility.InversePascals, -amount * phase.IsobaricExpansionCoefficient.PerKelvin);
    }

    private static double Square(double x) => x * x;
}
