using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A counter-flow recuperator between two isobars, described by its conductance. No leak, no axial conduction, one
/// pressure a stream. The pinch may lie anywhere inside. Immutable and thread-safe.
/// </summary>
public sealed class Recuperator
{
    private readonly CounterFlowKernel kernel;

    /// <summary>Sets up a recuperator between two streams.</summary>
    /// <param name="hot">Isobar of the stream that is cooled; it must reach down to the cold inlet temperature.</param>
    /// <param name="hotFlow">Its flow.</param>
    /// <param name="hotInlet">Its temperature at the warm end.</param>
    /// <param name="cold">Isobar of the stream that is warmed; it must reach up to the hot inlet temperature.</param>
    /// <param name="coldFlow">Its flow.</param>
    /// <param name="coldInlet">Its temperature at the cold end.</param>
    /// <exception cref="ArgumentException">A flow is not positive, the hot inlet is colder than the cold inlet, or an isobar is too short.</exception>
    public Recuperator(Isobar hot, MolarFlow hotFlow, Temperature hotInlet, Isobar cold, MolarFlow coldFlow, Temperature coldInlet)
    {
        ArgumentNullException.ThrowIfNull(hot);
        ArgumentNullException.ThrowIfNull(cold);
        kernel = CounterFlowKernel.FromInletTemperatures(
            hot.Table, hotFlow.MolesPerSecond, hotInlet.Kelvins, cold.Table, coldFlow.MolesPerSecond, coldInlet.Kelvins);
        Hot = hot;
        Cold = cold;
    }

    internal Recuperator(Isobar hot, Isobar cold, CounterFlowKernel kernel)
    {
        this.kernel = kernel;
        Hot = hot;
        Cold = cold;
    }

    /// <summary>Isobar of the stream that is cooled.</summary>
    public Isobar Hot { get; }

    /// <summary>Isobar of the stream that is warmed.</summary>
    public Isobar Cold { get; }

    /// <summary>Greatest duty without the streams crossing in temperature anywhere: the duty of an infinite conductance.</summary>
    public Power GreatestDuty => Power.FromWatts(kernel.GreatestDuty);

    /// <summary>What the recuperator does with a conductance (U times A).</summary>
    /// <param name="conductanceWattsPerKelvin">W/K, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The conductance is negative.</exception>
    public RecuperatorResult WithConductance(double conductanceWattsPerKelvin)
    {
        Guard.InRange(conductanceWattsPerKelvin, 0, 1e12, "W/K");
        double duty = kernel.Duty(conductanceWattsPerKelvin);
        return Result(duty, conductanceWattsPerKelvin);
    }

    /// <summary>Which conductance a duty needs; infinite at the greatest duty.</summary>
    /// <param name="duty">From zero to <see cref="GreatestDuty"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The duty is outside that range.</exception>
    public RecuperatorResult ForDuty(Power duty)
    {
        // A power is a decimal inside and carries 15 digits: the greatest duty read from the property must come back as itself.
        double given = (double)duty.Watts;
        double watts = Math.Abs(given - kernel.GreatestDuty) <= 1e-13 * kernel.GreatestDuty
            ? kernel.GreatestDuty
            : Guard.InRange(given, 0, kernel.GreatestDuty, "W", nameof(duty));
        return Result(watts, kernel.Conductance(watts));
    }

    /// <summary>The largest duty that keeps the streams a given temperature apart everywhere, and the conductance it needs.</summary>
    /// <param name="leastApproach">Zero up to the difference of the inlet temperatures.</param>
    /// <exception cref="ArgumentOutOfRangeException">The approach is outside that range.</exception>
    public RecuperatorResult ForLeastApproach(TemperatureDelta leastApproach)
    {
        Guard.InRange(leastApproach.Kelvins, 0, kernel.HotInletTemperature - kernel.ColdInletTemperature, "K", nameof(leastApproach));
        double duty = kernel.DutyAtLeastApproach(leastApproach.Kelvins);
        return Result(duty, kernel.Conductance(duty));
    }

    private RecuperatorResult Result(double duty, double conductance) => Of(kernel, duty, conductance);

    /// <summary>The figures of a kernel at a duty.</summary>
    internal static RecuperatorResult Of(CounterFlowKernel kernel, double duty, double conductance)
    {
        RecuperatorPinch pinch = kernel.Pinch(duty);
        RecuperatorProfile profile = kernel.Profile(duty);
        RecuperatorPoint[] points = new RecuperatorPoint[profile.Duty.Length];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = new(
                Power.FromWatts(profile.Duty[i]),
                Temperature.FromKelvins(profile.HotTemperature[i]),
                Temperature.FromKelvins(profile.ColdTemperature[i]));
        }

        return new(
            Power.FromWatts(duty),
            conductance,
            new(
                Temperature.FromKelvins(pinch.HotTemperature),
                Temperature.FromKelvins(pinch.ColdTemperature),
                Power.FromWatts(pinch.DutyBelow),
                pinch.Location),
            points,
            Entropy.FromJoulesPerKelvin(kernel.EntropyProduction(duty)));
    }
}
