using System.Runtime.CompilerServices;

namespace CryoThermo.Diagnostics;

/// <summary>Argument checks that name the parameter, the value with its unit and the allowed range.</summary>
internal static class Guard
{
    /// <summary>Requires <paramref name="value"/> to be finite and within [low, high].</summary>
    public static double InRange(
        double value, double low, double high, string unit, [CallerArgumentExpression(nameof(value))] string parameter = "")
    {
        if (!(value >= low && value <= high))
        {
            throw new ArgumentOutOfRangeException(
                parameter, value, $"{parameter} is {value:G9} {unit}; allowed is {low:G6} to {high:G6} {unit}.");
        }

        return value;
    }

    /// <summary>Requires <paramref name="value"/> to be finite and greater than zero.</summary>
    public static double Positive(
        double value, string unit, [CallerArgumentExpression(nameof(value))] string parameter = "")
    {
        if (!(value > 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(
                parameter, value, $"{parameter} is {value:G9} {unit}; it must be finite and greater than zero.");
        }

        return value;
    }

    /// <summary>Requires a span to have the given length.</summary>
    public static void Length(int actual, int expected, string parameter)
    {
        if (actual != expected)
        {
            throw new ArgumentException($"{parameter} has length {actual}; expected is {expected}.", parameter);
        }
    }
}
