namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// Spinodals and saturation of a pure fluid over temperature, tabulated once from the equation itself: bounds within which the density
/// solver may look for roots, and starting values that Newton's method turns into full accuracy in two steps. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The abscissa is sqrt(1 - T/Tc), in which the curves of an analytic equation are smooth through the critical point. The table is traced
/// from the critical point down and each branch from its stable side, so that the spurious loops which long equations have between the
/// spinodals are never met.
/// </remarks>
internal sealed class CoexistenceCurve
{
    /// <summary>Number of intervals between the critical point and the lowest temperature.</summary>
    private const int Intervals = 128;

    private const int Columns = 5;

    private readonly HelmholtzFluid fluid;
    private readonly double criticalTemperature;
    private readonly double step;
    private readonly int nodes;
    private readonly double[] values;
    private readonly double[] slopes;

    /// <summary>Tabulates the curves of a fluid from its critical point down to a temperature, K.</summary>
    public CoexistenceCurve(HelmholtzFluid fluid, double lowestTemperature)
    {
        this.fluid = fluid;
        criticalTemperature = fluid.CriticalTemperature(0);
        double criticalDensity = fluid.CriticalDensity(0);
        step = Math.Sqrt(1 - (lowestTemperature / criticalTemperature)) / Intervals;
        values = new double[(Intervals + 1) * Columns];
        Store(0, new(Math.Log(criticalDensity), Math.Log(criticalDensity), Math.Log(criticalDensity), Math.Log(criticalDensity), Math.Log(fluid.CriticalPressure(0))));
        double[] scratch = new double[fluid.ScratchLength];
        nodes = 1;
        for (int i = 1; i <= Intervals; i++)
        {
            double s = i * step;
            double temperature = criticalTemperature * (1 - (s * s));
            fluid.SetIsotherm(temperature, scratch);
            double thin;
            double dense;
            if (i == 1
                ? !TryLimitsFromMiddle(criticalDensity, 1e-3 * step, scratch, out thin, out dense)
                : !TryLimits(Math.Log(criticalDensity), At(i - 1).VaporLimit, At(i - 1).LiquidLimit, scratch, out thin, out dense))
            {
                break;
            }

            CoexistencePoint start = i switch
            {
                1 => NearCritical(thin, dense, criticalDensity),
                2 => Extrapolate(At(1), At(0), At(0), 1),
                _ => Extrapolate(At(i - 1), At(i - 2), At(i - 3), 2),
            };
            double liquid = Math.Max(Math.Exp(start.LiquidDensity), dense * (1 + 1e-9));
            double vapor = Math.Min(Math.Exp(start.VaporDensity), thin * (1 - 1e-9));
            if (!TryMaxwell(temperature, thin, dense, scratch, ref liquid, ref vapor, out double pressure))
            {
                break;
            }

            Store(i, new(Math.Log(thin), Math.Log(dense), Math.Log(vapor), Math.Log(liquid), Math.Log(pressure)));
            nodes = i + 1;
        }

        LowestTemperature = criticalTemperature * (1 - (((nodes - 1) * step) * ((nodes - 1) * step)));
        slopes = Slopes();
    }

    /// <summary>Lowest temperature reached, K.</summary>
    public double LowestTemperature { get; }

    /// <summary>ln of spinodal and saturation values at a temperature below the critical one, interpolated; accurate to about 1e-6.</summary>
    public CoexistencePoint Interpolate(double temperature)
    {
        double place = Math.Sqrt(Math.Max(0, 1 - (temperature / criticalTemperature))) / step;
        int i = Math.Clamp((int)place, 0, nodes - 2);
        double t = place - i;
        double t2 = t * t;
        double t3 = t2 * t;
        double a = (2 * t3) - (3 * t2) + 1;
        double b = t3 - (2 * t2) + t;
        double c = (3 * t2) - (2 * t3);
        double d = t3 - t2;
        ReadOnlySpan<double> low = values.AsSpan(i * Columns, Columns);
        ReadOnlySpan<double> high = values.AsSpan((i + 1) * Columns, Columns);
        ReadOnlySpan<double> lowSlope = slopes.AsSpan(i * Columns, Columns);
        ReadOnlySpan<double> highSlope = slopes.AsSpan((i + 1) * Columns, Columns);
        return new(
            (a * low[0]) + (b * lowSlope[0]) + (c * high[0]) + (d * highSlope[0]),
            (a * low[1]) + (b * lowSlope[1]) + (c * high[1]) + (d * highSlope[1]),
            (a * low[2]) + (b * lowSlope[2]) + (c * high[2]) + (d * highSlope[2]),
            (a * low[3]) + (b * lowSlope[3]) + (c * high[3]) + (d * highSlope[3]),
            (a * low[4]) + (b * lowSlope[4]) + (c * high[4]) + (d * highSlope[4]));
    }

    /// <summary>ln of the vapour pressure at the lowest temperature.</summary>
    public double LowestLnPressure => values[((nodes - 1) * Columns) + 4];

    /// <summary>
    /// Boiling temperature at a pressure (ln of Pa, within the table), K, from the table: a starting value; with d(ln p)/dT there, 1/K.
    /// </summary>
    public double EstimateTemperature(double target, out double slope)
    {
        int low = 0;
        int high = nodes - 1;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (values[(middle * Columns) + 4] > target)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        double warm = values[(low * Columns) + 4];
        double cold = values[(high * Columns) + 4];
        double t = (target - warm) / (cold - warm);
        for (int iteration = 0; iteration < 3; iteration++)
        {
            double place = (low + t) * step;
            double miss = Interpolate(criticalTemperature * (1 - (place * place))).Pressure - target;
            t = Math.Clamp(t - (miss / (cold - warm)), 0, 1);
        }

        double s = (low + t) * step;
        slope = (cold - warm) / (step * -2 * criticalTemperature * Math.Max(s, 0.25 * step));
        return criticalTemperature * (1 - (s * s));
    }

    /// <summary>Saturation at a temperature at full accuracy. The scratch must be set to the isotherm.</summary>
    public bool TrySaturation(double temperature, Span<double> scratch, out double pressure, out double liquid, out double vapor)
    {
        CoexistencePoint start = Interpolate(temperature);
        double thin = Math.Exp(start.VaporLimit);
        double dense = Math.Exp(start.LiquidLimit);
        liquid = Math.Exp(start.LiquidDensity);
        vapor = Math.Exp(start.VaporDensity);
        if (TryMaxwell(temperature, thin, dense, scratch, ref liquid, ref vapor, out pressure))
        {
            return true;
        }

        // Next to the critical point, where the table is coarse: from scratch.
        double criticalDensity = fluid.CriticalDensity(0);
        double s = Math.Sqrt(1 - (temperature / criticalTemperature));
        if (!TryLimitsFromMiddle(criticalDensity, 1e-3 * s, scratch, out thin, out dense))
        {
            return false;
        }

        start = NearCritical(thin, dense, criticalDensity);
        liquid = Math.Exp(start.LiquidDensity);
        vapor = Math.Exp(start.VaporDensity);
        return TryMaxwell(temperature, thin, dense, scratch, ref liquid, ref vapor, out pressure);
    }

    /// <summary>Densities at which the metastable branches end, mol/m3, at full accuracy. The scratch must be set to the isotherm.</summary>
    public bool TryLimits(double temperature, ReadOnlySpan<double> scratch, out double vapor, out double liquid)
    {
        if (temperature > criticalTemperature * (1 - (step * step)))
        {
            double s = Math.Sqrt(Math.Max(0, 1 - (temperature / criticalTemperature)));
            return TryLimitsFromMiddle(fluid.CriticalDensity(0), 1e-3 * s, scratch, out vapor, out liquid);
        }

        CoexistencePoint start = Interpolate(temperature);
        return TryLimits(Math.Log(fluid.CriticalDensity(0)), start.VaporLimit, start.LiquidLimit, scratch, out vapor, out liquid);
    }

    /// <summary>
    /// The ends of the branches, coming from the stable side: where dp/drho vanishes, or where it passes a minimum without vanishing. The
    /// second is how some long equations bridge the unstable region in part of their range; a vapour's isotherm is concave and a
    /// liquid's convex up to the spinodal, so that what lies behind an inflection is not that phase any more.
    /// </summary>
    /// <param name="middle">ln of the critical density.</param>
    /// <param name="vaporGuess">ln of the vapour limit at a neighbouring temperature.</param>
    /// <param name="liquidGuess">ln of the liquid limit there.</param>
    /// <param name="scratch">Set to the isotherm.</param>
    /// <param name="thin">Density where the vapour ends, mol/m3.</param>
    /// <param name="dense">Density where the liquid ends, mol/m3.</param>
    private bool TryLimits(double middle, double vaporGuess, double liquidGuess, ReadOnlySpan<double> scratch, out double thin, out double dense)
    {
        dense = 0;
        return TryInward(middle, vaporGuess, scratch, out thin) && TryInward(middle, liquidGuess, scratch, out dense);
    }

    private bool TryInward(double middle, double guess, ReadOnlySpan<double> scratch, out double density)
    {
        density = 0;
        double reach = guess - middle;
        double top = Math.Log(fluid.HighestDensity);
        double outside = middle + (1.4 * reach);
        outside = Math.Min(outside, guess + (0.9 * (top - guess)));
        double move = -0.05 * reach;
        double atOutside = Stiffness(outside, scratch);
        for (int k = 0; k < 30 && !(atOutside > 0 && atOutside > Stiffness(outside + move, scratch)); k++)
        {
            outside = Math.Min(outside + (0.2 * reach), top);
            atOutside = Stiffness(outside, scratch);
        }

        double before = outside;
        double atBefore = atOutside;
        for (int k = 0; k < 400; k++)
        {
            double inside = outside + move;
            double atInside = Stiffness(inside, scratch);
            if (!(atInside > 0))
            {
                density = Math.Exp(Zero(outside, atOutside, inside, atInside, scratch));
                return true;
            }

            if (atInside > atOutside)
            {
                double least = Math.Log(fluid.SoftestDensity(Math.Exp(before), Math.Exp(inside), 1e-6, scratch));
                double atLeast = Stiffness(least, scratch);
                density = Math.Exp(atLeast < 0 ? Zero(before, atBefore, least, atLeast, scratch) : least);
                return true;
            }

            before = outside;
            atBefore = atOutside;
            outside = inside;
            atOutside = atInside;
        }

        return false;
    }

    // Next to the critical point the middle is unstable: outward from there by growing steps until dp/drho turns positive.
    private bool TryLimitsFromMiddle(double criticalDensity, double firstStep, ReadOnlySpan<double> scratch, out double thin, out double dense)
    {
        dense = 0;
        return TryOutward(Math.Log(criticalDensity), -firstStep, scratch, out thin) && TryOutward(Math.Log(criticalDensity), firstStep, scratch, out dense);
    }

    private bool TryOutward(double middle, double firstStep, ReadOnlySpan<double> scratch, out double density)
    {
        density = 0;
        double inside = middle;
        double atInside = Stiffness(inside, scratch);
        double move = firstStep;
        for (int k = 0; k < 80; k++)
        {
            double outside = inside + move;
            double atOutside = Stiffness(outside, scratch);
            if (atInside < 0 && atOutside > 0)
            {
                density = Math.Exp(Zero(outside, atOutside, inside, atInside, scratch));
                return true;
            }

            inside = outside;
            atInside = atOutside;
            move *= 1.3;
        }

        return false;
    }

    private double Stiffness(double lnDensity, ReadOnlySpan<double> scratch) => fluid.AlongIsotherm(Math.Exp(lnDensity), scratch).Stiffness;

    // Regula falsi with halving of the stale end (Illinois); ends on the stable side.
    private double Zero(double stable, double atStable, double unstable, double atUnstable, ReadOnlySpan<double> scratch)
    {
        for (int iteration = 0; iteration < 100 && Math.Abs(stable - unstable) > 1e-13; iteration++)
        {
            double next = unstable + ((stable - unstable) * (atUnstable / (atUnstable - atStable)));
            double value = Stiffness(next, scratch);
            if (Math.Abs(value) < 1e-14)
            {
                return next;
            }

            if (value > 0)
            {
                stable = next;
                atStable = value;
                atUnstable *= 0.5;
            }
            else
            {
                unstable = next;
                atUnstable = value;
                atStable *= 0.5;
            }
        }

        return stable;
    }

    /// <summary>
    /// Equal pressures and Gibbs energies: the pressure that would make the Gibbs energies equal at the present densities,
    /// p = (aL - aV)/(vV - vL), and one Newton step of each density towards it.
    /// </summary>
    private bool TryMaxwell(
        double temperature, double thin, double dense, ReadOnlySpan<double> scratch, ref double liquid, ref double vapor, out double pressure)
    {
        double rt = fluid.GasConstant * temperature;
        pressure = 0;
        double last = double.PositiveInfinity;
        for (int iteration = 0; iteration < 60; iteration++)
        {
            IsothermDerivatives l = fluid.AlongIsotherm(liquid, scratch);
            IsothermDerivatives v = fluid.AlongIsotherm(vapor, scratch);
            double difference = l.Alpha - v.Alpha + Math.Log(liquid / vapor);
            double reduced = difference / ((1 / vapor) - (1 / liquid));
            double liquidStep = (reduced - (liquid * l.Compressibility)) / l.Stiffness;
            double vaporStep = (reduced - (vapor * v.Compressibility)) / v.Stiffness;
            double size = Math.Max(Math.Abs(liquidStep) / liquid, Math.Abs(vaporStep) / vapor);
            double nextLiquid = liquid + liquidStep;
            double nextVapor = vapor + vaporStep;
            if (!(nextLiquid > dense))
            {
                nextLiquid = 0.5 * (liquid + dense);
            }

            if (!(nextVapor < thin))
            {
                nextVapor = 0.5 * (vapor + thin);
            }

            if (!(nextVapor > 0))
            {
                nextVapor = 0.3 * vapor;
            }

            if (nextLiquid > fluid.HighestDensity)
            {
                nextLiquid = 0.5 * (liquid + fluid.HighestDensity);
            }

            liquid = nextLiquid;
            vapor = nextVapor;
            pressure = reduced * rt;

            // Quadratic: a step of 1e-8 leaves an error of 1e-16, except next to the critical point, where rounding stops it earlier.
            if (size < 1e-9 || (size < 1e-5 && size > 0.5 * last))
            {
                return reduced > 0;
            }

            last = size;
            if (!double.IsFinite(size))
            {
                return false;
            }
        }

        return false;
    }

    // Next to the critical point every equation is close to a cubic in density: the saturated densities lie sqrt(3) times as far from
    // the middle as the spinodals.
    private static CoexistencePoint NearCritical(double thin, double dense, double criticalDensity)
    {
        double middle = 0.5 * (thin + dense);
        double half = 0.5 * Math.Sqrt(3) * (dense - thin);
        return new(
            Math.Log(thin), Math.Log(dense), Math.Log(Math.Max(middle - half, 0.1 * criticalDensity)), Math.Log(middle + half), 0);
    }

    private static CoexistencePoint Extrapolate(CoexistencePoint last, CoexistencePoint before, CoexistencePoint first, int order) =>
        order == 1
            ? new(0, 0, (2 * last.VaporDensity) - before.VaporDensity, (2 * last.LiquidDensity) - before.LiquidDensity, 0)
            : new(
                0,
                0,
                (3 * (last.VaporDensity - before.VaporDensity)) + first.VaporDensity,
                (3 * (last.LiquidDensity - before.LiquidDensity)) + first.LiquidDensity,
                0);

    private CoexistencePoint At(int node)
    {
        ReadOnlySpan<double> row = values.AsSpan(node * Columns, Columns);
        return new(row[0], row[1], row[2], row[3], row[4]);
    }

    private void Store(int node, CoexistencePoint point)
    {
        Span<double> row = values.AsSpan(node * Columns, Columns);
        row[0] = point.VaporLimit;
        row[1] = point.LiquidLimit;
        row[2] = point.VaporDensity;
        row[3] = point.LiquidDensity;
        row[4] = point.Pressure;
    }

    // Slopes per interval by central differences of fourth order, of second order at the ends.
    private double[] Slopes()
    {
        double[] result = new double[values.Length];
        for (int i = 0; i < nodes; i++)
        {
            for (int k = 0; k < Columns; k++)
            {
                result[(i * Columns) + k] = i switch
                {
                    _ when nodes < 5 => i == 0 ? V(1) - V(0) : V(0) - V(-1),
                    0 => (-1.5 * V(0)) + (2 * V(1)) - (0.5 * V(2)),
                    1 => 0.5 * (V(1) - V(-1)),
                    _ when i == nodes - 1 => (1.5 * V(0)) - (2 * V(-1)) + (0.5 * V(-2)),
                    _ when i == nodes - 2 => 0.5 * (V(1) - V(-1)),
                    _ => ((8 * (V(1) - V(-1))) - (V(2) - V(-2))) / 12,
                };

                double V(int shift) => values[((i + shift) * Columns) + k];
            }
        }

        return result;
    }
}
