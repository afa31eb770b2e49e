
namespace CryoThermo.Equilibrium;

/// <summary>
/// Builds an <see cref="IsobarTable"/> from flashes: a coarse scan finds the phase regions, bisection puts a node at
/// every phase boundary, and each smooth stretch is halved until the cubic between exact values and exact slopes agrees
/// with flashes at three inner points. Where more than two phases exist the two-phase answer jumps, and the table
/// follows it only to within such a jump.
/// </summary>
internal static class IsobarBuilder
{
    /// <summary>Largest accepted error of enthalpy at the checked points, J/mol; the stated bound is 1 J/mol.</summary>
    public const double EnthalpyTolerance = 0.2;

    /// <summary>Largest accepted error of enthalpy at the checked points over the whole span; the stated bound is 1e-4.</summary>
    public const double RelativeTolerance = 2e-5;

    private const double ScanStep = 4;
    private const double BoundaryTolerance = 1e-9;

    /// <summary>Narrower stretches are not halved further: they stand where three phases are unresolved and figures jump.</summary>
    private const double NarrowestStretch = 1e-3;

    /// <summary>A pure fluid has no such figures, but next to its critical point a peak of the heat capacity narrower than that.</summary>
    private const double NarrowestPureStretch = 2e-6;

    /// <summary>Closer nodes would differ by rounding only, K.</summary>
    private const double NarrowestNode = 1e-6;

    /// <summary>Builds the table.</summary>
    /// <param name="fluid">The fluid.</param>
    /// <param name="z">Mole fractions.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="minTemperature">K.</param>
    /// <param name="maxTemperature">K.</param>
    public static IsobarTable Build(FluidKernel fluid, ReadOnlySpan<double> z, double pressure, double minTemperature, double maxTemperature)
    {
        Builder builder = new(fluid, z.ToArray(), pressure);
        int steps = Math.Max(2, (int)Math.Ceiling((maxTemperature - minTemperature) / ScanStep));
        Point previous = builder.Evaluate(minTemperature);
        Point last = builder.Evaluate(maxTemperature);
        double tolerance = Math.Min(EnthalpyTolerance, RelativeTolerance * Math.Abs(last.Enthalpy - previous.Enthalpy));
        builder.Tolerance = Math.Max(tolerance, 1e-6);
        builder.Start(previous);
        for (int i = 1; i <= steps; i++)
        {
            Point next = i == steps ? last : builder.Evaluate(minTemperature + ((maxTemperature - minTemperature) * i / steps));
            builder.Connect(previous, next, 0);
            previous = next;
        }

        return builder.ToTable();
    }

    private readonly record struct Point(double Temperature, double Enthalpy, double Entropy, double Slope, PhaseRegion Region);

    private sealed class Builder(FluidKernel fluid, double[] z, double pressure)
    {
        private readonly double[] scratch = new double[fluid.Equation.ScratchLength];
        private readonly double narrowestStretch = fluid.Equation.IsPureEquation ? NarrowestPureStretch : NarrowestStretch;
        private readonly double[] light = new double[z.Length];
        private readonly double[] third = new double[z.Length];
        private readonly double[] heavy = new double[z.Length];
        private readonly List<double> temperature = [];
        private readonly List<double> enthalpy = [];
        private readonly List<double> entropy = [];
        private readonly List<double> slopeAtStart = [];
        private readonly List<double> slopeAtEnd = [];
        private readonly List<PhaseRegion> region = [];

        public double Tolerance { get; set; }

        public Point Evaluate(double t)
        {
            PhaseSplit split = new(light, third, heavy);
            CaloricFigures totals = fluid.Flash(t, pressure, z, scratch, ref split);
            PhaseRegion where = split.StillUnstable ? PhaseRegion.UnresolvedPhases
                : split.PhaseCount == 3 ? (split.LightIsVapor ? PhaseRegion.TwoLiquidsVapor : PhaseRegion.ThreeLiquids)
                : split.PhaseCount == 2 ? (split.LightIsVapor ? PhaseRegion.LiquidVapor : PhaseRegion.TwoLiquids)
                : split.LightIsVapor ? PhaseRegion.Vapor : PhaseRegion.Liquid;
            return new(t, totals.Enthalpy, totals.Entropy, totals.EquilibriumHeatCapacity, where);
        }

        public void Start(Point point)
        {
            temperature.Add(point.Temperature);
            enthalpy.Add(point.Enthalpy);
            entropy.Add(point.Entropy);
        }

        /// <summary>Adds the stretch between two points, which may lie in different regions.</summary>
        public void Connect(Point a, Point b, int depth)
        {
            if (a.Region == b.Region)
            {
                Smooth(a, b);
                return;
            }

            // Halve towards the first change of region above a.
            Point low = a;
            Point high = b;
            while (high.Temperature - low.Temperature > BoundaryTolerance)
            {
                Point middle = Evaluate(0.5 * (low.Temperature + high.Temperature));
                if (middle.Temperature <= low.Temperature || middle.Temperature >= high.Temperature)
                {
                    break;
                }

                if (middle.Region == a.Region)
                {
                    low = middle;
                }
                else
                {
                    high = middle;
                }
            }

            Smooth(a, low);
            Boundary(low, high);
            if (depth < 40)
            {
                Connect(high, b, depth + 1);
            }
            else
            {
                Smooth(high, b);
            }
        }

        public IsobarTable ToTable() => new(
            pressure, [.. temperature], [.. enthalpy], [.. entropy], [.. slopeAtStart], [.. slopeAtEnd], [.. region]);

        // Low and high stand a nanokelvin apart on both sides of a boundary: one node, or two where enthalpy jumps.
        private void Boundary(Point low, Point high)
        {
            double expected = Math.Max(low.Slope, high.Slope) * (high.Temperature - low.Temperature);
            double jump = high.Enthalpy - low.Enthalpy;
            if (jump <= Math.Max(10 * expected, 0.01) || high.Entropy < entropy[^1] || high.Enthalpy <= enthalpy[^1])
            {
                // No jump: the next stretch starts at the same node with the slope of its own side.
                return;
            }

            temperature.Add(temperature[^1]);
            enthalpy.Add(high.Enthalpy);
            entropy.Add(high.Entropy);
            slopeAtStart.Add(0);
            slopeAtEnd.Add(0);
            region.Add(low.Region == PhaseRegion.Liquid && high.Region == PhaseRegion.Vapor
                ? PhaseRegion.ConstantTemperatureBoiling
                : PhaseRegion.ConstantTemperatureThreePhases);
        }

        private void Smooth(Point a, Point b)
        {
            double width = b.Temperature - a.Temperature;
            if (width <= 0 || b.Enthalpy <= a.Enthalpy)
            {
                return;
            }

            if (width > narrowestStretch)
            {
                Point middle = Evaluate(0.5 * (a.Temperature + b.Temperature));
                bool accepted = middle.Region == a.Region && IsGood(a, b, middle) && IsMonotone(a, b);
                if (accepted)
                {
                    Point quarter = Evaluate(a.Temperature + (0.25 * width));
                    Point threeQuarters = Evaluate(a.Temperature + (0.75 * width));
                    accepted = quarter.Region == a.Region && threeQuarters.Region == a.Region
                        && IsGood(a, b, quarter) && IsGood(a, b, threeQuarters);
                }

                if (!accepted)
                {
                    Connect(a, middle, 0);
                    Connect(middle, b, 0);
                    return;
                }
            }

            Add(a, b);
        }

        // The stretch starts at the node already there, which may stand a nanokelvin below a.
        private void Add(Point a, Point b)
        {
            double width = b.Temperature - temperature[^1];
            double rise = b.Enthalpy - enthalpy[^1];
            if (width < NarrowestNode || rise <= 0 || b.Entropy < entropy[^1])
            {
                // Falling figures are met only where three phases are unresolved; the node is left out.
                return;
            }

            double chord = rise / width;
            bool monotone = a.Slope > 0 && b.Slope > 0 && a.Slope < 3 * chord && b.Slope < 3 * chord;
            temperature.Add(b.Temperature);
            enthalpy.Add(b.Enthalpy);
            entropy.Add(b.Entropy);
            slopeAtStart.Add(monotone ? a.Slope : chord);
            slopeAtEnd.Add(monotone ? b.Slope : chord);
            region.Add(a.Region);
        }

        private bool IsGood(Point a, Point b, Point check)
        {
            double width = b.Temperature - a.Temperature;
            double u = (check.Temperature - a.Temperature) / width;
            double h = Hermite(u, a.Enthalpy, b.Enthalpy, a.Slope * width, b.Slope * width);

            // Entropy follows from dh/T between exact nodal values, with an error of at most this one over T.
            return Math.Abs(h - check.Enthalpy) <= Tolerance;
        }

        private static double Hermite(double u, double f0, double f1, double d0, double d1)
        {
            double df = f1 - f0;
            return f0 + (u * (d0 + (u * ((3 * df) - (2 * d0) - d1 + (u * (d0 + d1 - (2 * df)))))));
        }

        // A cubic with end slopes between zero and three chords is monotone (Fritsch, Carlson, SIAM J. Numer. Anal. 17 (1980) 238).
        private static bool IsMonotone(Point a, Point b)
        {
            double chord = (b.Enthalpy - a.Enthalpy) / (b.Temperature - a.Temperature);
            return a.Slope > 0 && b.Slope > 0 && a.Slope < 3 * chord && b.Slope < 3 * chord;
        }
    }
}
