using CryoThermo.EquationsOfState;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Looks for a trial phase below the tangent plane of an answer without any of the library's stability code: lattice and random compositions
/// with both outer density roots, then a simplex descent (Nelder, Mead, Comput. J. 7 (1965) 308) in ln(w_i/w_last) from the lowest of them.
/// </summary>
public static class DenseSearch
{
    private const int RandomTrials = 12000;
    private const int Descents = 24;
    private const int DescentSteps = 500;
    private const double Missed = 1e-8;

    /// <summary>Flashes the case, then searches; worst is the most negative distance found.</summary>
    public static SoakOutcome Run(SoakCase soak)
    {
        State state = soak.Fluid.At(Temperature.FromKelvins(soak.Temperature), Pressure.FromPascals(soak.Pressure));
        if (state.HasUnresolvedPhase)
        {
            return new(null, state.Phases.Count, true, 0);
        }

        double[] best = Lowest(soak, [.. state.Phases.Select(f => f.Composition.MoleFractions)], out double distance, out DensityRoot root);
        return new(
            distance < -Missed
                ? $"{soak}: {state.PhaseDescription}, but a {(root == DensityRoot.Vapor ? "vapour-like" : "liquid-like")} phase {string.Join(' ', best.Select(w => w.ToString("G6")))} lies {distance:E3} below its tangent plane"
                : null,
            state.Phases.Count,
            false,
            -Math.Min(0, distance));
    }

    /// <summary>The trial phase found lowest against the tangent plane of given phases; all zeros where none lies below it.</summary>
    internal static double[] Lowest(SoakCase soak, IReadOnlyList<IReadOnlyList<double>> phases, out double distance, out DensityRoot root) =>
        Search(new Plane(soak, phases), new CaseRandom(soak.Seed + 7919, soak.Number), out distance, out root);

    private static double[] Search(Plane plane, CaseRandom random, out double distance, out DensityRoot root)
    {
        int n = plane.Count;
        PriorityQueue<(double[] Point, DensityRoot Root), double> lowest = new();
        double[] w = new double[n];

        void Offer(DensityRoot trialRoot)
        {
            double value = plane.Distance(w, trialRoot);
            if (lowest.Count < 4 * Descents)
            {
                lowest.Enqueue(([.. w], trialRoot), -value);
            }
            else if (lowest.TryPeek(out _, out double worst) && -worst > value)
            {
                lowest.DequeueEnqueue(([.. w], trialRoot), -value);
            }
        }

        void OfferBoth()
        {
            Offer(DensityRoot.Liquid);
            Offer(DensityRoot.Vapor);
        }

        int steps = n switch { 2 => 2000, 3 => 70, 4 => 20, 5 => 12, _ => 9 };
        foreach (int[] point in Lattice(n, steps))
        {
            for (int i = 0; i < n; i++)
            {
                w[i] = (point[i] + (0.02 / n)) / (steps + 0.02);
            }

            OfferBoth();
        }

        double[] powers = [1, 2, 4, 8];
        for (int trial = 0; trial < RandomTrials; trial++)
        {
            if (trial % 5 < 4)
            {
                random.Simplex(w, powers[trial % 5]);
            }
            else
            {
                // Around a phase of the answer, over decades in each component.
                IReadOnlyList<double> around = plane.Phases[random.Whole(plane.Phases.Count)];
                double width = Math.Pow(10, random.Uniform(-2, 1));
                double sum = 0;
                for (int i = 0; i < n; i++)
                {
                    w[i] = around[i] * Math.Exp(width * random.Uniform(-1, 1));
                    sum += w[i];
                }

                for (int i = 0; i < n; i++)
                {
                    w[i] /= sum;
                }
            }

            OfferBoth();
        }

        // The queue gives the highest first: descend from the lowest, spread over the list, so that one deep basin does not take every descent.
        List<(double[] Point, DensityRoot Root, double Value)> starts = [];
        while (lowest.TryDequeue(out (double[] Point, DensityRoot Root) start, out double negative))
        {
            starts.Add((start.Point, start.Root, -negative));
        }

        starts.Reverse();
        distance = 0;
        root = DensityRoot.Liquid;
        double[] best = new double[n];
        for (int i = 0; i < starts.Count; i++)
        {
            if (i >= Descents / 2 && i % 4 != 0)
            {
                continue;
            }

            double value = Descend(plane, starts[i].Point, starts[i].Root, w);
            if (value < distance)
            {
                distance = value;
                root = starts[i].Root;
                w.CopyTo(best, 0);
            }
        }

        return best;
    }

    private static IEnumerable<int[]> Lattice(int n, int steps)
    {
        int[] point = new int[n];
        point[n - 1] = steps;
        while (true)
        {
            yield return point;
            int from = n - 1;
            while (from >= 0 && point[from] == 0)
            {
                from--;
            }

            if (from == 0)
            {
                yield break;
            }

            int value = point[from];
            point[from] = 0;
            point[from - 1]++;
            point[n - 1] = value - 1;
        }
    }

    private static double Descend(Plane plane, double[] start, DensityRoot root, double[] result)
    {
        int m = plane.Count - 1;
        double[] w = new double[plane.Count];

        double Value(double[] u)
        {
            double top = Math.Max(0, u.Max());
            double sum = Math.Exp(-top);
            w[m] = sum;
            for (int i = 0; i < m; i++)
            {
                w[i] = Math.Exp(u[i] - top);
                sum += w[i];
            }

            for (int i = 0; i <= m; i++)
            {
                w[i] /= sum;
            }

            return plane.Distance(w, root);
        }

        double[][] corners = new double[m + 1][];
        double[] values = new double[m + 1];
        double last = Math.Log(Math.Max(start[m], 1e-300));
        for (int k = 0; k <= m; k++)
        {
            corners[k] = [.. start.Take(m).Select(s => Math.Log(Math.Max(s, 1e-300)) - last)];
            if (k > 0)
            {
                corners[k][k - 1] += 0.3;
            }

            values[k] = Value(corners[k]);
        }

        double[] Blend(double[] center, double[] corner, double factor) => [.. center.Select((c, i) => c + (factor * (corner[i] - c)))];

        for (int step = 0; step < DescentSteps; step++)
        {
            Array.Sort(values, corners);
            if (values[m] - values[0] < 1e-14)
            {
                break;
            }

            double[] center = new double[m];
            for (int k = 0; k < m; k++)
            {
                for (int i = 0; i < m; i++)
                {
                    center[i] += corners[k][i] / m;
                }
            }

            double[] reflected = Blend(center, corners[m], -1);
            double value = Value(reflected);
            if (value < values[0])
            {
                double[] further = Blend(center, corners[m], -2);
                double furtherValue = Value(further);
                (corners[m], values[m]) = furtherValue < value ? (further, furtherValue) : (reflected, value);
            }
            else if (m > 1 ? value < values[m - 1] : value < values[0])
            {
                (corners[m], values[m]) = (reflected, value);
            }
            else
            {
                double[] inner = Blend(center, value < values[m] ? reflected : corners[m], 0.5);
                double innerValue = Value(inner);
                if (innerValue < Math.Min(value, values[m]))
                {
                    (corners[m], values[m]) = (inner, innerValue);
                }
                else
                {
                    for (int k = 1; k <= m; k++)
                    {
                        corners[k] = Blend(corners[0], corners[k], 0.5);
                        values[k] = Value(corners[k]);
                    }
                }
            }
        }

        Array.Sort(values, corners);
        double lowest = Value(corners[0]);
        w.CopyTo(result, 0);
        return lowest;
    }

    /// <summary>The tangent plane of an answer: distance = sum w_i (ln w_i + ln phi_i(w) - ln x_i - ln phi_i(x)).</summary>
    private sealed class Plane
    {
        private readonly MixtureKernel kernel;
        private readonly double temperature;
        private readonly double pressure;
        private readonly double[] d;
        private readonly double[] scratch;
        private readonly double[] lnPhi;

        public Plane(SoakCase soak, IReadOnlyList<IReadOnlyList<double>> phases)
        {
            kernel = soak.Fluid.Kernel.Equation;
            temperature = soak.Temperature;
            pressure = soak.Pressure;
            Count = kernel.ComponentCount;
            scratch = new double[kernel.ScratchLength];
            lnPhi = new double[Count];
            kernel.SetTemperature(temperature, scratch);
            Phases = phases;
            double[] x = [.. Phases[0]];
            kernel.LnFugacityCoefficients(temperature, pressure, x, DensityRoot.Stable, scratch, lnPhi, out _);
            d = [.. x.Select((fraction, i) => Math.Log(fraction) + lnPhi[i])];
        }

        public int Count { get; }

        public IReadOnlyList<IReadOnlyList<double>> Phases { get; }

        public double Distance(double[] w, DensityRoot root)
        {
            kernel.LnFugacityCoefficients(temperature, pressure, w, root, scratch, lnPhi, out _);
            double sum = 0;
            for (int i = 0; i < w.Length; i++)
            {
                sum += w[i] > 0 ? w[i] * (Math.Log(w[i]) + lnPhi[i] - d[i]) : 0;
            }

            return sum;
        }
    }
}
