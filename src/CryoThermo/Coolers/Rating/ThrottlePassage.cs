using CryoThermo.Flow;

namespace CryoThermo.Coolers.Rating;

/// <summary>The flow of a throttle, or what it comes to from those computed nearby: its computation is the dearest part of a state.</summary>
internal sealed class ThrottlePassage
{
    /// <summary>How far density and pressure of the inlet may lie from those of the flow computed, as logarithms.</summary>
    private const double Near = 0.1;

    /// <summary>The same for liquid, whose flow goes with what its pressure is above that at which it boils.</summary>
    private const double NearLiquid = 1e-6;

    /// <summary>Moves of the pressure, as logarithms, from which two computed flows tell how it goes on, and the steepest way.</summary>
    private const double LeastMove = 1e-7;
    private const double Steepest = 40;

    private readonly IThrottleFlow computed;
    private readonly double density;
    private readonly double scale;
    private readonly double steepness;

    /// <summary>Takes a flow computed.</summary>
    /// <param name="flow">The flow.</param>
    /// <param name="before">The one before it; null for none.</param>
    public ThrottlePassage(IThrottleFlow flow, ThrottlePassage? before)
    {
        computed = flow;
        Flow = flow;
        Kilograms = flow.MassFlow.KilogramsPerSecond;
        density = flow.Inlet.Density.KilogramsPerCubicMeter;
        scale = Kilograms / Measure(density, flow.Inlet.Pressure.Pascals, flow.OutletPressure.Pascals);
        if (before is not null)
        {
            double move = Math.Log(flow.Inlet.Pressure / before.computed.Inlet.Pressure);
            steepness = Math.Abs(move) > LeastMove && Math.Abs(move) <= Near ? Math.Clamp(Math.Log(scale / before.scale) / move, -Steepest, Steepest) : before.steepness;
        }
    }

    private ThrottlePassage(ThrottlePassage from, double kilograms)
    {
        computed = from.computed;
        density = from.density;
        scale = from.scale;
        steepness = from.steepness;
        Kilograms = kilograms;
    }

    /// <summary>The flow computed; null where it is carried over from one nearby.</summary>
    public IThrottleFlow? Flow { get; }

    /// <summary>kg/s.</summary>
    public double Kilograms { get; }

    /// <summary>Carried over to another inlet and outlet pressure, Pa; null where that is too far.</summary>
    /// <param name="inlet">The inlet.</param>
    /// <param name="outlet">Pa.</param>
    /// <param name="isClose">Whether the inlet is known to be close by: a flow of liquid is carried over too, and none as steep as it looked from afar.</param>
    public ThrottlePassage? At(State inlet, double outlet, bool isClose)
    {
        double there = inlet.Density.KilogramsPerCubicMeter;
        double pressure = inlet.Pressure.Pascals;
        double move = Math.Log(pressure / computed.Inlet.Pressure.Pascals);
        bool boils = inlet.VaporFraction > 0;
        double near = boils || isClose ? Near : NearLiquid;
        return boils == computed.Inlet.VaporFraction > 0 && Math.Abs(Math.Log(there / density)) <= near && Math.Abs(move) <= near && pressure > outlet
            ? new(this, scale * Math.Exp(isClose ? 0 : steepness * move) * Measure(there, pressure, outlet))
            : null;
    }

    // A choked flow goes as the root of density and pressure, another as that of density and pressure drop.
    private double Measure(double at, double pressure, double outlet) => Math.Sqrt(at * (computed.IsChoked ? pressure : pressure - outlet));
}
