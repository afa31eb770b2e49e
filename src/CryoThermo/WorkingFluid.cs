using System.Runtime.CompilerServices;
using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// A pure fluid or a mixture with a model chosen for it: the front door to states, saturation, bubble and dew points and
/// isobars. Immutable and thread-safe.
/// </summary>
public sealed partial class WorkingFluid
{
    /// <summary>Products of reduced pressures this low still stand clear of the smallest double, Pa.</summary>
    private const double LowestVaporPressure = 1e-100;

    private const string BetweenLinesAdvice =
        "It is described as if it were pure, so that no split into phases is known there; make it a mixture of its components instead.";

    private readonly SubstanceCatalog catalog;
    private readonly FluidAssembly assembly;
    private readonly ReferenceState reference;
    private readonly HydrogenForm? hydrogenForm;

    private WorkingFluid(SubstanceCatalog catalog, Composition composition, FluidAssembly assembly, ReferenceState reference, RangePolicy rangePolicy, HydrogenForm? hydrogenForm = null)
    {
        this.catalog = catalog;
        this.assembly = assembly;
        this.reference = reference;
        Composition = composition;
        RangePolicy = rangePolicy;
        this.hydrogenForm = hydrogenForm;
    }

    /// <summary>Components and mole fractions.</summary>
    public Composition Composition { get; }

    /// <summary>The model in use.</summary>
    public FluidModel Model => Pedigree.Model;

    /// <summary>What happens to results outside the stated range of the model.</summary>
    public RangePolicy RangePolicy { get; }

    /// <summary>What was taken for each pair of components, from where, and what is estimated.</summary>
    public FluidPedigree Pedigree => assembly.Pedigree;

    /// <summary>The equation of state in plain doubles and spans, for callers with loops of their own.</summary>
    [System.Diagnostics.CodeAnalysis.Experimental("CRYO001")]
    public FugacityKernel FugacityKernel => new(Kernel.Equation);

    /// <summary>The isothermal flash in plain doubles and spans, for callers with loops of their own.</summary>
    [System.Diagnostics.CodeAnalysis.Experimental("CRYO001")]
    public FlashKernel FlashKernel => new(Kernel);

    /// <summary>Where throttling neither cools nor warms the fluid.</summary>
    public JouleThomsonInversion JouleThomsonInversion => new(this);

    /// <summary>Melting and sublimation lines and the limits of metastable phases of a pure fluid.</summary>
    /// <exception cref="InvalidOperationException">The fluid is a mixture.</exception>
    public PhaseBoundaries Boundaries => new(this, Composition.Components[RequirePure()]);

    /// <summary>What freezes out of the fluid, where, and how much of it.</summary>
    /// <exception cref="InvalidOperationException">The fluid is a mixture described as if it were pure (air).</exception>
    public FreezeOut FreezeOut => new(this);

    internal FluidKernel Kernel => assembly.Kernel;

    internal TransportKernel TransportKernel => assembly.Transport(Composition);

    /// <summary>Isobaric heat capacity of the ideal gas, J/(mol K), at a temperature in K.</summary>
    internal double IdealGasHeatCapacity(double temperature)
    {
        double sum = 0;
        ReadOnlySpan<double> x = Composition.Fractions;
        for (int i = 0; i < x.Length; i++)
        {
            assembly.IdealGas[i].Evaluate(temperature, out double heatCapacity, out _, out _);
            sum += x[i] * heatCapacity;
        }

        return sum;
    }

    internal bool IsPseudoPure => assembly.PseudoPure is not null;

    /// <summary>A pure fluid by chemical name, formula or ISO 817 designation, with the recommended model.</summary>
    /// <param name="name">For example "methane", "CH4" or "R-50".</param>
    /// <exception cref="ArgumentException">The name is unknown.</exception>
    public static WorkingFluid Pure(string name) => SubstanceCatalog.Default.Pure(name);

    /// <summary>A mixture from mole fractions that sum to 1 within 1e-6, with the recommended model.</summary>
    /// <param name="moleFractions">Substance names and mole fractions.</param>
    /// <exception cref="ArgumentException">Unknown or repeated name, negative fraction, wrong sum.</exception>
    public static WorkingFluid Mixture(params (string Substance, double MoleFraction)[] moleFractions) =>
        SubstanceCatalog.Default.Mixture(moleFractions);

    /// <summary>A mixture from a composition, with the recommended model.</summary>
    /// <param name="composition">Components and mole fractions.</param>
    public static WorkingFluid Mixture(Composition composition) => SubstanceCatalog.Default.Mixture(composition);

    /// <summary>
    /// Hydrogen with a choice of its spin forms. Enthalpy and entropy of all choices count from the ideal gas of normal hydrogen at 298.15 K
    /// and 101325 Pa, so that their differences are those of nature; of parahydrogen as a substance of its own they do not.
    /// </summary>
    /// <param name="form">Normal, para, equilibrium or a frozen share.</param>
    public static WorkingFluid Hydrogen(HydrogenForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        SubstanceCatalog shipped = SubstanceCatalog.Default;
        if (form == HydrogenForm.Normal)
        {
            return shipped.Pure("hydrogen");
        }

        return new(
            shipped,
            Composition.FromMoleFractions(shipped, ("hydrogen", 1)),
            FluidAssembly.BuildHydrogen(shipped, form),
            ReferenceState.IdealGasAt25DegreesCelsius,
            RangePolicy.Note,
            form);
    }

    /// <summary>The same fluid under another model.</summary>
    /// <param name="model">The model.</param>
    /// <exception cref="ArgumentException">The model does not describe this fluid.</exception>
    /// <exception cref="InvalidOperationException">The fluid is hydrogen with a choice of its spin forms.</exception>
    public WorkingFluid WithModel(FluidModel model)
    {
        ArgumentNullException.ThrowIfNull(model);
        RequireNoHydrogenForm("model");
        return new(catalog, Composition, FluidAssembly.Build(catalog, Composition, model, reference), reference, RangePolicy);
    }

    /// <summary>The same fluid with another answer to results outside the stated range of the model.</summary>
    /// <param name="rangePolicy">Note or exception.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is none of the enumeration.</exception>
    public WorkingFluid WithRangePolicy(RangePolicy rangePolicy) => Enum.IsDefined(rangePolicy)
        ? new(catalog, Composition, assembly, reference, rangePolicy, hydrogenForm)
        : throw new ArgumentOutOfRangeException(nameof(rangePolicy), rangePolicy, $"rangePolicy is {rangePolicy}; it must be one of {string.Join(", ", Enum.GetNames<RangePolicy>())}.");

    /// <summary>The same fluid with enthalpy and entropy counted from another reference state.</summary>
    /// <param name="referenceState">Where they are zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is none of the enumeration.</exception>
    /// <exception cref="InvalidOperationException">Hydrogen with a choice of its spin forms keeps its common reference state.</exception>
    public WorkingFluid WithReferenceState(ReferenceState referenceState)
    {
        if (!Enum.IsDefined(referenceState))
        {
            throw new ArgumentOutOfRangeException(
                nameof(referenceState), referenceState, $"referenceState is {referenceState}; it must be one of {string.Join(", ", Enum.GetNames<ReferenceState>())}.");
        }

        RequireNoHydrogenForm("reference state");
        return new(catalog, Composition, assembly.WithReference(catalog, Composition, referenceState), referenceState, RangePolicy);
    }

    /// <summary>The equilibrium state at temperature and pressure.</summary>
    /// <param name="temperature">
    /// Under a cubic 10 to 1000 K, less where the attraction of a component vanishes before. Under the Helmholtz equation of a pure fluid from
    /// about 0.7 of the lowest temperature of its stated range to its highest, at least to 1000 K.
    /// </param>
    /// <param name="pressure">
    /// Absolute. Under a cubic 0.001 Pa to 200 MPa. Under a Helmholtz equation 1 nPa to a tenth above the highest of its stated range, at
    /// least to 200 MPa, as far as the equation reaches it at the temperature.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public State At(Temperature temperature, Pressure pressure)
    {
        double t = Check(temperature);
        double p = Check(pressure);
        RefuseBetweenLines(t, p, nameof(pressure));
        return new(this, Kernel.At(t, p, Composition.Fractions));
    }

    /// <summary>The equilibrium state at pressure and molar enthalpy.</summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="molarEnthalpy">Between the fluid's enthalpies at its lowest and highest temperature, as for <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solve did not converge.</exception>
    public State AtEnthalpy(Pressure pressure, MolarEnergy molarEnthalpy)
    {
        double p = Check(pressure);
        return Solved(CaloricFlash.Solve(Kernel, CaloricVariable.Enthalpy, p, molarEnthalpy.JoulesPerMole, Composition.Fractions), nameof(molarEnthalpy));
    }

    /// <summary>The equilibrium state at pressure and molar entropy.</summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="molarEntropy">Between the fluid's entropies at its lowest and highest temperature, as for <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solve did not converge.</exception>
    public State AtEntropy(Pressure pressure, MolarEntropy molarEntropy)
    {
        double p = Check(pressure);
        return Solved(CaloricFlash.Solve(Kernel, CaloricVariable.Entropy, p, molarEntropy.JoulesPerMoleKelvin, Composition.Fractions), nameof(molarEntropy));
    }

    /// <summary>The equilibrium state at temperature and overall density: what a closed vessel holds.</summary>
    /// <param name="temperature">As for <see cref="At"/>.</param>
    /// <param name="molarDensity">Moles over the whole volume, such that the pressure lies within the range of <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solve did not converge.</exception>
    public State AtDensity(Temperature temperature, Molarity molarDensity)
    {
        double t = Check(temperature);
        double density = Guard.Positive(molarDensity.MolesPerCubicMeter, "mol/m3", nameof(molarDensity));
        return Solved(VolumeFlash.AtDensity(Kernel, t, density, Composition.Fractions), nameof(molarDensity));
    }

    /// <summary>The equilibrium state at molar internal energy and overall density: a closed vessel that took up heat.</summary>
    /// <param name="molarInternalEnergy">Molar internal energy, from the same reference state as the enthalpy.</param>
    /// <param name="molarDensity">Moles over the whole volume.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solve did not converge.</exception>
    public State AtInternalEnergy(MolarEnergy molarInternalEnergy, Molarity molarDensity)
    {
        double density = Guard.Positive(molarDensity.MolesPerCubicMeter, "mol/m3", nameof(molarDensity));
        return Solved(VolumeFlash.AtInternalEnergy(Kernel, molarInternalEnergy.JoulesPerMole, density, Composition.Fractions), nameof(molarInternalEnergy));
    }

    /// <summary>The equilibrium state at molar entropy and overall density: a closed vessel after a reversible change of its volume.</summary>
    /// <param name="molarEntropy">Molar entropy.</param>
    /// <param name="molarDensity">Moles over the whole volume.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The solve did not converge.</exception>
    public State AtEntropy(MolarEntropy molarEntropy, Molarity molarDensity)
    {
        double density = Guard.Positive(molarDensity.MolesPerCubicMeter, "mol/m3", nameof(molarDensity));
        return Solved(VolumeFlash.AtEntropy(Kernel, molarEntropy.JoulesPerMoleKelvin, density, Composition.Fractions), nameof(molarEntropy));
    }

    /// <summary>
    /// The line on which a blend of two components has two liquids and a vapour, whatever its proportions; null when the model has none.
    /// Freezing is not considered.
    /// </summary>
    /// <exception cref="InvalidOperationException">The fluid has not two components.</exception>
    public ThreePhaseLine? FindThreePhaseLine() => Composition.Components.Count == 2 && IncipientPoint.SingleComponent(Composition.Fractions) < 0
        ? ThreePhaseLine.Of(this)
        : throw new InvalidOperationException($"A three-phase line needs two components; this fluid is {Composition}. Three phases of more components fill a region: see the stretches of an isobar.");

    /// <summary>
    /// The equilibrium states at many temperatures and pressures, computed on all cores: the same states, to the last digit, as one call each.
    /// </summary>
    /// <param name="points">Temperature and absolute pressure of each state, as for <see cref="At(Temperature, Pressure)"/>.</param>
    /// <param name="progress">Receives the share of the states done, 0 to 1, now and then; null for none.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <returns>The states in the order of the points.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A point is outside the range; the message names the first such point.</exception>
    /// <exception cref="OperationCanceledException">The work was ended early.</exception>
    public IReadOnlyList<State> AtEach(
        IReadOnlyList<(Temperature Temperature, Pressure Pressure)> points, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(points);
        for (int i = 0; i < points.Count; i++)
        {
            Guard.InRange(points[i].Temperature.Kelvins, Kernel.LowestTemperature, Kernel.HighestTemperature, "K", $"points[{i}].Temperature");
            Guard.InRange(points[i].Pressure.Pascals, Kernel.LowestPressure, Kernel.HighestPressure, "Pa", $"points[{i}].Pressure");
        }

        State[] states = new State[points.Count];
        int done = 0;
        int step = Math.Max(1, points.Count / 100);
        try
        {
            Parallel.For(
                0,
                points.Count,
                new ParallelOptions { CancellationToken = cancellation },
                i =>
                {
                    states[i] = At(points[i].Temperature, points[i].Pressure);
                    int finished = Interlocked.Increment(ref done);
                    if (finished % step == 0 || finished == points.Count)
                    {
                        progress?.Report((double)finished / points.Count);
                    }
                });
        }
        catch (AggregateException errors)
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Capture(errors.InnerExceptions[0]).Throw();
        }

        return states;
    }

    /// <summary>The state at temperature and pressure; false instead of an exception when it cannot be found.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="pressure">Absolute.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAt(Temperature temperature, Pressure pressure, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) => Try(() => At(temperature, pressure), out state);

    /// <summary>The state at temperature and overall density; false instead of an exception when it cannot be found.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="molarDensity">Moles over the whole volume.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtDensity(Temperature temperature, Molarity molarDensity, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => AtDensity(temperature, molarDensity), out state);

    /// <summary>The state at internal energy and overall density; false instead of an exception when it cannot be found.</summary>
    /// <param name="molarInternalEnergy">Molar internal energy.</param>
    /// <param name="molarDensity">Moles over the whole volume.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtInternalEnergy(MolarEnergy molarInternalEnergy, Molarity molarDensity, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => AtInternalEnergy(molarInternalEnergy, molarDensity), out state);

    /// <summary>The state at entropy and overall density; false instead of an exception when it cannot be found.</summary>
    /// <param name="molarEntropy">Molar entropy.</param>
    /// <param name="molarDensity">Moles over the whole volume.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtEntropy(MolarEntropy molarEntropy, Molarity molarDensity, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => AtEntropy(molarEntropy, molarDensity), out state);

    /// <summary>The state at pressure and molar enthalpy; false instead of an exception when it cannot be found.</summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="molarEnthalpy">Molar enthalpy.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtEnthalpy(Pressure pressure, MolarEnergy molarEnthalpy, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => AtEnthalpy(pressure, molarEnthalpy), out state);

    /// <summary>The state at pressure and molar entropy; false instead of an exception when it cannot be found.</summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="molarEntropy">Molar entropy.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtEntropy(Pressure pressure, MolarEntropy molarEntropy, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => AtEntropy(pressure, molarEntropy), out state);

    /// <summary>Vapour pressure and both phases of a pure fluid at a temperature.</summary>
    /// <param name="temperature">Below the critical temperature of the model.</param>
    /// <exception cref="InvalidOperationException">The fluid is a mixture: ask for its bubble or dew point.</exception>
    /// <exception cref="ArgumentOutOfRangeException">At or above the critical temperature, or so cold that the vapour pressure is below 1e-100 Pa.</exception>
    public Saturation Saturation(Temperature temperature)
    {
        double t = Check(temperature);
        int component = RequirePure();
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        if (!PureSaturation.TryPressure(Kernel.Equation, component, t, scratch, out double p, out _, out _))
        {
            double critical = Kernel.Equation.CriticalTemperature(component);
            throw new ArgumentOutOfRangeException(
                nameof(temperature), temperature, $"temperature is {t:G9} K; {Composition.Components[component].Name} has a saturation below its critical temperature of {critical:G9} K only.");
        }

        if (!(p >= LowestVaporPressure))
        {
            throw new ArgumentOutOfRangeException(
                nameof(temperature), temperature, $"temperature is {t:G9} K; the vapor pressure of {Composition.Components[component].Name} is below {LowestVaporPressure:G1} Pa there, too low to compute with.");
        }

        return SaturationAt(t, p, scratch);
    }

    /// <summary>Boiling temperature and both phases of a pure fluid at a pressure.</summary>
    /// <param name="pressure">Absolute, below the critical pressure of the model.</param>
    /// <exception cref="InvalidOperationException">The fluid is a mixture: ask for its bubble or dew point.</exception>
    /// <exception cref="ArgumentOutOfRangeException">At or above the critical pressure.</exception>
    public Saturation Saturation(Pressure pressure)
    {
        double p = Check(pressure);
        int component = RequirePure();
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        if (!PureSaturation.TryTemperature(Kernel.Equation, component, p, scratch, out double t, out _, out _))
        {
            double critical = Kernel.Equation.CriticalPressure(component);
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {p / 1e5:G9} bar; {Composition.Components[component].Name} boils below its critical pressure of {critical / 1e5:G9} bar only.");
        }

        Guard.InRange(t, Kernel.LowestTemperature, Kernel.HighestTemperature, "K", "boiling temperature at this pressure");
        return SaturationAt(t, p, scratch);
    }

    /// <summary>
    /// The state where the first bubble forms at a pressure. Its phases are that bubble, with a fraction of zero, and the liquid; two liquids
    /// where it has split before it boils. Where a fourth phase exists, <see cref="State.HasUnresolvedPhase"/> is set, and the point is that
    /// of the liquid taken as one phase.
    /// </summary>
    /// <param name="pressure">Absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside the range of <see cref="At"/>.</exception>
    /// <exception cref="ConvergenceException">The bubble line does not reach this pressure, or the solve failed.</exception>
    public State BubblePoint(Pressure pressure) => Incipient(true, IncipientPoint.Unknown.Temperature, 300, Check(pressure));

    /// <summary>The state where the first bubble forms at a temperature, beside one liquid or two as at a pressure.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside the range of <see cref="At"/>.</exception>
    /// <exception cref="ConvergenceException">The bubble line does not reach this temperature, or the solve failed.</exception>
    public State BubblePoint(Temperature temperature) => Incipient(true, IncipientPoint.Unknown.Pressure, Check(temperature), 1e5);

    /// <summary>The state where the first drop forms at a pressure. Its phases are the vapour and that drop, with a fraction of zero.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside the range of <see cref="At"/>.</exception>
    /// <exception cref="ConvergenceException">The dew line does not reach this pressure, or the solve failed.</exception>
    public State DewPoint(Pressure pressure) => Incipient(false, IncipientPoint.Unknown.Temperature, 300, Check(pressure));

    /// <summary>The state where the first drop forms at a temperature, on the branch that starts at low pressure.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside the range of <see cref="At"/>.</exception>
    /// <exception cref="ConvergenceException">The dew line does not reach this temperature, or the solve failed.</exception>
    public State DewPoint(Temperature temperature) => Incipient(false, IncipientPoint.Unknown.Pressure, Check(temperature), 1e5);

    /// <summary>The bubble point at a pressure; false when there is none.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryBubblePoint(Pressure pressure, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => BubblePoint(pressure), out state);

    /// <summary>The bubble point at a temperature; false when there is none.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryBubblePoint(Temperature temperature, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => BubblePoint(temperature), out state);

    /// <summary>The dew point at a pressure; false when there is none.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryDewPoint(Pressure pressure, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => DewPoint(pressure), out state);

    /// <summary>The dew point at a temperature; false when there is none.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryDewPoint(Temperature temperature, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => DewPoint(temperature), out state);

    /// <summary>
    /// The liquid or the vapour of a pure fluid past its saturation: superheated liquid, supersaturated vapour, or the stable phase
    /// where it is the one asked for.
    /// </summary>
    /// <param name="temperature">As for <see cref="At"/>.</param>
    /// <param name="pressure">Absolute; within <see cref="PhaseBoundaries.MetastableLimits"/>.</param>
    /// <param name="kind">The phase wanted.</param>
    /// <exception cref="InvalidOperationException">The fluid is a mixture.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or the phase does not exist there, not even metastably.</exception>
    public State MetastableAt(Temperature temperature, Pressure pressure, PhaseKind kind)
    {
        double t = Check(temperature);
        double p = Check(pressure);
        RequirePure();
        DensityRoot root = kind == PhaseKind.Vapor ? DensityRoot.Vapor : DensityRoot.Liquid;
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        Kernel.Equation.SetTemperature(t, scratch);
        EquilibriumResult result = Single(t, p, [.. Composition.MoleFractions], root, kind == PhaseKind.Vapor, scratch);
        if (result.Phases[0].Figures.Root != root)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {p / 1e5:G6} bar; at {t:G6} K there is no {kind.ToString().ToLowerInvariant()} of {Composition.Components[0].Name}, not even a metastable one.");
        }

        return new(this, result);
    }

    /// <summary>Second and third virial coefficient.</summary>
    /// <param name="temperature">As for <see cref="At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public VirialCoefficients VirialCoefficientsAt(Temperature temperature)
    {
        double t = Check(temperature);
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        Kernel.Equation.SetTemperature(t, scratch);
        Kernel.Equation.Virials(t, Composition.Fractions, scratch, out double second, out double slope, out double third);
        return new(Temperature.FromKelvins(t), second * 1e6, slope * 1e6, third * 1e12);
    }

    /// <summary>Enthalpy and entropy over temperature at one pressure, built once for many look-ups.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <param name="lowest">Lowest temperature to cover.</param>
    /// <param name="highest">Highest temperature to cover.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or the span is empty.</exception>
    public Isobar Isobar(Pressure pressure, Temperature lowest, Temperature highest)
    {
        double p = Check(pressure);
        double low = Check(lowest);
        double high = Check(highest);
        if (!(high > low))
        {
            throw new ArgumentOutOfRangeException(nameof(highest), highest, $"highest is {high:G9} K; it must lie above lowest, {low:G9} K.");
        }

        if (assembly.PseudoPure is { } lines
            && lines.TryTemperature(p, true, out double bubble)
            && lines.TryTemperature(p, false, out double dew)
            && low < dew
            && high > bubble)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {p / 1e5:G6} bar; {Composition.Components[0].Name} boils from {bubble:G6} to {dew:G6} K there. {BetweenLinesAdvice}");
        }

        return new(this, IsobarBuilder.Build(Kernel, Composition.Fractions, p, low, high));
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Composition} ({(hydrogenForm is null ? Model.Name : $"{hydrogenForm}, {Model.Name}")})";

    internal static WorkingFluid Create(SubstanceCatalog catalog, Composition composition, FluidModel model) =>
        new(
            catalog,
            composition,
            FluidAssembly.Build(catalog, composition, model, ReferenceState.IdealGasAt25DegreesCelsius),
            ReferenceState.IdealGasAt25DegreesCelsius,
            RangePolicy.Note);

    /// <summary>The state at pressure and enthalpy, sought from a state nearby.</summary>
    internal State AtEnthalpy(Pressure pressure, MolarEnergy molarEnthalpy, State near) =>
        AtNear(CaloricVariable.Enthalpy, pressure, molarEnthalpy.JoulesPerMole, near, near.Temperature.Kelvins) ?? AtEnthalpy(pressure, molarEnthalpy);

    /// <summary>The state at pressure and entropy, sought from a state nearby and a temperature expected, K.</summary>
    internal State AtEntropy(Pressure pressure, MolarEntropy molarEntropy, State near, double guess) =>
        AtNear(CaloricVariable.Entropy, pressure, molarEntropy.JoulesPerMoleKelvin, near, guess) ?? AtEntropy(pressure, molarEntropy);

    private State? AtNear(CaloricVariable variable, Pressure pressure, double target, State near, double guess) =>
        IncipientPoint.SingleComponent(Composition.Fractions) < 0
        && CaloricFlash.Near(Kernel, variable, Check(pressure), target, Composition.Fractions, guess, near.Result, out _) is { } found
            ? new(this, found)
            : null;

    /// <summary>The same components in other mole fractions, under the same model.</summary>
    internal WorkingFluid WithFractions(double[] fractions)
    {
        Composition composition = Composition.WithFractions(fractions);
        return new(catalog, composition, assembly, reference, RangePolicy, hydrogenForm);
    }

    /// <summary>Parameters of a pair of components, also of one at no amount.</summary>
    internal BinaryPair PairOf(int first, int second)
    {
        (Substance a, Substance b) = (Composition.Components[first], Composition.Components[second]);
        return Model.Cubic is { } recipe ? catalog.PairOf(a, b, recipe.PairKind) : catalog.MultiFluidPairOf(a, b);
    }

    /// <summary>The same fluid with other parameters of a pair, under the same kind of model.</summary>
    internal WorkingFluid WithPair(BinaryPair pair)
    {
        // As published: nothing goes before it.
        SubstanceCatalog changed = catalog.With(pair with { Tier = PairTier.Published });
        FluidModel model = Model.Cubic is not null || ReferenceEquals(Model, FluidModel.MultiFluid) ? Model : FluidModel.Recommended;
        return new(changed, Composition, FluidAssembly.Build(changed, Composition, model, reference), reference, RangePolicy, hydrogenForm);
    }

    /// <summary>The fluid with further components at no amount, under the same kind of model.</summary>
    /// <exception cref="ArgumentException">A name is unknown, or the model does not hold the component.</exception>
    internal WorkingFluid WithTraces(IReadOnlyList<string> names)
    {
        RequireNoHydrogenForm("traces");
        Composition composition = Composition.FromMoleFractions(
            catalog, [.. Composition.Components.Select((c, i) => (c.Name, Composition.MoleFractions[i])), .. names.Select(name => (name, 0.0))]);
        FluidModel model = Model.Cubic is not null || ReferenceEquals(Model, FluidModel.MultiFluid) ? Model : FluidModel.Recommended;
        return new(catalog, composition, FluidAssembly.Build(catalog, composition, model, ReferenceState.IdealGasAt25DegreesCelsius), ReferenceState.IdealGasAt25DegreesCelsius, RangePolicy);
    }

    /// <summary>A fluid of other components from the same catalogue, under the same kind of model: one component alone takes its own equation.</summary>
    /// <exception cref="ArgumentException">A name is unknown, or the model does not hold the component.</exception>
    internal WorkingFluid OfComponents((string Substance, AmountOfSubstance Amount)[] parts)
    {
        RequireNoHydrogenForm("components");
        double total = parts.Sum(part => part.Amount.Moles);
        Composition composition = Composition.FromMoleFractions(catalog, [.. parts.Select(part => (part.Substance, part.Amount.Moles / total))]);
        FluidModel model = Model.Cubic is not null || ReferenceEquals(Model, FluidModel.MultiFluid) ? Model : FluidModel.Recommended;
        return new(catalog, composition, FluidAssembly.Build(catalog, composition, model, reference), reference, RangePolicy);
    }

    internal MetastableLimits MetastableLimitsAt(Temperature temperature)
    {
        double t = Check(temperature);
        int component = RequirePure();
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        if (!PureSaturation.TryLimits(Kernel.Equation, component, t, scratch, out double vapor, out double liquid))
        {
            throw new ArgumentOutOfRangeException(
                nameof(temperature),
                temperature,
                $"temperature is {t:G9} K; {Composition.Components[component].Name} has metastable phases below its critical temperature of {Kernel.Equation.CriticalTemperature(component):G9} K only.");
        }

        Kernel.Equation.SetTemperature(t, scratch);
        return new(
            Temperature.FromKelvins(t),
            Pressure.FromPascals(Kernel.Equation.Pressure(t, liquid, Composition.Fractions, scratch, out _)),
            Molarity.FromMolesPerCubicMeter(liquid),
            Pressure.FromPascals(Kernel.Equation.Pressure(t, vapor, Composition.Fractions, scratch, out _)),
            Molarity.FromMolesPerCubicMeter(vapor));
    }

    internal IReadOnlyList<RangeNote> NotesAt(EquilibriumResult result)
    {
        IReadOnlyList<RangeNote> notes = StateNotes.Of(Composition, assembly, result);
        return notes.Count > 0 && RangePolicy == RangePolicy.Strict ? throw new ModelRangeException(notes) : notes;
    }

    private void RequireNoHydrogenForm(string what)
    {
        if (hydrogenForm is not null)
        {
            throw new InvalidOperationException($"Hydrogen in {hydrogenForm} form has its own {what}; begin with WorkingFluid.Pure(\"hydrogen\") for others.");
        }
    }

    private State Solved(EquilibriumResult result, string parameter)
    {
        RefuseBetweenLines(result.Temperature, result.Pressure, parameter, result.Phases.Length > 1);
        return new(this, result);
    }

    private void RefuseBetweenLines(double t, double p, string parameter, bool isTwoPhase = false)
    {
        if (assembly.PseudoPure is { } lines && (isTwoPhase || lines.IsBetween(t, p)))
        {
            throw new ArgumentOutOfRangeException(
                parameter,
                $"{parameter} gives a state of {Composition.Components[0].Name} between its dew and bubble line ({t:G6} K, {p / 1e5:G6} bar absolute). {BetweenLinesAdvice}");
        }
    }

    private double Check(Temperature temperature, [CallerArgumentExpression(nameof(temperature))] string parameter = "") =>
        Guard.InRange(temperature.Kelvins, Kernel.LowestTemperature, Kernel.HighestTemperature, "K", parameter);

    private double Check(Pressure pressure, [CallerArgumentExpression(nameof(pressure))] string parameter = "") =>
        Guard.InRange(pressure.Pascals, Kernel.LowestPressure, Kernel.HighestPressure, "Pa", parameter);

    private static bool Try(Func<State> solve, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state)
    {
        try
        {
            state = solve();
            return true;
        }
        catch (Exception error) when (error is ConvergenceException or ArgumentOutOfRangeException)
        {
            state = null;
            return false;
        }
    }

    private int RequirePure()
    {
        int component = IncipientPoint.SingleComponent(Composition.Fractions);
        if (assembly.PseudoPure is not null)
        {
            throw new InvalidOperationException(
                $"{Composition.Components[0].Name} is a mixture described as if it were pure: ask for its bubble or dew point.");
        }

        return component >= 0
            ? component
            : throw new InvalidOperationException($"{Composition} is a mixture and boils over a range: ask for its bubble or dew point.");
    }

    private Saturation SaturationAt(double t, double p, Span<double> scratch)
    {
        double[] x = Composition.MoleFractions.ToArray();
        Kernel.Equation.SetTemperature(t, scratch);
        return new(
            Temperature.FromKelvins(t),
            Pressure.FromPascals(p),
            new(this, Single(t, p, x, DensityRoot.Liquid, false, scratch)),
            new(this, Single(t, p, x, DensityRoot.Vapor, true, scratch)));
    }

    private EquilibriumResult Single(double t, double p, double[] x, DensityRoot root, bool vapor, Span<double> scratch)
    {
        PhaseFigures figures = Kernel.Phase(t, p, x, root, scratch);
        return new(
            t, p, [new(1, vapor, x, figures)], new(figures.Enthalpy, figures.Entropy, 1 / figures.MolarDensity, figures.IsobaricHeatCapacity), false, 0, 0);
    }

    private State IncipientOnLine(PseudoPureLines lines, bool bubble, IncipientPoint.Unknown unknown, double t, double p)
    {
        if (unknown == IncipientPoint.Unknown.Pressure)
        {
            t = Guard.InRange(t, lines.LowestTemperature, lines.HighestTemperature, "K", "temperature");
            p = lines.Pressure(t, bubble);
        }
        else if (!lines.TryTemperature(p, bubble, out t))
        {
            throw new ConvergenceException(
                bubble ? "Bubble point" : "Dew point",
                $"{Composition} at {p / 1e5:G9} bar",
                0,
                $"The line spans {lines.Pressure(lines.LowestTemperature, bubble) / 1e5:G6} to {lines.Pressure(lines.HighestTemperature, bubble) / 1e5:G6} bar absolute.");
        }

        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        Kernel.Equation.SetTemperature(t, scratch);
        return new(this, Single(t, p, [.. Composition.MoleFractions], bubble ? DensityRoot.Liquid : DensityRoot.Vapor, !bubble, scratch));
    }

    /// <summary>
    /// The bubble or dew point of the whole taken as one phase, whether or not that has split before; flagged by <see cref="State.HasUnresolvedPhase"/>
    /// where it has. What a measurement of one phase of known composition is compared with.
    /// </summary>
    internal bool TryUnsplitPoint(bool bubble, Temperature temperature, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => Incipient(bubble, IncipientPoint.Unknown.Pressure, Check(temperature), 1e5, mayBeSplit: false), out state);

    /// <summary>The same at a pressure.</summary>
    internal bool TryUnsplitPoint(bool bubble, Pressure pressure, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out State? state) =>
        Try(() => Incipient(bubble, IncipientPoint.Unknown.Temperature, 300, Check(pressure), mayBeSplit: false), out state);

    private State Incipient(bool bubble, IncipientPoint.Unknown unknown, double t, double p, bool mayBeSplit = true)
    {
        if (assembly.PseudoPure is { } lines)
        {
            return IncipientOnLine(lines, bubble, unknown, t, p);
        }

        int n = Composition.Components.Count;
        Span<double> scratch = stackalloc double[Kernel.Equation.ScratchLength];
        double[] incipient = new double[n];
        string given = unknown == IncipientPoint.Unknown.Temperature ? $"p = {p / 1e5:G9} bar" : $"T = {t:G9} K";
        double fixedValue = unknown == IncipientPoint.Unknown.Temperature ? p : t;
        if (!IncipientPoint.TryFind(Kernel.Equation, Composition.Fractions, bubble, unknown, ref t, ref p, scratch, incipient, out double residual))
        {
            if (mayBeSplit && Split(bubble, unknown, fixedValue, null) is { } beside)
            {
                return new(this, beside);
            }

            throw new ConvergenceException(
                bubble ? "Bubble point" : "Dew point",
                $"{Composition} at {given}",
                residual,
                "The line may end in the critical point before it gets there; try a lower pressure or temperature.");
        }

        if (!(t >= Kernel.LowestTemperature && t <= Kernel.HighestTemperature && p >= Kernel.LowestPressure && p <= Kernel.HighestPressure))
        {
            throw new ConvergenceException(
                bubble ? "Bubble point" : "Dew point",
                $"{Composition} at {given}",
                residual,
                $"It would lie at {t:G6} K and {p:G6} Pa, outside {Kernel.LowestTemperature} to {Kernel.HighestTemperature:G4} K and {Kernel.LowestPressure:G1} to {Kernel.HighestPressure:G1} Pa.");
        }

        Kernel.Equation.SetTemperature(t, scratch);
        double[] bulk = [.. Composition.MoleFractions];
        PhaseFigures bulkFigures = Kernel.Phase(t, p, bulk, bubble ? DensityRoot.Liquid : DensityRoot.Vapor, scratch);
        PhaseFigures incipientFigures = Kernel.Phase(t, p, incipient, bubble ? DensityRoot.Vapor : DensityRoot.Liquid, scratch);
        PhaseResult bulkPhase = new(1, !bubble, bulk, bulkFigures);
        PhaseResult incipientPhase = new(0, bubble, incipient, incipientFigures);
        CaloricFigures totals = new(bulkFigures.Enthalpy, bulkFigures.Entropy, 1 / bulkFigures.MolarDensity, bulkFigures.IsobaricHeatCapacity);
        bool unstable = IsUnstable(t, p, bulk, bubble ? DensityRoot.Liquid : DensityRoot.Vapor, incipient, incipientFigures.MolarDensity, scratch, out double distance);
        if (unstable && mayBeSplit && Split(bubble, unknown, fixedValue, unknown == IncipientPoint.Unknown.Temperature ? t : p) is { } split)
        {
            return new(this, split);
        }

        return new(this, new(
            t, p, bubble ? [incipientPhase, bulkPhase] : [bulkPhase, incipientPhase], totals, unstable, residual, distance));
    }

    // A bubble or dew point is only met on the way if no other phase forms before: a second liquid often does.
    private bool IsUnstable(
        double t, double p, double[] bulk, DensityRoot root, double[] incipient, double incipientDensity, Span<double> scratch, out double distance)
    {
        Span<double> d = stackalloc double[bulk.Length];
        Span<double> trial = stackalloc double[bulk.Length];
        double density = Kernel.Equation.LnFugacityCoefficients(t, p, bulk, root, scratch, d, out _);
        for (int i = 0; i < bulk.Length; i++)
        {
            d[i] += bulk[i] > 0 ? Math.Log(bulk[i]) : 0;
        }

        distance = 0;
        return IncipientPoint.SingleComponent(bulk) < 0
            && StabilityAnalysis.FindUnstable(
                Kernel.Equation, t, p, new TestedPhases(d, bulk, density, incipient, incipientDensity), scratch, trial, out _, out distance, thorough: false)
            && distance < -1e-8;
    }
}
