using System.Globalization;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// How a throttle sized for the cold machine lets the warm machine start: gas at ambient temperature is thin, so that much less of it passes
/// than of cold liquid. Immutable and thread-safe.
/// </summary>
public sealed class WarmStart
{
    private const double SlowShare = 0.5;
    private const double PressureTolerance = 1e-4;
    private const double LeastRatio = 1.001;

    private WarmStart(IThrottleFlow cold, IThrottleFlow warm, MassFlow? delivery, Pressure greatest, Pressure? needed)
    {
        Cold = cold;
        Warm = warm;
        Delivery = delivery;
        GreatestPressure = greatest;
        PressureNeeded = needed;
        Cautions = [.. CautionsOf()];
    }

    /// <summary>The flow in the cold machine.</summary>
    public IThrottleFlow Cold { get; }

    /// <summary>The flow on the start from warm, at the pressure of the warm inlet.</summary>
    public IThrottleFlow Warm { get; }

    /// <summary>Warm over cold mass flow.</summary>
    public double FlowShare => Warm.MassFlow / Cold.MassFlow;

    /// <summary>What the warm compressor delivers; null where it is not known.</summary>
    public MassFlow? Delivery { get; }

    /// <summary>Highest pressure the machine may come to, absolute.</summary>
    public Pressure GreatestPressure { get; }

    /// <summary>Absolute inlet pressure at which the warm throttle passes what the compressor delivers; null where that is not known, or above the greatest pressure.</summary>
    public Pressure? PressureNeeded { get; }

    /// <summary>Whether the warm throttle does not pass what the compressor delivers even at the greatest pressure.</summary>
    public bool IsWarmMachineChoked => Delivery is not null && PressureNeeded is null;

    /// <summary>What to look out for.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Compares both.</summary>
    /// <param name="part">The throttle as it is set for the cold machine.</param>
    /// <param name="coldInlet">The fluid before it when cold.</param>
    /// <param name="warmInlet">The fluid before it on the start.</param>
    /// <param name="outletPressure">Absolute pressure behind it.</param>
    /// <param name="warmDelivery">Mass flow that the compressor delivers on the start; null where it is not known.</param>
    /// <param name="greatestPressure">Highest pressure the machine may come to, absolute, not below that of the warm inlet; null for twice that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public static WarmStart Of(
        IThrottlePart part, State coldInlet, State warmInlet, Pressure outletPressure, MassFlow? warmDelivery = null, Pressure? greatestPressure = null)
    {
        ArgumentNullException.ThrowIfNull(part);
        ArgumentNullException.ThrowIfNull(coldInlet);
        ArgumentNullException.ThrowIfNull(warmInlet);
        Pressure greatest = greatestPressure ?? 2 * warmInlet.Pressure;
        Guard.InRange(greatest.Pascals, warmInlet.Pressure.Pascals, 1e8, "Pa", nameof(greatestPressure));
        IThrottleFlow cold = part.FlowTo(coldInlet, outletPressure);
        IThrottleFlow warm = part.FlowTo(warmInlet, outletPressure);
        Pressure? needed = null;
        if (warmDelivery is { } delivery)
        {
            double wanted = Guard.Positive(delivery.KilogramsPerSecond, "kg/s", nameof(warmDelivery));
            needed = At(greatest.Pascals) < wanted ? null : Pressure.FromPascals(Needed(wanted));
        }

        return new(cold, warm, warmDelivery, greatest, needed);

        double Needed(double wanted)
        {
            double least = outletPressure.Pascals * LeastRatio;
            double atLeast = Miss(least);

            // The square of the flow goes nearly straight with the inlet pressure.
            return atLeast >= 0
                ? least
                : BracketedRoot.Narrow(Miss, least, atLeast, greatest.Pascals, Miss(greatest.Pascals), (low, high) => high - low <= PressureTolerance * high).High;

            double Miss(double p) => Square(At(p) / wanted) - 1;
        }

        static double Square(double x) => x * x;

        double At(double p) => part.FlowTo(warmInlet.Fluid.At(warmInlet.Temperature, Pressure.FromPascals(p)), outletPressure).MassFlow.KilogramsPerSecond;
    }

    private IEnumerable<Caution> CautionsOf()
    {
        if (IsWarmMachineChoked)
        {
            yield return new(
                CautionSeverity.Warning,
                "The throttle chokes the warm machine",
                Text($"{Warm.MassFlow.GramsPerSecond:0.###} g/s pass at {Warm.Inlet.Pressure.Bars:0.##} bar absolute, {Delivery!.Value.GramsPerSecond:0.###} g/s are delivered"),
                Text($"high pressure would pass {GreatestPressure.Bars:0.##} bar absolute (threshold: that pressure)"),
                $"Start with a wider opening, a bypass to the suction side or a buffer volume, and never without a pressure switch and a relief device. {Caution.Deference}",
                Source.CommonPractice);
        }
        else if (FlowShare < SlowShare)
        {
            yield return new(
                CautionSeverity.Notice,
                "Little flow on the warm start",
                Text($"{100 * FlowShare:0} % of the flow when cold"),
                Text($"below {100 * SlowShare:0} % the cool-down is slow and the high pressure stands near its limit"),
                "Open wider for the cool-down, or put a second capillary beside with a valve that closes when cold.",
                Source.CommonPractice);
        }

        static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
    }
}
