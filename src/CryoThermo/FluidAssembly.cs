using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Equilibrium;
using CryoThermo.IdealGas;
using CryoThermo.Substances;
using CryoThermo.Transport;

namespace CryoThermo;

/// <summary>The kernels of a working fluid, put together from a catalogue, a composition and a model.</summary>
/// <param name="Kernel">Equation of state with ideal gases.</param>
/// <param name="IdealGas">The ideal gas of each component.</param>
/// <param name="Pedigree">What was taken.</param>
internal sealed record FluidAssembly(FluidKernel Kernel, IReadOnlyList<IdealGasModel> IdealGas, FluidPedigree Pedigree)
{
    /// <summary>Bubble and dew line of a pseudo-pure fluid; null for all others.</summary>
    public PseudoPureLines? PseudoPure { get; } = Pedigree.Equation is { IsPseudoPure: true } equation ? new(equation) : null;

    private TransportKernel? transport;

    private const string CallersChoice = "chosen by the caller";

    /// <summary>Puts the kernels together.</summary>
    /// <exception cref="ArgumentException">The model has no equation for this fluid.</exception>
    public static FluidAssembly Build(SubstanceCatalog catalog, Composition composition, FluidModel model, ReferenceState reference)
    {
        bool isRecommended = ReferenceEquals(model, FluidModel.Recommended);
        HelmholtzEquation? equation = isRecommended ? BestEquationOf(composition) : EquationOf(catalog, composition, model);
        if (equation is not null)
        {
            FluidModel taken = equation.Standard switch
            {
                EquationStandard.Reference => FluidModel.ReferenceEquation,
                EquationStandard.Technical => FluidModel.TechnicalEquation,
                _ => FluidModel.MultiFluid,
            };
            return OfEquation(
                composition.Components[0], equation, new(taken, isRecommended ? "default: the best verified equation of this fluid" : CallersChoice, [], equation), reference);
        }

        if (model.IsMultiFluid)
        {
            return MultiFluidAssembly.Build(catalog, composition, model, CallersChoice, reference);
        }

        if (!isRecommended)
        {
            return OfCubic(catalog, composition, model, CallersChoice, reference);
        }

        Substance[] without = composition.Components.Count == 1
            ? [.. composition.Components]
            : [.. composition.Components.Where(c => MultiFluidAssembly.EquationOf(catalog, c) is null)];
        return without.Length == 0
            ? MultiFluidAssembly.Build(catalog, composition, FluidModel.BestMultiFluid, "default: the best mixture model in the library", reference)
            : OfCubic(
                catalog,
                composition,
                FluidModel.PengRobinson,
                $"default: the library has no Helmholtz equation of {string.Join(" and ", without.Select(c => c.Name))}",
                reference);
    }

    /// <summary>Viscosity and conductivity of the components in their order, put together when first asked for.</summary>
    public TransportKernel Transport(Composition composition) => transport ??= new(composition.Components);

    /// <summary>The same kernels with enthalpy and entropy counted from another reference state.</summary>
    public FluidAssembly WithReference(SubstanceCatalog catalog, Composition composition, ReferenceState reference)
    {
        if (Pedigree.Equation is { } equation)
        {
            return OfEquation(composition.Components[0], equation, Pedigree, reference);
        }

        return Pedigree.Model.IsMultiFluid
            ? MultiFluidAssembly.Build(catalog, composition, Pedigree.Model, Pedigree.Reason, reference)
            : OfCubic(catalog, composition, Pedigree.Model, Pedigree.Reason, reference);
    }

    /// <summary>Hydrogen with a share of para molecules of its own. Enthalpy and entropy of all shares count from normal hydrogen.</summary>
    public static FluidAssembly BuildHydrogen(SubstanceCatalog catalog, HydrogenForm form)
    {
        Substance substance = catalog.Find("hydrogen");
        HelmholtzEquation normal = ReferenceOf(substance);
        HelmholtzEquation para = ReferenceOf(catalog.Find("parahydrogen"));
        HelmholtzEquation ortho = ReferenceOf(catalog.Find("orthohydrogen"));
        double enthalpyZero = normal.IdealGas.PublishedEnthalpy + normal.SpinEnthalpyOffset;
        double entropyZero = normal.IdealGas.PublishedEntropy + normal.SpinEntropyOffset;
        SpinIdealGas gas = new(OnOneScale(para), OnOneScale(ortho), para.GasConstant, 1 - form.ParaFraction);
        HelmholtzFluid kernel = HelmholtzFluid.Join(para, ortho, new SpinShare(gas), substance.AcentricFactor);
        FluidPedigree pedigree = new(
            FluidModel.ReferenceEquation,
            $"{form} hydrogen: the equations of parahydrogen and orthohydrogen joined at equal temperature and density",
            [],
            para);
        return new(new(kernel, [gas], [para.MolarMass], new (double, double)[1]), [gas], pedigree);

        SpinIdealGas.OffsetGas OnOneScale(HelmholtzEquation equation) => new(
            new(substance.Name, equation.IdealGas.HeatCapacity, equation.GasConstant),
            equation.IdealGas.PublishedEnthalpy + equation.SpinEnthalpyOffset - enthalpyZero,
            equation.IdealGas.PublishedEntropy + equation.SpinEntropyOffset - entropyZero);

        static HelmholtzEquation ReferenceOf(Substance form) => form.Equations is [HelmholtzEquation equation, ..]
            ? equation
            : throw new ArgumentException($"The catalogue holds no Helmholtz equation of {form.Name}.", nameof(catalog));
    }

    private static HelmholtzEquation? BestEquationOf(Composition composition) =>
        composition.Components.Count == 1 && composition.Components[0].Equations is [HelmholtzEquation best, ..] ? best : null;

    private static HelmholtzEquation? EquationOf(SubstanceCatalog catalog, Composition composition, FluidModel model)
    {
        if (model.IsMultiFluid)
        {
            return composition.Components.Count == 1 ? MultiFluidAssembly.StandardEquationOf(catalog, composition.Components[0]) : null;
        }

        if (model.Standard is not { } standard)
        {
            return null;
        }

        if (composition.Components.Count > 1)
        {
            throw new ArgumentException($"The {model.Name} describes pure fluids; {composition} is a mixture.", nameof(model));
        }

        Substance substance = composition.Components[0];
        foreach (HelmholtzEquation equation in substance.Equations)
        {
            if (equation.Standard == standard)
            {
                return equation;
            }
        }

        throw new ArgumentException(
            $"The library has no {model.Name} of {substance.Name}; it has "
            + (substance.Equations.Count == 0 ? "cubic equations only." : $"the {substance.Equations[0].Standard.ToString().ToLowerInvariant()} equation."),
            nameof(model));
    }

    private static FluidAssembly OfEquation(Substance substance, HelmholtzEquation equation, FluidPedigree pedigree, ReferenceState reference)
    {
        HelmholtzFluid kernel = new(equation, substance.AcentricFactor);
        IdealGasFunction[] idealGas = [new(substance.Name, equation.IdealGas.HeatCapacity, equation.GasConstant)];
        double[] molarMass = [equation.MolarMass];
        (double Enthalpy, double Entropy)[] offsets = reference == ReferenceState.AsPublished
            ? [(equation.IdealGas.PublishedEnthalpy, equation.IdealGas.PublishedEntropy)]
            : ReferenceOffsets(kernel, idealGas, reference);
        return new(new(kernel, idealGas, molarMass, offsets), idealGas, pedigree);
    }

    private static FluidAssembly OfCubic(SubstanceCatalog catalog, Composition composition, FluidModel model, string reason, ReferenceState reference)
    {
        CubicRecipe recipe = model.Cubic!;
        int n = composition.Components.Count;
        CubicComponent[] components = new CubicComponent[n];
        IdealGasFunction[] idealGas = new IdealGasFunction[n];
        double[] molarMass = new double[n];
        double[] kij = new double[n * n];
        double[] inverseCoefficients = new double[n * n];
        List<CubicPair> pairs = [];
        List<string> remarks = [];
        for (int i = 0; i < n; i++)
        {
            Substance substance = composition.Components[i];
            components[i] = recipe.ComponentOf(substance, catalog, out string? remark);
            if (remark is not null)
            {
                remarks.Add(remark);
            }

            idealGas[i] = new(substance);
            molarMass[i] = substance.MolarMass;
            for (int j = 0; j < i; j++)
            {
                CubicPair pair = catalog.PairOf(composition.Components[j], substance, recipe.PairKind);
                if (composition.MoleFractions[i] > 0 && composition.MoleFractions[j] > 0)
                {
                    pairs.Add(pair);
                }

                kij[(i * n) + j] = pair.InteractionParameter;
                kij[(j * n) + i] = pair.InteractionParameter;
                inverseCoefficients[(i * n) + j] = pair.InverseTemperatureCoefficient;
                inverseCoefficients[(j * n) + i] = pair.InverseTemperatureCoefficient;
            }
        }

        CubicMixture equation = new(recipe.Form, components, kij, inverseTemperatureCoefficients: inverseCoefficients);
        return new(
            new(equation, idealGas, molarMass, ReferenceOffsets(equation, idealGas, reference)),
            idealGas,
            new(model, reason, pairs) { Remarks = remarks });
    }

    internal static (double Enthalpy, double Entropy)[] ReferenceOffsets(MixtureKernel equation, IdealGasModel[] idealGas, ReferenceState reference)
    {
        return reference switch
        {
            ReferenceState.IdealGasAt25DegreesCelsius => new (double, double)[idealGas.Length],
            ReferenceState.AsPublished => throw new ArgumentException(
                "Only the Helmholtz equation of a pure fluid has a published reference state.", nameof(reference)),
            _ => BoilingLiquidOffsets(equation, idealGas),
        };
    }

    private static (double Enthalpy, double Entropy)[] BoilingLiquidOffsets(MixtureKernel equation, IdealGasModel[] idealGas)
    {
        int n = idealGas.Length;
        var offsets = new (double Enthalpy, double Entropy)[n];
        FluidKernel plain = new(equation, idealGas, [.. Enumerable.Repeat(1.0, n)], offsets);
        Span<double> scratch = stackalloc double[equation.ScratchLength];
        for (int i = 0; i < n; i++)
        {
            double[] x = new double[n];
            x[i] = 1;
            if (!PureSaturation.TryTemperature(equation, i, IdealGasFunction.ReferencePressure, scratch, out double boiling, out _, out _))
            {
                throw new InvalidOperationException(
                    $"Component {i + 1} has no boiling point at 101325 Pa under this model, so that its saturated liquid cannot be the reference state.");
            }

            equation.SetTemperature(boiling, scratch);
            PhaseFigures liquid = plain.Phase(boiling, IdealGasFunction.ReferencePressure, x, DensityRoot.Liquid, scratch);
            offsets[i] = (-liquid.Enthalpy, -liquid.Entropy);
        }

        return offsets;
    }
}
