namespace CryoThermo.Equilibrium;

/// <summary>
/// One cubic piece of the difference of two isobars between neighbouring nodes of either (see <see cref="IsobarPairWalk"/>).
/// </summary>
/// <param name="Start">Lower end, K.</param>
/// <param name="End">Upper end, K.</param>
/// <param name="ValueAtStart">The difference just above <paramref name="Start"/>.</param>
/// <param name="SlopeAtStart">Its first derivative with respect to temperature there.</param>
/// <param name="Second">Coefficient of the square of the temperature above <paramref name="Start"/>.</param>
/// <param name="Third">Coefficient of its cube.</param>
/// <param name="JumpAtStart">How much the difference falls when the lower stream's jump at <paramref name="Start"/> is included.</param>
internal readonly record struct DifferencePiece(
    double Start, double End, double ValueAtStart, double SlopeAtStart, double Second, double Third, double JumpAtStart)
{
    /// <summary>Least value at <see cref="Start"/>: the lower stream before its jump, the upper one past its own.</summary>
    public double LeastAtStart => ValueAtStart - JumpAtStart;
    /// <summary>The difference at a temperature within the present piece.</summary>
    public double Value(double t)
    {
        double x = t - Start;
        return ValueAtStart + (x * (SlopeAtStart + (x * (Second + (x * Third)))));
    }

    /// <summary>dD/dT at a temperature within the present piece.</summary>
    public double Slope(double t)
    {
        double x = t - Start;
        return SlopeAtStart + (x * ((2 * Second) + (3 * x * Third)));
    }

    /// <summary>The stationary points inside the present piece, rising; NaN for one that does not exist.</summary>
    public void StationaryPoints(out double first, out double last)
    {
        first = double.NaN;
        last = double.NaN;
        double width = End - Start;

        // SlopeAtStart + 2 Second x + 3 Third x^2 = 0 by the form that loses no digits.
        double a = 3 * Third;
        double discriminant = (Second * Second) - (a * SlopeAtStart);
        if (discriminant <= 0)
        {
            return;
        }

        double q = -(Second + Math.CopySign(Math.Sqrt(discriminant), Second));
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
    public bool TryInnerMinimum(out double t, out double value)
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

    private double CurvatureAt(double t) => Second + (3 * Third * (t - Start));
}
