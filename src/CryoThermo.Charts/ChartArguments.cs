namespace CryoThermo.Charts;

/// <summary>Checks of what a chart is given; each message names the list, the element, the value and the rule.</summary>
internal static class ChartArguments
{
    public static double[] Rising(IReadOnlyList<double> values, string name, string unit)
    {
        double[] copy = Finite(values, name, unit);
        if (copy.Length < 2)
        {
            throw new ArgumentException($"{name} has {copy.Length} elements; at least 2 are needed.", name);
        }

        for (int i = 1; i < copy.Length; i++)
        {
            if (copy[i] <= copy[i - 1])
            {
                throw new ArgumentException(
                    $"{name}[{i}] is {copy[i]:R} {unit} after {copy[i - 1]:R} {unit}; each element must be greater than the one before.", name);
            }
        }

        return copy;
    }

    public static double[] OnePerStation(IReadOnlyList<double> values, int count, string name, string unit)
    {
        double[] copy = Finite(values, name, unit);
        if (copy.Length != count)
        {
            throw new ArgumentException($"{name} has {copy.Length} elements; expected are {count}.", name);
        }

        return copy;
    }

    public static double[] Temperatures(double[] kelvins, string name)
    {
        for (int i = 0; i < kelvins.Length; i++)
        {
            Temperature(kelvins[i], $"{name}[{i}]");
        }

        return kelvins;
    }

    public static double Temperature(double kelvins, string name)
    {
        if (!(kelvins > 0 && double.IsFinite(kelvins)))
        {
            throw new ArgumentOutOfRangeException(name, kelvins, $"{name} is {kelvins:R} K; it must be finite and greater than zero.");
        }

        return kelvins;
    }

    public static double Finite(double value, string name, string unit)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(name, value, $"{name} is {value:R} {unit}; it must be finite.");
        }

        return value;
    }

    private static double[] Finite(IReadOnlyList<double> values, string name, string unit)
    {
        ArgumentNullException.ThrowIfNull(values, name);
        double[] copy = [.. values];
        for (int i = 0; i < copy.Length; i++)
        {
            Finite(copy[i], $"{name}[{i}]", unit);
        }

        return copy;
    }
}
