using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// A pure fluid under a Helmholtz equation of state: fugacity, residual properties, density roots, spinodals and saturation. Two forms of
/// one substance in a given share (spin forms of hydrogen) are joined by alpha = sum x_k alpha_k(T, rho) and count as one pure fluid.
/// Immutable and thread-safe; nothing is allocated per call.
/// </summary>
internal sealed class HelmholtzFluid : MixtureKernel
{
    // A Newton step this small, relative, leaves an error of the order of its square.
    private const double LastStep = 1e-9;

    // Closer than this to the tabulated vapour pressure (ln p) the phase is decided by the Gibbs energies themselves.
    private const double TableTolerance = 1e-5;

    // Above the densest state of the stated range the equation is still followed this far, for search and for subcooled liquids.
    private const double DensityMargin = 1.3;

    // Below the stated range, which ends at the triple point, equations are followed for subcooled liquids down to this share of it.
    private const double TemperatureMargin = 0.7;

    // Published tables may step a little over the range they state.
    private const double PressureMargin = 1.1;

    // Temperature and pressure to which every equation may be followed with a note, K and Pa.
    private const double TemperatureAtLeast = 1000;
    private const double PressureAtLeast = 2e8;

    // How far rounding may put the pressure (ln) of boiling at the lowest temperature below the end of the table.
    private const double PressureSlack = 1e-10;

    // Densities at which the highest pressure of an isotherm is looked for, in the denser half.
    private const int DensitySteps = 200;

    private readonly HelmholtzResidual[] residuals;
    private readonly double[] reducingTemperature;
    private readonly double[] reducingDensity;
    private readonly FluidShare? share;
    private readonly FluidPoint critical;
    private readonly Lazy<CubicMixture> estimate;
    private readonly double acentricFactor;
    private readonly int isothermLength;
    private readonly Lazy<CoexistenceCurve> coexistence;
    private readonly Lazy<double> pressureWhenColdest;

    /// <summary>Takes one equation.</summary>
    /// <param name="equation">The equation.</param>
    /// <param name="acentricFactor">Acentric factor, for starting values.</param>
    public HelmholtzFluid(HelmholtzEquation equation, double acentricFactor)
        : this([equation], null, equation.IsPseudoPure ? null : equation.CriticalPoint, acentricFactor)
    {
    }

    private HelmholtzFluid(HelmholtzEquation[] equations, FluidShare? share, FluidPoint? critical, double acentricFactor)
    {
        this.share = share;
        this.acentricFactor = acentricFactor;
        residuals = new HelmholtzResidual[equations.Length];
        reducingTemperature = new double[equations.Length];
        reducingDensity = new double[equations.Length];
        Range = equations[0].Range;
        for (int k = 0; k < equations.Length; k++)
        {
            HelmholtzEquation equation = equations[k];
            residuals[k] = new(equation);
            reducingTemperature[k] = equation.ReducingTemperature;
            reducingDensity[k] = equation.ReducingMolarDensity;
            isothermLength += residuals[k].IsothermLength;
            Range = new(
                Math.Max(Range.LowestTemperature, equation.Range.LowestTemperature),
                Math.Min(Range.HighestTemperature, equation.Range.HighestTemperature),
                Math.Min(Range.HighestPressure, equation.Range.HighestPressure),
                Math.Min(Range.HighestMolarDensity, equation.Range.HighestMolarDensity),
                Range.Note);
        }

        GasConstant = equations[0].GasConstant;
        HighestDensity = DensityMargin * Range.HighestMolarDensity;
        HighestTemperature = Math.Max(TemperatureAtLeast, Range.HighestTemperature);
        HighestPressure = Math.Max(PressureAtLeast, PressureMargin * Range.HighestPressure);
        this.critical = critical ?? CriticalPointSolver.Find(this, equations[0].CriticalPoint);
        estimate = new(Estimate);
        coexistence = new(() => new CoexistenceCurve(this, TemperatureMargin * Range.LowestTemperature));
        pressureWhenColdest = new(() => PressureReached(LowestTemperature));
    }

    /// <summary>Stated range of the equation.</summary>
    public EquationRange Range { get; }

    /// <summary>Highest density looked at, mol/m3.</summary>
    public double HighestDensity { get; }

    /// <summary>Spinodals and saturation over temperature.</summary>
    public CoexistenceCurve Coexistence => coexistence.Value;

    /// <inheritdoc/>
    public override bool IsPureEquation => true;

    /// <inheritdoc/>
    public override int ComponentCount => 1;

    /// <inheritdoc/>
    public override double GasConstant { get; }

    /// <summary>The isotherm of each form, tau and share of each, then the spinodal densities, the saturated ones and ln of the vapour pressure.</summary>
    public override int ScratchLength => isothermLength + (2 * residuals.Length) + 5;

    /// <summary>Where the table of the coexistence curve ends: 0.7 of the lowest temperature of the stated range, or where a branch of the equation ends before.</summary>
    public override double LowestTemperature => Coexistence.LowestTemperature;

    /// <inheritdoc/>
    public override double LowestStatedTemperature => Range.LowestTemperature;

    /// <inheritdoc/>
    public override double HighestTemperature { get; }

    /// <inheritdoc/>
    public override double LowestPressure => 1e-9;

    /// <inheritdoc/>
    public override double HighestPressure { get; }

    /// <inheritdoc/>
    public override double LowestTemperatureAt(double pressure)
    {
        if (pressure <= pressureWhenColdest.Value)
        {
            return LowestTemperature;
        }

        double low = LowestTemperature;
        double high = HighestTemperature;
        while (high - low > 1e-6 * low)
        {
            double middle = Math.Sqrt(low * high);
            if (PressureReached(middle) < pressure)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }

    /// <summary>Joins two forms of one substance; the second has the given share.</summary>
    public static HelmholtzFluid Join(HelmholtzEquation first, HelmholtzEquation second, FluidShare share, double acentricFactor) =>
        new([first, second], share, null, acentricFactor);

    /// <inheritdoc/>
    public override void SetTemperature(double temperature, Span<double> scratch)
    {
        SetIsotherm(temperature, scratch);
        Span<double> bounds = scratch.Slice(ScratchLength - 5, 5);
        if (temperature < critical.Temperature)
        {
            CoexistencePoint point = Coexistence.Interpolate(temperature);
            bounds[0] = Math.Exp(point.VaporLimit);
            bounds[1] = Math.Exp(point.LiquidLimit);
            bounds[2] = Math.Exp(point.VaporDensity);
            bounds[3] = Math.Exp(point.LiquidDensity);
            bounds[4] = point.Pressure;
        }
        else
        {
            bounds.Fill(double.NaN);
        }
    }

    /// <summary>The part of <see cref="SetTemperature"/> that the equation alone needs.</summary>
    public void SetIsotherm(double temperature, Span<double> scratch)
    {
        int start = 0;
        double second = share?.At(temperature, out _) ?? 0;
        for (int k = 0; k < residuals.Length; k++)
        {
            double tau = reducingTemperature[k] / temperature;
            residuals[k].SetTemperature(tau, scratch[start..]);
            start += residuals[k].IsothermLength;
            scratch[isothermLength + (2 * k)] = tau;
            scratch[isothermLength + (2 * k) + 1] = k == 0 ? 1 - second : second;
        }
    }

    /// <summary>alpha and its density derivatives at the temperature the scratch is set to.</summary>
    public IsothermDerivatives AlongIsotherm(double density, ReadOnlySpan<double> scratch)
    {
        if (residuals.Length == 1)
        {
            return residuals[0].AlongIsotherm(scratch, scratch[isothermLength], density / reducingDensity[0]);
        }

        IsothermDerivatives sum = default;
        int start = 0;
        for (int k = 0; k < residuals.Length; k++)
        {
            double weight = scratch[isothermLength + (2 * k) + 1];
            IsothermDerivatives part = residuals[k].AlongIsotherm(scratch[start..], scratch[isothermLength + (2 * k)], density / reducingDensity[k]);
            sum = new(sum.Alpha + (weight * part.Alpha), sum.ByDelta + (weight * part.ByDelta), sum.ByDeltaDelta + (weight * part.ByDeltaDelta));
            start += residuals[k].IsothermLength;
        }

        return sum;
    }

    /// <summary>The density between two at which dp/drho has its minimum, by golden section to a relative tolerance, mol/m3.</summary>
    public double SoftestDensity(double first, double last, double tolerance, ReadOnlySpan<double> scratch)
    {
        const double Section = 0.3819660112501051;
        double a = Math.Min(first, last);
        double b = Math.Max(first, last);
        double x = a + (Section * (b - a));
        double y = b - (Section * (b - a));
        double atX = AlongIsotherm(x, scratch).Stiffness;
        double atY = AlongIsotherm(y, scratch).Stiffness;
        while (b - a > tolerance * b)
        {
            if (atX < atY)
            {
                b = y;
                y = x;
                atY = atX;
                x = a + (Section * (b - a));
                atX = AlongIsotherm(x, scratch).Stiffness;
            }
            else
            {
                a = x;
                x = y;
                atX = atY;
                y = b - (Section * (b - a));
                atY = AlongIsotherm(y, scratch).Stiffness;
            }
        }

        return 0.5 * (a + b);
    }

    /// <summary>alpha and all its derivatives to second order, in ln-tau and ln-delta sense at fixed share of the forms.</summary>
    public ResidualDerivatives At(double temperature, double density)
    {
        if (residuals.Length == 1)
        {
            return residuals[0].At(reducingTemperature[0] / temperature, density / reducingDensity[0]);
        }

        double second = share!.At(temperature, out _);
        ResidualDerivatives a = residuals[0].At(reducingTemperature[0] / temperature, density / reducingDensity[0]);
        ResidualDerivatives b = residuals[1].At(reducingTemperature[1] / temperature, density / reducingDensity[1]);
        double first = 1 - second;
        return new(
            (first * a.Alpha) + (second * b.Alpha),
            (first * a.ByTau) + (second * b.ByTau),
            (first * a.ByDelta) + (second * b.ByDelta),
            (first * a.ByTauTau) + (second * b.ByTauTau),
            (first * a.ByTauDelta) + (second * b.ByTauDelta),
            (first * a.ByDeltaDelta) + (second * b.ByDeltaDelta));
    }

    /// <inheritdoc/>
    public override double LnFugacityCoefficients(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, Span<double> lnPhi, out DensityRoot found)
    {
        double density = Density(temperature, pressure, root, scratch, out IsothermDerivatives at, out found);
        lnPhi[0] = LnPhi(at, temperature, pressure, density);
        return density;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivatives(
        double temperature,
        double pressure,
        ReadOnlySpan<double> x,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnPhi,
        Span<double> byAmount,
        Span<double> byTemperature,
        Span<double> byPressure,
        out DensityRoot found)
    {
        double density = Density(temperature, pressure, root, scratch, out IsothermDerivatives at, out found);
        lnPhi[0] = LnPhi(at, temperature, pressure, density);
        byAmount[0] = 0;
        if (!byTemperature.IsEmpty)
        {
            ResidualDerivatives full = At(temperature, density);
            byTemperature[0] = -(full.ByTau + full.ByDelta) / temperature;
        }

        if (!byPressure.IsEmpty)
        {
            byPressure[0] = (1 / (density * GasConstant * temperature)) - (1 / pressure);
        }

        return density;
    }

    /// <inheritdoc/>
    public override ResidualProperties Residual(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, out DensityRoot found)
    {
        double density = Density(temperature, pressure, root, scratch, out _, out found);
        return ResidualAtDensity(temperature, density, pressure);
    }

    /// <summary>
    /// Residual properties at temperature and molar density, counted from the ideal gas at the pressure there, which is asked for because that
    /// of a cold liquid is a small difference of large terms.
    /// </summary>
    public override ResidualProperties ResidualAtDensity(double temperature, double density, double pressure)
    {
        ResidualDerivatives r = At(temperature, density);
        double rt = GasConstant * temperature;
        double stiffness = 1 + (2 * r.ByDelta) + r.ByDeltaDelta;
        double pressureByTemperature = density * GasConstant * (1 + r.ByDelta - r.ByTauDelta);
        double isochoric = -GasConstant * r.ByTauTau;
        double difference = GasConstant * (1 + r.ByDelta - r.ByTauDelta) * (1 + r.ByDelta - r.ByTauDelta) / stiffness;
        return new(
            density,
            rt * (r.ByTau + r.ByDelta),
            GasConstant * (r.ByTau - r.Alpha + Math.Log(pressure / (density * rt))),
            isochoric,
            isochoric + difference - GasConstant,
            pressureByTemperature,
            -density * density * rt * stiffness,
            share is null ? 0 : ConversionHeatCapacity(temperature, density));
    }

    /// <inheritdoc/>
    public override double Pressure(double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, out double byVolume)
    {
        IsothermDerivatives at = AlongIsotherm(molarDensity, scratch);
        double rt = GasConstant * temperature;
        byVolume = -molarDensity * molarDensity * rt * at.Stiffness;
        return molarDensity * rt * at.Compressibility;
    }

    /// <inheritdoc/>
    public override double LnFugacityAtDensity(
        double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, Span<double> lnFugacityOverFraction)
    {
        IsothermDerivatives at = AlongIsotherm(molarDensity, scratch);
        double ideal = molarDensity * GasConstant * temperature;
        lnFugacityOverFraction[0] = at.ResidualGibbs + Math.Log(ideal);
        return ideal * at.Compressibility;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivativesAtDensity(
        double temperature,
        double molarDensity,
        ReadOnlySpan<double> x,
        Span<double> scratch,
        Span<double> lnFugacityOverFraction,
        Span<double> byAmount,
        Span<double> byTemperature,
        out double pressureByTemperature)
    {
        ResidualDerivatives r = At(temperature, molarDensity);
        byAmount[0] = (2 * r.ByDelta) + r.ByDeltaDelta;
        byTemperature[0] = (1 - r.ByTau - r.ByTauDelta) / temperature;
        pressureByTemperature = molarDensity * GasConstant * (1 + r.ByDelta - r.ByTauDelta);
        return LnFugacityAtDensity(temperature, molarDensity, x, scratch, lnFugacityOverFraction);
    }

    /// <inheritdoc/>
    public override double ReducedVolume(double molarDensity, ReadOnlySpan<double> x) => critical.MolarDensity / molarDensity;

    /// <inheritdoc/>
    public override double DensityLimit(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch) => HighestDensity;

    /// <inheritdoc/>
    public override void EstimateLnK(double temperature, double pressure, Span<double> lnK) =>
        lnK[0] = Math.Log(critical.Pressure / pressure) + (5.373 * (1 + acentricFactor) * (1 - (critical.Temperature / temperature)));

    /// <inheritdoc/>
    public override double CriticalTemperature(int component) => critical.Temperature;

    /// <inheritdoc/>
    public override double CriticalPressure(int component) => critical.Pressure;

    /// <inheritdoc/>
    public override double CriticalDensity(int component) => critical.MolarDensity;

    /// <inheritdoc/>
    public override bool TrySaturation(double temperature, Span<double> scratch, out double pressure, out double liquidDensity, out double vaporDensity)
    {
        SetTemperature(temperature, scratch);
        if (double.IsNaN(scratch[ScratchLength - 1]) || !Coexistence.TrySaturation(temperature, scratch, out pressure, out liquidDensity, out vaporDensity))
        {
            pressure = 0;
            liquidDensity = 0;
            vaporDensity = 0;
            return false;
        }

        return true;
    }

    /// <inheritdoc/>
    public override bool TryLimits(double temperature, Span<double> scratch, out double vaporDensity, out double liquidDensity)
    {
        vaporDensity = 0;
        liquidDensity = 0;
        if (!(temperature < critical.Temperature))
        {
            return false;
        }

        SetTemperature(temperature, scratch);
        return Coexistence.TryLimits(temperature, scratch, out vaporDensity, out liquidDensity);
    }

    /// <inheritdoc/>
    public override bool TryBoiling(double pressure, Span<double> scratch, out double temperature, out double liquidDensity, out double vaporDensity)
    {
        temperature = 0;
        liquidDensity = 0;
        vaporDensity = 0;
        double target = Math.Log(pressure);
        if (!(pressure < critical.Pressure) || target < Coexistence.LowestLnPressure - PressureSlack)
        {
            return false;
        }

        temperature = Coexistence.EstimateTemperature(target, out double slope);
        double previous = 0;
        double previousMiss = 0;
        double last = double.PositiveInfinity;
        for (int iteration = 0; iteration < 50; iteration++)
        {
            if (!TrySaturation(temperature, scratch, out double p, out liquidDensity, out vaporDensity))
            {
                return false;
            }

            double miss = Math.Log(p) - target;
            if (iteration > 0 && temperature != previous)
            {
                slope = (miss - previousMiss) / (temperature - previous);
            }

            double move = -miss / slope;
            if (Math.Abs(move) <= 1e-15 * temperature || (iteration > 2 && Math.Abs(move) >= 0.5 * last))
            {
                break;
            }

            previous = temperature;
            previousMiss = miss;
            last = Math.Abs(move);
            temperature = Math.Min(temperature + move, critical.Temperature * (1 - 2e-12));
        }

        temperature = Math.Max(temperature, LowestTemperature);
        return true;
    }

    /// <summary>Second virial coefficient, m3/mol, its temperature derivative, m3/(mol K), and the third, m6/mol2.</summary>
    public override void Virials(double temperature, ReadOnlySpan<double> x, Span<double> scratch, out double second, out double secondByTemperature, out double third)
    {
        second = 0;
        secondByTemperature = 0;
        third = 0;
        double slope = 0;
        double ortho = share?.At(temperature, out slope) ?? 0;
        for (int k = 0; k < residuals.Length; k++)
        {
            double weight = k == 0 ? 1 - ortho : ortho;
            residuals[k].Virials(reducingTemperature[k] / temperature, out double b, out double bByTau, out double c);
            double volume = 1 / reducingDensity[k];
            second += weight * b * volume;
            secondByTemperature += (-weight * bByTau * volume / temperature) + ((k == 0 ? -slope : slope) * b * volume);
            third += weight * c * volume * volume;
        }
    }

    /// <summary>
    /// Molar density at temperature and pressure, mol/m3. Roots are looked for outside the outermost spinodals only: long equations have
    /// loops between them whose roots may have by far the lowest Gibbs energy.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is above what the equation reaches within its densities.</exception>
    public double Density(double temperature, double pressure, DensityRoot root, Span<double> scratch, out IsothermDerivatives at, out DensityRoot found)
    {
        double reduced = pressure / (GasConstant * temperature);
        ReadOnlySpan<double> bounds = scratch.Slice(ScratchLength - 5, 5);
        if (double.IsNaN(bounds[4]))
        {
            double start = StartAboveCritical(temperature, pressure, reduced);
            double only = Solve(temperature, pressure, 0, HighestDensity, start, scratch, out at, out _);
            found = only < critical.MolarDensity ? DensityRoot.Vapor : DensityRoot.Liquid;
            return only;
        }

        Branches limits = new(bounds[0], bounds[1], bounds[2], bounds[3], bounds[4]);
        if (TryDensity(temperature, pressure, root, limits, scratch, out double density, out at, out found))
        {
            return density;
        }

        // Next to the critical point the table is too coarse to bound the branches.
        if (!Coexistence.TryLimits(temperature, scratch, out double vaporLimit, out double liquidLimit)
            || !Coexistence.TrySaturation(temperature, scratch, out double saturation, out double liquid, out double vapor))
        {
            double only = Solve(temperature, pressure, 0, HighestDensity, critical.MolarDensity, scratch, out at, out _);
            found = only < critical.MolarDensity ? DensityRoot.Vapor : DensityRoot.Liquid;
            return only;
        }

        limits = new(vaporLimit, liquidLimit, vapor, liquid, Math.Log(saturation));
        TryDensity(temperature, pressure, root, limits, scratch, out density, out at, out found);
        return density;
    }

    private bool TryDensity(
        double temperature,
        double pressure,
        DensityRoot root,
        in Branches limits,
        ReadOnlySpan<double> scratch,
        out double density,
        out IsothermDerivatives at,
        out DensityRoot found)
    {
        double reduced = pressure / (GasConstant * temperature);
        double gap = Math.Log(pressure) - limits.LnPressure;
        DensityRoot wanted = root;
        if (root == DensityRoot.Stable && Math.Abs(gap) > TableTolerance)
        {
            wanted = gap > 0 ? DensityRoot.Liquid : DensityRoot.Vapor;
        }

        bool hasVapor = gap <= 0 || Holds(limits.VaporLimit, reduced, scratch, above: false);
        bool hasLiquid = gap >= 0 || Holds(limits.LiquidLimit, reduced, scratch, above: true);
        double vaporStart = Math.Min(reduced, limits.Vapor);
        if (wanted == DensityRoot.Vapor ? hasVapor : !hasLiquid)
        {
            found = DensityRoot.Vapor;
            density = Solve(temperature, pressure, 0, limits.VaporLimit, vaporStart, scratch, out at, out bool converged);
            return converged;
        }

        if (wanted != DensityRoot.Stable || !hasVapor)
        {
            found = DensityRoot.Liquid;
            density = Solve(temperature, pressure, limits.LiquidLimit, HighestDensity, limits.Liquid, scratch, out at, out bool converged);
            return converged;
        }

        double thin = Solve(temperature, pressure, 0, limits.VaporLimit, vaporStart, scratch, out IsothermDerivatives vapor, out bool isVaporSolved);
        double dense = Solve(temperature, pressure, limits.LiquidLimit, HighestDensity, limits.Liquid, scratch, out IsothermDerivatives liquid, out bool isLiquidSolved);
        bool isLiquid = LnPhi(liquid, temperature, pressure, dense) < LnPhi(vapor, temperature, pressure, thin);
        found = isLiquid ? DensityRoot.Liquid : DensityRoot.Vapor;
        at = isLiquid ? liquid : vapor;
        density = isLiquid ? dense : thin;
        return isVaporSolved && isLiquidSolved;
    }

    // Highest pressure, Pa, on the rising parts of an isotherm's dense side, within the densities looked at.
    private double PressureReached(double temperature)
    {
        Span<double> scratch = stackalloc double[ScratchLength];
        SetIsotherm(temperature, scratch);
        double highest = 0;
        for (int i = 0; i <= DensitySteps; i++)
        {
            double density = HighestDensity * (1 - (i * 0.5 / DensitySteps));
            IsothermDerivatives at = AlongIsotherm(density, scratch);
            if (at.Stiffness > 0)
            {
                highest = Math.Max(highest, density * at.Compressibility * GasConstant * temperature);
            }
        }

        return highest;
    }

    // From the pressure asked for: that of a cold liquid, computed back from its density, is a small difference of large terms.
    private double LnPhi(IsothermDerivatives at, double temperature, double pressure, double density) =>
        at.ResidualGibbs - Math.Log(pressure / (density * GasConstant * temperature));

    // Whether the branch that ends at a spinodal reaches the pressure.
    private bool Holds(double spinodal, double reduced, ReadOnlySpan<double> scratch, bool above)
    {
        double atSpinodal = spinodal * AlongIsotherm(spinodal, scratch).Compressibility;
        return above ? atSpinodal < reduced : atSpinodal > reduced;
    }

    // The pressure rises with density all the way above the critical temperature; a cubic equation starts within some percent.
    private double StartAboveCritical(double temperature, double pressure, double reduced)
    {
        if (reduced < 0.05 * critical.MolarDensity || temperature > 5 * critical.Temperature)
        {
            return Math.Min(reduced, 0.5 * HighestDensity);
        }

        CubicMixture cubic = estimate.Value;
        Span<double> scratch = stackalloc double[5];
        cubic.SetTemperature(temperature, scratch);
        Span<double> lnPhi = stackalloc double[1];
        return Math.Min(cubic.LnFugacityCoefficients(temperature, pressure, [1.0], DensityRoot.Stable, scratch, lnPhi, out _), 0.9 * HighestDensity);
    }

    private CubicMixture Estimate() => new(
        CubicForm.PengRobinson,
        [new(critical.Temperature, critical.Pressure, acentricFactor, SoaveAlpha.PengRobinson1976(critical.Temperature, acentricFactor), 0)],
        [0],
        GasConstant);

    private double Solve(double temperature, double pressure, double low, double high, double start, ReadOnlySpan<double> scratch, out IsothermDerivatives at, out bool converged)
    {
        double density = SolveInside(temperature, pressure, low, high, start, scratch, false, out at, out converged);
        if (converged || density <= 0.999999 * HighestDensity)
        {
            return density;
        }

        // Far below the stated range the pressure of some equations has a maximum within the densities looked at: the root lies before it.
        density = SolveInside(temperature, pressure, low, high, start, scratch, true, out at, out converged);
        return converged ? density : throw new ArgumentOutOfRangeException(
            nameof(pressure),
            pressure,
            $"pressure is {pressure:G6} Pa; at {temperature:G6} K the equation of state is followed to {density * at.Compressibility * GasConstant * temperature:G6} Pa ({density:G6} mol/m3) only.");
    }

    // Newton inside a bracket in which the pressure rises with density; on demand only up to where it stops rising.
    private double SolveInside(
        double temperature, double pressure, double low, double high, double start, ReadOnlySpan<double> scratch, bool whileRising, out IsothermDerivatives at, out bool converged)
    {
        converged = true;
        double reduced = pressure / (GasConstant * temperature);
        double density = start;
        for (int iteration = 0; iteration < 200; iteration++)
        {
            at = AlongIsotherm(density, scratch);
            double miss = (density * at.Compressibility) - reduced;
            if (miss > 0 || (whileRising && at.Stiffness <= 0))
            {
                high = density;
            }
            else
            {
                low = density;
            }

            double next = density - (miss / at.Stiffness);
            if (at.Stiffness > 0 && Math.Abs(next - density) <= LastStep * density)
            {
                at = AlongIsotherm(next, scratch);
                return next;
            }

            if (!(at.Stiffness > 0 && next > low && next < high))
            {
                next = high > 3 * low && low > 0 ? Math.Sqrt(low * high) : 0.5 * (low + high);
            }

            if (high - low <= 4e-16 * high)
            {
                break;
            }

            density = next;
        }

        at = AlongIsotherm(density, scratch);
        converged = at.Stiffness > 0 && Math.Abs((density * at.Compressibility) - reduced) <= 1e-11 * Math.Max(reduced, density);
        return density;
    }

    // dh/dT at constant pressure that the change of the share carries, beyond the ideal gas: dx/dT d(h_res)/dx at constant T and p.
    private double ConversionHeatCapacity(double temperature, double density)
    {
        share!.At(temperature, out double slope);
        ResidualDerivatives a = residuals[0].At(reducingTemperature[0] / temperature, density / reducingDensity[0]);
        ResidualDerivatives b = residuals[1].At(reducingTemperature[1] / temperature, density / reducingDensity[1]);
        ResidualDerivatives r = At(temperature, density);
        double stiffness = 1 + (2 * r.ByDelta) + r.ByDeltaDelta;
        double atDensity = b.ByTau + b.ByDelta - a.ByTau - a.ByDelta;
        double enthalpyByLnDensity = r.ByTauDelta + r.ByDelta + r.ByDeltaDelta;
        double lnDensityByShare = -(b.ByDelta - a.ByDelta) / stiffness;
        return GasConstant * temperature * slope * (atDensity + (enthalpyByLnDensity * lnDensityByShare));
    }

    /// <summary>Where the branches of a subcritical isotherm end, what is saturated on them, and ln of the vapour pressure.</summary>
    private readonly record struct Branches(double VaporLimit, double LiquidLimit, double Vapor, double Liquid, double LnPressure);
}
