using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// Parts of a throttle one behind another, as a valve before a capillary; the fluid comes to rest between them, so that each begins at the
/// enthalpy of the first inlet. Immutable and thread-safe.
/// </summary>
public sealed class ThrottleSeries : IThrottlePart
{
    private const double LeastRatio = 1.0002;
    private const double FlowTolerance = 1e-8;
    private const double PressureTolerance = 1e-12;

    /// <summary>Puts parts together.</summary>
    /// <param name="parts">The parts in the order of flow, 2 to 5.</param>
    /// <exception cref="ArgumentException">There are fewer than 2 or more than 5.</exception>
    public ThrottleSeries(params IReadOnlyList<IThrottlePart> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        if (parts.Count is < 2 or > 5 || parts.Any(p => p is null))
        {
            throw new ArgumentException($"parts holds {parts.Count}; allowed is 2 to 5, none of them null.", nameof(parts));
        }

        Parts = [.. parts];
    }

    /// <summary>The parts in the order of flow.</summary>
    public IReadOnlyList<IThrottlePart> Parts { get; }

    /// <inheritdoc cref="IThrottlePart.FlowTo"/>
    public SeriesFlow FlowTo(State inlet, Pressure outletPressure)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        Guard.InRange(outletPressure.Pascals, 1e3, inlet.Pressure.Pascals / LeastRatio, "Pa", nameof(outletPressure));
        return new(Solve(0, inlet, outletPressure));
    }

    IThrottleFlow IThrottlePart.FlowTo(State inlet, Pressure outletPressure) => FlowTo(inlet, outletPressure);

    // The pressure behind the first part at which the others take what it lets through: they take more the higher it is, it less.
    private IThrottleFlow[] Solve(int first, State inlet, Pressure outlet)
    {
        if (first == Parts.Count - 1)
        {
            return [Parts[first].FlowTo(inlet, outlet)];
        }

        IThrottleFlow[]? found = null;
        (double low, double high) = BracketedRoot.Narrow(
            Miss, outlet.Pascals, 1, inlet.Pressure.Pascals, -1, (x, y) => y - x <= PressureTolerance * y);
        return found ?? throw new ConvergenceException(
            "Flow through parts in series", $"{inlet}, outlet {outlet.Pascals:G9} Pa", high - low, "One part takes all of the pressure drop: leave the other out.");

        // Flows go about with the root of the pressure drop: their squares are straighter.
        double Miss(double p)
        {
            if (p < outlet.Pascals * LeastRatio || p > inlet.Pressure.Pascals / LeastRatio)
            {
                // As good as no drop over the one side: it lets nothing through.
                return p < outlet.Pascals * LeastRatio ? 1 : -1;
            }

            State between = inlet.Fluid.AtEnthalpy(Pressure.FromPascals(p), inlet.MolarEnthalpy);
            IThrottleFlow own = Parts[first].FlowTo(inlet, between.Pressure);
            IThrottleFlow[] rest = Solve(first + 1, between, outlet);
            double taken = rest[0].MassFlow.KilogramsPerSecond;
            double given = own.MassFlow.KilogramsPerSecond;
            double miss = ((given * given) - (taken * taken)) / ((given * given) + (taken * taken));
            found = [own, .. rest];
            return Math.Abs(miss) < FlowTolerance ? 0 : miss;
        }
    }
}
