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
    private double second;
    private double third;

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
        Start = top;
        if (top > bottom)
        {
            lowerIndex = lower.SegmentAtTemperature(top, above: false);
            upperIndex = upper.SegmentAtTemperature(Math.Min(top + shift, upper.MaxTemperature), above: false);
        }
    }

    /// <summary>Lower end of the present piece, K.</summary>
    public double Start { get; private set; }

    /// <summary>Upper end of the present piece, K.</summary>
    public double End { get; private set; }

    /// <summary>The difference just above <see cref="Start"/>.</summary>
    public double ValueAtStart { get; private set; }

    /// <summary>dD/dT just above <see cref="Start"/>.</summary>
    public double SlopeAtStart { get; private set; }

    /// <summary>How much the difference falls at <see cref="Start"/> when the lower stream's jump there is included.</summary>
    public double LowerJumpAtStart { get; private set; }

    /// <summary>How much the difference would rise below <see cref="Start"/> by the upper stream's jump there.</summary>
    public double UpperJumpAtStart { get; private set; }

    /// <summary>Steps down to the next piece of non-zero width; false at the bottom.</summary>
    public bool MoveNext()
    {
        while (Start > bottom)
        {
            End = Start;
            double lowerNode = lower.NodeTemperatures[lowerIndex];
            double upperNode = upper.NodeTemperatures[upperIndex] - shift;
            Start = Math.Max(bottom, Math.Max(lowerNode, upperNode));
            if (lowerIndex == 0 && upperIndex == 0 && Start > bottom)
            {
                Start = bottom;
            }

            bool hasWidth = Start < End;
            if (hasWidth)
            {
                lower.SegmentAt(lowerIndex).Expand(Start, out double a0, out double a1, out double a2, out double a3);
                upper.SegmentAt(upperIndex).Expand(Start + shift, out double b0, out double b1, out double b2, out double b3);
                ValueAtStart = (lowerFactor * a0) - (upperFactor * b0);
                SlopeAtStart = (lowerFactor * a1) - (upperFactor * b1);
                second = (lowerFactor * a2) - (upperFactor * b2);
                third = (lowerFactor * a3) - (upperFactor * b3);
            }

            LowerJumpAtStart = Start <= lowerNode ? lowerFactor * StepDown(lower, ref lowerIndex) : 0;
            UpperJumpAtStart = Start <= upperNode ? upperFactor * StepDown(upper, ref upperIndex) : 0;
            if (hasWidth)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The difference at a temperature within the present piece.</summary>
    public readonly double Value(double t)
    {
        double x = t - Start;
        return ValueAtStart + (x * (SlopeAtStart + (x * (second + (x * third)))));
    }

    /// <summary>dD/dT at a temperature within the present piece.</summary>
    public readonly double Slope(double t)
    {
        double x = t - Start;
        return SlopeAtStart + (x * ((2 * second) + (3 * x * third)));
    }

    /// <summary>The stationary points inside the present piece, rising; NaN for one that does not exist.</summary>
    public readonly void StationaryPoints(out double first, out double last)
    {
        first = double.NaN;
        last = double.NaN;
        double width = End - Start;

        // SlopeAtStart + 2 second x + 3 third x^2 = 0 by the form that loses no digits.
        double a = 3 * third;
        double discriminant = (second * second) - (a * SlopeAtStart);
        if (discriminant <= 0)
        {
            return;
        }

        double q = -(second + Math.CopySign(Math.Sqrt(discriminant), second));
        double x1 = q / a;
        double x2 = SlopeAtStart / q;
        if (!(x1 <= x2))
        {
            (x1, x2) = (x2, x1);
        }

        if (x1 > 0 && x1 < width)
        {
            first = Start + x1;
        }

        if (x2 > 0 && x2 < width)
        {
            last = Start + x2;
        }
    }

    /// <summary>The inner minimum of the present piece, if there is one.</summary>
    public readonly bool TryInnerMinimum(out double t, out double value)
    {
        StationaryPoints(out double first, out double last);
        if (!double.IsNaN(first) && CurvatureAt(first) > 0)
        {
            t = first;
        }
        else if (!double.IsNaN(last) && CurvatureAt(last) > 0)
        {
            t = last;
        }
        else
        {
            t = double.NaN;
            value = double.NaN;
            return false;
        }

        value = Value(t);
        return true;
    }

    private readonly double CurvatureAt(double t) => second + (3 * third * (t - Start));

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
