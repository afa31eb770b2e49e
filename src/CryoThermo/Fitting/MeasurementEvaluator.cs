using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Fitting;

/// <summary>Forms the deviations of a fluid model from measured points. One instance is used by one thread.</summary>
internal sealed class MeasurementEvaluator
{
    // Where a flash looks for the two phases beside a measured vapour composition.
    private static readonly double[] Shifts = [0, 0.02, 0.1, 0.3, 0.6, 0.9, -0.02, -0.1, -0.3];

    private readonly FluidKernel kernel;
    private readonly double[] scratch;
    private readonly double[] first;
    private readonly double[] second;
    private readonly double[] incipient;

    public MeasurementEvaluator(FluidKernel kernel)
    {
        this.kernel = kernel;
        scratch = new double[kernel.Equation.ScratchLength];
        first = new double[kernel.ComponentCount];
        second = new double[kernel.ComponentCount];
        incipient = new double[kernel.ComponentCount];
    }

    /// <summary>The kinds of deviations a point gives, in the order of <see cref="Deviations"/>.</summary>
    public static IEnumerable<MeasurementKind> KindsOf(Measurement point)
    {
        yield return point.Kind;
        if (point.Kind is MeasurementKind.BubblePressure or MeasurementKind.BubbleTemperature)
        {
            for (int i = 0; point.VaporFractions is not null && i < point.Fractions.Count - 1; i++)
            {
                yield return MeasurementKind.VaporComposition;
            }

            if (point.Density is not null)
            {
                yield return MeasurementKind.Density;
            }
        }
    }

    /// <summary>Adds the deviations of a point, computed minus measured; not a number where the model gives no answer.</summary>
    /// <param name="point">The point.</param>
    /// <param name="into">Receives them.</param>
    /// <param name="forFit">
    /// Whether a bubble point without an answer, as beyond the model's critical point, gives the deviations of one step from the measured
    /// phases instead, so that a trial neither gains nor loses by losing a point.
    /// </param>
    public void Deviations(Measurement point, List<double> into, bool forFit = false)
    {
        int before = into.Count;
        int expected = KindsOf(point).Count();
        bool solved;
        try
        {
            solved = TryDeviations(point, into);
        }
        catch (Exception exception) when (exception is ArgumentException or Diagnostics.ConvergenceException or InvalidOperationException or ArithmeticException)
        {
            solved = false;
        }

        if (!solved)
        {
            into.RemoveRange(before, into.Count - before);
            if (!(forFit && point.Kind == MeasurementKind.BubblePressure && point.VaporFractions is not null && TryFirstStep(point, into)))
            {
                into.RemoveRange(before, into.Count - before);
                into.AddRange(Enumerable.Repeat(double.NaN, expected));
            }
        }
    }

    // K values of the measured phases give a pressure and a vapour composition: what substitution starts with.
    private bool TryFirstStep(Measurement point, List<double> into)
    {
        double[] liquid = (double[])point.Fractions;
        double t = point.TemperatureKelvins;
        double p = point.PressurePascals;
        try
        {
            kernel.Equation.SetTemperature(t, scratch);
            kernel.Equation.LnFugacityCoefficients(t, p, (double[])point.VaporFractions!, DensityRoot.Vapor, scratch, second, out _);
            kernel.Equation.LnFugacityCoefficients(t, p, liquid, DensityRoot.Liquid, scratch, first, out _);
            double sum = 0;
            for (int i = 0; i < liquid.Length; i++)
            {
                incipient[i] = liquid[i] * Math.Exp(first[i] - second[i]);
                sum += incipient[i];
            }

            for (int i = 0; i < liquid.Length; i++)
            {
                incipient[i] /= sum;
            }

            into.Add(sum - 1);
            AddOfLiquid(point, t, p, into);
            return into.TrueForAll(d => !double.IsInfinity(d));
        }
        catch (ArgumentException)
        {
            return false;
        }
    }

    /// <summary>
    /// ln of the fugacity in the liquid over that in the vapour of each component, at the measured state: for starting values, since it needs
    /// no solution. Only for bubble points with vapour compositions.
    /// </summary>
    public void FugacityDifferences(Measurement point, List<double> into)
    {
        double[] liquid = (double[])point.Fractions;
        double[] vapor = (double[])point.VaporFractions!;
        try
        {
            kernel.Equation.SetTemperature(point.TemperatureKelvins, scratch);
            kernel.Equation.LnFugacityCoefficients(point.TemperatureKelvins, point.PressurePascals, liquid, DensityRoot.Liquid, scratch, first, out _);
            kernel.Equation.LnFugacityCoefficients(point.TemperatureKelvins, point.PressurePascals, vapor, DensityRoot.Vapor, scratch, second, out _);
        }
        catch (ArgumentException)
        {
            into.AddRange(Enumerable.Repeat(0.0, liquid.Length));
            return;
        }

        for (int i = 0; i < liquid.Length; i++)
        {
            into.Add(liquid[i] > 1e-4 && vapor[i] > 1e-4 ? Math.Log(liquid[i] / vapor[i]) + first[i] - second[i] : 0);
        }
    }

    /// <summary>The slope of ln of the bubble pressure over a mole fraction, by difference; the largest of the components.</summary>
    public double BubbleSlope(Measurement point)
    {
        double[] z = (double[])point.Fractions;
        double largest = 0;
        for (int i = 0; i < z.Length; i++)
        {
            double step = Math.Min(1e-3, 0.1 * z[i]);
            if (z[i] <= 0 || z[i] >= 1)
            {
                continue;
            }

            double? low = Ln(i, -step);
            double? high = Ln(i, step);
            if (low is { } a && high is { } b)
            {
                largest = Math.Max(largest, Math.Abs(b - a) / (2 * step));
            }
        }

        return largest;

        double? Ln(int component, double change)
        {
            double[] x = [.. z.Select((f, i) => i == component ? f + change : f - (change * f / (1 - z[component])))];
            try
            {
                return TryPoint(x, bubble: true, IncipientPoint.Unknown.Pressure, point.TemperatureKelvins, 0, out _, out double pressure) ? Math.Log(pressure) : null;
            }
            catch (ArgumentException)
            {
                return null;
            }
        }
    }

    private bool TryDeviations(Measurement point, List<double> into)
    {
        double[] z = (double[])point.Fractions;
        double t = point.TemperatureKelvins;
        double p = point.PressurePascals;
        switch (point.Kind)
        {
            case MeasurementKind.BubblePressure:
                if (!TryPoint(z, true, IncipientPoint.Unknown.Pressure, t, 0, out _, out double bubblePressure))
                {
                    return false;
                }

                into.Add((bubblePressure / p) - 1);
                AddOfLiquid(point, t, bubblePressure, into);
                return true;

            case MeasurementKind.BubbleTemperature:
                if (!TryPoint(z, true, IncipientPoint.Unknown.Temperature, 0, p, out double bubbleTemperature, out _))
                {
                    return false;
                }

                into.Add(bubbleTemperature - t);
                AddOfLiquid(point, bubbleTemperature, p, into);
                return true;

            case MeasurementKind.DewPressure:
                if (!TryPoint(z, false, IncipientPoint.Unknown.Pressure, t, 0, out _, out double dewPressure))
                {
                    return false;
                }

                into.Add((dewPressure / p) - 1);
                return true;

            case MeasurementKind.DewTemperature:
                if (!TryPoint(z, false, IncipientPoint.Unknown.Temperature, 0, p, out double dewTemperature, out _))
                {
                    return false;
                }

                into.Add(dewTemperature - t);
                return true;

            case MeasurementKind.VaporComposition:
                return TryVapor(z, t, p, into);

            case MeasurementKind.Density:
                into.Add(Nearest(t, p, z, f => f.MolarDensity * kernel.MolarMass(z), point.Density!.Value.KilogramsPerCubicMeter));
                return true;

            case MeasurementKind.SpeedOfSound:
                into.Add(Nearest(t, p, z, f => f.SpeedOfSound, point.SpeedOfSound!.Value.MetersPerSecond));
                return true;

            default:
                return TryExcess(point, into);
        }
    }

    private void AddOfLiquid(Measurement point, double temperature, double pressure, List<double> into)
    {
        for (int i = 0; point.VaporFractions is not null && i < incipient.Length - 1; i++)
        {
            into.Add(incipient[i] - point.VaporFractions[i]);
        }

        if (point.Density is { } density)
        {
            double[] x = (double[])point.Fractions;
            PhaseFigures liquid = kernel.Phase(temperature, pressure, x, DensityRoot.Liquid, scratch);
            into.Add((liquid.MolarDensity * kernel.MolarMass(x) / density.KilogramsPerCubicMeter) - 1);
        }
    }

    private bool TryPoint(
        double[] z, bool bubble, IncipientPoint.Unknown unknown, double temperature, double pressure, out double foundTemperature, out double foundPressure)
    {
        foundTemperature = temperature;
        foundPressure = pressure;
        return IncipientPoint.TryFind(kernel.Equation, z, bubble, unknown, ref foundTemperature, ref foundPressure, scratch, incipient, out _)
            && double.IsFinite(foundTemperature) && double.IsFinite(foundPressure);
    }

    // At temperature and pressure a binary vapour has one composition (two around an azeotrope: the nearer one is taken).
    private bool TryVapor(double[] measured, double temperature, double pressure, List<double> into)
    {
        Span<double> lnK = stackalloc double[2];
        kernel.Equation.EstimateLnK(temperature, pressure, lnK);
        int heavy = lnK[0] < lnK[1] ? 0 : 1;
        double best = double.NaN;
        foreach (double shift in Shifts)
        {
            double[] z = [measured[0], measured[1]];
            z[heavy] = Math.Clamp(z[heavy] + (shift * (shift > 0 ? 1 - z[heavy] : z[heavy])), 1e-6, 1 - 1e-6);
            z[1 - heavy] = 1 - z[heavy];
            EquilibriumResult state = kernel.At(temperature, pressure, z);
            if (state.Phases.Length == 2 && state.Phases[0].IsVapor)
            {
                double miss = state.Phases[0].MoleFractions[0] - measured[0];
                best = double.IsNaN(best) || Math.Abs(miss) < Math.Abs(best) ? miss : best;
                if (Math.Abs(best) < 0.1)
                {
                    break;
                }
            }
        }

        if (double.IsNaN(best))
        {
            return false;
        }

        into.Add(best);
        return true;
    }

    // The root nearer to the measured value: where the model has the other phase, the comparison is with the metastable one.
    private double Nearest(double temperature, double pressure, double[] z, Func<PhaseFigures, double> of, double measured)
    {
        kernel.Equation.SetTemperature(temperature, scratch);
        double liquid = of(kernel.Phase(temperature, pressure, z, DensityRoot.Liquid, scratch));
        double vapor = of(kernel.Phase(temperature, pressure, z, DensityRoot.Vapor, scratch));
        return ((Math.Abs(liquid - measured) < Math.Abs(vapor - measured) ? liquid : vapor) / measured) - 1;
    }

    private bool TryExcess(Measurement point, List<double> into)
    {
        double[] x = (double[])point.Fractions;
        double t = point.TemperatureKelvins;
        if (!TryPoint(x, true, IncipientPoint.Unknown.Pressure, t, 0, out _, out double pressure))
        {
            return false;
        }

        MixtureKernel equation = kernel.Equation;
        equation.LnFugacityCoefficients(t, pressure, x, DensityRoot.Liquid, scratch, first, out _);
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            double[] pure = new double[x.Length];
            pure[i] = 1;
            equation.LnFugacityCoefficients(t, pressure, pure, DensityRoot.Liquid, scratch, second, out _);
            sum += x[i] * (first[i] - second[i]);
        }

        into.Add((sum * equation.GasConstant * t) - point.ExcessGibbsEnergy!.Value.JoulesPerMole);
        return true;
    }
}
