using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>
/// Which equation of state a working fluid is computed with, with its source and its known errors. Immutable and
/// thread-safe.
/// </summary>
public sealed class FluidModel
{
    private const string CubicUncertainty =
        "Vapour pressures of pure fluids 1 to 3 %, bubble pressures of fitted pairs 2 to 6 %, liquid densities 2 to 13 % (untranslated), " +
        "vapour densities 1 to 2 %; isothermal enthalpy differences of gas near ambient up to 21 % off, see the capacity error.";

    // Isothermal enthalpy difference at 300 K against reference equations; computed here while the data were prepared.
    private static readonly Dictionary<string, double> PengRobinsonCapacityErrors = new(StringComparer.Ordinal)
    {
        ["nitrogen"] = 21,
        ["argon"] = 20,
        ["methane"] = 15,
        ["propane"] = -13,
        ["isobutane"] = -20,
    };

    private readonly IReadOnlyDictionary<string, double> capacityErrors;

    private FluidModel(
        string name,
        Source source,
        string statedUncertainty,
        CubicForm form,
        CubicModelKind pairKind,
        Func<Substance, AlphaFunction> alpha,
        IReadOnlyDictionary<string, double> capacityErrors,
        bool translated)
    {
        Name = name;
        Source = source;
        StatedUncertainty = statedUncertainty;
        Cubic = new(form, pairKind, alpha, translated);
        this.capacityErrors = capacityErrors;
    }

    private FluidModel(string name, Source source, string statedUncertainty, EquationStandard? standard, bool isMultiFluid = false)
    {
        Name = name;
        Source = source;
        StatedUncertainty = statedUncertainty;
        Standard = standard;
        IsMultiFluid = isMultiFluid;
        capacityErrors = new Dictionary<string, double>();
    }

    /// <summary>Peng-Robinson with the temperature function of 1976.</summary>
    public static FluidModel PengRobinson { get; } = new(
        "Peng-Robinson (1976)",
        new("Peng, Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59", false, "critical constants recomputed from the critical-point conditions"),
        CubicUncertainty,
        CubicForm.PengRobinson,
        CubicModelKind.PengRobinson,
        s => SoaveAlpha.PengRobinson1976(s.CriticalTemperature, s.AcentricFactor),
        PengRobinsonCapacityErrors,
        false);

    /// <summary>Peng-Robinson with the temperature function of 1978, which differs for acentric factors above 0.491.</summary>
    public static FluidModel PengRobinson1978 { get; } = new(
        "Peng-Robinson (1978)",
        new("Robinson, Peng, Gas Processors Association Research Report RR-28 (1978)", true, "equal to the 1976 form for acentric factors up to 0.491"),
        CubicUncertainty,
        CubicForm.PengRobinson,
        CubicModelKind.PengRobinson,
        s => SoaveAlpha.PengRobinson1978(s.CriticalTemperature, s.AcentricFactor),
        PengRobinsonCapacityErrors,
        false);

    /// <summary>Peng-Robinson with the Stryjek-Vera temperature function; kappa1 is zero for substances without a published one.</summary>
    public static FluidModel PengRobinsonStryjekVera { get; } = new(
        "Peng-Robinson, Stryjek-Vera temperature function",
        new("Stryjek, Vera, Can. J. Chem. Eng. 64 (1986) 323", true, "vapour pressure at the normal boiling point within 0.7 % for the listed kappa1"),
        CubicUncertainty,
        CubicForm.PengRobinson,
        CubicModelKind.PengRobinson,
        s => new StryjekVeraAlpha(s.CriticalTemperature, s.AcentricFactor, s.StryjekVeraKappa1 ?? 0),
        PengRobinsonCapacityErrors,
        false);

    /// <summary>Peng-Robinson with the generalised Twu temperature function of 1995, which decays at high temperature.</summary>
    public static FluidModel PengRobinsonTwu { get; } = new(
        "Peng-Robinson, generalised Twu temperature function",
        new("Twu, Coon, Cunningham, Fluid Phase Equilib. 105 (1995) 49", true, "slopes at Tr = 1 agree to 2e-6"),
        CubicUncertainty,
        CubicForm.PengRobinson,
        CubicModelKind.PengRobinson,
        s => TwuGeneralizedAlpha.PengRobinson(s.CriticalTemperature, s.AcentricFactor),
        new Dictionary<string, double>(StringComparer.Ordinal)
        {
            ["nitrogen"] = 16,
            ["argon"] = 16,
            ["methane"] = 14,
            ["propane"] = -13,
            ["isobutane"] = -20,
        },
        false);

    /// <summary>
    /// Peng-Robinson with quantum corrections for helium, neon and hydrogen: their covolume grows as they get colder, and each has a
    /// temperature function of its own. All other components are as in <see cref="PengRobinson"/>. The pairs helium-neon, helium-hydrogen
    /// and neon-hydrogen are published for it; those of these three with any other gas are estimated as zero, because the parameters known
    /// for Peng-Robinson belong to another temperature function. Spin forms of hydrogen take the parameters of normal hydrogen with their own
    /// critical points; the pedigree says so. The lowest temperature is 2.2 K for helium alone, 13.9 K with hydrogen and 18.7 K with neon in it.
    /// </summary>
    public static FluidModel PengRobinsonQuantumCorrected { get; } = new(
        "Peng-Robinson (1976), quantum corrections for helium, neon and hydrogen",
        new(
            "Aasen, Hammer, Lasala, Jaubert, Wilhelmsen, Fluid Phase Equilib. 524 (2020) 112790",
            true,
            "parameters from memory; pure fluids compared with reference equations of state in docs/accuracy.md"),
        "Helium, neon and hydrogen: vapour pressures about 1 %, heats of vaporization 1 to 2 %, liquid densities 10 to 14 % too high (translated about 2 %), all "
        + "worse next to the critical point; heat capacities turn negative in hydrogen next to 14 K above some 100 bar and in helium below 5 K above some 50 bar; equilibria of them with other gases rest on estimated pairs. All others: " + CubicUncertainty,
        CubicForm.PengRobinson,
        CubicModelKind.PengRobinsonQuantumCorrected,
        s => SoaveAlpha.PengRobinson1976(s.CriticalTemperature, s.AcentricFactor),
        PengRobinsonCapacityErrors,
        false);

    /// <summary>Soave-Redlich-Kwong.</summary>
    public static FluidModel SoaveRedlichKwong { get; } = new(
        "Soave-Redlich-Kwong (1972)",
        new("Soave, Chem. Eng. Sci. 27 (1972) 1197", false, "critical constants recomputed from the critical-point conditions"),
        CubicUncertainty,
        CubicForm.SoaveRedlichKwong,
        CubicModelKind.SoaveRedlichKwong,
        s => SoaveAlpha.SoaveRedlichKwong(s.CriticalTemperature, s.AcentricFactor),
        new Dictionary<string, double>(StringComparer.Ordinal) { ["nitrogen"] = -1, ["argon"] = 5, ["oxygen"] = 4, ["carbon monoxide"] = -4, ["methane"] = 6 },
        false);

    /// <summary>
    /// The reference equation of state of a pure fluid in the Helmholtz energy: the most accurate the library has. Pure fluids only; the
    /// publication, range and uncertainty of the one taken stand in the fluid's pedigree.
    /// </summary>
    public static FluidModel ReferenceEquation { get; } = new(
        "reference equation of state",
        new("the publication named in the pedigree of the fluid", false, null),
        "As the publication of each equation states, per property; see the pedigree of the fluid.",
        EquationStandard.Reference);

    /// <summary>
    /// The technical equation of state of a pure fluid: a short form in the Helmholtz energy, less accurate than a reference equation but
    /// far better than a cubic. Pure fluids only.
    /// </summary>
    public static FluidModel TechnicalEquation { get; } = new(
        "technical equation of state",
        new("the publication named in the pedigree of the fluid", false, null),
        "As the publication of each equation states, per property; see the pedigree of the fluid.",
        EquationStandard.Technical);

    /// <summary>
    /// The multi-fluid model of ISO 20765-2 (GERG-2008) as the standard has it, with its own equations of the pure fluids: mixtures of its 21
    /// components, methane to n-decane, nitrogen, argon, oxygen, carbon monoxide and dioxide, hydrogen, helium, water and hydrogen sulfide.
    /// Not for the saturation of pure hydrogen or helium.
    /// </summary>
    public static FluidModel MultiFluid { get; } = new(
        "multi-fluid model of ISO 20765-2 (GERG-2008)",
        new("ISO 20765-2; Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032", true, "its published 21-component check point to all digits of density"),
        "As stated: density of gas 0.1 %, of liquid 0.1 to 0.5 %, speed of sound 0.1 % in gas, bubble and dew pressure 1 to 3 % for pairs with " +
        "measurements, in 90 to 450 K and up to 35 MPa; more from 60 to 90 K, to 700 K, to 70 MPa. Measured deviations: docs/accuracy.md.",
        standard: EquationStandard.MixtureStandard,
        isMultiFluid: true);

    /// <summary>
    /// What the library takes unless told otherwise: for a pure fluid its best verified equation of state in the Helmholtz energy; for a
    /// mixture the multi-fluid model with the equations and pairs of ISO 20765-2 where they are the best known, refitted pairs where those
    /// are measurably better, and the own equations of further components; where a component has no Helmholtz equation, Peng-Robinson (1976).
    /// The model of a fluid made with it is the one taken. Results by a cubic carry their known errors.
    /// </summary>
    public static FluidModel Recommended { get; } = new(
        "recommended", new("chosen per fluid", false, null), "That of the model taken.", standard: null);

    /// <summary>Name of the model.</summary>
    public string Name { get; }

    /// <summary>Publication of the model.</summary>
    public Source Source { get; }

    /// <summary>What the model is known to be good for and how far off it is, in words and figures.</summary>
    public string StatedUncertainty { get; }

    /// <summary>True when liquid volumes are shifted to agree with measured ones; phase equilibrium is the same either way.</summary>
    public bool IsVolumeTranslated => Cubic?.IsVolumeTranslated ?? false;

    /// <summary>The cubic equation; null for models that are none.</summary>
    internal CubicRecipe? Cubic { get; }

    /// <summary>The multi-fluid frame with the pairs known best; reached through <see cref="Recommended"/>.</summary>
    internal static FluidModel BestMultiFluid { get; } = new(
        "multi-fluid model",
        new("form: Kunz, Wagner, J. Chem. Eng. Data 57 (2012) 3032; equations and pairs: see the pedigree of the fluid", true, null),
        "Within ISO 20765-2: density of gas 0.1 %, of liquid 0.1 to 0.5 %, bubble pressure 1 to 3 % for pairs with measurements. Pairs fitted " +
        "here or estimated: see the pedigree of the fluid and docs/accuracy.md.",
        standard: null,
        isMultiFluid: true);

    /// <summary>The standard of the Helmholtz equation wanted; null for models that are none.</summary>
    internal EquationStandard? Standard { get; }

    /// <summary>Whether mixtures are computed in the multi-fluid frame.</summary>
    internal bool IsMultiFluid { get; }

    /// <summary>
    /// The same model with liquid volumes shifted by a constant per substance (Peneloux, Rauzy, Freze, Fluid Phase
    /// Equilib. 8 (1982) 7). Phase equilibrium does not change; do not use it above nine tenths of the critical temperature.
    /// </summary>
    /// <exception cref="InvalidOperationException">The model is not a cubic equation.</exception>
    public FluidModel WithVolumeTranslation()
    {
        if (Cubic is null)
        {
            throw new InvalidOperationException($"The {Name} has no volumes to translate: that is a correction of cubic equations.");
        }

        return new(Name + ", volumes translated", Source, StatedUncertainty, Cubic.Form, Cubic.PairKind, Cubic.Alpha, capacityErrors, true);
    }

    /// <summary>
    /// The known error of a cooling capacity (an isothermal enthalpy difference near ambient) computed with this model
    /// for a blend: the range over its components for which a comparison exists. Null when none of them was compared.
    /// </summary>
    /// <param name="composition">The blend.</param>
    public CapacityError? CapacityErrorOf(Composition composition)
    {
        ArgumentNullException.ThrowIfNull(composition);
        List<(string Name, double Percent)> known = [];
        List<string> unknown = [];
        for (int i = 0; i < composition.Components.Count; i++)
        {
            if (composition.MoleFractions[i] <= 0)
            {
                continue;
            }

            string name = composition.Components[i].Name;
            if (capacityErrors.TryGetValue(name, out double percent))
            {
                known.Add((name, percent));
            }
            else
            {
                unknown.Add(name);
            }
        }

        if (known.Count == 0)
        {
            return null;
        }

        return new(
            Math.Min(0, known.Min(k => k.Percent)),
            Math.Max(0, known.Max(k => k.Percent)),
            $"{Name}: isothermal enthalpy difference of the pure gas at 300 K off by "
            + string.Join(", ", known.Select(k => $"{k.Percent:+0;-0} % ({k.Name})"))
            + (unknown.Count > 0 ? $"; not compared: {string.Join(", ", unknown)}" : string.Empty)
            + ". Two-phase regions are within a few percent.",
            new("computed here against reference equations of state of the pure fluids", false, "15 to 2 bar for nitrogen, argon, methane; 20 to 1 bar oxygen, carbon monoxide; 8 to 2 bar propane; 3 to 1 bar isobutane"));
    }

    /// <inheritdoc/>
    public override string ToString() => Name;
}
