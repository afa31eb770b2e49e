using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>
/// Viscosity and thermal conductivity of dense fluids beyond the dilute gas, by corresponding states with nitrogen
/// (E. W. Lemmon, R. T Jacobsen, Int. J. Thermophys. 25 (2004) 21), in the manner of J. F. Ely, H. J. M. Hanley, Ind. Eng. Chem. Fundam. 20 (1981)
/// 323 and 22 (1983) 90, with a volume ratio that depends on density (M. O. McLinden, S. A. Klein, R. A. Perkins, Int. J. Refrig. 23 (2000) 43) fitted
/// to each fluid. Immutable, thread-safe, without allocation per call.
/// </summary>
internal sealed class CorrespondingStates
{
    /// <summary>Reduced density above which the volume ratios are held.</summary>
    public const double HighestReducedDensity = 3.4;

    private static readonly Lazy<Reference> Nitrogen = new(() => new Reference(SubstanceCatalog.Default.Find("nitrogen")));

    private readonly Reference reference = Nitrogen.Value;
    private readonly int count;
    private readonly double[] criticalVolume;
    private readonly double[] volumeRatio;
    private readonly double[] rootTemperatureRatio;
    private readonly double[] massFactor;
    private readonly double[] conductivityFactor;
    private readonly double[] viscosityConstant;
    private readonly double[] viscositySlope;
    private readonly double[] conductivityConstant;
    private readonly double[] conductivitySlope;

    /// <summary>Takes the coefficients of the components in their order.</summary>
    public CorrespondingStates(IReadOnlyList<CorrespondingStatesCoefficients> components)
    {
        count = components.Count;
        criticalVolume = Each(c => c.CriticalMolarVolume);
        volumeRatio = Each(c => c.CriticalMolarVolume / reference.Coefficients.CriticalMolarVolume);
        rootTemperatureRatio = Each(c => Math.Sqrt(c.CriticalTemperature / reference.Coefficients.CriticalTemperature));
        conductivityFactor = Each(c => Math.Sqrt(
            c.CriticalTemperature / reference.Coefficients.CriticalTemperature * reference.Coefficients.MolarMass / c.MolarMass));
        viscosityConstant = Each(c => c.ViscosityConstant);
        viscositySlope = Each(c => c.ViscositySlope);
        conductivityConstant = Each(c => c.ConductivityConstant);
        conductivitySlope = Each(c => c.ConductivitySlope);
        massFactor = new double[count * count];
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j < count; j++)
            {
                double mass = 2 * components[i].MolarMass * components[j].MolarMass / (components[i].MolarMass + components[j].MolarMass);
                massFactor[(i * count) + j] = Math.Sqrt(rootTemperatureRatio[i] * rootTemperatureRatio[j] * mass / reference.Coefficients.MolarMass);
            }
        }

        double[] Each(Func<CorrespondingStatesCoefficients, double> get) => [.. components.Select(get)];
    }

    /// <summary>Density over the mole average of the critical densities' inverse, dimensionless.</summary>
    public double ReducedDensity(double molarDensity, ReadOnlySpan<double> x)
    {
        double volume = 0;
        for (int i = 0; i < count; i++)
        {
            volume += x[i] * criticalVolume[i];
        }

        return molarDensity * volume;
    }

    /// <summary>Viscosity beyond that of the dilute gas, Pa s.</summary>
    public double Viscosity(double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        double reduced = Math.Min(ReducedDensity(molarDensity, x), HighestReducedDensity);
        Span<double> root = stackalloc double[count];
        for (int i = 0; i < count; i++)
        {
            root[i] = Math.Cbrt(volumeRatio[i] * (viscosityConstant[i] + (viscositySlope[i] * reduced)));
        }

        double h = 0;
        double fh = 0;
        double mass = 0;
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double share = (i == j ? 1 : 2) * x[i] * x[j];
                double mean = (root[i] + root[j]) / 2;
                double volume = mean * mean * mean;
                h += share * volume;
                fh += share * rootTemperatureRatio[i] * rootTemperatureRatio[j] * volume;
                mass += share * massFactor[(i * count) + j] * volume * mean;
            }
        }

        return reference.Viscosity(temperature * h / fh, molarDensity * h) * mass / (h * h);
    }

    /// <summary>
    /// Thermal conductivity beyond that of the dilute gas, W/(m K). The components' factors are joined by their harmonic means weighted with
    /// volume fractions, in the manner of C. C. Li, AIChE J. 22 (1976) 927.
    /// </summary>
    public double Conductivity(double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        double reduced = Math.Min(ReducedDensity(molarDensity, x), HighestReducedDensity);
        Span<double> volume = stackalloc double[count];
        Span<double> factor = stackalloc double[count];
        double h = 0;
        double root = 0;
        double rootVolume = 0;
        for (int i = 0; i < count; i++)
        {
            double own = volumeRatio[i] * (conductivityConstant[i] + (conductivitySlope[i] * reduced));
            double cubeRoot = Math.Cbrt(own);
            factor[i] = conductivityFactor[i] / (cubeRoot * cubeRoot);
            volume[i] = x[i] * own;
            h += volume[i];
            root += x[i] * rootTemperatureRatio[i];
            rootVolume += rootTemperatureRatio[i] * volume[i];
        }

        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                sum += (i == j ? 1 : 2) * volume[i] * volume[j] * 2 * factor[i] * factor[j] / (factor[i] + factor[j]);
            }
        }

        return reference.Conductivity(temperature * h / (root * rootVolume), molarDensity * h) * sum / (h * h);
    }

    private sealed class Reference
    {
        private readonly DenseFunction.Powers viscosity;
        private readonly DenseFunction.Powers conductivity;

        public Reference(Substance nitrogen)
        {
            viscosity = (DenseFunction.Powers)nitrogen.Transport!.DenseViscosityFunction!;
            conductivity = (DenseFunction.Powers)nitrogen.Transport.DenseConductivityFunction!;
            Coefficients = nitrogen.Transport.CorrespondingStates!;
        }

        public CorrespondingStatesCoefficients Coefficients { get; }

        public double Viscosity(double temperature, double molarDensity) => viscosity.Residual(temperature, molarDensity);

        public double Conductivity(double temperature, double molarDensity) => conductivity.Residual(temperature, molarDensity);
    }
}
