namespace CryoThermo.Equilibrium;

/// <summary>
/// Walks two isobars together from a temperature downwards, piece by piece between neighbouring nodes of either, and
/// gives on each piece the difference D(T) = lowerFactor * lower(T) - upperFactor * upper(T + shift) as one cubic.
/// "Upper" is the stream that gives heat, "lower" the one that takes it. Where an enthalpy jumps, the difference is
/// taken at its least: the lower stream before its jump, the upper stream after its own.
/// </summary>
internal ref struct IsobarPairWalk
{
    private readonly IsobarTable lower;
    private readonly IsobarTable upper;
    private readonly double lowerFactor;
    private readonly double upperFactor;
    private readonly double shift;
    private readonly double bottom;
    private int lowerIndex;
    private int upperIndex;
    private double place;

    /// <summary>Prepares the walk from <paramref name="top"/> down to <paramref name="bottom"/> (both K, on the lower stream).</summary>
    public IsobarPairWalk(
        IsobarTable lower, double lowerFactor, IsobarTable upper, double upperFactor, double shift, double bottom, double top)
    {
        this.lower = lower;
        this.upper = upper;
        this.lowerFactor = lowerFactor;
        this.upperFactor = upperFactor;
        this.shift = shift;
        this.bottom = bottom;
        place = top;
        if (top > bottom)
        {
            lowerIndex = lower.SegmentAtTemperature(top, above: false);
            upperIndex = upper.SegmentAtTemperature(Math.Min(top + shift, upper.MaxTemperature), above: false);
        }
    }

    /// <summary>The present piece.</summary>
    public DifferencePiece Current { get; private set; }

    /// <summary>Steps down to the next piece of non-zero width; false at the bottom.</summary>
    public bool MoveNext()
    {
        while (place > bottom)
        {
            double end = place;
            double lowerNode = lower.NodeTemperatures[lowerIndex];
            double upperNode = upper.NodeTemperatures[upperIndex] - shift;
            double start = Math.Max(bottom, Math.Max(lowerNode, upperNode));
            if (lowerIndex == 0 && upperIndex == 0)
            {
                start = bottom;
            }

            int lowerSegment = lowerIndex;
            int upperSegment = upperIndex;
            double jump = start <= lowerNode ? lowerFactor * StepDown(lower, ref lowerIndex) : 0;
            if (start <= upperNode)
            {
                StepDown(upper, ref upperIndex);
            }

            place = start;
            if (start < end)
            {
                lower.SegmentAt(lowerSegment).Expand(start, out double a0, out double a1, out double a2, out double a3);
                upper.SegmentAt(upperSegment).Expand(start + shift, out double b0, out double b1, out double b2, out double b3);
                Current = new DifferencePiece(
                    start,
                    end,
                    (lowerFactor * a0) - (upperFactor * b0),
                    (lowerFactor * a1) - (upperFactor * b1),
                    (lowerFactor * a2) - (upperFactor * b2),
                    (lowerFactor * a3) - (upperFactor * b3),
                    jump);
                return true;
            }
        }

        return false;
    }

    /// <summary>Moves to the next lower segment of non-zero width; returns the enthalpy jumped over, J/mol.</summary>
    private static double StepDown(IsobarTable table, ref int index)
    {
        double jump = 0;
        while (index > 0)
        {
            index--;
            if (table.SegmentAt(index).Width > 0)
            {
                break;
            }

            jump += table.NodeEnthalpies[index + 1] - table.NodeEnthalpies[index];
        }

        return jump;
    }
}
