namespace CryoThermo.Materials;

/// <summary>Integrals over temperature of what is smooth between given nodes.</summary>
internal static class TemperatureIntegral
{
    /// <summary>Steps of a factor in temperature that each take four points of Gauss.</summary>
    private const double Segment = 1.15;

    private static readonly double[] GaussPoints = [0.3399810435848563, 0.8611363115940526];
    private static readonly double[] GaussWeights = [0.6521451548625461, 0.3478548451374538];

    /// <summary>The integral; negative where it goes from warm to cold.</summary>
    /// <param name="function">Over the temperature in K.</param>
    /// <param name="from">K.</param>
    /// <param name="to">K.</param>
    /// <param name="nodes">Temperatures at which the function may bend, K.</param>
    public static double Of(Func<double, double> function, double from, double to, double[] nodes)
    {
        if (from > to)
        {
            return -Of(function, to, from, nodes);
        }

        double sum = 0;
        double low = from;
        while (low < to)
        {
            double high = Math.Min(low * Segment, to);
            foreach (double node in nodes)
            {
                high = node > low && node < high ? node : high;
            }

            double half = 0.5 * (high - low);
            double middle = 0.5 * (high + low);
            for (int i = 0; i < GaussPoints.Length; i++)
            {
                sum += half * GaussWeights[i] * (function(middle - (half * GaussPoints[i])) + function(middle + (half * GaussPoints[i])));
            }

            low = high;
        }

        return sum;
    }
}
