using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// The boundary of the two-phase region of a fluid in pressure and temperature, or a line of one vapour fraction within it, traced from low
/// pressure through the critical point (Michelsen, Fluid Phase Equilib. 4 (1980) 1, with both densities as further variables). Every point is
/// tested for stability. Immutable and thread-safe.
/// </summary>
public sealed class PhaseEnvelope
{
    private readonly IReadOnlyList<EnvelopeBuilder.Line> traced;
    private readonly int only;

    internal PhaseEnvelope(WorkingFluid fluid, double vaporFraction)
    {
        Fluid = fluid;
        VaporFraction = vaporFraction;
        MixtureKernel kernel = fluid.Kernel.Equation;
        ReadOnlySpan<double> z = fluid.Composition.Fractions;
        only = IncipientPoint.SingleComponent(z);
        traced = only >= 0 ? [EnvelopeBuilder.Saturation(kernel, z, vaporFraction)] : EnvelopeBuilder.Build(kernel, z, vaporFraction);
        if (traced.Count == 0)
        {
            throw new ConvergenceException(
                "Phase envelope",
                $"{fluid} at vapor fraction {vaporFraction:G6}",
                double.PositiveInfinity,
                "No dew point and no bubble point was found between 1 kPa and 300 MPa to begin from.");
        }

        Lines = [.. traced.Select(LineOf)];
        Points = [.. Lines.SelectMany(l => l.Points)];
        CriticalPoints = [.. Lines.SelectMany(l => l.CriticalPoints)];
        OpenEnds = [.. Lines.SelectMany(l => new[] { l.Start, l.End }).Where(e => e.IsOpen)];
        Cricondentherm = Extreme(node => node.IsTemperatureExtremum, point => point.Temperature.Kelvins);
        Cricondenbar = Extreme(node => node.IsPressureExtremum, point => point.Pressure.Pascals);
    }

    /// <summary>The fluid.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>
    /// The vapour fraction asked for. A line of a fraction leads through a critical point into the line of one less that fraction; for the
    /// boundary, 1 and 0, that means dew line and bubble line.
    /// </summary>
    public double VaporFraction { get; }

    /// <summary>The lines, one as a rule; two where the dew line does not lead back to the bubble line at low pressure.</summary>
    public IReadOnlyList<EnvelopeLine> Lines { get; }

    /// <summary>The points of all lines in order.</summary>
    public IReadOnlyList<EnvelopePoint> Points { get; }

    /// <summary>Critical points on the lines; see <see cref="WorkingFluid.CriticalPoints"/> for those that may lie off them.</summary>
    public IReadOnlyList<CriticalPoint> CriticalPoints { get; }

    /// <summary>The hottest point, found as an extremum of the line itself; null where an open end is hotter or the line has no extremum.</summary>
    public EnvelopePoint? Cricondentherm { get; }

    /// <summary>The point of highest pressure, found as an extremum of the line itself; null where an end reaches a higher pressure or the line has no extremum.</summary>
    public EnvelopePoint? Cricondenbar { get; }

    /// <summary>True when a line goes on beyond its end: most often to ever higher pressure, beside a second liquid or a quantum gas.</summary>
    public bool IsOpen => OpenEnds.Count > 0;

    /// <summary>The open ends, with the last point and the reason.</summary>
    public IReadOnlyList<EnvelopeEnd> OpenEnds { get; }

    /// <summary>True when another phase forms before at some point: a region of three phases, or a split of the liquid, lies across the line.</summary>
    public bool IsCrossedByAnotherPhase => Points.Any(p => !p.IsStable);

    /// <summary>All points of the lines at a temperature, solved, in order along the lines: none, one or several.</summary>
    /// <param name="temperature">Temperature.</param>
    public IReadOnlyList<EnvelopePoint> PointsAt(Temperature temperature)
    {
        double t = Guard.Positive(temperature.Kelvins, "K", nameof(temperature));
        if (only < 0)
        {
            return PointsWhere(Fluid.Composition.Components.Count, Math.Log(t));
        }

        Span<double> scratch = stackalloc double[Fluid.Kernel.Equation.ScratchLength];
        return PureSaturation.TryPressure(Fluid.Kernel.Equation, only, t, scratch, out double p, out double liquid, out double vapor) && IsWithin(p)
            ? [Pure(t, p, liquid, vapor)]
            : [];
    }

    /// <summary>All points of the lines at a pressure, solved, in order along the lines: none, one or several.</summary>
    /// <param name="pressure">Absolute.</param>
    public IReadOnlyList<EnvelopePoint> PointsAt(Pressure pressure)
    {
        double p = Guard.Positive(pressure.Pascals, "Pa", nameof(pressure));
        if (only < 0)
        {
            return PointsWhere(Fluid.Composition.Components.Count + 1, Math.Log(p));
        }

        Span<double> scratch = stackalloc double[Fluid.Kernel.Equation.ScratchLength];
        return IsWithin(p) && PureSaturation.TryTemperature(Fluid.Kernel.Equation, only, p, scratch, out double t, out double liquid, out double vapor)
            ? [Pure(t, p, liquid, vapor)]
            : [];
    }

    /// <inheritdoc/>
    public override string ToString() =>
        $"{Fluid}: {Points.Count} points, {CriticalPoints.Count} critical{(IsOpen ? ", open" : string.Empty)}{(IsCrossedByAnotherPhase ? ", crossed by another phase" : string.Empty)}";

    private bool IsWithin(double p) => p >= EnvelopeBuilder.LowestPressure;

    private EnvelopePoint Pure(double t, double p, double liquid, double vapor) =>
        new(t, p, BranchOf(VaporFraction), VaporFraction, Fluid.Composition, Fluid.Composition, vapor, liquid, true);

    private List<EnvelopePoint> PointsWhere(int variable, double value)
    {
        const double Same = 1e-9;
        List<EnvelopePoint> found = [];
        foreach (EnvelopeBuilder.Line line in traced)
        {
            EnvelopeEquations equations = new(Fluid.Kernel.Equation, Fluid.Composition.Fractions, line.Share);
            EnvelopeTracer tracer = new(equations, EnvelopeBuilder.LowestPressure);
            EnvelopeNode? last = null;
            for (int i = 0; i + 1 < line.Nodes.Count; i++)
            {
                EnvelopeNode? node = tracer.Between(line.Nodes[i], line.Nodes[i + 1], n => n.Variables[variable] - value);

                // A node that is met exactly ends one stretch and begins the next.
                if (node is not null && (last is null || Math.Abs(node.Variables[equations.DensityDifference] - last.Variables[equations.DensityDifference]) > Same
                    || Math.Abs(node.Variables[equations.Pressure] - last.Variables[equations.Pressure]) > Same))
                {
                    node.IsUnstable = equations.IsUnstable(node.Variables, out _);
                    found.Add(PointOf(equations, node));
                    last = node;
                }
            }
        }

        return found;
    }

    private EnvelopeLine LineOf(EnvelopeBuilder.Line line)
    {
        EnvelopeEquations equations = new(Fluid.Kernel.Equation, Fluid.Composition.Fractions, line.Share);
        EnvelopePoint[] points = [.. line.Nodes.Select(node => PointOf(equations, node))];
        return new(
            points,
            EndOf(line.Start, points[0]),
            EndOf(line.Stop, points[^1]),
            [.. line.CriticalPoints.Select(WorkingFluid.PublicPoint)]);
    }

    private EnvelopePoint PointOf(EnvelopeEquations equations, EnvelopeNode node)
    {
        double[] first = new double[equations.Count];
        double[] second = new double[equations.Count];
        double[] x = node.Variables;
        equations.Compositions(x, first, second);
        bool secondIsLight = x[equations.DensityDifference] <= 0;
        (double[] light, double[] heavy) = secondIsLight ? (second, first) : (first, second);
        double firstDensity = Math.Exp(x[equations.FirstDensity]);
        double secondDensity = Math.Exp(x[equations.SecondDensity]);
        double lightDensity = Math.Min(firstDensity, secondDensity);
        double fraction = secondIsLight ? equations.Share : 1 - equations.Share;

        // The fraction asked for to the last digit, and not one less its complement.
        fraction = Math.Abs(fraction - VaporFraction) < 1e-12 ? VaporFraction : fraction;
        return new(
            Math.Exp(x[equations.Temperature]),
            Math.Exp(x[equations.Pressure]),
            fraction is > 0 and < 1 || Fluid.Kernel.Equation.ReducedVolume(lightDensity, light) >= IsothermalFlash.SmallestVaporVolume
                ? BranchOf(fraction)
                : EnvelopeBranch.SecondLiquid,
            fraction,
            Fluid.Composition.WithFractions(light),
            Fluid.Composition.WithFractions(heavy),
            lightDensity,
            Math.Max(firstDensity, secondDensity),
            !node.IsUnstable);
    }

    private static EnvelopeBranch BranchOf(double fraction) => fraction switch
    {
        >= 1 => EnvelopeBranch.Dew,
        <= 0 => EnvelopeBranch.Bubble,
        _ => EnvelopeBranch.TwoPhases,
    };

    private EnvelopeEnd EndOf(EnvelopeStop stop, EnvelopePoint point)
    {
        string place = $"{point.Temperature.Kelvins:0.##} K and {point.Pressure.Bars:0.####} bar absolute";
        string explanation = stop switch
        {
            EnvelopeStop.LowestPressure => $"The line reaches the lowest pressure traced at {place}.",
            EnvelopeStop.ClosedLoop => $"At {place} the line comes back to where it began; it is a loop of its own.",
            EnvelopeStop.PhasesAlike => $"At {place} both phases are the same to less than 1 %, and double precision does not tell where the line goes on; CriticalPoints of the fluid lists what lies beyond.",
            EnvelopeStop.CriticalPoint => $"The saturation line ends in the critical point at {place}.",
            EnvelopeStop.MetastableLimit => $"At {place} a phase reaches the limit of its metastability; another phase has formed before.",
            EnvelopeStop.LowestTemperature => $"The line leaves the temperatures of the model, {Fluid.Kernel.LowestTemperature:G5} K and up, at {place}.",
            EnvelopeStop.HighestTemperature => $"The line leaves the temperatures of the model, up to {Fluid.Kernel.HighestTemperature:G5} K, at {place}.",
            EnvelopeStop.HighestPressure =>
                $"At {place} the line still rises, to the highest pressure of the model: {Most(point.LightComposition)} does not dissolve wholly in {Most(point.HeavyComposition)} at any pressure, and the less dense phase is {(point.Branch == EnvelopeBranch.SecondLiquid ? "as dense as a liquid" : "a gas")}.",
            _ => $"The equations could not be solved beyond {place}; the line goes on there.",
        };
        EnvelopeEndReason reason = stop switch
        {
            EnvelopeStop.LowestPressure => EnvelopeEndReason.LowestPressure,
            EnvelopeStop.ClosedLoop => EnvelopeEndReason.ClosedLoop,
            EnvelopeStop.PhasesAlike => EnvelopeEndReason.PhasesAlike,
            EnvelopeStop.CriticalPoint => EnvelopeEndReason.CriticalPoint,
            EnvelopeStop.LowestTemperature => EnvelopeEndReason.LowestTemperature,
            EnvelopeStop.HighestTemperature => EnvelopeEndReason.HighestTemperature,
            EnvelopeStop.HighestPressure => EnvelopeEndReason.HighestPressure,
            EnvelopeStop.MetastableLimit => EnvelopeEndReason.MetastableLimit,
            _ => EnvelopeEndReason.NotContinued,
        };
        return new(reason, point, explanation);
    }

    private static string Most(Composition composition) =>
        composition.Components[Enumerable.Range(0, composition.Components.Count).MaxBy(i => composition.MoleFractions[i])].Name;

    private EnvelopePoint? Extreme(Func<EnvelopeNode, bool> isExtremum, Func<EnvelopePoint, double> figure)
    {
        EnvelopePoint? best = null;
        for (int l = 0; l < traced.Count; l++)
        {
            for (int i = 0; i < traced[l].Nodes.Count; i++)
            {
                EnvelopePoint point = Lines[l].Points[i];
                if (isExtremum(traced[l].Nodes[i])
                    && (best is null || (point.IsStable && !best.IsStable) || (point.IsStable == best.IsStable && figure(point) > figure(best))))
                {
                    best = point;
                }
            }
        }

        return best is not null && Lines.All(line => !(figure(line.Start.Point) > figure(best)) && !(figure(line.End.Point) > figure(best))) ? best : null;
    }
}
