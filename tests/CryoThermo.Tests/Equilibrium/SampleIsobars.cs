using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

/// <summary>Made-up isobars for tests: they obey dh = cp dT and ds = dh/T, and describe no fluid.</summary>
internal static class SampleIsobars
{
    /// <summary>Constant heat capacity, J/(mol K).</summary>
    public static IsobarTable Linear(double low, double high, double heatCapacity, int nodes = 5, double offset = 0)
    {
        double[] t = new double[nodes];
        double[] slope = new double[nodes - 1];
        for (int i = 0; i < nodes; i++)
        {
            t[i] = low + ((high - low) * i / (nodes - 1));
        }

        t[^1] = high;
        Array.Fill(slope, heatCapacity);
        return Build(t, [.. t.Select(x => offset + (heatCapacity * x))], slope, slope, new PhaseRegion[nodes - 1]);
    }

    /// <summary>A pure fluid: liquid, a jump at the boiling temperature, vapour; constant heat capacities.</summary>
    public static IsobarTable Boiling(double low, double boiling, double high, double liquid, double latent, double vapor)
    {
        double atBubble = liquid * (boiling - low);
        return Build(
            [low, boiling, boiling, high],
            [0, atBubble, atBubble + latent, atBubble + latent + (vapor * (high - boiling))],
            [liquid, 0, vapor],
            [liquid, 0, vapor],
            [PhaseRegion.Liquid, PhaseRegion.ConstantTemperatureBoiling, PhaseRegion.Vapor]);
    }

    /// <summary>
    /// A wide-boiling mixture in outline: liquid, a two-phase stretch of uneven heat capacity, vapour, with kinks at
    /// bubble and dew point; many nodes.
    /// </summary>
    public static IsobarTable MixtureLike(double low, double bubble, double dew, double high, int nodes, double latent, double offset, double ripple)
    {
        double Capacity(double t, int side)
        {
            bool twoPhase = t > bubble && t < dew || (t == bubble && side > 0) || (t == dew && side < 0);
            if (!twoPhase)
            {
                return t <= bubble ? 60 + (0.1 * (t - low)) : 40 + (0.03 * (t - dew));
            }

            double u = (t - bubble) / (dew - bubble);
            return 45 + (latent / (dew - bubble) * (1 + (ripple * Math.Sin(9 * u)) + (0.8 * u * u)));
        }

        List<double> t = [low, bubble, dew, high];
        for (int i = 1; i < nodes - 3; i++)
        {
            t.Add(low + ((high - low) * (i + 0.37) / (nodes - 2.5)));
        }

        t.Sort();
        double[] temperature = [.. t];
        double[] enthalpy = new double[nodes];
        double[] start = new double[nodes - 1];
        double[] end = new double[nodes - 1];
        PhaseRegion[] region = new PhaseRegion[nodes - 1];
        enthalpy[0] = offset;
        for (int i = 0; i + 1 < nodes; i++)
        {
            double a = temperature[i];
            double b = temperature[i + 1];
            start[i] = Capacity(a, 1);
            end[i] = Capacity(b, -1);
            enthalpy[i + 1] = enthalpy[i] + ((b - a) / 6 * (start[i] + (4 * Capacity(0.5 * (a + b), 1)) + end[i]));
            region[i] = a < bubble ? PhaseRegion.Liquid : a < dew ? PhaseRegion.LiquidVapor : PhaseRegion.Vapor;
        }

        return Build(temperature, enthalpy, start, end, region);
    }

    /// <summary>A random rising piecewise cubic with kinks at every node and, sometimes, jumps.</summary>
    public static IsobarTable Random(Random random, double low, double high, bool jumps)
    {
        int segments = random.Next(1, 25);
        List<double> inner = [];
        for (int i = 0; i < segments - 1; i++)
        {
            inner.Add(low + ((high - low) * random.NextDouble()));
        }

        inner.Sort();
        List<double> t = [low];
        List<double> h = [-20000 * random.NextDouble()];
        List<double> start = [];
        List<double> end = [];
        List<PhaseRegion> region = [];
        inner.Add(high);
        foreach (double next in inner)
        {
            double mean = 20 * Math.Exp(3 * random.NextDouble());
            double rise = mean * (next - t[^1]);
            if (!(rise > 0))
            {
                continue;
            }

            // End slopes up to three times the mean keep the cubic rising (Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238).
            start.Add(mean * (0.05 + (2.8 * random.NextDouble())));
            end.Add(mean * (0.05 + (2.8 * random.NextDouble())));
            region.Add(PhaseRegion.LiquidVapor);
            t.Add(next);
            h.Add(h[^1] + rise);
            if (jumps && next < high && random.NextDouble() < 0.15)
            {
                start.Add(double.NaN);
                end.Add(double.NaN);
                region.Add(PhaseRegion.ConstantTemperatureBoiling);
                t.Add(next);
                h.Add(h[^1] + (6000 * random.NextDouble()) + 1);
            }
        }

        return Build([.. t], [.. h], [.. start], [.. end], [.. region]);
    }

    /// <summary>The table of given nodes and slopes with its entropies by ds = dh/T (20-point midpoint sub-panels, Gauss inside).</summary>
    public static IsobarTable Build(double[] t, double[] h, double[] start, double[] end, PhaseRegion[] region)
    {
        double[] s = new double[t.Length];
        double root = Math.Sqrt(0.6);
        for (int i = 0; i + 1 < t.Length; i++)
        {
            double width = t[i + 1] - t[i];
            if (width <= 0)
            {
                s[i + 1] = s[i] + ((h[i + 1] - h[i]) / t[i]);
                continue;
            }

            double c1 = start[i] * width;
            double c1AtEnd = end[i] * width;
            double rise = h[i + 1] - h[i];
            double c2 = (3 * rise) - (2 * c1) - c1AtEnd;
            double c3 = c1 + c1AtEnd - (2 * rise);
            double Rate(double u) => (c1 + (u * ((2 * c2) + (3 * c3 * u)))) / (t[i] + (u * width));
            double sum = 0;
            const int panels = 20;
            for (int k = 0; k < panels; k++)
            {
                double middle = (k + 0.5) / panels;
                double half = 0.5 / panels;
                sum += half / 9 * ((5 * Rate(middle - (half * root))) + (8 * Rate(middle)) + (5 * Rate(middle + (half * root))));
            }

            s[i + 1] = s[i] + sum;
        }

        return new IsobarTable(150000, t, h, s, start, end, region);
    }
}
