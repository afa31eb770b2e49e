using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// The line on which two components have two liquids and a vapour: at each temperature one pressure. Freezing is not considered. Immutable and
/// thread-safe.
/// </summary>
public sealed class ThreePhaseLine
{
    private ThreePhaseLine(IReadOnlyList<ThreePhaseLinePoint> points, ThreePhaseLineEnd? upperEnd)
    {
        Points = points;
        UpperEnd = upperEnd;
    }

    /// <summary>Points of the line, coldest first.</summary>
    public IReadOnlyList<ThreePhaseLinePoint> Points { get; }

    /// <summary>The upper end; null where the line could not be followed to one.</summary>
    public ThreePhaseLineEnd? UpperEnd { get; }

    internal static ThreePhaseLine? Of(WorkingFluid fluid)
    {
        IReadOnlyList<ThreePhaseLineTracer.Point> traced = ThreePhaseLineTracer.Trace(fluid.Kernel.Equation, out ThreePhaseLineTracer.End? end);
        if (traced.Count == 0)
        {
            return null;
        }

        Composition whole = fluid.Composition;
        Composition Of(double logit) => whole.WithFractions(ThreePhaseLineTracer.Point.FractionsOf(logit));
        return new(
            [.. traced.Select(p => new ThreePhaseLinePoint(Temperature.FromKelvins(p.Temperature), Pressure.FromPascals(p.Pressure), Of(p.Vapor), Of(p.LightLiquid), Of(p.HeavyLiquid)))],
            end is { } last ? new(Temperature.FromKelvins(last.Temperature), Pressure.FromPascals(last.Pressure), last.VaporMerges) : null);
    }
}
