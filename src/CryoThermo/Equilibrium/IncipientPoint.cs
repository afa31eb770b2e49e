using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Bubble and dew points: the state where the first bubble, or the first drop, stands in equilibrium with the whole
/// mixture. Newton in ln K and in ln T or ln p with analytic derivatives (Michelsen, Fluid Phase Equilib. 4 (1980) 1);
/// where that fails from the estimate, the line is followed from low pressure.
/// </summary>
internal static class IncipientPoint
{
    private const double Tolerance = 1e-11;

    /// <summary>Which variable is sought.</summary>
    public enum Unknown
    {
        /// <summary>The temperature at a given pressure.</summary>
        Temperature,

        /// <summary>The pressure at a given temperature.</summary>
        Pressure,
    }

    /// <summary>Finds the point. Returns false when the line does not reach the given pressure or temperature.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="z">Mole fractions of the whole mixture.</param>
    /// <param name="bubble">True: first bubble; false: first drop.</param>
    /// <param name="unknown">What is sought.</param>
    /// <param name="temperature">K; given or result.</param>
    /// <param name="pressure">Pa; given or result.</param>
    /// <param name="scratch">Kernel scratch.</param>
    /// <param name="incipient">Receives the mole fractions of the first bubble or drop.</param>
    /// <param name="residual">Largest residual of the equations.</param>
    public static bool TryFind(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        ref double temperature,
        ref double pressure,
        Span<double> scratch,
        Span<double> incipient,
        out double residual)
    {
        int n = z.Length;
        int only = SingleComponent(z);
        if (only >= 0)
        {
            residual = 0;
            z.CopyTo(incipient);
            return unknown == Unknown.Temperature
                ? PureSaturation.TryTemperature(kernel, only, pressure, scratch, out temperature, out _, out _)
                : PureSaturation.TryPressure(kernel, only, temperature, scratch, out pressure, out _, out _);
        }

        Span<double> lnK = stackalloc double[n];
        if (!Directly(kernel, z, bubble, unknown, temperature, pressure, out double lnT, out double lnP, scratch, lnK, out residual)
            && !FromOppositeLine(kernel, z, bubble, unknown, temperature, pressure, ref lnT, ref lnP, scratch, lnK, out residual)
            && !FromFlashes(kernel, z, bubble, unknown, temperature, pressure, ref lnT, ref lnP, scratch, lnK, out residual))
        {
            return false;
        }

        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            incipient[i] = z[i] > 0 ? z[i] * Math.Exp(bubble ? lnK[i] : -lnK[i]) : 0;
            sum += incipient[i];
        }

        for (int i = 0; i < n; i++)
        {
            incipient[i] /= sum;
        }

        if (unknown == Unknown.Temperature)
        {
            temperature = Math.Exp(lnT);
        }
        else
        {
            pressure = Math.Exp(lnP);
        }

        kernel.SetTemperature(temperature, scratch);
        return true;
    }

    /// <summary>Index of the only component present, or -1.</summary>
    public static int SingleComponent(ReadOnlySpan<double> z)
    {
        int only = -1;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] > 0)
            {
                if (only >= 0)
                {
                    return -1;
                }

                only = i;
            }
        }

        return only;
    }

    // Newton from the estimate where that is close enough, else along the line from low pressure.
    private static bool Directly(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double temperature,
        double pressure,
        out double lnT,
        out double lnP,
        Span<double> scratch,
        Span<double> lnK,
        out double residual)
    {
        if (unknown == Unknown.Temperature)
        {
            lnP = Math.Log(pressure);
            lnT = Math.Log(EstimateTemperature(kernel, z, bubble, pressure, lnK));
        }
        else
        {
            lnT = Math.Log(temperature);
            lnP = Math.Log(EstimatePressure(kernel, z, bubble, temperature, lnK));
        }

        if (unknown == Unknown.Temperature || lnP < Math.Log(2e6))
        {
            Refine(kernel, z, bubble, unknown, ref lnT, ref lnP, scratch, lnK);
            if (Newton(kernel, z, bubble, unknown, ref lnT, ref lnP, scratch, lnK, out residual) && IsDistinct(kernel, z, bubble, lnT, lnP, scratch, lnK))
            {
                return true;
            }
        }

        return Follow(kernel, z, bubble, unknown, Math.Log(temperature), Math.Log(pressure), ref lnT, ref lnP, scratch, lnK, out residual);
    }

    // The trivial answer (two equal phases) solves the equations everywhere, and next to a point where the liquid begins to
    // split they hold to all digits for almost equal liquids too: such an answer is no bubble and no drop. Beyond the
    // critical point the equations of the bubble have the dew point for an answer, with the roles exchanged.
    private static bool IsDistinct(
        MixtureKernel kernel, ReadOnlySpan<double> z, bool bubble, double lnT, double lnP, Span<double> scratch, ReadOnlySpan<double> lnK)
    {
        int n = z.Length;
        Span<double> w = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        double largest = 0;
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            w[i] = 0;
            if (z[i] > 0)
            {
                largest = Math.Max(largest, Math.Abs(lnK[i]));
                w[i] = z[i] * Math.Exp(bubble ? lnK[i] : -lnK[i]);
                sum += w[i];
            }
        }

        for (int i = 0; i < n; i++)
        {
            w[i] /= sum;
        }

        double temperature = Math.Exp(lnT);
        double pressure = Math.Exp(lnP);
        ReadOnlySpan<double> vapor = bubble ? w : z;
        ReadOnlySpan<double> liquid = bubble ? z : w;
        kernel.SetTemperature(temperature, scratch);
        double vaporDensity = kernel.LnFugacityCoefficients(temperature, pressure, vapor, DensityRoot.Vapor, scratch, lnPhi, out _);
        double liquidDensity = kernel.LnFugacityCoefficients(temperature, pressure, liquid, DensityRoot.Liquid, scratch, lnPhi, out _);
        double vaporVolume = kernel.ReducedVolume(vaporDensity, vapor);
        double liquidVolume = kernel.ReducedVolume(liquidDensity, liquid);
        if (!(vaporVolume > liquidVolume))
        {
            return false;
        }

        // At high pressure the equations are also met by a second liquid: its volume tells that it is no vapour. At an
        // azeotrope the compositions are equal and the volumes tell the phases apart. Phases nearer to one another than that solve the equations in
        // a whole stretch beside the critical point, as these fall with the cube of the distance.
        return vaporVolume > IsothermalFlash.SmallestVaporVolume && (largest > 1e-3 || vaporVolume > 1.01 * liquidVolume);
    }

    private static double EstimatePressure(MixtureKernel kernel, ReadOnlySpan<double> z, bool bubble, double temperature, Span<double> lnK)
    {
        kernel.EstimateLnK(temperature, 1, lnK);
        double pressure = bubble ? Sum(z, lnK, 1) : 1 / Sum(z, lnK, -1);
        pressure = Math.Clamp(pressure, 1e-200, 1e12);
        kernel.EstimateLnK(temperature, pressure, lnK);
        return pressure;
    }

    private static double EstimateTemperature(MixtureKernel kernel, ReadOnlySpan<double> z, bool bubble, double pressure, Span<double> lnK)
    {
        double low = 2;
        double high = 2000;
        for (int iteration = 0; iteration < 60; iteration++)
        {
            double middle = Math.Sqrt(low * high);
            kernel.EstimateLnK(middle, pressure, lnK);
            bool vaporizes = bubble ? Sum(z, lnK, 1) > 1 : Sum(z, lnK, -1) < 1;
            if (vaporizes)
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        kernel.EstimateLnK(high, pressure, lnK);
        return high;
    }

    private static double Sum(ReadOnlySpan<double> z, ReadOnlySpan<double> lnK, int sign)
    {
        double sum = 0;
        for (int i = 0; i < z.Length; i++)
        {
            if (z[i] > 0)
            {
                sum += z[i] * Math.Exp(Math.Min(sign * lnK[i], 700));
            }
        }

        return sum;
    }

    // Substitution in K with the pressure or temperature corrected each time: brings the estimate into Newton's reach.
    private static void Refine(
        MixtureKernel kernel, ReadOnlySpan<double> z, bool bubble, Unknown unknown, ref double lnT, ref double lnP, Span<double> scratch, Span<double> lnK)
    {
        int n = z.Length;
        Span<double> w = stackalloc double[n];
        Span<double> bulk = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        for (int iteration = 0; iteration < 12; iteration++)
        {
            double t = Math.Exp(lnT);
            double p = Math.Exp(lnP);
            double sum = Sum(z, lnK, bubble ? 1 : -1);
            for (int i = 0; i < n; i++)
            {
                w[i] = z[i] > 0 ? z[i] * Math.Exp(Math.Min(bubble ? lnK[i] : -lnK[i], 700)) / sum : 0;
            }

            kernel.SetTemperature(t, scratch);
            kernel.LnFugacityCoefficients(t, p, z, bubble ? DensityRoot.Liquid : DensityRoot.Vapor, scratch, bulk, out _);
            kernel.LnFugacityCoefficients(t, p, w, bubble ? DensityRoot.Vapor : DensityRoot.Liquid, scratch, lnPhi, out _);
            double heat = 0;
            for (int i = 0; i < n; i++)
            {
                lnK[i] = bubble ? bulk[i] - lnPhi[i] : lnPhi[i] - bulk[i];
                heat += w[i] * 5.373 * kernel.CriticalTemperature(i);
            }

            double ln = Math.Log(Sum(z, lnK, bubble ? 1 : -1));
            if (unknown == Unknown.Pressure)
            {
                lnP += Math.Clamp(bubble ? ln : -ln, -1, 1);
                for (int i = 0; i < n; i++)
                {
                    lnK[i] -= Math.Clamp(bubble ? ln : -ln, -1, 1);
                }
            }
            else
            {
                // d ln K/dT is about heat/T^2.
                double change = Math.Clamp((bubble ? -ln : ln) * t / heat, -0.1, 0.1);
                lnT += change;
                for (int i = 0; i < n; i++)
                {
                    lnK[i] += change * heat / t;
                }
            }

            if (Math.Abs(ln) < 1e-3)
            {
                break;
            }
        }
    }

    private static bool Newton(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        ref double lnT,
        ref double lnP,
        Span<double> scratch,
        Span<double> lnK,
        out double residual)
    {
        int n = z.Length;
        int size = n + 1;
        Span<double> jacobian = stackalloc double[size * size];
        Span<double> step = stackalloc double[size];
        residual = double.PositiveInfinity;
        double best = double.PositiveInfinity;
        int worse = 0;
        for (int iteration = 0; iteration < 50; iteration++)
        {
            residual = Equations(kernel, z, bubble, unknown, lnT, lnP, scratch, lnK, jacobian, step);
            if (residual < Tolerance)
            {
                return true;
            }

            if (!(residual < best))
            {
                if (++worse > 6)
                {
                    return false;
                }
            }
            else
            {
                best = residual;
            }

            for (int i = 0; i < size; i++)
            {
                step[i] = -step[i];
            }

            if (!LinearSystem.Solve(jacobian, size, step))
            {
                return false;
            }

            double scale = 1;
            for (int i = 0; i < n; i++)
            {
                scale = Math.Min(scale, 2 / Math.Max(Math.Abs(step[i]), 2));
            }

            double limit = unknown == Unknown.Temperature ? 0.08 : 1;
            scale = Math.Min(scale, limit / Math.Max(Math.Abs(step[n]), limit));
            for (int i = 0; i < n; i++)
            {
                lnK[i] += scale * step[i];
            }

            if (unknown == Unknown.Temperature)
            {
                lnT += scale * step[n];
            }
            else
            {
                lnP += scale * step[n];
            }

            if (!double.IsFinite(lnT) || !double.IsFinite(lnP) || lnT > Math.Log(3000) || lnT < Math.Log(0.5) || lnP > Math.Log(1e11))
            {
                return false;
            }
        }

        return residual < 1e-9;
    }

    // F_i = ln K_i + ln phi_i(vapour) - ln phi_i(liquid); last: the incipient fractions sum to one.
    private static double Equations(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double lnT,
        double lnP,
        Span<double> scratch,
        ReadOnlySpan<double> lnK,
        Span<double> jacobian,
        Span<double> value)
    {
        int n = z.Length;
        int size = n + 1;
        Span<double> w = stackalloc double[n];
        Span<double> columns = stackalloc double[6 * n];
        Span<double> square = stackalloc double[n * n];
        Span<double> bulkSquare = stackalloc double[n * n];
        Span<double> bulk = columns[..n];
        Span<double> bulkByT = columns.Slice(n, n);
        Span<double> bulkByP = columns.Slice(2 * n, n);
        Span<double> other = columns.Slice(3 * n, n);
        Span<double> otherByT = columns.Slice(4 * n, n);
        Span<double> otherByP = columns.Slice(5 * n, n);
        double t = Math.Exp(lnT);
        double p = Math.Exp(lnP);
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            w[i] = z[i] > 0 ? z[i] * Math.Exp(Math.Min(bubble ? lnK[i] : -lnK[i], 700)) : 0;
            sum += w[i];
        }

        for (int i = 0; i < n; i++)
        {
            w[i] /= sum;
        }

        kernel.SetTemperature(t, scratch);
        kernel.LnFugacityDerivatives(t, p, z, bubble ? DensityRoot.Liquid : DensityRoot.Vapor, scratch, bulk, bulkSquare, bulkByT, bulkByP, out _);
        kernel.LnFugacityDerivatives(t, p, w, bubble ? DensityRoot.Vapor : DensityRoot.Liquid, scratch, other, square, otherByT, otherByP, out _);
        double sign = bubble ? 1 : -1;
        double largest = Math.Abs(sum - 1);
        for (int i = 0; i < n; i++)
        {
            Span<double> row = jacobian.Slice(i * size, size);
            row.Clear();
            row[i] = 1;
            if (z[i] <= 0)
            {
                value[i] = lnK[i];
                continue;
            }

            // vapour minus liquid: incipient is the vapour at a bubble point, the liquid at a dew point.
            value[i] = lnK[i] + (sign * (other[i] - bulk[i]));
            largest = Math.Max(largest, Math.Abs(value[i]));
            for (int j = 0; j < n; j++)
            {
                row[j] += square[(i * n) + j] * w[j];
            }

            row[n] = unknown == Unknown.Temperature
                ? sign * t * (otherByT[i] - bulkByT[i])
                : sign * p * (otherByP[i] - bulkByP[i]);
        }

        Span<double> last = jacobian.Slice(n * size, size);
        for (int j = 0; j < n; j++)
        {
            last[j] = w[j] * sum;
        }

        last[n] = 0;
        value[n] = bubble ? sum - 1 : 1 - sum;
        return largest;
    }

    // The line may not be reachable from low pressure: a light gas in carbon dioxide splits into two liquids on the way. The other line mostly
    // is: from there flashes step through the two-phase region, however narrow it is, to where the second phase vanishes.
    private static bool FromOppositeLine(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double temperature,
        double pressure,
        ref double lnT,
        ref double lnP,
        Span<double> scratch,
        Span<double> lnK,
        out double residual)
    {
        const double FirstStep = 1e-4;
        const double Growth = 1.5;
        if (!Directly(kernel, z, !bubble, unknown, temperature, pressure, out lnT, out lnP, scratch, lnK, out residual))
        {
            return false;
        }

        // Bubbles vanish upwards in pressure and downwards in temperature, drops the other way.
        bool seeksPressure = unknown == Unknown.Pressure;
        double step = bubble == seeksPressure ? FirstStep : -FirstStep;
        double limit = seeksPressure ? Math.Log(1e3) : Math.Log(2);
        double inside = seeksPressure ? lnP : lnT;
        double start = inside;
        PhaseSplit split = new(stackalloc double[z.Length], stackalloc double[z.Length], stackalloc double[z.Length]);
        while (HoldsVaporAndLiquid(kernel, z, seeksPressure, temperature, pressure, inside + step, scratch, ref split))
        {
            inside += step;
            step *= Growth;
            if (Math.Abs(inside - start) > limit)
            {
                residual = double.PositiveInfinity;
                return false;
            }
        }

        return inside != start
            && EndOfSplit(kernel, z, bubble, unknown, temperature, pressure, inside, inside + step, ref lnT, ref lnP, scratch, lnK, ref split, out residual);
    }

    // Flashes along the unknown show where a second phase vanishes, and their last split starts Newton.
    private static bool FromFlashes(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double temperature,
        double pressure,
        ref double lnT,
        ref double lnP,
        Span<double> scratch,
        Span<double> lnK,
        out double residual)
    {
        const int Cells = 60;
        residual = double.PositiveInfinity;
        bool seeksPressure = unknown == Unknown.Pressure;
        double lowest = Math.Log(seeksPressure ? 1e3 : 20);
        double highest = Math.Log(seeksPressure ? 1e8 : 700);

        // Bubbles vanish upwards in pressure and downwards in temperature, drops the other way: begin on that side.
        bool fromAbove = bubble == seeksPressure;
        double start = fromAbove ? highest : lowest;
        double cellWidth = (fromAbove ? lowest - highest : highest - lowest) / Cells;
        PhaseSplit split = new(stackalloc double[z.Length], stackalloc double[z.Length], stackalloc double[z.Length]);
        double inside = start;
        int cell = 0;
        while (!IsInside(kernel, z, bubble, seeksPressure, temperature, pressure, inside, scratch, ref split))
        {
            if (++cell > Cells)
            {
                return false;
            }

            inside = start + (cell * cellWidth);
        }

        return EndOfSplit(kernel, z, bubble, unknown, temperature, pressure, inside, inside - cellWidth, ref lnT, ref lnP, scratch, lnK, ref split, out residual);
    }

    // Between a state with two phases and one without: halving, then Newton from the last split.
    private static bool EndOfSplit(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double temperature,
        double pressure,
        double inside,
        double outside,
        ref double lnT,
        ref double lnP,
        Span<double> scratch,
        Span<double> lnK,
        ref PhaseSplit split,
        out double residual)
    {
        const int Halvings = 12;
        bool seeksPressure = unknown == Unknown.Pressure;
        for (int halving = 0; halving < Halvings; halving++)
        {
            double middle = 0.5 * (inside + outside);
            if (HoldsVaporAndLiquid(kernel, z, seeksPressure, temperature, pressure, middle, scratch, ref split))
            {
                inside = middle;
            }
            else
            {
                outside = middle;
            }
        }

        residual = double.PositiveInfinity;
        if (!IsInside(kernel, z, bubble, seeksPressure, temperature, pressure, inside, scratch, ref split))
        {
            return false;
        }

        for (int i = 0; i < z.Length; i++)
        {
            lnK[i] = z[i] > 0 ? Math.Log(split.Light[i] / split.Heavy[i]) : 0;
        }

        lnT = seeksPressure ? Math.Log(temperature) : inside;
        lnP = seeksPressure ? inside : Math.Log(pressure);
        return Newton(kernel, z, bubble, unknown, ref lnT, ref lnP, scratch, lnK, out residual)
            && IsDistinct(kernel, z, bubble, lnT, lnP, scratch, lnK);
    }

    // Vapour beside liquid, with less of the phase that is to vanish.
    private static bool IsInside(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        bool seeksPressure,
        double temperature,
        double pressure,
        double at,
        Span<double> scratch,
        ref PhaseSplit split)
    {
        return HoldsVaporAndLiquid(kernel, z, seeksPressure, temperature, pressure, at, scratch, ref split)
            && (bubble ? split.LightFraction : split.HeavyFraction) < 0.5;
    }

    private static bool HoldsVaporAndLiquid(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool seeksPressure,
        double temperature,
        double pressure,
        double at,
        Span<double> scratch,
        ref PhaseSplit split)
    {
        IsothermalFlash.Solve(kernel, seeksPressure ? temperature : Math.Exp(at), seeksPressure ? Math.Exp(at) : pressure, z, scratch, ref split, twoPhasesOnly: true);
        return split.PhaseCount == 2 && split.LightIsVapor;
    }

    // Walks the line from low pressure (or low temperature) towards the target, halving the step on failure.
    private static bool Follow(
        MixtureKernel kernel,
        ReadOnlySpan<double> z,
        bool bubble,
        Unknown unknown,
        double givenLnT,
        double givenLnP,
        ref double lnT,
        ref double lnP,
        Span<double> scratch,
        Span<double> lnK,
        out double residual)
    {
        int n = z.Length;
        Span<double> trialLnK = stackalloc double[n];
        Span<double> previousLnK = stackalloc double[n];
        double target = unknown == Unknown.Temperature ? givenLnP : givenLnT;
        residual = double.PositiveInfinity;

        // A first point at moderate pressure.
        double current = 0;
        bool started = false;
        for (int attempt = 0; attempt < 12 && !started; attempt++)
        {
            double startPressure = 1e5 * Math.Pow(0.3, attempt);
            lnP = Math.Log(startPressure);
            lnT = Math.Log(EstimateTemperature(kernel, z, bubble, startPressure, lnK));
            Refine(kernel, z, bubble, Unknown.Temperature, ref lnT, ref lnP, scratch, lnK);
            started = Newton(kernel, z, bubble, Unknown.Temperature, ref lnT, ref lnP, scratch, lnK, out residual) && IsDistinct(kernel, z, bubble, lnT, lnP, scratch, lnK);
        }

        if (!started)
        {
            return false;
        }

        current = unknown == Unknown.Temperature ? lnP : lnT;
        double step = Math.Clamp(target - current, unknown == Unknown.Temperature ? -1 : -0.08, unknown == Unknown.Temperature ? 1 : 0.08);
        double previous = current;
        double previousOther = 0;
        lnK.CopyTo(previousLnK);
        bool hasPrevious = false;
        for (int iteration = 0; iteration < 400; iteration++)
        {
            double remaining = target - current;
            if (Math.Abs(remaining) < 1e-15)
            {
                return true;
            }

            bool last = Math.Abs(step) >= Math.Abs(remaining);
            double next = last ? target : current + step;
            double other = unknown == Unknown.Temperature ? lnT : lnP;
            double factor = hasPrevious ? (next - current) / (current - previous) : 0;
            for (int i = 0; i < n; i++)
            {
                trialLnK[i] = lnK[i] + (factor * (lnK[i] - previousLnK[i]));
            }

            double guess = hasPrevious ? other + (factor * (other - previousOther)) : other;
            double trialLnT = unknown == Unknown.Temperature ? guess : next;
            double trialLnP = unknown == Unknown.Temperature ? next : guess;
            bool ok = Newton(kernel, z, bubble, unknown, ref trialLnT, ref trialLnP, scratch, trialLnK, out residual) && IsDistinct(kernel, z, bubble, trialLnT, trialLnP, scratch, trialLnK);
            double moved = unknown == Unknown.Temperature ? Math.Abs(trialLnT - lnT) : Math.Abs(trialLnP - lnP);
            if (ok && moved > (unknown == Unknown.Temperature ? 0.2 : 2))
            {
                ok = false;
            }

            if (ok)
            {
                previous = current;
                previousOther = other;
                lnK.CopyTo(previousLnK);
                hasPrevious = true;
                current = next;
                lnT = trialLnT;
                lnP = trialLnP;
                trialLnK.CopyTo(lnK);
                if (last)
                {
                    return true;
                }

                step *= 1.6;
            }
            else
            {
                step *= 0.4;
                if (Math.Abs(step) < 1e-7)
                {
                    return false;
                }
            }
        }

        return false;
    }
}
