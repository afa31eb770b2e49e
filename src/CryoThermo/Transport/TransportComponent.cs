using CryoThermo.IdealGas;
using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>
/// Viscosity and thermal conductivity of one pure substance by its own correlations, continued beyond their range, or estimated where it has none.
/// Immutable, thread-safe, without allocation per call.
/// </summary>
internal sealed class TransportComponent
{
    // Typical of the hydrocarbons of two to four carbon atoms; fitted to their reference correlations.
    private const double TypicalViscosityConstant = 1.15;
    private const double TypicalViscositySlope = -0.08;
    private const double TypicalConductivityConstant = 1.0;
    private const double TypicalConductivitySlope = 0;

    // Own estimates: the dilute gas of a polar fluid without its dipole is off by up to 9 %.
    private const double EstimatedDilutePercent = 10;
    private const double EstimatedDensePercent = 30;

    /// <summary>Tc over epsilon/k of Chung et al. 1988.</summary>
    private const double CriticalOverEnergy = 1.2593;

    /// <summary>Share of the internal energy in the conductivity of a gas, Ely and Hanley 1983.</summary>
    private const double InternalShare = 1.32;

    private readonly Substance substance;
    private readonly TransportData? data;
    private readonly IdealGasFunction idealGas;
    private readonly CorrespondingStates states;
    private readonly double energy;

    public TransportComponent(Substance substance)
    {
        this.substance = substance;
        data = substance.Transport;
        idealGas = new(substance);
        IsEstimated = data?.CorrespondingStates is null;
        Coefficients = data?.CorrespondingStates ?? new(
            substance.CriticalTemperature,
            1 / substance.CriticalMolarDensity,
            substance.MolarMass,
            TypicalViscosityConstant,
            TypicalViscositySlope,
            EstimatedDensePercent,
            TypicalConductivityConstant,
            TypicalConductivitySlope,
            EstimatedDensePercent,
            substance.CriticalPointProvenance);
        states = new([Coefficients]);
        energy = substance.CriticalTemperature / CriticalOverEnergy;
    }

    public string Name => substance.Name;

    public double MolarMass => substance.MolarMass;

    /// <summary>Coefficients for corresponding states, typical ones where the substance has none.</summary>
    public CorrespondingStatesCoefficients Coefficients { get; }

    /// <summary>Whether the coefficients are the typical ones.</summary>
    public bool IsEstimated { get; }

    public TransportCorrelation? DenseViscosity => data?.DenseViscosity;

    public TransportCorrelation? DenseConductivity => data?.DenseConductivity;

    public TransportCorrelation? DiluteViscosityMarks => data?.DiluteViscosity;

    public TransportCorrelation? DiluteConductivityMarks => data?.DiluteConductivity;

    public CriticalEnhancement? Enhancement => data?.CriticalEnhancement;

    public double DiluteViscosityPercent => data?.DiluteViscosity?.UncertaintyPercent ?? EstimatedDilutePercent;

    public double DiluteConductivityPercent => data?.DiluteConductivity?.UncertaintyPercent ?? EstimatedDilutePercent;

    public double ReducedDensity(double molarDensity) => molarDensity * Coefficients.CriticalMolarVolume;

    /// <summary>
    /// Viscosity of the dilute gas, Pa s. Beyond the range of the correlation it follows the kinetic theory with the energy of the critical
    /// temperature; without a correlation it is that of T.-H. Chung et al., Ind. Eng. Chem. Res. 27 (1988) 671, without dipole.
    /// </summary>
    public double DiluteViscosity(double temperature)
    {
        if (data is not { DiluteViscosity: { } range, DiluteViscosityFunction: { } function })
        {
            // 40.785 is 36.344 sqrt(1.2593), in microP, g/mol and cm3/mol.
            double shape = 1 - (0.2756 * substance.AcentricFactor);
            return 40.785e-7 * shape * Math.Sqrt(substance.MolarMass * 1e3 * temperature)
                / (Math.Pow(1e6 / substance.CriticalMolarDensity, 2.0 / 3) * DiluteFunction.CollisionIntegral(temperature / energy));
        }

        double within = Math.Clamp(temperature, range.LowestTemperature, range.HighestTemperature);
        double value = function.At(within, 0, 0);
        return within == temperature ? value : value * Kinetic(temperature) / Kinetic(within);
    }

    /// <summary>
    /// Thermal conductivity of the dilute gas, W/(m K), from its viscosity. Beyond the range of the correlation it follows the viscosity and the
    /// heat capacity; without one it is that of Chung et al.
    /// </summary>
    public double DiluteConductivity(double temperature, double viscosity)
    {
        double heatCapacity = HeatCapacity(temperature);
        if (data is not { DiluteConductivity: { } range, DiluteConductivityFunction: { } function })
        {
            double omega = substance.AcentricFactor;
            double alpha = heatCapacity - 2.5;
            double beta = 0.7862 - (0.7109 * omega) + (1.3168 * omega * omega);
            double reduced = temperature / substance.CriticalTemperature;
            double z = 2 + (10.5 * reduced * reduced);
            double psi = 1 + (alpha * (0.215 + (0.28288 * alpha) - (1.061 * beta) + (0.26665 * z)) / (0.6366 + (beta * z) + (1.061 * alpha * beta)));
            return 31.2 * viscosity * psi / substance.MolarMass;
        }

        double within = Math.Clamp(temperature, range.LowestTemperature, range.HighestTemperature);
        if (within == temperature)
        {
            return function.At(temperature, viscosity, heatCapacity);
        }

        double end = DiluteViscosity(within);
        double endHeatCapacity = HeatCapacity(within);
        return function.At(within, end, endHeatCapacity) * viscosity / end * Internal(heatCapacity) / Internal(endHeatCapacity);
    }

    /// <summary>Viscosity of the pure fluid, Pa s.</summary>
    public double Viscosity(double temperature, double molarDensity)
    {
        double dilute = DiluteViscosity(temperature);
        if (molarDensity <= 0)
        {
            return dilute;
        }

        ReadOnlySpan<double> x = [1];
        double byStates = dilute + states.Viscosity(temperature, molarDensity, x);
        if (Reaches(data?.DenseViscosity, data?.DenseViscosityFunction, temperature, molarDensity) is not { } within)
        {
            return byStates;
        }

        if (within == temperature)
        {
            return data!.DenseViscosityFunction!.At(temperature, molarDensity, dilute);
        }

        double end = DiluteViscosity(within);
        return data!.DenseViscosityFunction!.At(within, molarDensity, end) * byStates / (end + states.Viscosity(within, molarDensity, x));
    }

    /// <summary>Thermal conductivity of the pure fluid without what the critical point adds, W/(m K).</summary>
    public double Conductivity(double temperature, double molarDensity)
    {
        double dilute = DiluteConductivity(temperature, DiluteViscosity(temperature));
        if (molarDensity <= 0)
        {
            return dilute;
        }

        ReadOnlySpan<double> x = [1];
        double byStates = dilute + states.Conductivity(temperature, molarDensity, x);
        if (Reaches(data?.DenseConductivity, data?.DenseConductivityFunction, temperature, molarDensity) is not { } within)
        {
            return byStates;
        }

        if (within == temperature)
        {
            return data!.DenseConductivityFunction!.At(temperature, molarDensity, dilute);
        }

        double end = DiluteConductivity(within, DiluteViscosity(within));
        return data!.DenseConductivityFunction!.At(within, molarDensity, end) * byStates / (end + states.Conductivity(within, molarDensity, x));
    }

    /// <summary>The temperature within the range of a dense correlation nearest to this; null where there is none or the density is beyond it.</summary>
    private static double? Reaches(TransportCorrelation? range, DenseFunction? function, double temperature, double molarDensity)
    {
        if (range is null || function is null)
        {
            return null;
        }

        // The closest a free-volume form may come to its divergence; common practice, no source.
        const double MostOfLimit = 0.97;
        double within = Math.Clamp(temperature, range.LowestTemperature, range.HighestTemperature);
        return molarDensity < MostOfLimit * function.HighestMolarDensity(within) ? within : null;
    }

    private static double Internal(double heatCapacity) => 3.75 + (InternalShare * (heatCapacity - 2.5));

    private double HeatCapacity(double temperature) => idealGas.HeatCapacity(temperature) / IdealGasFunction.GasConstant;

    private double Kinetic(double temperature) => Math.Sqrt(temperature) / DiluteFunction.CollisionIntegral(temperature / energy);
}
