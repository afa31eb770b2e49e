using CryoThermo.EquationsOfState;
using MathNet.Numerics.RootFinding;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Where throttling of one phase neither cools nor warms: T dp/dT = density dp/d(density) (constant density, constant temperature), followed
/// in temperature and density from the hot end at low density to where the fluid is one phase no more. Holds working memory: one thread.
/// </summary>
internal sealed class InversionTracer
{
    /// <summary>Why the curve ends.</summary>
    public enum Stop
    {
        /// <summary>Zero pressure.</summary>
        ZeroPressure,

        /// <summary>Highest temperature of the model.</summary>
        HighestTemperature,

        /// <summary>Lowest temperature of the model.</summary>
        LowestTemperature,

        /// <summary>Highest pressure of the model.</summary>
        HighestPressure,

        /// <summary>The fluid begins to boil or to split.</summary>
        PhaseBoundary,

        /// <summary>The equation could not be solved any further.</summary>
        NotContinued,
    }

    private const double Step = 0.04;
    private const double DensityWeight = 0.5;
    private const int MaxPoints = 400;

    private readonly FluidKernel fluid;
    private readonly double[] z;
    private readonly double[] scratch;
    private readonly double[] ln;
    private readonly double[] square;
    private readonly double[] byT;
    private readonly double unit;

    /// <summary>Prepares tracing.</summary>
    public InversionTracer(FluidKernel fluid, ReadOnlySpan<double> z)
    {
        this.fluid = fluid;
        this.z = z.ToArray();
        scratch = new double[fluid.Equation.ScratchLength];
        ln = new double[z.Length];
        square = new double[z.Length * z.Length];
        byT = new double[z.Length];
        double volume = 0;
        for (int i = 0; i < z.Length; i++)
        {
            volume += z[i] > 0 ? z[i] / fluid.Equation.CriticalDensity(i) : 0;
        }

        unit = 1 / volume;
    }

    /// <summary>A point of the curve.</summary>
    /// <param name="Temperature">K.</param>
    /// <param name="Pressure">Pa.</param>
    /// <param name="MolarDensity">mol/m3.</param>
    public readonly record struct Point(double Temperature, double Pressure, double MolarDensity);

    /// <summary>Follows the curve; empty where the fluid has none within the temperatures of the model.</summary>
    /// <param name="hottest">The inversion temperature at zero pressure, K; null where it lies above the temperatures of the model.</param>
    /// <param name="upper">Why it begins where it does.</param>
    /// <param name="lower">Why it ends where it does.</param>
    public List<Point> Trace(double? hottest, out Stop upper, out Stop lower)
    {
        List<Point> points = [];
        upper = hottest is null ? Stop.HighestTemperature : Stop.ZeroPressure;
        lower = Stop.NotContinued;
        double u;
        double r;
        if (hottest is { } top)
        {
            (u, r) = (Math.Log(top), 0);
            points.Add(new(top, 0, 0));
        }
        else
        {
            double high = fluid.HighestTemperature;
            u = Math.Log(high);
            double before = 0.02;
            double after = before;
            while (after < 3 && Excess(u, after) > 0)
            {
                before = after;
                after += 0.02;
            }

            if (after >= 3 || after == before)
            {
                return points;
            }

            r = Brent.FindRoot(d => Excess(u, d), before, after, 1e-13, 200);
            points.Add(At(u, r));
        }

        double du = 0;
        double dr = 1;
        double step = Step;
        while (points.Count < MaxPoints)
        {
            if (!TryCorrect(u + (step * du), r + (step * dr / DensityWeight), du, dr, out double nextU, out double nextR))
            {
                step *= 0.5;
                if (step < 1e-6)
                {
                    return points;
                }

                continue;
            }

            Stop? left = Left(nextU, nextR);
            if (left is { } stop)
            {
                lower = stop;
                double inside = 0;
                double outside = 1;
                (double U, double R) last = (u, r);
                for (int halving = 0; halving < 40; halving++)
                {
                    double middle = 0.5 * (inside + outside);
                    if (TryCorrect(u + (middle * (nextU - u)), r + (middle * (nextR - r)), du, dr, out double mu, out double mr) && Left(mu, mr) is null)
                    {
                        inside = middle;
                        last = (mu, mr);
                    }
                    else
                    {
                        outside = middle;
                    }
                }

                if (inside > 0)
                {
                    points.Add(At(last.U, last.R));
                }

                return points;
            }

            double length = Math.Sqrt(((nextU - u) * (nextU - u)) + (DensityWeight * DensityWeight * (nextR - r) * (nextR - r)));
            du = (nextU - u) / length;
            dr = DensityWeight * (nextR - r) / length;
            (u, r) = (nextU, nextR);
            points.Add(At(u, r));
            step = Step;
        }

        return points;
    }

    /// <summary>The point of highest pressure between three neighbours, of which the middle one has the highest; to 1e-9 in ln T.</summary>
    public Point Peak(Point before, Point highest, Point after)
    {
        double golden = (Math.Sqrt(5) - 1) / 2;
        double low = Math.Log(Math.Min(before.Temperature, after.Temperature));
        double high = Math.Log(Math.Max(before.Temperature, after.Temperature));
        double first = high - (golden * (high - low));
        double second = low + (golden * (high - low));
        Point atFirst = OnCurve(first, highest);
        Point atSecond = OnCurve(second, highest);
        while (high - low > 1e-9)
        {
            if (atFirst.Pressure > atSecond.Pressure)
            {
                (high, second, atSecond) = (second, first, atFirst);
                first = high - (golden * (high - low));
                atFirst = OnCurve(first, highest);
            }
            else
            {
                (low, first, atFirst) = (first, second, atSecond);
                second = low + (golden * (high - low));
                atSecond = OnCurve(second, highest);
            }
        }

        return atFirst.Pressure > highest.Pressure ? atFirst : highest;
    }

    /// <summary>The point of the curve at a temperature between two neighbours; false where the temperature is not between theirs.</summary>
    public bool TryBetween(Point a, Point b, double temperature, out Point point)
    {
        point = default;
        double share = (temperature - a.Temperature) / (b.Temperature - a.Temperature);
        if (!(share >= 0 && share <= 1))
        {
            return false;
        }

        double r = (a.MolarDensity + (share * (b.MolarDensity - a.MolarDensity))) / unit;
        if (!TryCorrect(Math.Log(temperature), r, 1, 0, out double u, out double corrected))
        {
            return false;
        }

        point = At(u, corrected);
        return true;
    }

    private Point OnCurve(double u, Point near) =>
        TryCorrect(u, near.MolarDensity / unit, 1, 0, out double same, out double r) ? At(same, r) : near with { Pressure = 0 };

    private Point At(double u, double r)
    {
        double t = Math.Exp(u);
        if (r <= 0)
        {
            return new(t, 0, 0);
        }

        fluid.Equation.SetTemperature(t, scratch);
        return new(t, fluid.Equation.Pressure(t, r * unit, z, scratch, out _), r * unit);
    }

    // (T dp/dT - density dp/d(density))/(R T density), over the reduced density: positive where throttling cools.
    private double Excess(double u, double r)
    {
        double t = Math.Exp(u);
        MixtureKernel equation = fluid.Equation;
        equation.SetTemperature(t, scratch);
        double density = r * unit;
        if (!(density < equation.DensityLimit(z, scratch)))
        {
            return double.NaN;
        }

        equation.LnFugacityDerivativesAtDensity(t, density, z, scratch, ln, square, byT, out double pressureByT);
        double stiffness = 1;
        for (int i = 0; i < z.Length; i++)
        {
            for (int j = 0; j < z.Length; j++)
            {
                stiffness += z[i] * z[j] * square[(i * z.Length) + j];
            }
        }

        return ((pressureByT / (density * equation.GasConstant)) - stiffness) / r;
    }

    // Newton across the direction of the curve, slopes by differences.
    private bool TryCorrect(double u, double r, double du, double dr, out double foundU, out double foundR)
    {
        const double Small = 1e-6;
        double acrossU = -dr;
        double acrossR = du / DensityWeight;
        double s = 0;
        foundU = u;
        foundR = r;
        for (int iteration = 0; iteration < 30; iteration++)
        {
            foundU = u + (s * acrossU);
            foundR = r + (s * acrossR);
            if (!(foundR > 0))
            {
                return false;
            }

            double here = Excess(foundU, foundR);
            double slope = (Excess(foundU + (Small * acrossU), foundR + (Small * acrossR)) - Excess(foundU - (Small * acrossU), foundR - (Small * acrossR))) / (2 * Small);
            double step = -here / slope;
            if (!double.IsFinite(step) || Math.Abs(s + step) > 0.5)
            {
                return false;
            }

            s += step;
            if (Math.Abs(step) < 1e-12)
            {
                return true;
            }

            if (iteration > 8 && Math.Abs(step) < 1e-9)
            {
                return true;
            }
        }

        return false;
    }

    private Stop? Left(double u, double r)
    {
        double t = Math.Exp(u);
        if (t < fluid.LowestTemperature)
        {
            return Stop.LowestTemperature;
        }

        if (t > fluid.HighestTemperature)
        {
            return Stop.HighestTemperature;
        }

        Point point = At(u, r);
        if (point.Pressure > fluid.HighestPressure)
        {
            return Stop.HighestPressure;
        }

        if (!(point.Pressure > fluid.LowestPressure))
        {
            return Stop.PhaseBoundary;
        }

        try
        {
            EquilibriumResult state = fluid.At(t, point.Pressure, z);
            return state.Phases.Length == 1 && !state.StillUnstable && Math.Abs((state.Phases[0].Figures.MolarDensity / point.MolarDensity) - 1) < 1e-5
                ? null
                : Stop.PhaseBoundary;
        }
        catch (ArgumentOutOfRangeException)
        {
            return Stop.PhaseBoundary;
        }
    }
}
