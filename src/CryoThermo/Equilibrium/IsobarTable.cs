using CryoThermo.Diagnostics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Enthalpy, entropy and equilibrium heat capacity of one fluid at one pressure as piecewise cubics in temperature.
/// Nodes carry exact values from flashes; every phase boundary is a node. Enthalpy rises strictly with temperature;
/// where it jumps (a pure fluid boiling), two nodes share the temperature.
/// Units: K, Pa, J/mol, J/(mol K). Immutable and thread-safe.
/// </summary>
internal sealed class IsobarTable
{
    private readonly double[] temperature;
    private readonly double[] enthalpy;
    private readonly double[] entropy;
    private readonly Segment[] segments;
    private readonly PhaseRegion[] region;

    /// <summary>
    /// Creates the table and takes over its arrays. Arrays <paramref name="temperature"/>, <paramref name="enthalpy"/> and
    /// <paramref name="entropy"/> have one element a node, non-decreasing; the others one element a segment (node i to
    /// node i+1). Slopes of a segment of zero width are not read.
    /// </summary>
    /// <param name="pressure">Pressure, Pa.</param>
    /// <param name="temperature">Node temperatures, K.</param>
    /// <param name="enthalpy">Node enthalpies, J/mol, strictly increasing.</param>
    /// <param name="entropy">Node entropies, J/(mol K).</param>
    /// <param name="slopeAtStart">dh/dT at the lower end of each segment, seen from inside it, J/(mol K).</param>
    /// <param name="slopeAtEnd">dh/dT at the upper end of each segment, seen from inside it, J/(mol K).</param>
    /// <param name="region">Phases present within each segment.</param>
    /// <exception cref="ArgumentException">
    /// Lengths differ, nodes do not rise, a value is not finite, or the cubic of a segment does not rise throughout
    /// (<see cref="RisesThroughout"/>): then the segment needs another node.
    /// </exception>
    public IsobarTable(
        double pressure,
        double[] temperature,
        double[] enthalpy,
        double[] entropy,
        double[] slopeAtStart,
        double[] slopeAtEnd,
        PhaseRegion[] region)
    {
        Pressure = pressure;
        this.temperature = temperature;
        this.enthalpy = enthalpy;
        this.entropy = entropy;
        this.region = region;
        int nodes = temperature.Length;
        if (nodes < 2)
        {
            throw new ArgumentException("An isobar needs at least two nodes.", nameof(temperature));
        }

        Guard.Length(enthalpy.Length, nodes, nameof(enthalpy));
        Guard.Length(entropy.Length, nodes, nameof(entropy));
        Guard.Length(slopeAtStart.Length, nodes - 1, nameof(slopeAtStart));
        Guard.Length(slopeAtEnd.Length, nodes - 1, nameof(slopeAtEnd));
        Guard.Length(region.Length, nodes - 1, nameof(region));
        if (!(temperature[0] > 0 && double.IsFinite(temperature[^1]) && double.IsFinite(enthalpy[0])
            && double.IsFinite(enthalpy[^1]) && double.IsFinite(entropy[0]) && double.IsFinite(entropy[^1])))
        {
            throw new ArgumentException("Isobar nodes must be finite, temperatures greater than 0 K.", nameof(temperature));
        }

        segments = new Segment[nodes - 1];
        for (int i = 0; i + 1 < nodes; i++)
        {
            if (!(temperature[i + 1] >= temperature[i]) || !(enthalpy[i + 1] > enthalpy[i]))
            {
                throw new ArgumentException(
                    $"Isobar nodes {i} and {i + 1} do not rise: {temperature[i]:R} K, {enthalpy[i]:R} J/mol and {temperature[i + 1]:R} K, {enthalpy[i + 1]:R} J/mol.",
                    nameof(enthalpy));
            }

            if (!(entropy[i + 1] >= entropy[i]))
            {
                throw new ArgumentException(
                    $"Isobar nodes {i} and {i + 1} ({temperature[i]:R} to {temperature[i + 1]:R} K) have falling entropy: {entropy[i]:R} and {entropy[i + 1]:R} J/(mol K).",
                    nameof(entropy));
            }

            double width = temperature[i + 1] - temperature[i];
            double rise = enthalpy[i + 1] - enthalpy[i];
            if (width > 0 && !RisesThroughout(width, rise, slopeAtStart[i], slopeAtEnd[i]))
            {
                throw new ArgumentException(
                    $"Isobar segment {i} ({temperature[i]:R} to {temperature[i + 1]:R} K) does not rise throughout: slopes {slopeAtStart[i]:G6} and {slopeAtEnd[i]:G6} J/(mol K) against a mean of {rise / width:G6} J/(mol K). Put another node inside it.",
                    nameof(slopeAtStart));
            }

            segments[i] = new Segment(temperature[i], width, enthalpy[i], rise, slopeAtStart[i], slopeAtEnd[i]);
        }
    }

    /// <summary>Pressure, Pa.</summary>
    public double Pressure { get; }

    /// <summary>Lowest temperature covered, K.</summary>
    public double MinTemperature => temperature[0];

    /// <summary>Highest temperature covered, K.</summary>
    public double MaxTemperature => temperature[^1];

    /// <summary>Lowest enthalpy covered, J/mol.</summary>
    public double MinEnthalpy => enthalpy[0];

    /// <summary>Highest enthalpy covered, J/mol.</summary>
    public double MaxEnthalpy => enthalpy[^1];

    /// <summary>Node temperatures, K, rising; equal neighbours mark boiling at one temperature.</summary>
    public ReadOnlySpan<double> NodeTemperatures => temperature;

    /// <summary>Node enthalpies, J/mol, in the order of <see cref="NodeTemperatures"/>.</summary>
    public ReadOnlySpan<double> NodeEnthalpies => enthalpy;

    /// <summary>Phases present in each segment between neighbouring nodes.</summary>
    public ReadOnlySpan<PhaseRegion> Regions => region;

    /// <summary>
    /// Whether the cubic through two nodes rises strictly from end to end: both end slopes positive and finite, and no
    /// interior point where the slope reaches zero. A builder splits the segment when it does not.
    /// </summary>
    /// <param name="width">Temperature difference, K, greater than zero.</param>
    /// <param name="rise">Enthalpy difference, J/mol.</param>
    /// <param name="slopeAtStart">dh/dT at the lower end, J/(mol K).</param>
    /// <param name="slopeAtEnd">dh/dT at the upper end, J/(mol K).</param>
    public static bool RisesThroughout(double width, double rise, double slopeAtStart, double slopeAtEnd)
    {
        double d0 = slopeAtStart * width;
        double d1 = slopeAtEnd * width;
        if (!(d0 > 0 && d1 > 0 && double.IsFinite(d0) && double.IsFinite(d1)))
        {
            return false;
        }

        // Slope d0 + 2 c2 u + 3 c3 u^2; its least value lies inside only if it is convex and its vertex is there.
        double c2 = (3 * rise) - (2 * d0) - d1;
        double c3 = d0 + d1 - (2 * rise);
        return !(c3 > 0 && c2 < 0 && -c2 < 3 * c3) || c2 * c2 < 3 * c3 * d0;
    }

    /// <summary>Enthalpy at a temperature, J/mol; where it jumps, the upper (vapour) value.</summary>
    public double Enthalpy(double t)
    {
        int i = SegmentAtTemperature(t, above: true);
        return WithinSegment(i, t, enthalpy[i + 1]);
    }

    /// <summary>Enthalpy at a temperature, J/mol; where it jumps, the lower (liquid) value.</summary>
    public double EnthalpyBelow(double t)
    {
        int i = SegmentAtTemperature(t, above: false);
        return WithinSegment(i, t, enthalpy[i]);
    }

    /// <summary>
    /// Equilibrium heat capacity dh/dT at constant pressure, J/(mol K); at a node the upper-side value, infinite only
    /// where the table ends in a jump.
    /// </summary>
    public double HeatCapacity(double t)
    {
        segments[SegmentAtTemperature(t, above: true)].Expand(t, out _, out double slope, out _, out _);
        return slope;
    }

    /// <summary>As <see cref="HeatCapacity"/>, but the lower-side value at a node.</summary>
    public double HeatCapacityBelow(double t)
    {
        segments[SegmentAtTemperature(t, above: false)].Expand(t, out _, out double slope, out _, out _);
        return slope;
    }

    /// <summary>Phases present at a temperature; at a node those just above it.</summary>
    public PhaseRegion Region(double t) => region[SegmentAtTemperature(t, above: true)];

    /// <summary>Phases present at a temperature; at a node those just below it.</summary>
    public PhaseRegion RegionBelow(double t) => region[SegmentAtTemperature(t, above: false)];

    /// <summary>Temperature at an enthalpy, K. Constant over a jump.</summary>
    public double TemperatureAtEnthalpy(double h) => segments[SegmentAtEnthalpy(h)].Temperature(h, out _);

    /// <summary>Entropy at an enthalpy, J/(mol K).</summary>
    public double EntropyAtEnthalpy(double h)
    {
        int i = SegmentAtEnthalpy(h);
        double t0 = temperature[i];
        double t1 = temperature[i + 1];
        double span = enthalpy[i + 1] - enthalpy[i];
        double u = (h - enthalpy[i]) / span;
        double rise = entropy[i + 1] - entropy[i];
        if (t1 <= t0)
        {
            return entropy[i] + (u * rise);
        }

        // ds = dh/T along an isobar, through every region. The nodes' own difference, which carries the error of the
        // cubic in T, is spread over the segment.
        double t = segments[i].Temperature(h, out _);
        return entropy[i] + segments[i].EntropyRise(t) + (u * (rise - segments[i].EntropyRise(t1)));
    }

    /// <summary>The segment between node <paramref name="index"/> and the next, for kernels that walk the table.</summary>
    public ref readonly Segment SegmentAt(int index) => ref segments[index];

    /// <summary>
    /// Index of the segment holding a temperature. At a node: the segment above it, or below it; a jump is returned only
    /// where the table begins or ends with it.
    /// </summary>
    public int SegmentAtTemperature(double t, bool above)
    {
        if (!(t >= temperature[0] && t <= temperature[^1]))
        {
            throw new ArgumentOutOfRangeException(
                nameof(t), t, $"temperature is {t:G9} K; this isobar covers {temperature[0]:G6} to {temperature[^1]:G6} K.");
        }

        int low = 0;
        int high = temperature.Length - 1;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            bool goesUp = above ? temperature[middle] <= t : temperature[middle] < t;
            if (goesUp)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    /// <summary>Index of the segment holding an enthalpy; at a node the segment above it, at the last node the last.</summary>
    public int SegmentAtEnthalpy(double h)
    {
        if (!(h >= enthalpy[0] && h <= enthalpy[^1]))
        {
            throw new ArgumentOutOfRangeException(
                nameof(h), h, $"enthalpy is {h:G9} J/mol; this isobar covers {enthalpy[0]:G6} to {enthalpy[^1]:G6} J/mol.");
        }

        int index = Array.BinarySearch(enthalpy, h);
        if (index < 0)
        {
            index = ~index - 1;
        }

        return Math.Clamp(index, 0, enthalpy.Length - 2);
    }

    // The cubic may round to just above its upper node, which would put the last enthalpy outside the table.
    private double WithinSegment(int i, double t, double inJump) =>
        segments[i].Width > 0 ? Math.Min(segments[i].Enthalpy(t), enthalpy[i + 1]) : inJump;

    /// <summary>One cubic h = h0 + u (c1 + u (c2 + u c3)), u = (T - T0)/width, and its inverse.</summary>
    public readonly struct Segment
    {
        private const double NarrowSegment = 0.02;

        private readonly double t0;
        private readonly double h0;
        private readonly double rise;
        private readonly double c1;
        private readonly double c2;
        private readonly double c3;
        private readonly double inverse1;
        private readonly double inverse2;
        private readonly double inverse3;

        public Segment(double start, double width, double enthalpyAtStart, double rise, double slopeAtStart, double slopeAtEnd)
        {
            t0 = start;
            Width = width;
            h0 = enthalpyAtStart;
            this.rise = rise;
            if (width <= 0)
            {
                return;
            }

            c1 = slopeAtStart * width;
            double c1AtEnd = slopeAtEnd * width;
            c2 = (3 * rise) - (2 * c1) - c1AtEnd;
            c3 = c1 + c1AtEnd - (2 * rise);

            // The cubic in v = (h - h0)/rise with the same end points and end slopes starts Newton's iteration for u.
            inverse1 = rise / c1;
            double inverseAtEnd = rise / c1AtEnd;
            inverse2 = 3 - (2 * inverse1) - inverseAtEnd;
            inverse3 = inverse1 + inverseAtEnd - 2;
        }

        /// <summary>Temperature width, K; zero marks a jump.</summary>
        public double Width { get; }

        /// <summary>Enthalpy at a temperature within the segment, J/mol; meaningless in a jump.</summary>
        public double Enthalpy(double t)
        {
            double u = (t - t0) / Width;
            return h0 + (u * (c1 + (u * (c2 + (u * c3)))));
        }

        /// <summary>
        /// Coefficients about a temperature within the segment: h(t + x) = value + x (slope + x (second + x third)).
        /// </summary>
        public void Expand(double t, out double value, out double slope, out double second, out double third)
        {
            if (Width <= 0)
            {
                value = h0 + rise;
                slope = double.PositiveInfinity;
                second = 0;
                third = 0;
                return;
            }

            double u = (t - t0) / Width;
            double perWidth = 1 / Width;
            value = h0 + (u * (c1 + (u * (c2 + (u * c3)))));
            slope = (c1 + (u * ((2 * c2) + (u * 3 * c3)))) * perWidth;
            second = (c2 + (3 * u * c3)) * perWidth * perWidth;
            third = c3 * perWidth * perWidth * perWidth;
        }

        /// <summary>
        /// Temperature at an enthalpy, K, and dT/dh, (K mol)/J (zero in a jump). An enthalpy outside the segment is
        /// moved to its nearer end.
        /// </summary>
        public double Temperature(double h, out double perEnthalpy)
        {
            if (Width <= 0)
            {
                perEnthalpy = 0;
                return t0;
            }

            double target = h - h0;
            double u;
            double slope;
            if (target <= 0)
            {
                u = 0;
                slope = c1;
            }
            else if (target >= rise)
            {
                u = 1;
                slope = c1 + (2 * c2) + (3 * c3);
            }
            else
            {
                u = Invert(target, out slope);
            }

            perEnthalpy = Width / slope;
            return t0 + (u * Width);
        }

        /// <summary>Integral of dh/T from the start of the segment, J/(mol K).</summary>
        public double EntropyRise(double t)
        {
            double x = t - t0;
            if (Width > NarrowSegment * t0)
            {
                // cp = p0 + p1 x + p2 x^2, x = T - T0.
                double p0 = c1 / Width;
                double p1 = 2 * c2 / (Width * Width);
                double p2 = 3 * c3 / (Width * Width * Width);
                return (x * ((0.5 * p2 * x) + p1 - (p2 * t0))) + ((p0 - (t0 * (p1 - (p2 * t0)))) * Math.Log(t / t0));
            }

            // The closed form cancels in a narrow segment; three Gauss points err by less than (width/2T)^6 cp there.
            double u = 0.5 * x / Width;
            double du = u * 0.7745966692414834;
            double middle = t0 + (0.5 * x);
            double dt = 0.5 * x * 0.7745966692414834;
            double sum = (8 * Rate(u) / middle) + (5 * ((Rate(u - du) / (middle - dt)) + (Rate(u + du) / (middle + dt))));
            return sum * u / 9;
        }

        private double Rate(double u) => c1 + (u * ((2 * c2) + (u * 3 * c3)));

        private double Invert(double target, out double slope)
        {
            // Newton converges quadratically: a step this small leaves an error below rounding.
            const double lastStep = 1e-9;
            double v = target / rise;
            double u = v * (inverse1 + (v * (inverse2 + (v * inverse3))));
            double low = 0;
            double high = 1;
            if (!(u > low && u < high))
            {
                u = v;
            }

            for (int iteration = 0; iteration < 80; iteration++)
            {
                double f = (u * (c1 + (u * (c2 + (u * c3))))) - target;
                slope = c1 + (u * ((2 * c2) + (u * 3 * c3)));
                double step = f / slope;
                if (Math.Abs(step) <= lastStep)
                {
                    slope -= step * ((2 * c2) + (6 * u * c3));
                    return Math.Clamp(u - step, 0, 1);
                }

                if (f > 0)
                {
                    high = u;
                }
                else
                {
                    low = u;
                }

                double next = u - step;
                u = next > low && next < high ? next : 0.5 * (low + high);
            }

            slope = c1 + (u * ((2 * c2) + (u * 3 * c3)));
            return u;
        }
    }
}
