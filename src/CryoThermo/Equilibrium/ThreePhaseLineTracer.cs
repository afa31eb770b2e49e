using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Follows the three-phase line of two components in temperature: Newton in the logits of the three compositions and in ln p, with analytic
/// derivatives, extrapolated from the points before. SI; compositions are mole fractions of the first component.
/// </summary>
internal static class ThreePhaseLineTracer
{
    private const double LargestStep = 2;
    private const double SmallestStep = 1e-5;
    private const int Unknowns = 4;

    // Phases nearer to one another than this in the logit belong to the end, which is then extrapolated: the square of the difference falls
    // linearly there. The logit tells an almost pure vapour from an almost pure liquid.
    private const double NearestPhases = 0.05;

    /// <summary>Traces the line; empty when there is none.</summary>
    public static IReadOnlyList<Point> Trace(MixtureKernel kernel, out End? end)
    {
        end = null;
        double[] scratch = new double[kernel.ScratchLength];
        if (Start(kernel, scratch) is not { } start)
        {
            return [];
        }

        List<Point> up = Walk(kernel, scratch, start, 1, out End? found);
        end = found;
        List<Point> down = Walk(kernel, scratch, start, -1, out _);
        down.Reverse();
        return [.. down.SkipLast(1), .. up];
    }

    // Two liquids under pressure, from the cold; then the pressure at which the lighter of them boils, and Newton.
    private static Point? Start(MixtureKernel kernel, double[] scratch)
    {
        double warm = Math.Max(kernel.CriticalTemperature(0), kernel.CriticalTemperature(1));
        double cold = Math.Max(kernel.LowestTemperature, 0.2 * warm);
        double[] incipient = new double[2];
        foreach (double pressure in (double[])[1e7, 3e6, 3e7])
        {
            for (double t = cold; t < warm; t += Math.Max(2, 0.02 * warm))
            {
                foreach (double fraction in (double[])[0.5, 0.3, 0.7, 0.15, 0.85])
                {
                    PhaseSplit split = new(new double[2], new double[2], new double[2]);
                    try
                    {
                        IsothermalFlash.Solve(kernel, t, pressure, [fraction, 1 - fraction], scratch, ref split);
                    }
                    catch (ArgumentOutOfRangeException)
                    {
                        // The equations have no fluid there.
                        continue;
                    }

                    if (split.PhaseCount != 2 || split.LightIsVapor)
                    {
                        continue;
                    }

                    bool firstIsLight = kernel.CriticalTemperature(0) < kernel.CriticalTemperature(1);
                    double one = Math.Max(split.Light[0], split.Heavy[0]);
                    double other = Math.Min(split.Light[0], split.Heavy[0]);
                    (double light, double heavy) = firstIsLight ? (one, other) : (other, one);
                    double temperature = t;
                    double boiling = 1e5;
                    if (!IncipientPoint.TryFind(kernel, [light, 1 - light], true, IncipientPoint.Unknown.Pressure, ref temperature, ref boiling, scratch, incipient, out _))
                    {
                        continue;
                    }

                    double[] u = [Math.Log(incipient[0] / incipient[1]), Logit(light), Logit(heavy), Math.Log(boiling)];
                    if (Newton(kernel, scratch, t, u))
                    {
                        return ToPoint(t, u);
                    }
                }
            }
        }

        return null;
    }

    private static List<Point> Walk(MixtureKernel kernel, double[] scratch, Point start, int direction, out End? end)
    {
        List<Point> points = [start];
        end = null;
        double step = direction * LargestStep;
        double lowest = kernel.LowestTemperature;
        double warmest = Math.Max(kernel.CriticalTemperature(0), kernel.CriticalTemperature(1));
        while (Math.Abs(step) > SmallestStep)
        {
            Point last = points[^1];
            double t = last.Temperature + step;
            if (t < lowest || t > warmest)
            {
                step *= 0.5;
                continue;
            }

            double[] u = Extrapolate(points, t);
            if (Newton(kernel, scratch, t, u) && IsNext(last, ToPoint(t, u)))
            {
                points.Add(ToPoint(t, u));
                if (points[^1].Nearest < NearestPhases)
                {
                    break;
                }

                step = direction * Math.Min(Math.Abs(step) * 1.4, LargestStep);
            }
            else
            {
                step *= 0.5;
            }
        }

        if (direction > 0 && points.Count >= 2 && points[^1].Nearest < 5 * NearestPhases)
        {
            Point a = points[^2];
            Point b = points[^1];
            double slope = ((b.Nearest * b.Nearest) - (a.Nearest * a.Nearest)) / (b.Temperature - a.Temperature);
            double t = b.Temperature - (b.Nearest * b.Nearest / slope);
            double lnP = Math.Log(b.Pressure) + ((t - b.Temperature) * Math.Log(b.Pressure / a.Pressure) / (b.Temperature - a.Temperature));
            end = new(t, Math.Exp(lnP), b.VaporIsNearest);
        }

        return points;
    }

    private static bool IsNext(Point last, Point next) =>
        IsNear(next.Vapor, last.Vapor) && IsNear(next.LightLiquid, last.LightLiquid) && IsNear(next.HeavyLiquid, last.HeavyLiquid)
        && next.Nearest > 0.02 * NearestPhases;

    private static bool IsNear(double logit, double other) => Math.Abs(Point.FractionsOf(logit)[0] - Point.FractionsOf(other)[0]) < 0.1;

    private static double[] Extrapolate(List<Point> points, double t)
    {
        Point last = points[^1];
        double[] u = [last.Vapor, last.LightLiquid, last.HeavyLiquid, Math.Log(last.Pressure)];
        if (points.Count < 2)
        {
            return u;
        }

        Point before = points[^2];
        double[] old = [before.Vapor, before.LightLiquid, before.HeavyLiquid, Math.Log(before.Pressure)];
        double factor = (t - last.Temperature) / (last.Temperature - before.Temperature);
        for (int k = 0; k < Unknowns; k++)
        {
            u[k] += factor * (u[k] - old[k]);
        }

        return u;
    }

    private static bool Newton(MixtureKernel kernel, double[] scratch, double temperature, double[] u)
    {
        double[] lnPhi = new double[2];
        double[] byAmount = new double[4];
        double[] byP = new double[2];
        double[] x = new double[2];
        double[] lnF = new double[6];
        double[] slope = new double[6];
        double[] pressureSlope = new double[6];
        double[] jacobian = new double[Unknowns * Unknowns];
        double[] step = new double[Unknowns];
        kernel.SetTemperature(temperature, scratch);
        for (int iteration = 0; iteration < 40; iteration++)
        {
            double p = Math.Exp(u[3]);
            if (!(p > kernel.LowestPressure && p < kernel.HighestPressure))
            {
                return false;
            }

            for (int phase = 0; phase < 3; phase++)
            {
                x[0] = 1 / (1 + Math.Exp(-u[phase]));
                x[1] = 1 / (1 + Math.Exp(u[phase]));
                try
                {
                    kernel.LnFugacityDerivatives(
                        temperature, p, x, phase == 0 ? DensityRoot.Vapor : DensityRoot.Liquid, scratch, lnPhi, byAmount, default, byP, out _);
                }
                catch (ArgumentOutOfRangeException)
                {
                    return false;
                }

                for (int i = 0; i < 2; i++)
                {
                    int k = (2 * phase) + i;
                    lnF[k] = Math.Log(x[i]) + lnPhi[i];
                    double byFraction = byAmount[2 * i] - byAmount[(2 * i) + 1];
                    slope[k] = (i == 0 ? x[1] : -x[0]) + (x[0] * x[1] * byFraction);
                    pressureSlope[k] = p * byP[i];
                }
            }

            double error = 0;
            Array.Clear(jacobian);
            for (int liquid = 1; liquid < 3; liquid++)
            {
                for (int i = 0; i < 2; i++)
                {
                    int row = (2 * (liquid - 1)) + i;
                    step[row] = -(lnF[(2 * liquid) + i] - lnF[i]);
                    error = Math.Max(error, Math.Abs(step[row]));
                    jacobian[(row * Unknowns) + 0] = -slope[i];
                    jacobian[(row * Unknowns) + liquid] = slope[(2 * liquid) + i];
                    jacobian[(row * Unknowns) + 3] = pressureSlope[(2 * liquid) + i] - pressureSlope[i];
                }
            }

            if (error < 1e-11)
            {
                return true;
            }

            if (!double.IsFinite(error) || !LinearSystem.Solve(jacobian, Unknowns, step))
            {
                return false;
            }

            double scale = 1;
            for (int k = 0; k < Unknowns; k++)
            {
                scale = Math.Min(scale, 0.7 / Math.Max(Math.Abs(step[k]), 0.7));
            }

            for (int k = 0; k < Unknowns; k++)
            {
                u[k] += scale * step[k];
            }
        }

        return false;
    }

    private static double Logit(double x) => Math.Log(x / (1 - x));

    private static Point ToPoint(double t, double[] u) => new(t, Math.Exp(u[3]), u[0], u[1], u[2]);

    /// <summary>A point of the line, with the logits of the mole fractions of the first component: traces keep their digits on either side.</summary>
    internal readonly record struct Point(double Temperature, double Pressure, double Vapor, double LightLiquid, double HeavyLiquid)
    {
        public double Nearest => Math.Min(ToVapor, ToHeavyLiquid);

        public bool VaporIsNearest => ToVapor < ToHeavyLiquid;

        private double ToVapor => Math.Abs(Vapor - LightLiquid);

        private double ToHeavyLiquid => Math.Abs(LightLiquid - HeavyLiquid);

        /// <summary>Both mole fractions of a logit.</summary>
        public static double[] FractionsOf(double logit) => [1 / (1 + Math.Exp(-logit)), 1 / (1 + Math.Exp(logit))];
    }

    /// <summary>The upper end.</summary>
    internal readonly record struct End(double Temperature, double Pressure, bool VaporMerges);
}
