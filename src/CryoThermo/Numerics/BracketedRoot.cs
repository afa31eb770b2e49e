namespace CryoThermo.Numerics;

/// <summary>
/// Root of a continuous function inside a bracket: false position that halves the value of an end that stays (Illinois rule; Dowell and Jarratt, BIT 11
/// (1971) 168), and bisection wherever three steps have not halved the bracket. Where the function jumps across zero, the place of the jump.
/// </summary>
internal static class BracketedRoot
{
    private const int MostSteps = 300;

    /// <summary>Narrows a bracket; the function has different signs at the ends returned, or is zero there.</summary>
    /// <param name="function">The function; finite inside the bracket.</param>
    /// <param name="low">One end.</param>
    /// <param name="lowValue">Its value.</param>
    /// <param name="high">The other end.</param>
    /// <param name="highValue">Its value, of the other sign.</param>
    /// <param name="isNarrow">Tells of two ends, in this order, whether they are close enough.</param>
    public static (double Low, double High) Narrow(
        Func<double, double> function, double low, double lowValue, double high, double highValue, Func<double, double, bool> isNarrow)
    {
        bool lowIsPositive = lowValue > 0;
        double before = Math.Abs(high - low);
        bool? movedLow = null;
        for (int step = 1; step <= MostSteps && !isNarrow(low, high); step++)
        {
            double next = ((low * highValue) - (high * lowValue)) / (highValue - lowValue);
            if (step % 3 == 0)
            {
                double width = Math.Abs(high - low);
                next = width > 0.5 * before ? 0.5 * (low + high) : next;
                before = width;
            }

            if (!(next > Math.Min(low, high) && next < Math.Max(low, high)))
            {
                next = 0.5 * (low + high);
                if (next == low || next == high)
                {
                    break;
                }
            }

            double value = function(next);
            if (value == 0)
            {
                return (next, next);
            }

            if (value > 0 == lowIsPositive)
            {
                (low, lowValue) = (next, value);
                highValue *= movedLow == true ? 0.5 : 1;
                movedLow = true;
            }
            else
            {
                (high, highValue) = (next, value);
                lowValue *= movedLow == false ? 0.5 : 1;
                movedLow = false;
            }
        }

        return (low, high);
    }

    /// <summary>The root.</summary>
    /// <param name="function">The function.</param>
    /// <param name="low">One end.</param>
    /// <param name="high">The other end, where the function has the other sign.</param>
    /// <param name="relative">Width of the last bracket over its place.</param>
    public static double Solve(Func<double, double> function, double low, double high, double relative = 1e-14)
    {
        (double a, double b) = Narrow(
            function, low, function(low), high, function(high), (x, y) => Math.Abs(y - x) <= relative * Math.Max(Math.Abs(x), Math.Abs(y)));
        return 0.5 * (a + b);
    }
}
