using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// All critical points of a mixture of given composition within a range of volumes and temperatures: the limit of intrinsic stability is
/// found on every edge of a net over both that crosses it; where the third-order condition changes its sign within a cell, Newton begins.
/// </summary>
internal static class CriticalPointFinder
{
    private const int Volumes = 42;
    private const int Temperatures = 40;
    private const double SmallestVolume = 0.26;
    private const double LargestVolume = 4;

    /// <summary>A critical point.</summary>
    /// <param name="Temperature">K.</param>
    /// <param name="Pressure">Pa.</param>
    /// <param name="MolarDensity">mol/m3.</param>
    /// <param name="Residual">The larger of both conditions.</param>
    /// <param name="IsStable">No other phase forms before.</param>
    public readonly record struct Point(double Temperature, double Pressure, double MolarDensity, double Residual, bool IsStable);

    /// <summary>Finds them, hottest first.</summary>
    public static List<Point> Find(MixtureKernel kernel, ReadOnlySpan<double> z)
    {
        int only = IncipientPoint.SingleComponent(z);
        if (only >= 0 && kernel.IsPureEquation)
        {
            return [new(kernel.CriticalTemperature(only), kernel.CriticalPressure(only), kernel.CriticalDensity(only), 0, true)];
        }

        CriticalConditions conditions = new(kernel, z);
        double hottest = 0;
        double coldest = double.PositiveInfinity;
        double scale = 0;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] > 0)
            {
                hottest = Math.Max(hottest, kernel.CriticalTemperature(i));
                coldest = Math.Min(coldest, kernel.CriticalTemperature(i));
                scale += z[i] / kernel.CriticalDensity(i);
            }
        }

        double high = Math.Min(1.6 * hottest, kernel.HighestTemperature);
        double low = Math.Max(0.35 * coldest, kernel.LowestTemperature);
        List<Point> found = [];
        Limit?[] acrossBefore = [];
        bool[] stableBefore = [];
        for (int k = 0; k < Volumes; k++)
        {
            double volume = scale * SmallestVolume * Math.Pow(LargestVolume / SmallestVolume, k / (Volumes - 1.0));
            double volumeBefore = scale * SmallestVolume * Math.Pow(LargestVolume / SmallestVolume, (k - 1) / (Volumes - 1.0));
            bool[] stable = new bool[Temperatures + 1];
            Limit?[] across = new Limit?[Temperatures];
            for (int j = 0; j <= Temperatures; j++)
            {
                stable[j] = conditions.IsIntrinsicallyStable(Temperature(j), volume);
                if (j > 0 && stable[j] != stable[j - 1])
                {
                    across[j - 1] = Between(conditions, Temperature(j - 1), volume, Temperature(j), volume, stable[j - 1]);
                }
            }

            // The limit of stability enters and leaves a cell of the net by its edges: both ends of such a stretch are compared.
            Limit? below = null;
            for (int j = 0; k > 0 && j <= Temperatures; j++)
            {
                Limit? along = stable[j] != stableBefore[j] ? Between(conditions, Temperature(j), volumeBefore, Temperature(j), volume, stableBefore[j]) : null;
                if (j > 0)
                {
                    Compare(conditions, found, [below, acrossBefore[j - 1], along, across[j - 1]], low, high);
                }

                below = along;
            }

            acrossBefore = across;
            stableBefore = stable;
        }

        double Temperature(int j) => high * Math.Pow(low / high, j / (double)Temperatures);

        found.Sort(static (a, b) => b.Temperature.CompareTo(a.Temperature));
        return found;
    }

    /// <summary>The critical point near a temperature and molar density; false when Newton does not arrive at one close by.</summary>
    public static bool TryNear(MixtureKernel kernel, ReadOnlySpan<double> z, double temperature, double molarDensity, out Point point) =>
        TryNear(kernel, z, temperature, molarDensity, 0.05, out point);

    /// <summary>The same within a distance in ln T, and four times that in ln of the density.</summary>
    public static bool TryNear(MixtureKernel kernel, ReadOnlySpan<double> z, double temperature, double molarDensity, double distance, out Point point)
    {
        CriticalConditions conditions = new(kernel, z);
        double t = temperature;
        double v = 1 / molarDensity;
        point = default;
        if (!conditions.TrySolve(ref t, ref v, out double residual)
            || Math.Abs(Math.Log(t / temperature)) > distance || Math.Abs(Math.Log(v * molarDensity)) > 4 * distance)
        {
            return false;
        }

        double p = conditions.PressureAt(t, v, out _);
        point = new(t, p, 1 / v, residual, conditions.IsStable(t, v));
        return p > 0;
    }

    private static void Add(CriticalConditions conditions, List<Point> found, double t, double v, double low, double high)
    {
        const double Same = 1e-6;
        if (!conditions.TrySolve(ref t, ref v, out double residual) || t < low || t > high)
        {
            return;
        }

        double p = conditions.PressureAt(t, v, out double byVolume);

        // A real critical point of a mixture can be compressed; under tension nothing is kept.
        if (!(p > 0) || byVolume > 1e-6 * p / v || found.Exists(f => Math.Abs((f.Temperature / t) - 1) < Same && Math.Abs((f.MolarDensity * v) - 1) < 1e-4))
        {
            return;
        }

        found.Add(new(t, p, 1 / v, residual, conditions.IsStable(t, v)));
    }

    // Newton begins between any two limits on the edges of a cell between which the third derivative along the critical direction changes its
    // sign, and where it is small at both: two critical points may lie between.
    private static void Compare(CriticalConditions conditions, List<Point> found, ReadOnlySpan<Limit?> edges, double low, double high)
    {
        const double Small = 0.02;
        for (int a = 0; a < edges.Length; a++)
        {
            for (int b = a + 1; b < edges.Length; b++)
            {
                if (edges[a] is not { } one || edges[b] is not { } other)
                {
                    continue;
                }

                double along = 0;
                for (int i = 0; i < one.Direction.Length; i++)
                {
                    along += one.Direction[i] * other.Direction[i];
                }

                double third = along < 0 ? -other.Third : other.Third;
                if (one.Third * third > 0 && !(Math.Abs(one.Third) < Small && Math.Abs(third) < Small))
                {
                    continue;
                }

                double share = one.Third * third > 0 ? 0.5 : Math.Abs(one.Third) / (Math.Abs(one.Third) + Math.Abs(third) + 1e-300);
                double t = one.Temperature * Math.Pow(other.Temperature / one.Temperature, share);
                double v = one.Volume * Math.Pow(other.Volume / one.Volume, share);
                Add(conditions, found, t, v, low, high);
            }
        }
    }

    // Where the mixture passes the limit of intrinsic stability between two points of temperature and volume; null where that is no smooth one.
    private static Limit? Between(CriticalConditions conditions, double fromT, double fromV, double toT, double toV, bool isStable)
    {
        const int Halvings = 12;
        double a = 0;
        double b = 1;
        for (int halving = 0; halving < Halvings; halving++)
        {
            double middle = 0.5 * (a + b);
            if (conditions.IsIntrinsicallyStable(fromT * Math.Pow(toT / fromT, middle), fromV * Math.Pow(toV / fromV, middle)) == isStable)
            {
                a = middle;
            }
            else
            {
                b = middle;
            }
        }

        double at = 0.5 * (a + b);
        double t = fromT * Math.Pow(toT / fromT, at);
        double v = fromV * Math.Pow(toV / fromV, at);
        double[] direction = new double[conditions.Count];
        return conditions.TryEvaluate(t, v, direction, out double eigenvalue, out double third) && Math.Abs(eigenvalue) < 3e-2 ? new(t, v, third, direction) : null;
    }

    private readonly record struct Limit(double Temperature, double Volume, double Third, double[] Direction);
}
