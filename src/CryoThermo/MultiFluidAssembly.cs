using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.IdealGas;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>Puts together the kernels of a mixture in the multi-fluid frame.</summary>
internal static class MultiFluidAssembly
{
    /// <summary>K; where the extended range of ISO 20765-2 begins.</summary>
    public const double ExtendedFrom = 60;

    /// <summary>K; where it ends.</summary>
    public const double ExtendedTo = 700;

    /// <summary>Pa; where it ends.</summary>
    public const double ExtendedToPressure = 70e6;

    private const string StatedRange =
        "ISO 20765-2 states its uncertainty from 90 to 450 K up to 350 bar absolute; 60 to 90 K, 450 to 700 K and pressures up to 700 bar are its extended range, with greater uncertainty.";

    // The gas constant of the standard; every component of the frame takes it, with cp0/R and alpha of its own equation.
    private const double GasConstant = 8.314472;

    // Extended range of the standard, which ends at 60 K: cold blends of neon, hydrogen and helium are followed further.
    private const double LowestTemperature = ExtendedFrom;
    private const double LowestWithQuantumGas = 20;

    // Reduced inverse temperature of the mixture above which the recommended model continues its equations linearly: the liquids of the standard
    // begin to vanish near 5.5 (n-butane at 77 K).
    private const double HighestTau = 4.5;

    // Beyond the extended range of the standard the equations are followed as they stand.
    private const double HighestTemperature = 1000;
    private const double HighestPressure = 2e8;

    /// <summary>The equation that describes a component: the standard's where it has one, else the recommended one of its own; null when there is none.</summary>
    public static HelmholtzEquation? EquationOf(SubstanceCatalog catalog, Substance substance) =>
        catalog.MultiFluid.Equations.GetValueOrDefault(substance.Identity.Key)
        ?? (substance.Equations is [{ IsPseudoPure: false } own, ..] ? own : null);

    /// <summary>The standard's equation of a substance.</summary>
    /// <exception cref="ArgumentException">The standard does not hold the substance.</exception>
    public static HelmholtzEquation StandardEquationOf(SubstanceCatalog catalog, Substance substance) =>
        catalog.MultiFluid.Equations.GetValueOrDefault(substance.Identity.Key)
        ?? throw new ArgumentException(
            $"{FluidModel.MultiFluid.Name} does not hold {substance.Name}; take FluidModel.Recommended, which adds further components.", nameof(substance));

    // The equations of the standard bear mixtures down to this without a change in their range; others, and that of water, down to the lowest
    // temperature they state.
    private static double TauLimitOf(HelmholtzEquation equation) =>
        equation.Standard == EquationStandard.MixtureStandard && equation.Range.LowestTemperature <= LowestTemperature
            ? HighestTau
            : Math.Min(HighestTau, equation.ReducingTemperature / equation.Range.LowestTemperature);

    /// <summary>Puts the kernels together.</summary>
    /// <param name="catalog">Substances and pairs.</param>
    /// <param name="composition">Two or more components.</param>
    /// <param name="model">The standard, or the frame with the pairs known best.</param>
    /// <param name="reason">Why it was taken.</param>
    /// <param name="reference">Zero of enthalpy and entropy.</param>
    /// <exception cref="ArgumentException">The model does not hold a component.</exception>
    public static FluidAssembly Build(SubstanceCatalog catalog, Composition composition, FluidModel model, string reason, ReferenceState reference)
    {
        bool isStandard = ReferenceEquals(model, FluidModel.MultiFluid);
        int n = composition.Components.Count;
        HelmholtzEquation[] equations = new HelmholtzEquation[n];
        double[] acentricFactor = new double[n];
        IdealGasFunction[] idealGas = new IdealGasFunction[n];
        double[] molarMass = new double[n];
        double[] tauLimits = new double[n];
        MultiFluidPair?[] pairs = new MultiFluidPair?[n * n];
        List<BinaryPair> told = [];
        bool holdsQuantumGas = false;
        for (int i = 0; i < n; i++)
        {
            Substance substance = composition.Components[i];
            equations[i] = isStandard
                ? StandardEquationOf(catalog, substance)
                : EquationOf(catalog, substance)
                    ?? throw new ArgumentException($"The library has no Helmholtz equation of {substance.Name}.", nameof(composition));
            tauLimits[i] = isStandard ? double.PositiveInfinity : TauLimitOf(equations[i]);
            acentricFactor[i] = substance.AcentricFactor;
            idealGas[i] = new(substance.Name, equations[i].IdealGas.HeatCapacity, GasConstant);
            molarMass[i] = equations[i].MolarMass;
            holdsQuantumGas |= substance.Identity.Molecule?.IsQuantumGas == true;
            for (int j = 0; j < i; j++)
            {
                MultiFluidPair pair = isStandard
                    ? catalog.MultiFluid.FindStandard(composition.Components[j].Identity, substance.Identity)!
                    : catalog.MultiFluidPairOf(composition.Components[j], substance);
                pairs[(j * n) + i] = pair;
                if (composition.MoleFractions[i] > 0 && composition.MoleFractions[j] > 0)
                {
                    told.Add(pair);
                }
            }
        }

        MultiFluidRange range = new(
            holdsQuantumGas ? LowestWithQuantumGas : LowestTemperature, HighestTemperature, HighestPressure, isStandard ? double.PositiveInfinity : HighestTau, HighestTau);
        MultiFluidMixture kernel = new(equations, acentricFactor, pairs, GasConstant, range, tauLimits);
        return new(
            new(kernel, idealGas, molarMass, FluidAssembly.ReferenceOffsets(kernel, idealGas, reference)),
            idealGas,
            new(model, reason, told, null, equations) { Remarks = [StatedRange] });
    }
}
