using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// All critical points of a mixture of given composition within a range of volumes and temperatures: the limit of intrinsic stability is
/// found at each of a row of volumes at every temperature where it is crossed; where the third-order condition changes its sign from one
/// volume to the next, Newton begins.
/// </summary>
internal static class CriticalPointFinder
{
    private const int Volumes = 42;
    private const int Temperatures = 40;
    private const double SmallestVolume = 0.26;
    private const double LargestVolume = 4;
    private const double SameBranch = 0.15;

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
        List<Limit> previous = [];
        for (int k = 0; k < Volumes; k++)
        {
            double volume = scale * SmallestVolume * Math.Pow(LargestVolume / SmallestVolume, k / (Volumes - 1.0));
            List<Limit> limits = Limits(conditions, volume, low, high);
            foreach (Limit limit in limits)
            {
                Limit? nearest = null;
                foreach (Limit other in previous)
                {
                    double gap = Math.Abs(Math.Log(other.Temperature / limit.Temperature));
                    if (gap < SameBranch && !(gap >= Math.Abs(Math.Log((nearest?.Temperature ?? 1e9) / limit.Temperature))))
                    {
                        nearest = other;
                    }
                }

                if (nearest is not { } before)
                {
                    continue;
                }

                double along = 0;
                for (int i = 0; i < before.Direction.Length; i++)
                {
                    along += before.Direction[i] * limit.Direction[i];
                }

                double third = along < 0 ? -limit.Third : limit.Third;
                if (before.Third * third > 0)
                {
                    continue;
                }

                double share = Math.Abs(before.Third) / (Math.Abs(before.Third) + Math.Abs(third) + 1e-300);
                double t = before.Temperature * Math.Pow(limit.Temperature / before.Temperature, share);
                double v = before.Volume * Math.Pow(volume / before.Volume, share);
                Add(conditions, found, t, v, low, high);
            }

            previous = limits;
        }

        found.Sort(static (a, b) => b.Temperature.CompareTo(a.Temperature));
        return found;
    }

    /// <summary>The critical point near a temperature and molar density; false when Newton does not arrive at one close by.</summary>
    public static bool TryNear(MixtureKernel kernel, ReadOnlySpan<double> z, double temperature, double molarDensity, out Point point)
    {
        const double CloseBy = 0.05;
        CriticalConditions conditions = new(kernel, z);
        double t = temperature;
        double v = 1 / molarDensity;
        point = default;
        if (!conditions.TrySolve(ref t, ref v, out double residual)
            || Math.Abs(Math.Log(t / temperature)) > CloseBy || Math.Abs(Math.Log(v * molarDensity)) > 4 * CloseBy)
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

    // Every temperature at which the mixture passes the limit of intrinsic stability at a volume.
    private static List<Limit> Limits(CriticalConditions conditions, double volume, double low, double high)
    {
        const int Halvings = 22;
        List<Limit> limits = [];
        double hot = high;
        bool hotStable = conditions.IsIntrinsicallyStable(hot, volume);
        for (int k = 1; k <= Temperatures; k++)
        {
            double cold = high * Math.Pow(low / high, k / (double)Temperatures);
            bool coldStable = conditions.IsIntrinsicallyStable(cold, volume);
            if (coldStable != hotStable)
            {
                double a = hot;
                double b = cold;
                for (int halving = 0; halving < Halvings; halving++)
                {
                    double middle = 0.5 * (a + b);
                    if (conditions.IsIntrinsicallyStable(middle, volume) == hotStable)
                    {
                        a = middle;
                    }
                    else
                    {
                        b = middle;
                    }
                }

                double[] direction = new double[conditions.Count];
                if (conditions.TryEvaluate(0.5 * (a + b), volume, direction, out double eigenvalue, out double third) && Math.Abs(eigenvalue) < 1e-2)
                {
                    limits.Add(new(0.5 * (a + b), volume, third, direction));
                }
            }

            hot = cold;
            hotStable = coldStable;
        }

        return limits;
    }

    private readonly record struct Limit(double Temperature, double Volume, double Third, double[] Direction);
}
