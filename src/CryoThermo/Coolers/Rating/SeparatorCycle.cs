using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A throttle cooler's cold box with one phase separator (auto-cascade) between two pressures, at a given flow: the liquid that condenses before the cold box cools the warm exchanger, and only
/// the vapour goes on to the cold head. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The separator parts the phases completely; both run side by side at one temperature through the warm exchanger; the liquid is throttled into the return between the exchangers. One pressure
/// each side, no heat from outside, and a circulating composition that is the one given: what the parts hold up is not taken off. Each cold temperature has one steady state.
/// </remarks>
public sealed class SeparatorCycle
{
    private readonly SeparatorColdBox box;

    /// <summary>Parts the fluid and builds the isobars.</summary>
    /// <param name="fluid">The circulating fluid, a blend.</param>
    /// <param name="lowPressure">Absolute pressure of the return.</param>
    /// <param name="highPressure">Absolute pressure before the throttles, above the low pressure.</param>
    /// <param name="separator">Temperature of the fluid at the separator.</param>
    /// <param name="lowest">Lowest temperature to consider, below that of the separator.</param>
    /// <param name="warmConductanceWattsPerKelvin">UA of the warm exchanger, vapour and liquid together against the return, W/K; above zero, may be infinite.</param>
    /// <param name="coldConductanceWattsPerKelvin">UA of the cold exchanger, W/K; zero for none, may be infinite.</param>
    /// <param name="flow">Flow of the compressor, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="SeparatorRefusedException">The fluid does not arrive as vapour and liquid.</exception>
    /// <exception cref="ConvergenceException">A state could not be solved.</exception>
    public SeparatorCycle(
        WorkingFluid fluid,
        Pressure lowPressure,
        Pressure highPressure,
        Temperature separator,
        Temperature lowest,
        double warmConductanceWattsPerKelvin,
        double coldConductanceWattsPerKelvin,
        MolarFlow flow)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        Guard.Positive(lowPressure.Pascals, "Pa", nameof(lowPressure));
        if (!(highPressure.Pascals > lowPressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(highPressure), highPressure, $"highPressure is {highPressure.Bars:G6} bar; it must be above lowPressure, {lowPressure.Bars:G6} bar.");
        }

        if (!(lowest.Kelvins > 0 && lowest.Kelvins < separator.Kelvins))
        {
            throw new ArgumentOutOfRangeException(
                nameof(lowest), lowest, $"lowest is {lowest.Kelvins:G6} K; it must be above zero and below separator, {separator.Kelvins:G6} K.");
        }

        Guard.InRange(warmConductanceWattsPerKelvin, double.Epsilon, double.PositiveInfinity, "W/K");
        Guard.InRange(coldConductanceWattsPerKelvin, 0, double.PositiveInfinity, "W/K");
        Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        Fluid = fluid;
        LowPressure = lowPressure;
        HighPressure = highPressure;
        Separator = separator;
        Lowest = lowest;
        WarmConductanceWattsPerKelvin = warmConductanceWattsPerKelvin;
        ColdConductanceWattsPerKelvin = coldConductanceWattsPerKelvin;
        Flow = flow;
        box = new(fluid, lowPressure.Pascals, highPressure.Pascals, separator.Kelvins, lowest.Kelvins, warmConductanceWattsPerKelvin, coldConductanceWattsPerKelvin);
    }

    /// <summary>The circulating fluid.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>The fluid of the vapour stream; only what this holds can freeze at the cold head.</summary>
    public WorkingFluid Vapor => box.Vapor;

    /// <summary>The fluid of the liquid stream.</summary>
    public WorkingFluid Liquid => box.Liquid;

    /// <summary>Moles of vapour over moles of the whole in the separator.</summary>
    public double VaporShare => box.VaporShare;

    /// <summary>Absolute pressure of the return.</summary>
    public Pressure LowPressure { get; }

    /// <summary>Absolute pressure before the throttles.</summary>
    public Pressure HighPressure { get; }

    /// <summary>Temperature of the fluid at the separator.</summary>
    public Temperature Separator { get; }

    /// <summary>Lowest temperature considered.</summary>
    public Temperature Lowest { get; }

    /// <summary>UA of the warm exchanger, W/K.</summary>
    public double WarmConductanceWattsPerKelvin { get; }

    /// <summary>UA of the cold exchanger, W/K.</summary>
    public double ColdConductanceWattsPerKelvin { get; }

    /// <summary>Flow of the compressor.</summary>
    public MolarFlow Flow { get; }

    /// <summary>The steady state at a cold temperature.</summary>
    /// <param name="cold">Temperature of the return leaving the cold head, from the lowest considered to that of the separator.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    /// <exception cref="SeparatorRefusedException">There is no steady state within the temperatures considered.</exception>
    /// <exception cref="ConvergenceException">A state could not be solved.</exception>
    public SeparatorCycleResult At(Temperature cold) => new(this, box.Solve(Checked(cold), Flow.MolesPerSecond));

    /// <summary>The greatest cooling at a cold temperature that any exchangers give: perfect ones, without the cold one where that would run backwards.</summary>
    /// <param name="cold">As for <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    /// <exception cref="SeparatorRefusedException">There is no steady state within the temperatures considered.</exception>
    public Power GreatestCooling(Temperature cold) => Power.FromWatts(Flow.MolesPerSecond * box.GreatestCooling(Checked(cold)));

    /// <summary>Cooling over cold temperature, from cold to warm. Temperatures without a steady state are left out.</summary>
    /// <param name="coldest">The lowest cold temperature, within the range of <see cref="At"/>.</param>
    /// <param name="warmest">The highest, above the lowest.</param>
    /// <param name="points">How many, 2 to 1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public IReadOnlyList<SeparatorCoolingPoint> Curve(Temperature coldest, Temperature warmest, int points = 21)
    {
        double low = Checked(coldest, nameof(coldest));
        double high = Checked(warmest, nameof(warmest));
        Guard.InRange(points, 2, 1000, "points");
        if (!(high > low))
        {
            throw new ArgumentOutOfRangeException(nameof(warmest), warmest, $"warmest is {high:G6} K; it must be above coldest, {low:G6} K.");
        }

        List<SeparatorCoolingPoint> curve = [];
        for (int i = 0; i < points; i++)
        {
            double t = i == points - 1 ? high : low + ((high - low) * i / (points - 1));
            if (box.TrySolve(t, Flow.MolesPerSecond, out SeparatorColdBoxState? state, out _))
            {
                curve.Add(new(Temperature.FromKelvins(t), Power.FromWatts(Flow.MolesPerSecond * state.CoolingPerMole), Temperature.FromKelvins(state.MiddleTemperature)));
            }
        }

        return curve;
    }

    /// <summary>The lowest cold temperature at which the cooling still covers a heat leak, without any other load; null when it does not even at the separator's temperature.</summary>
    /// <param name="leak">Heat that leaks into the cold head; zero for none.</param>
    public LowestTemperature? LowestTemperature(Power leak = default) =>
        box.LowestTemperature(Flow.MolesPerSecond, (double)leak.Watts) is { } limit ? new(Temperature.FromKelvins(limit.Temperature), limit.AtEndOfIsobars) : null;

    // Celsius figures come back with rounding in the last digit.
    private double Checked(Temperature cold, [System.Runtime.CompilerServices.CallerArgumentExpression(nameof(cold))] string parameter = "")
    {
        double t = cold.Kelvins;
        double rounding = 1e-12 * Separator.Kelvins;
        Guard.InRange(t, Lowest.Kelvins - rounding, Separator.Kelvins + rounding, "K", parameter);
        return Math.Clamp(t, Lowest.Kelvins, Separator.Kelvins);
    }
}
