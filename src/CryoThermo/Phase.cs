using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>One phase of a <see cref="State"/>. Immutable and thread-safe.</summary>
public sealed class Phase
{
    private readonly PhaseResult result;
    private readonly WorkingFluid fluid;
    private readonly double temperature;
    private readonly double pressure;

    internal Phase(WorkingFluid fluid, PhaseResult result, double temperature, double pressure)
    {
        this.fluid = fluid;
        this.result = result;
        this.temperature = temperature;
        this.pressure = pressure;
        Composition = fluid.Composition.WithFractions(result.MoleFractions);
    }

    /// <summary>Liquid or vapour.</summary>
    public PhaseKind Kind => result.IsVapor ? PhaseKind.Vapor : PhaseKind.Liquid;

    /// <summary>Moles of this phase over moles of the whole.</summary>
    public double Fraction => result.Fraction;

    /// <summary>True where the phase is about to appear or has just vanished, as the bubble of a bubble point: its amount is zero.</summary>
    public bool IsIncipient => result.Fraction == 0;

    /// <summary>Mole fractions of this phase.</summary>
    public Composition Composition { get; }

    /// <summary>Molar density.</summary>
    public Molarity MolarDensity => Molarity.FromMolesPerCubicMeter(result.Figures.MolarDensity);

    /// <summary>Mass density.</summary>
    public Density Density =>
        Density.FromKilogramsPerCubicMeter(result.Figures.MolarDensity * Composition.MolarMass.KilogramsPerMole);

    /// <summary>Molar enthalpy.</summary>
    public MolarEnergy MolarEnthalpy => MolarEnergy.FromJoulesPerMole(result.Figures.Enthalpy);

    /// <summary>Molar entropy.</summary>
    public MolarEntropy MolarEntropy => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.Entropy);

    /// <summary>Molar internal energy, h - p v.</summary>
    public MolarEnergy MolarInternalEnergy => MolarEnergy.FromJoulesPerMole(result.Figures.Enthalpy - (pressure / result.Figures.MolarDensity));

    /// <summary>Molar Gibbs energy, h - T s.</summary>
    public MolarEnergy MolarGibbsEnergy => MolarEnergy.FromJoulesPerMole(result.Figures.Enthalpy - (temperature * result.Figures.Entropy));

    /// <summary>Molar Helmholtz energy, h - p v - T s.</summary>
    public MolarEnergy MolarHelmholtzEnergy => MolarEnergy.FromJoulesPerMole(
        result.Figures.Enthalpy - (pressure / result.Figures.MolarDensity) - (temperature * result.Figures.Entropy));

    /// <summary>p v/(R T), with the gas constant of the equation of state.</summary>
    public double CompressibilityFactor => pressure / (result.Figures.MolarDensity * fluid.Kernel.Equation.GasConstant * temperature);

    /// <summary>Isobaric molar heat capacity.</summary>
    public MolarEntropy IsobaricHeatCapacity => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.IsobaricHeatCapacity);

    /// <summary>Isochoric molar heat capacity.</summary>
    public MolarEntropy IsochoricHeatCapacity => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.IsochoricHeatCapacity);

    /// <summary>Speed of sound within the phase.</summary>
    public Speed SpeedOfSound => Speed.FromMetersPerSecond(result.Figures.SpeedOfSound);

    /// <summary>dT/dp at constant enthalpy within the phase, K/bar.</summary>
    public double JouleThomsonCoefficientKelvinsPerBar => result.Figures.JouleThomson * 1e5;

    /// <summary>dh/dp at constant temperature within the phase, J/(mol bar): what throttling brings at constant temperature, negative where it cools.</summary>
    public double IsothermalThrottlingCoefficientJoulesPerMoleBar => -result.Figures.JouleThomson * result.Figures.IsobaricHeatCapacity * 1e5;

    /// <summary>(1/v) dv/dT at constant pressure within the phase.</summary>
    public CoefficientOfThermalExpansion IsobaricExpansionCoefficient => CoefficientOfThermalExpansion.FromPerKelvin(result.Figures.Expansion);

    /// <summary>-(1/v) dv/dp at constant temperature within the phase.</summary>
    public Compressibility IsothermalCompressibility => Compressibility.FromInversePascals(result.Figures.Compressibility);

    /// <summary>
    /// Viscosity and thermal conductivity of the phase, computed when asked for. A pure fluid takes its own correlations where the library has them;
    /// mixtures and all others follow corresponding states, without what a critical point adds to the conductivity.
    /// </summary>
    /// <exception cref="ModelRangeException">The phase lies outside the range of a correlation and the fluid is strict about it.</exception>
    public TransportProperties Transport
    {
        get
        {
            TransportKernel kernel = fluid.TransportKernel;
            PhaseFigures figures = result.Figures;
            double density = figures.MolarDensity;
            ReadOnlySpan<double> x = result.MoleFractions;
            IReadOnlyList<RangeNote> notes = TransportMethods.Notes(kernel, temperature, pressure, density, x);
            (double viscosity, double conductivity) = TransportFigures(notes);
            return new(
                DynamicViscosity.FromPascalSeconds(viscosity),
                TransportMethods.Of(kernel, true, temperature, density, x),
                ThermalConductivity.FromWattsPerMeterKelvin(conductivity),
                TransportMethods.Of(kernel, false, temperature, density, x),
                figures.IsobaricHeatCapacity * viscosity / (Composition.MolarMass.KilogramsPerMole * conductivity),
                notes);
        }
    }

    internal PhaseResult Result => result;

    /// <summary>Viscosity in Pa s and thermal conductivity in W/(m K), without their methods.</summary>
    /// <exception cref="ModelRangeException">The phase lies outside the range of a correlation and the fluid is strict about it.</exception>
    internal (double Viscosity, double Conductivity) TransportFigures() => TransportFigures(
        fluid.RangePolicy == RangePolicy.Strict
            ? TransportMethods.Notes(fluid.TransportKernel, temperature, pressure, result.Figures.MolarDensity, result.MoleFractions)
            : []);

    private (double Viscosity, double Conductivity) TransportFigures(IReadOnlyList<RangeNote> notes)
    {
        if (notes.Count > 0 && fluid.RangePolicy == RangePolicy.Strict)
        {
            throw new ModelRangeException(notes);
        }

        TransportKernel kernel = fluid.TransportKernel;
        PhaseFigures figures = result.Figures;
        double density = figures.MolarDensity;
        ReadOnlySpan<double> x = result.MoleFractions;
        kernel.Evaluate(temperature, density, x, out double viscosity, out double conductivity);
        conductivity += kernel.CriticalConductivity(
            temperature,
            density,
            x,
            fluid.Kernel.Equation,
            viscosity,
            figures.IsobaricHeatCapacity,
            figures.IsochoricHeatCapacity,
            density * figures.Compressibility);
        return (viscosity, conductivity);
    }

    /// <summary>Fugacity of a component in the phase.</summary>
    /// <param name="substance">Any spelling of its name.</param>
    /// <exception cref="ArgumentException">The fluid does not hold the substance, or holds none of it.</exception>
    public Pressure FugacityOf(string substance)
    {
        double fraction = Composition[substance];
        if (!(fraction > 0))
        {
            throw new ArgumentException($"{Composition} holds no {substance}: its fugacity is zero and has no coefficient.", nameof(substance));
        }

        return Pressure.FromPascals(fraction * pressure * Math.Exp(LnFugacityCoefficients()[Composition.IndexOf(substance)]));
    }

    private double[] LnFugacityCoefficients()
    {
        double[] lnPhi = new double[result.MoleFractions.Length];
        Span<double> scratch = stackalloc double[fluid.Kernel.Equation.ScratchLength];
        fluid.Kernel.Equation.SetTemperature(temperature, scratch);
        fluid.Kernel.Equation.LnFugacityCoefficients(temperature, pressure, result.MoleFractions, result.Figures.Root, scratch, lnPhi, out _);
        return lnPhi;
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Kind} {Fraction:0.####}: {Composition}";
}
