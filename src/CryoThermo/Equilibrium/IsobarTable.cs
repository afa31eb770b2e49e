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
    private readonly double[] slopeAtStart;
    private readonly double[] slopeAtEnd;
    private readonly PhaseRegion[] region;

    /// <summary>
    /// Creates the table. Arrays <paramref name="temperature"/>, <paramref name="enthalpy"/> and <paramref name="entropy"/>
    /// have one element a node, non-decreasing; the others one element a segment (node i to node i+1).
    /// </summary>
    /// <param name="pressure">Pressure, Pa.</param>
    /// <param name="temperature">Node temperatures, K.</param>
    /// <param name="enthalpy">Node enthalpies, J/mol, strictly increasing.</param>
    /// <param name="entropy">Node entropies, J/(mol K).</param>
    /// <param name="slopeAtStart">dh/dT at the lower end of each segment, seen from inside it, J/(mol K).</param>
    /// <param name="slopeAtEnd">dh/dT at the upper end of each segment, seen from inside it, J/(mol K).</param>
    /// <param name="region">Phases present within each segment.</param>
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
        this.slopeAtStart = slopeAtStart;
        this.slopeAtEnd = slopeAtEnd;
        this.region = region;
        if (temperature.Length < 2)
        {
            throw new ArgumentException("An isobar needs at least two nodes.", nameof(temperature));
        }

        for (int i = 0; i + 1 < temperature.Length; i++)
        {
            if (!(temperature[i + 1] >= temperature[i]) || !(enthalpy[i + 1] > enthalpy[i]))
            {
                throw new ArgumentException(
                    $"Isobar nodes {i} and {i + 1} do not rise: {temperature[i]:R} K, {enthalpy[i]:R} J/mol and {temperature[i + 1]:R} K, {enthalpy[i + 1]:R} J/mol.",
                    nameof(enthalpy));
            }
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

    /// <summary>Enthalpy at a temperature, J/mol; where it jumps, the upper (vapour) value.</summary>
    public double Enthalpy(double t) => Cubic(SegmentAtTemperature(t, above: true), t, out _);

    /// <summary>Enthalpy at a temperature, J/mol; where it jumps, the lower (liquid) value.</summary>
    public double EnthalpyBelow(double t) => Cubic(SegmentAtTemperature(t, above: false), t, out _);

    /// <summary>Equilibrium heat capacity dh/dT at constant pressure, J/(mol K); where it jumps, the upper-side value.</summary>
    public double HeatCapacity(double t)
    {
        Cubic(SegmentAtTemperature(t, above: true), t, out double slope);
        return slope;
    }

    /// <summary>Phases present at a temperature.</summary>
    public PhaseRegion Region(double t) => region[SegmentAtTemperature(t, above: true)];

    /// <summary>Temperature at an enthalpy, K. Constant over a jump.</summary>
    public double TemperatureAtEnthalpy(double h)
    {
        int i = SegmentAtEnthalpy(h);
        double low = temperature[i];
        double high = temperature[i + 1];
        if (high <= low)
        {
            return low;
        }

        // Newton with bisection as a safeguard; the cubic is monotone by construction of the table.
        double t = low + ((high - low) * (h - enthalpy[i]) / (enthalpy[i + 1] - enthalpy[i]));
        double scale = Math.Abs(enthalpy[i + 1] - enthalpy[i]);
        for (int iteration = 0; iteration < 60; iteration++)
        {
            double f = Cubic(i, t, out double slope) - h;
            if (Math.Abs(f) <= 1e-14 * scale)
            {
                return t;
            }

            if (f > 0)
            {
                high = t;
            }
            else
            {
                low = t;
            }

            double next = t - (f / slope);
            t = next > low && next < high ? next : 0.5 * (low + high);
            if (high - low <= 1e-14 * high)
            {
                break;
            }
        }

        return t;
    }

    /// <summary>Entropy at an enthalpy, J/(mol K).</summary>
    public double EntropyAtEnthalpy(double h)
    {
        int i = SegmentAtEnthalpy(h);
        double t0 = temperature[i];
        double t1 = temperature[i + 1];
        double span = enthalpy[i + 1] - enthalpy[i];
        double u = (h - enthalpy[i]) / span;
        if (t1 <= t0)
        {
            return entropy[i] + (u * (entropy[i + 1] - entropy[i]));
        }

        // Hermite in enthalpy, since ds/dh = 1/T along an isobar holds through every region.
        return Hermite(u, entropy[i], entropy[i + 1], span / t0, span / t1);
    }

    /// <summary>Cubic on [0, 1] from end values and end slopes.</summary>
    internal static double Hermite(double u, double f0, double f1, double d0, double d1)
    {
        double df = f1 - f0;
        return f0 + (u * (d0 + (u * ((3 * df) - (2 * d0) - d1 + (u * (d0 + d1 - (2 * df)))))));
    }

    private double Cubic(int i, double t, out double slope)
    {
        double t0 = temperature[i];
        double width = temperature[i + 1] - t0;
        if (width <= 0)
        {
            slope = double.PositiveInfinity;
            return enthalpy[i + 1];
        }

        double u = (t - t0) / width;
        double d0 = slopeAtStart[i] * width;
        double d1 = slopeAtEnd[i] * width;
        double df = enthalpy[i + 1] - enthalpy[i];
        double c2 = (3 * df) - (2 * d0) - d1;
        double c3 = d0 + d1 - (2 * df);
        slope = (d0 + (u * ((2 * c2) + (u * 3 * c3)))) / width;
        return enthalpy[i] + (u * (d0 + (u * (c2 + (u * c3)))));
    }

    private int SegmentAtTemperature(double t, bool above)
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

    private int SegmentAtEnthalpy(double h)
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
}
