using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// Temperatures and pressures at which the Joule-Thomson coefficient of one phase vanishes, from the hot branch over the highest pressure to
/// the cold branch. Below and inside the curve throttling cools. Immutable and thread-safe.
/// </summary>
public sealed class InversionCurve
{
    private readonly WorkingFluid fluid;
    private readonly List<InversionTracer.Point> traced;

    internal InversionCurve(WorkingFluid fluid, Temperature? hottest)
    {
        this.fluid = fluid;
        InversionTracer tracer = new(fluid.Kernel, fluid.Composition.Fractions);
        traced = tracer.Trace(hottest?.Kelvins, out InversionTracer.Stop upper, out InversionTracer.Stop lower);
        UpperEnd = Told(upper);
        LowerEnd = Told(lower);
        int highest = 0;
        for (int i = 1; i < traced.Count; i++)
        {
            highest = traced[i].Pressure > traced[highest].Pressure ? i : highest;
        }

        if (highest > 0 && highest < traced.Count - 1)
        {
            InversionTracer.Point peak = tracer.Peak(traced[highest - 1], traced[highest], traced[highest + 1]);
            HighestPressure = PointOf(peak);
            if (peak != traced[highest])
            {
                traced.Insert(peak.Temperature > traced[highest].Temperature ? highest : highest + 1, peak);
            }
        }

        Points = [.. traced.Select(PointOf)];
    }

    /// <summary>The points from the hot end to the cold one; empty where the fluid has no such curve within the temperatures of the model.</summary>
    public IReadOnlyList<InversionPoint> Points { get; }

    /// <summary>Why the curve ends on the hot side.</summary>
    public InversionCurveEnd UpperEnd { get; }

    /// <summary>Why the curve ends on the cold side.</summary>
    public InversionCurveEnd LowerEnd { get; }

    /// <summary>The highest point; throttling cools from no higher pressure. Null where the curve is cut before it turns.</summary>
    public InversionPoint? HighestPressure { get; }

    /// <summary>The point of the curve at a temperature; null where the curve does not reach it.</summary>
    /// <param name="temperature">Temperature.</param>
    public InversionPoint? PointAt(Temperature temperature)
    {
        double t = Guard.Positive(temperature.Kelvins, "K", nameof(temperature));
        InversionTracer tracer = new(fluid.Kernel, fluid.Composition.Fractions);
        for (int i = 0; i + 1 < traced.Count; i++)
        {
            if (tracer.TryBetween(traced[i], traced[i + 1], t, out InversionTracer.Point point))
            {
                return PointOf(point);
            }
        }

        return null;
    }

    private static InversionPoint PointOf(InversionTracer.Point point) => new(
        Temperature.FromKelvins(point.Temperature), Pressure.FromPascals(point.Pressure), Molarity.FromMolesPerCubicMeter(point.MolarDensity));

    private static InversionCurveEnd Told(InversionTracer.Stop stop) => stop switch
    {
        InversionTracer.Stop.ZeroPressure => InversionCurveEnd.ZeroPressure,
        InversionTracer.Stop.HighestTemperature => InversionCurveEnd.HighestTemperature,
        InversionTracer.Stop.LowestTemperature => InversionCurveEnd.LowestTemperature,
        InversionTracer.Stop.HighestPressure => InversionCurveEnd.HighestPressure,
        InversionTracer.Stop.PhaseBoundary => InversionCurveEnd.PhaseBoundary,
        _ => InversionCurveEnd.NotContinued,
    };
}
