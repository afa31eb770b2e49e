using CryoThermo.Numerics;

namespace CryoThermo.Flow;

/// <summary>Flow through stretches of tube in series on a given line of states. SI.</summary>
/// <param name="lines">States of the fluid in each stretch.</param>
/// <param name="resting">Pressure of the resting fluid before the first stretch, Pa.</param>
/// <param name="enthalpy">Its enthalpy, J/kg.</param>
/// <param name="back">Pressure behind the last stretch, Pa.</param>
/// <param name="sections">The stretches in the order of flow.</param>
/// <param name="entranceLoss">Velocity heads lost at the first inlet.</param>
/// <param name="heat">Heat taken up along each; null for none.</param>
internal sealed class CapillaryLine(
    IReadOnlyList<StateLine> lines, double resting, double enthalpy, double back, IReadOnlyList<CapillarySection> sections, double entranceLoss, TubeHeat[]? heat)
{
    private const double Relative = 1e-12;
    private const double Settled = 1e-13;
    private const int MostSteps = 200;

    // ln of nothing.
    private const double NoLength = -50;

    /// <summary>How far a flow gets.</summary>
    /// <param name="Excess">ln of the length it passes before the back pressure or the speed of sound over the whole length; falls with the flow.</param>
    /// <param name="End">Why it goes no further.</param>
    /// <param name="Section">The stretch where it ends.</param>
    internal readonly record struct Reach(double Excess, TubeEnd End, int Section);

    /// <summary>Largest jump of the volume at a phase boundary in the last course, relative: how far the states of the line are from those of the stream.</summary>
    public double BoundaryJump { get; private set; }

    /// <summary>The flow that just passes, kg/s; null where even the least tried does not.</summary>
    /// <param name="guess">kg/s.</param>
    /// <param name="reach">How a flow a trifle larger ends.</param>
    public double? Solve(double guess, out Reach reach)
    {
        double low = guess;
        double high = guess;
        Reach atLow = Try(low);
        Reach atHigh = atLow;
        double factor = 1.1;
        while (atLow.Excess < 0)
        {
            high = low;
            atHigh = atLow;
            low /= factor;
            factor = Math.Min(10, factor * factor);
            if (low < 1e-15)
            {
                reach = atLow;
                return null;
            }

            atLow = Try(low);
        }

        factor = 1.1;
        while (atHigh.Excess >= 0)
        {
            low = high;
            atLow = atHigh;
            high *= factor;
            factor = Math.Min(10, factor * factor);
            atHigh = Try(high);
        }

        // A choke inside makes the measure jump; how long a way was left then is no matter.
        const double Least = -1;
        (low, high) = BracketedRoot.Narrow(Excess, low, atLow.Excess, high, Math.Max(atHigh.Excess, Least), (x, y) => y - x <= Relative * y);
        if (low == high)
        {
            high = low * (1 + Relative);
            atHigh = Try(high);
        }

        reach = atHigh;
        return low;

        double Excess(double flow)
        {
            Reach at = Try(flow);
            if (at.Excess < 0)
            {
                atHigh = at;
            }

            return Math.Abs(at.Excess) < Settled ? 0 : Math.Max(at.Excess, Least);
        }
    }

    /// <summary>How far a flow gets.</summary>
    public Reach Try(double flow) => MarchOf(0, flow).InletPressure(resting, enthalpy, entranceLoss) is { } pressure
        ? TryFrom(0, pressure, enthalpy, flow)
        : new(NoLength, TubeEnd.Choked, 0);

    // How far a flow gets from the inlet of a stretch, over the length from there on.
    private Reach TryFrom(int first, double pressure, double total, double flow)
    {
        double whole = sections.Skip(first).Sum(s => s.Length.Meters);
        double passed = 0;
        for (int i = first; ; i++)
        {
            bool isLast = i == sections.Count - 1;
            double length = sections[i].Length.Meters;
            if (pressure < (isLast ? back : 0))
            {
                return Reached(passed, TubeEnd.Pressure, i);
            }

            TubeMarch march = MarchOf(i, flow);
            TubeEnd end = march.Run(pressure, total, isLast ? back : 0, isLast ? double.PositiveInfinity : length);
            if (isLast || end != TubeEnd.Length)
            {
                return Reached(passed + march.End.Position, end, i);
            }

            passed += length;
            total += heat?[i].At(length) ?? 0;
            pressure = Junction(i + 1, flow, march.End);
        }

        Reach Reached(double distance, TubeEnd end, int section) => new(distance > 0 ? Math.Log(distance / whole) : NoLength, end, section);
    }

    /// <summary>The course of a flow that passes.</summary>
    /// <param name="flow">kg/s.</param>
    /// <param name="reach">How a flow a trifle larger ends.</param>
    /// <returns>The points of each stretch, positions from its own inlet.</returns>
    public List<TubePoint>[] Course(double flow, in Reach reach)
    {
        List<TubePoint>[] courses = [.. sections.Select(_ => new List<TubePoint>())];
        double total = enthalpy;
        TubePoint leaving = default;
        BoundaryJump = 0;
        for (int i = 0; i < sections.Count; i++)
        {
            TubeMarch march = MarchOf(i, flow);
            double length = sections[i].Length.Meters;
            double inlet = (i == 0 ? march.InletPressure(resting, enthalpy, entranceLoss) : Junction(i, flow, leaving)) ?? back;
            if (i == reach.Section + 1 && reach.End == TubeEnd.Choked)
            {
                inlet = BehindChoke(i, total, inlet, flow);
            }

            march.Run(inlet, total, i == sections.Count - 1 ? back : 0, length, courses[i]);
            BoundaryJump = Math.Max(BoundaryJump, march.BoundaryJump);
            leaving = march.End;
            total += heat?[i].At(length) ?? 0;
        }

        return courses;
    }

    // Behind a choke the pressure falls freely, to what the stretches from there on need to end at the pressure behind or at the speed of sound.
    private double BehindChoke(int section, double total, double above, double flow)
    {
        double below = 0;
        for (int k = 0; k < MostSteps && above - below > Relative * above; k++)
        {
            double middle = 0.5 * (above + below);
            (above, below) = TryFrom(section, middle, total, flow).Excess >= 0 ? (middle, below) : (above, middle);
        }

        return above;
    }

    private TubeMarch MarchOf(int section, double flow) => new(
        lines[section], flow / sections[section].Area, sections[section].Diameter, sections[section].Roughness.Meters / sections[section].Diameter, heat?[section]);

    /// <summary>
    /// Static pressure behind a change of bore. Widening: momentum with the upstream pressure on the step (Borda, Carnot). Narrowing: Bernoulli
    /// with a loss of half a head of the narrow side times one less the ratio of areas (common practice, no source).
    /// </summary>
    private double Junction(int section, double flow, in TubePoint leaving)
    {
        double after = flow / sections[section].Area;
        double before = flow / sections[section - 1].Area;
        double v = leaving.Volume;
        return after <= before
            ? leaving.Pressure + (after * v * (before - after))
            : leaving.Pressure - (0.5 * v * ((after * after) - (before * before))) - (0.25 * v * after * after * (1 - (before / after)));
    }
}
