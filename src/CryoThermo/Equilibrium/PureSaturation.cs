using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Vapour pressure of one component of a mixture kernel: equal fugacities of the outermost density roots. The spinodal
/// pressures bracket the answer, so that the solve cannot fail below the equation's own critical point.
/// </summary>
internal static class PureSaturation
{
    /// <summary>Temperatures closer than this to the critical one, relative, are taken as critical.</summary>
    private const double CriticalMargin = 1e-9;

    /// <summary>
    /// Vapour pressure at a temperature. Returns false at and above the equation's critical temperature.
    /// </summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="component">Component index.</param>
    /// <param name="temperature">K.</param>
    /// <param name="scratch">Kernel scratch; set to this temperature on return.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="liquidDensity">mol/m3.</param>
    /// <param name="vaporDensity">mol/m3.</param>
    public static bool TryPressure(
        MixtureKernel kernel, int component, double temperature, Span<double> scratch, out double pressure, out double liquidDensity, out double vaporDensity)
    {
        pressure = 0;
        liquidDensity = 0;
        vaporDensity = 0;
        if (kernel.IsPureEquation)
        {
            return kernel.TrySaturation(temperature, scratch, out pressure, out liquidDensity, out vaporDensity);
        }

        if (kernel.PureKernel(component) is { } alone)
        {
            Span<double> own = stackalloc double[alone.ScratchLength];
            bool exists = alone.TrySaturation(temperature, own, out pressure, out liquidDensity, out vaporDensity);
            pressure *= kernel.GasConstant / alone.GasConstant;
            kernel.SetTemperature(temperature, scratch);
            return exists;
        }

        double critical = kernel.CriticalTemperature(component);
        if (!(temperature < critical * (1 - CriticalMargin)))
        {
            return false;
        }

        int n = kernel.ComponentCount;
        Span<double> x = stackalloc double[n];
        Span<double> lnPhi = stackalloc double[n];
        x.Clear();
        x[component] = 1;
        kernel.SetTemperature(temperature, scratch);

        SpinodalVolumes(kernel, component, temperature, x, scratch, out double vaporSpinodal, out double liquidSpinodal);
        double high = Math.Log(kernel.Pressure(temperature, 1 / vaporSpinodal, x, scratch, out _));
        double lowest = kernel.Pressure(temperature, 1 / liquidSpinodal, x, scratch, out _);
        double low = lowest > 0 ? Math.Log(lowest) : -650;

        double reduced = critical / temperature;
        double ln = Math.Log(kernel.CriticalPressure(component)) + (5.373 * (1 - reduced));
        if (!(ln > low && ln < high))
        {
            ln = lowest > 0 ? 0.5 * (low + high) : high - 1;
        }

        for (int iteration = 0; iteration < 200; iteration++)
        {
            double p = Math.Exp(ln);
            liquidDensity = kernel.LnFugacityCoefficients(temperature, p, x, DensityRoot.Liquid, scratch, lnPhi, out _);
            double liquid = lnPhi[component];
            vaporDensity = kernel.LnFugacityCoefficients(temperature, p, x, DensityRoot.Vapor, scratch, lnPhi, out _);
            double difference = liquid - lnPhi[component];
            double rt = kernel.GasConstant * temperature;
            double slope = (p / rt) * ((1 / liquidDensity) - (1 / vaporDensity));
            if (difference > 0)
            {
                low = ln;
            }
            else
            {
                high = ln;
            }

            double next = ln - (difference / slope);

            // Judged before the bracket: at the answer the step may point a rounding error outside it.
            if (Math.Abs(next - ln) <= 2e-15 * Math.Max(1, Math.Abs(ln)) || Math.Abs(difference) < 1e-15)
            {
                break;
            }

            ln = next > low && next < high ? next : 0.5 * (low + high);
        }

        pressure = Math.Exp(ln);
        return true;
    }

    /// <summary>Boiling temperature at a pressure. Returns false at and above the equation's critical pressure.</summary>
    public static bool TryTemperature(
        MixtureKernel kernel, int component, double pressure, Span<double> scratch, out double temperature, out double liquidDensity, out double vaporDensity)
    {
        temperature = 0;
        liquidDensity = 0;
        vaporDensity = 0;
        if (kernel.IsPureEquation)
        {
            return kernel.TryBoiling(pressure, scratch, out temperature, out liquidDensity, out vaporDensity);
        }

        if (kernel.PureKernel(component) is { } alone)
        {
            Span<double> own = stackalloc double[alone.ScratchLength];
            bool exists = alone.TryBoiling(pressure * alone.GasConstant / kernel.GasConstant, own, out temperature, out liquidDensity, out vaporDensity);
            kernel.SetTemperature(temperature, scratch);
            return exists;
        }

        double critical = kernel.CriticalTemperature(component);
        double high = critical * (1 - (2 * CriticalMargin));
        if (!(pressure > 0) || !TryPressure(kernel, component, high, scratch, out double top, out liquidDensity, out vaporDensity) || pressure > top)
        {
            return false;
        }

        double low = 0.02 * critical;
        double target = Math.Log(pressure);
        temperature = critical / (1 - ((target - Math.Log(kernel.CriticalPressure(component))) / 5.373));
        temperature = Math.Clamp(temperature, low, high);
        double previous = 0;
        double previousLn = 0;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            if (!TryPressure(kernel, component, temperature, scratch, out double p, out liquidDensity, out vaporDensity) || p <= 0)
            {
                low = Math.Max(low, temperature);
                temperature = 0.5 * (low + high);
                continue;
            }

            double difference = Math.Log(p) - target;
            if (difference > 0)
            {
                high = temperature;
            }
            else
            {
                low = temperature;
            }

            // ln p is close to linear in 1/T: secant there, with the acentric estimate as first slope.
            double inverse = 1 / temperature;
            double slope = iteration == 0 || inverse == previous ? -5.373 * critical : (Math.Log(p) - previousLn) / (inverse - previous);
            previous = inverse;
            previousLn = Math.Log(p);
            double next = 1 / (inverse - (difference / slope));
            if (Math.Abs(next - temperature) <= 1e-14 * temperature || Math.Abs(difference) < 1e-15)
            {
                return true;
            }

            temperature = next > low && next < high ? next : 0.5 * (low + high);
        }

        return true;
    }

    /// <summary>Densities at which metastable vapour and liquid of a component end; false at and above the equation's critical temperature.</summary>
    public static bool TryLimits(
        MixtureKernel kernel, int component, double temperature, Span<double> scratch, out double vaporDensity, out double liquidDensity)
    {
        if (kernel.IsPureEquation)
        {
            return kernel.TryLimits(temperature, scratch, out vaporDensity, out liquidDensity);
        }

        if (kernel.PureKernel(component) is { } alone)
        {
            Span<double> own = stackalloc double[alone.ScratchLength];
            bool exists = alone.TryLimits(temperature, own, out vaporDensity, out liquidDensity);
            kernel.SetTemperature(temperature, scratch);
            return exists;
        }

        vaporDensity = 0;
        liquidDensity = 0;
        if (!(temperature < kernel.CriticalTemperature(component) * (1 - CriticalMargin)))
        {
            return false;
        }

        Span<double> x = stackalloc double[kernel.ComponentCount];
        x.Clear();
        x[component] = 1;
        kernel.SetTemperature(temperature, scratch);
        SpinodalVolumes(kernel, component, temperature, x, scratch, out double vapor, out double liquid);
        vaporDensity = 1 / vapor;
        liquidDensity = 1 / liquid;
        return true;
    }

    // dp/dv changes sign once on each side of the critical volume.
    private static void SpinodalVolumes(
        MixtureKernel kernel, int component, double temperature, ReadOnlySpan<double> x, Span<double> scratch, out double vapor, out double liquid)
    {
        double criticalVolume = 1 / kernel.CriticalDensity(component);
        liquid = SpinodalVolume(kernel, temperature, x, scratch, criticalVolume, 1 / kernel.DensityLimit(x, scratch));
        double vaporSide = 2 * criticalVolume;
        while (SlopeSign(kernel, temperature, x, scratch, vaporSide) > 0)
        {
            vaporSide *= 4;
        }

        vapor = SpinodalVolume(kernel, temperature, x, scratch, criticalVolume, vaporSide);
    }

    private static double SlopeSign(MixtureKernel kernel, double temperature, ReadOnlySpan<double> x, Span<double> scratch, double volume)
    {
        kernel.Pressure(temperature, 1 / volume, x, scratch, out double byVolume);
        return byVolume;
    }

    private static double SpinodalVolume(
        MixtureKernel kernel, double temperature, ReadOnlySpan<double> x, Span<double> scratch, double unstable, double stable)
    {
        double a = Math.Log(unstable);
        double b = Math.Log(stable);
        for (int iteration = 0; iteration < 60 && Math.Abs(a - b) > 1e-13; iteration++)
        {
            double middle = 0.5 * (a + b);
            if (SlopeSign(kernel, temperature, x, scratch, Math.Exp(middle)) > 0)
            {
                a = middle;
            }
            else
            {
                b = middle;
            }
        }

        return Math.Exp(b);
    }
}
