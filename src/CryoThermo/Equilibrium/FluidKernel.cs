using CryoThermo.EquationsOfState;
using CryoThermo.IdealGas;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// An equation of state joined with the ideal gases of its components: enthalpy, entropy and heat capacities of phases
/// and of equilibrium states. Immutable and thread-safe. SI, molar.
/// </summary>
internal sealed class FluidKernel
{
    private readonly IdealGasModel[] idealGas;
    private readonly double[] molarMass;
    private readonly (double Enthalpy, double Entropy)[] offsets;

    /// <summary>
    /// Joins them; arrays in component order, molar masses in kg/mol, offsets of the reference state in J/mol and
    /// J/(mol K), zero for the ideal gas at 298.15 K and 101325 Pa.
    /// </summary>
    public FluidKernel(MixtureKernel equation, IdealGasModel[] idealGas, double[] molarMass, (double Enthalpy, double Entropy)[] offsets)
    {
        this.offsets = offsets;
        Equation = equation;
        this.idealGas = idealGas;
        this.molarMass = molarMass;
    }

    /// <summary>The equation of state.</summary>
    public MixtureKernel Equation { get; }

    /// <summary>Lowest temperature the flashes accept of this fluid, K.</summary>
    public double LowestTemperature => Equation.LowestTemperature;

    /// <summary>Highest temperature the flashes accept of this fluid, K.</summary>
    public double HighestTemperature => Equation.HighestTemperature;

    /// <summary>Lowest pressure the flashes accept of this fluid, Pa.</summary>
    public double LowestPressure => Equation.LowestPressure;

    /// <summary>Highest pressure the flashes accept of this fluid, Pa.</summary>
    public double HighestPressure => Equation.HighestPressure;

    /// <summary>Number of components.</summary>
    public int ComponentCount => Equation.ComponentCount;

    /// <summary>Molar mass of a mixture, kg/mol.</summary>
    public double MolarMass(ReadOnlySpan<double> x)
    {
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sum += x[i] * molarMass[i];
        }

        return sum;
    }

    /// <summary>Figures of one phase. The scratch must be set to the temperature.</summary>
    public PhaseFigures Phase(double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch)
    {
        ResidualProperties r = Equation.Residual(temperature, pressure, x, root, scratch, out DensityRoot found);
        return Phase(temperature, pressure, x, r, found);
    }

    /// <summary>Figures of a phase whose residual properties are known.</summary>
    public PhaseFigures Phase(double temperature, double pressure, ReadOnlySpan<double> x, in ResidualProperties r, DensityRoot found)
    {
        double gasConstant = Equation.GasConstant;
        double cp = 0;
        double conversion = r.ConversionHeatCapacity;
        double h = 0;
        double s = -gasConstant * Math.Log(pressure / IdealGasFunction.ReferencePressure);
        for (int i = 0; i < x.Length; i++)
        {
            if (x[i] <= 0)
            {
                continue;
            }

            idealGas[i].Evaluate(temperature, out double cpi, out double hi, out double si);
            cp += x[i] * cpi;
            conversion += x[i] * idealGas[i].ConversionHeatCapacity(temperature);
            h += x[i] * (hi + offsets[i].Enthalpy);
            s += x[i] * (si + offsets[i].Entropy - (gasConstant * Math.Log(x[i])));
        }


        // A reaction between forms of the substance is too slow for sound waves: they see the heat capacities without it.
        double isobaric = cp + r.IsobaricHeatCapacity;
        double isochoric = cp - gasConstant + r.IsochoricHeatCapacity;
        double volume = 1 / r.MolarDensity;
        double square = -volume * volume * isobaric / isochoric * r.PressureByVolume / MolarMass(x);
        double expansion = -r.PressureByTemperature / r.PressureByVolume;
        return new(
            r.MolarDensity,
            h + r.Enthalpy,
            s + r.Entropy,
            isobaric + conversion,
            isochoric + conversion,
            square > 0 ? Math.Sqrt(square) : 0,
            ((temperature * expansion) - volume) / (isobaric + conversion),
            expansion / volume,
            -1 / (volume * r.PressureByVolume),
            found);
    }

    /// <summary>Sums over the phases of a flash result. The scratch must be set to the temperature.</summary>
    public CaloricFigures Totals(double temperature, double pressure, ReadOnlySpan<double> z, scoped in PhaseSplit split, Span<double> scratch)
    {
        if (split.PhaseCount == 1)
        {
            PhaseFigures only = Phase(temperature, pressure, z, split.LightRoot, scratch);
            return new(only.Enthalpy, only.Entropy, 1 / only.MolarDensity, only.IsobaricHeatCapacity);
        }

        PhaseFigures light = Phase(temperature, pressure, split.Light, split.LightRoot, scratch);
        PhaseFigures heavy = Phase(temperature, pressure, split.Heavy, split.HeavyRoot, scratch);
        if (split.PhaseCount == 3)
        {
            PhaseFigures middle = Phase(temperature, pressure, split.Middle, split.MiddleRoot, scratch);
            return new(
                (split.LightFraction * light.Enthalpy) + (split.MiddleFraction * middle.Enthalpy) + (split.HeavyFraction * heavy.Enthalpy),
                (split.LightFraction * light.Entropy) + (split.MiddleFraction * middle.Entropy) + (split.HeavyFraction * heavy.Entropy),
                (split.LightFraction / light.MolarDensity) + (split.MiddleFraction / middle.MolarDensity) + (split.HeavyFraction / heavy.MolarDensity),
                (split.LightFraction * light.IsobaricHeatCapacity) + (split.MiddleFraction * middle.IsobaricHeatCapacity) + (split.HeavyFraction * heavy.IsobaricHeatCapacity)
                    + ThreePhaseFlash.TransferHeatCapacity(Equation, temperature, pressure, z, split, scratch));
        }

        double transfer = TransferHeatCapacity(temperature, pressure, z, split, scratch);
        return new(
            (split.LightFraction * light.Enthalpy) + (split.HeavyFraction * heavy.Enthalpy),
            (split.LightFraction * light.Entropy) + (split.HeavyFraction * heavy.Entropy),
            (split.LightFraction / light.MolarDensity) + (split.HeavyFraction / heavy.MolarDensity),
            (split.LightFraction * light.IsobaricHeatCapacity) + (split.HeavyFraction * heavy.IsobaricHeatCapacity) + transfer);
    }

    /// <summary>Solves the isothermal flash and sums over its phases.</summary>
    public CaloricFigures Flash(double temperature, double pressure, scoped ReadOnlySpan<double> z, scoped Span<double> scratch, ref PhaseSplit split)
    {
        IsothermalFlash.Solve(Equation, temperature, pressure, z, scratch, ref split);
        return Totals(temperature, pressure, z, split, scratch);
    }

    /// <summary>Solves the isothermal flash into an object of its own.</summary>
    public EquilibriumResult At(double temperature, double pressure, ReadOnlySpan<double> z)
    {
        int n = z.Length;
        Span<double> scratch = stackalloc double[Equation.ScratchLength];
        if (Equation.IsPureEquation)
        {
            // A pure fluid has one phase at a temperature and pressure: the density root with the lower Gibbs energy.
            Equation.SetTemperature(temperature, scratch);
            PhaseFigures only = Phase(temperature, pressure, z, DensityRoot.Stable, scratch);
            PhaseResult phase = new(1, Equation.ReducedVolume(only.MolarDensity, z) > 1, z.ToArray(), only);
            return new(
                temperature, pressure, [phase], new(only.Enthalpy, only.Entropy, 1 / only.MolarDensity, only.IsobaricHeatCapacity), false, 0, 0);
        }

        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        CaloricFigures totals = Flash(temperature, pressure, z, scratch, ref split);
        return Collect(temperature, pressure, z, split, totals, scratch);
    }

    /// <summary>Copies a flash result into an object of its own. The scratch must be set to the temperature.</summary>
    public EquilibriumResult Collect(
        double temperature, double pressure, ReadOnlySpan<double> z, scoped in PhaseSplit split, CaloricFigures totals, Span<double> scratch)
    {
        PhaseResult[] phases;
        if (split.PhaseCount == 1)
        {
            phases = [new(1, split.LightIsVapor, z.ToArray(), Phase(temperature, pressure, z, split.LightRoot, scratch))];
        }
        else
        {
            phases =
            [
                new(split.LightFraction, split.LightIsVapor, split.Light.ToArray(), Phase(temperature, pressure, split.Light, split.LightRoot, scratch)),
                .. split.PhaseCount == 3
                    ? [new PhaseResult(split.MiddleFraction, false, split.Middle.ToArray(), Phase(temperature, pressure, split.Middle, split.MiddleRoot, scratch))]
                    : Array.Empty<PhaseResult>(),
                new(split.HeavyFraction, false, split.Heavy.ToArray(), Phase(temperature, pressure, split.Heavy, split.HeavyRoot, scratch)),
            ];
        }

        return new(temperature, pressure, phases, totals, split.StillUnstable, split.Residual, split.TangentPlaneDistance);
    }

    /// <summary>
    /// The part of dh/dT at constant pressure that matter moving between two phases carries:
    /// R T^2 b' H^-1 b, with b_i = d(ln phi_i)/dT light minus heavy and H the Gibbs Hessian in the light amounts.
    /// H is positive definite at a stable split, so the part is never negative.
    /// </summary>
    private double TransferHeatCapacity(double temperature, double pressure, ReadOnlySpan<double> z, scoped in PhaseSplit split, Span<double> scratch)
    {
        int n = z.Length;
        Span<double> lnPhi = stackalloc double[n];
        Span<double> lightByT = stackalloc double[n];
        Span<double> heavyByT = stackalloc double[n];
        Span<double> light = stackalloc double[n * n];
        Span<double> heavy = stackalloc double[n * n];
        Equation.LnFugacityDerivatives(temperature, pressure, split.Light, split.LightRoot, scratch, lnPhi, light, lightByT, default, out _);
        Equation.LnFugacityDerivatives(temperature, pressure, split.Heavy, split.HeavyRoot, scratch, lnPhi, heavy, heavyByT, default, out _);
        Span<double> right = stackalloc double[n];
        Span<double> root = stackalloc double[n];
        Span<double> solution = stackalloc double[n];
        for (int i = 0; i < n; i++)
        {
            root[i] = z[i] > 0 ? Math.Sqrt(split.LightFraction * split.Light[i] / z[i] * split.HeavyFraction * split.Heavy[i]) : 0;
            right[i] = root[i] * (lightByT[i] - heavyByT[i]);
            solution[i] = right[i];
        }

        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double coupling = ((light[(i * n) + j] - 1) / split.LightFraction) + ((heavy[(i * n) + j] - 1) / split.HeavyFraction);
                light[(i * n) + j] = root[i] * coupling * root[j];
            }

            light[(i * n) + i] += 1;
        }

        if (!Cholesky.Factor(light, n, 0))
        {
            return 0;
        }

        Cholesky.Solve(light, n, solution);
        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            sum += right[i] * solution[i];
        }

        return Equation.GasConstant * temperature * temperature * sum;
    }
}
