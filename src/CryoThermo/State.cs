using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// An equilibrium state of a working fluid: its phases were found by stability analysis, never assumed. Figures are per
/// mole of the whole unless a phase is named. Enthalpy and entropy count from the fluid's reference state; differences
/// do not depend on it. Immutable and thread-safe.
/// </summary>
public sealed class State
{
    private readonly EquilibriumResult result;

    internal State(WorkingFluid fluid, EquilibriumResult result)
    {
        Fluid = fluid;
        this.result = result;
        Phases = [.. result.Phases.Select(p => new Phase(fluid, p, result.Temperature, result.Pressure))];
        Notes = fluid.NotesAt(result);
    }

    /// <summary>The fluid this is a state of.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Temperature.</summary>
    public Temperature Temperature => Temperature.FromKelvins(result.Temperature);

    /// <summary>Absolute pressure.</summary>
    public Pressure Pressure => Pressure.FromPascals(result.Pressure);

    /// <summary>The phases, lightest first; their fractions sum to 1.</summary>
    public IReadOnlyList<Phase> Phases { get; }

    /// <summary>Moles of vapour over moles of the whole, 0 to 1.</summary>
    public double VaporFraction => result.VaporFraction;

    /// <summary>Mass of vapour over mass of the whole, 0 to 1.</summary>
    public double VaporMassFraction
    {
        get
        {
            double vapor = 0;
            foreach (Phase phase in Phases)
            {
                vapor += phase.Kind == PhaseKind.Vapor ? phase.Fraction * phase.Composition.MolarMass.KilogramsPerMole : 0;
            }

            return vapor / Fluid.Composition.MolarMass.KilogramsPerMole;
        }
    }

    /// <summary>Molar enthalpy.</summary>
    public MolarEnergy MolarEnthalpy => MolarEnergy.FromJoulesPerMole(result.Totals.Enthalpy);

    /// <summary>Molar internal energy, enthalpy less pressure times volume.</summary>
    public MolarEnergy MolarInternalEnergy => MolarEnergy.FromJoulesPerMole(VolumeFlash.EnergyOf(result));

    /// <summary>Molar entropy.</summary>
    public MolarEntropy MolarEntropy => MolarEntropy.FromJoulesPerMoleKelvin(result.Totals.Entropy);

    /// <summary>Enthalpy over mass.</summary>
    public SpecificEnergy SpecificEnthalpy =>
        SpecificEnergy.FromJoulesPerKilogram(result.Totals.Enthalpy / Fluid.Composition.MolarMass.KilogramsPerMole);

    /// <summary>Entropy over mass.</summary>
    public SpecificEntropy SpecificEntropy =>
        SpecificEntropy.FromJoulesPerKilogramKelvin(result.Totals.Entropy / Fluid.Composition.MolarMass.KilogramsPerMole);

    /// <summary>Moles over the volume of all phases.</summary>
    public Molarity MolarDensity => Molarity.FromMolesPerCubicMeter(1 / result.Totals.Volume);

    /// <summary>Mass over the volume of all phases.</summary>
    public Density Density => Density.FromKilogramsPerCubicMeter(Fluid.Composition.MolarMass.KilogramsPerMole / result.Totals.Volume);

    /// <summary>
    /// dh/dT at constant pressure, with the phases following in equilibrium. Null where a pure fluid or an azeotrope
    /// boils, since temperature does not change there.
    /// </summary>
    public MolarEntropy? IsobaricHeatCapacity => double.IsFinite(result.Totals.EquilibriumHeatCapacity)
        ? MolarEntropy.FromJoulesPerMoleKelvin(result.Totals.EquilibriumHeatCapacity)
        : null;

    /// <summary>Molar Gibbs energy, h - T s.</summary>
    public MolarEnergy MolarGibbsEnergy => MolarEnergy.FromJoulesPerMole(result.Totals.Enthalpy - (result.Temperature * result.Totals.Entropy));

    /// <summary>Molar Helmholtz energy, u - T s.</summary>
    public MolarEnergy MolarHelmholtzEnergy => MolarEnergy.FromJoulesPerMole(VolumeFlash.EnergyOf(result) - (result.Temperature * result.Totals.Entropy));

    /// <summary>
    /// du/dT at constant volume, with the phases following in equilibrium. Null where temperature and pressure do not vary independently: a pure
    /// fluid boiling, three phases of two components.
    /// </summary>
    public MolarEntropy? IsochoricHeatCapacity => Phases.Count == 1
        ? Phases[0].IsochoricHeatCapacity
        : Derivatives() is { } d
            ? MolarEntropy.FromJoulesPerMoleKelvin(d.HeatCapacity + (result.Temperature * d.VolumeByTemperature * d.VolumeByTemperature / d.VolumeByPressure))
            : null;

    /// <summary>Speed of sound of a single phase; null where several phases exist (see the phases for theirs, and the two limits of the whole).</summary>
    public Speed? SpeedOfSound => Phases.Count == 1 ? Phases[0].SpeedOfSound : null;

    /// <summary>
    /// Speed of sound of the mixed phases when they keep in equilibrium: slow waves in a fine mist or froth, and what chokes a throttle at
    /// equilibrium. For one phase its own. Null at the three phases of two components and where a blend boils at one temperature.
    /// </summary>
    public Speed? EquilibriumSpeedOfSound
    {
        get
        {
            if (Phases.Count == 1)
            {
                return Phases[0].SpeedOfSound;
            }

            double molarMass = Fluid.Composition.MolarMass.KilogramsPerMole;
            double? isentropic = Derivatives() is { } d
                ? d.VolumeByPressure + (result.Temperature * d.VolumeByTemperature * d.VolumeByTemperature / d.HeatCapacity)
                : BoilingSlopes()?.VolumeByPressureAtEntropy;
            return isentropic is < 0 ? Speed.FromMetersPerSecond(result.Totals.Volume / Math.Sqrt(-isentropic.Value * molarMass)) : null;
        }
    }

    /// <summary>
    /// Speed of sound of the mixed phases when neither matter nor heat passes between them: Wood's formula (A Textbook of Sound, 1930, from
    /// memory). For one phase its own.
    /// </summary>
    public Speed FrozenSpeedOfSound
    {
        get
        {
            double sum = 0;
            foreach (Phase phase in Phases)
            {
                double volume = 1 / phase.MolarDensity.MolesPerCubicMeter;
                double speed = phase.SpeedOfSound.MetersPerSecond;
                sum += phase.Fraction * volume * volume / (phase.Composition.MolarMass.KilogramsPerMole * speed * speed);
            }

            return Speed.FromMetersPerSecond(result.Totals.Volume / Math.Sqrt(sum * Fluid.Composition.MolarMass.KilogramsPerMole));
        }
    }

    /// <summary>
    /// dT/dp at constant enthalpy, K/bar, with the phases following in equilibrium: how much colder a throttle makes the stream here. Null at the
    /// three phases of two components and where a blend boils at one temperature.
    /// </summary>
    public double? JouleThomsonCoefficientKelvinsPerBar => Phases.Count == 1
        ? Phases[0].JouleThomsonCoefficientKelvinsPerBar
        : Derivatives() is { } d
            ? ((result.Temperature * d.VolumeByTemperature) - result.Totals.Volume) / d.HeatCapacity * 1e5
            : 1e5 / BoilingSlopes()?.PressureByTemperature;

    /// <summary>Viscosity and thermal conductivity of a state of one phase.</summary>
    /// <exception cref="InvalidOperationException">The state has several phases, each with its own: ask each of <see cref="Phases"/>.</exception>
    /// <exception cref="ModelRangeException">The state lies outside the range of a correlation and the fluid is strict about it.</exception>
    public TransportProperties Transport => Phases.Count == 1
        ? Phases[0].Transport
        : throw new InvalidOperationException($"The state is {PhaseDescription}: viscosity and conductivity belong to each phase; ask Phases[i].Transport.");

    /// <summary>Surface tension between the vapour and the only liquid of the state.</summary>
    /// <exception cref="InvalidOperationException">The state has no vapour, no liquid or several liquids.</exception>
    public SurfaceTension SurfaceTension => Phases.Count(p => p.Kind == PhaseKind.Liquid) == 1
        ? SurfaceTensionOf(Phases.First(p => p.Kind == PhaseKind.Liquid))
        : throw new InvalidOperationException(
            $"The state is {PhaseDescription}: a surface tension needs a vapour and one liquid; with several liquids ask SurfaceTensionOf for each.");

    /// <summary>
    /// Surface tension between the vapour and a liquid of the state. A pure fluid takes its own curve; a mixture the parachors of its components
    /// with the compositions and densities of both phases.
    /// </summary>
    /// <param name="liquid">A liquid among <see cref="Phases"/>.</param>
    /// <exception cref="ArgumentException">The phase is no liquid of this state.</exception>
    /// <exception cref="InvalidOperationException">The state has no vapour.</exception>
    public SurfaceTension SurfaceTensionOf(Phase liquid)
    {
        ArgumentNullException.ThrowIfNull(liquid);
        if (liquid.Kind != PhaseKind.Liquid || !Phases.Contains(liquid))
        {
            throw new ArgumentException("The phase must be a liquid among the phases of this state.", nameof(liquid));
        }

        Phase vapor = Phases.FirstOrDefault(p => p.Kind == PhaseKind.Vapor)
            ?? throw new InvalidOperationException($"The state is {PhaseDescription}: a surface tension needs a vapour.");
        IReadOnlyList<Substance> components = Fluid.Composition.Components;
        int only = TransportKernel.Only(Fluid.Composition.Fractions);
        (double value, TransportMethod method) = only >= 0
            ? SurfaceTensions.Pure(components[only], result.Temperature)
            : SurfaceTensions.Mixture(
                components,
                liquid.Result.MoleFractions,
                liquid.Result.Figures.MolarDensity,
                vapor.Result.MoleFractions,
                vapor.Result.Figures.MolarDensity);
        return new(ForcePerLength.FromNewtonsPerMeter(value), method);
    }

    /// <summary>
    /// True when the best answer was itself found unstable: a fourth phase exists, and the figures are
    /// those of the phases given. Also where the fugacities of the phases could not be made equal, which a model met far below its range.
    /// </summary>
    public bool HasUnresolvedPhase => result.StillUnstable;

    /// <summary>What lies outside the stated range of a correlation used; empty when nothing does.</summary>
    public IReadOnlyList<RangeNote> Notes { get; }

    /// <summary>A short name of the phases present, for tables: "vapor", "liquid", "liquid + vapor", "two liquids"...</summary>
    public string PhaseDescription
    {
        get
        {
            int liquids = Phases.Count(p => p.Kind == PhaseKind.Liquid);
            bool vapor = Phases.Any(p => p.Kind == PhaseKind.Vapor);
            string text = liquids switch
            {
                0 => "vapor",
                1 => vapor ? "liquid + vapor" : "liquid",
                2 => vapor ? "two liquids + vapor" : "two liquids",
                _ => vapor ? "three liquids + vapor" : "three liquids",
            };
            return HasUnresolvedPhase ? text + " (a further phase unresolved)" : text;
        }
    }

    internal EquilibriumResult Result => result;

    private EquilibriumDerivatives? Derivatives() => EquilibriumDerivatives.TryCompute(Fluid.Kernel, result, out EquilibriumDerivatives found) ? found : null;

    // A pure fluid boiling: dp/dT by Clapeyron, and dv/dp at constant entropy along it, from the slopes of both phases.
    private (double PressureByTemperature, double VolumeByPressureAtEntropy)? BoilingSlopes()
    {
        if (result.Phases.Length != 2 || IncipientPoint.SingleComponent(Fluid.Composition.Fractions) < 0)
        {
            return null;
        }

        PhaseFigures vapor = result.Phases[0].Figures;
        PhaseFigures liquid = result.Phases[1].Figures;
        double slope = (vapor.Entropy - liquid.Entropy) / ((1 / vapor.MolarDensity) - (1 / liquid.MolarDensity));
        double sum = 0;
        foreach (PhaseResult phase in result.Phases)
        {
            double volume = 1 / phase.Figures.MolarDensity;
            double byT = volume * phase.Figures.Expansion;
            double entropySlope = (phase.Figures.IsobaricHeatCapacity / result.Temperature) - (byT * slope);
            double volumeSlope = byT - (volume * phase.Figures.Compressibility * slope);
            sum += phase.Fraction * (volumeSlope - (entropySlope / slope));
        }

        return (slope, sum / slope);
    }

    /// <inheritdoc/>
    public override string ToString() =>
        $"{result.Temperature:0.###} K, {result.Pressure / 1e5:0.####} bar, {PhaseDescription}, vapor fraction {VaporFraction:0.####}";
}
