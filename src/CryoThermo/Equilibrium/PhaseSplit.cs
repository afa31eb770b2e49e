using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium;

/// <summary>Result of an isothermal flash in memory of the caller. SI, molar.</summary>
internal ref struct PhaseSplit
{
    /// <summary>Wraps caller memory; each span has one element a component.</summary>
    public PhaseSplit(Span<double> light, Span<double> middle, Span<double> heavy)
    {
        Light = light;
        Middle = middle;
        Heavy = heavy;
    }

    /// <summary>1, 2 or 3.</summary>
    public int PhaseCount { get; set; }

    /// <summary>
    /// True when even the best answer is unstable, so that a further phase exists (a fourth one, or the third where only two were asked for).
    /// The figures are then those of the best answer. True also where the fugacities of the phases could not be made equal.
    /// </summary>
    public bool StillUnstable { get; set; }

    /// <summary>Amount of the light phase over the whole; 1 for a single vapour-like phase, 0 for a single liquid-like phase.</summary>
    public double LightFraction { get; set; }

    /// <summary>Amount of the third phase, the liquid between the two in density, over the whole; meaningful with three phases only.</summary>
    public double MiddleFraction { get; set; }

    /// <summary>Amount of the heavy phase over the whole, with its own digits when small.</summary>
    public double HeavyFraction { get; set; }

    /// <summary>Mole fractions of the less dense phase; equal to the feed for a single phase.</summary>
    public Span<double> Light { get; }

    /// <summary>Mole fractions of the third phase; meaningful with three phases only.</summary>
    public Span<double> Middle { get; }

    /// <summary>Mole fractions of the denser phase; equal to the feed for a single phase.</summary>
    public Span<double> Heavy { get; }

    /// <summary>Molar density of the light phase, mol/m3.</summary>
    public double LightDensity { get; set; }

    /// <summary>Molar density of the third phase, mol/m3.</summary>
    public double MiddleDensity { get; set; }

    /// <summary>Molar density of the heavy phase, mol/m3.</summary>
    public double HeavyDensity { get; set; }

    /// <summary>Which density root the light phase takes.</summary>
    public DensityRoot LightRoot { get; set; }

    /// <summary>Which density root the third phase takes.</summary>
    public DensityRoot MiddleRoot { get; set; }

    /// <summary>Which density root the heavy phase takes.</summary>
    public DensityRoot HeavyRoot { get; set; }

    /// <summary>True when the light phase is a vapour (a single phase: whether it is vapour-like).</summary>
    public bool LightIsVapor { get; set; }

    /// <summary>Gibbs energy over R T of the split less that of the feed as its best single phase; zero for one phase.</summary>
    public double GibbsGain { get; set; }

    /// <summary>Largest difference of ln fugacity between the phases over all components present.</summary>
    public double Residual { get; set; }

    /// <summary>Most negative tangent-plane distance found in the final test (0 when none was negative).</summary>
    public double TangentPlaneDistance { get; set; }

    /// <summary>Amount of a phase over the whole, 0 the lightest.</summary>
    public readonly double AmountOf(int phase) =>
        PhaseCount == 1 ? 1 : phase == 0 ? LightFraction : phase == PhaseCount - 1 ? HeavyFraction : MiddleFraction;

    /// <summary>Mole fractions of a phase, 0 the lightest.</summary>
    public readonly ReadOnlySpan<double> FractionsOf(int phase) => phase == 0 ? Light : phase == PhaseCount - 1 ? Heavy : Middle;

    /// <summary>Molar density of a phase, 0 the lightest, mol/m3.</summary>
    public readonly double DensityOf(int phase) => phase == 0 ? LightDensity : phase == PhaseCount - 1 ? HeavyDensity : MiddleDensity;

    /// <summary>Takes the phase of the smallest amount away; the amounts of the others then add up to less than 1.</summary>
    public void RemoveSmallest()
    {
        if (PhaseCount == 2)
        {
            PhaseCount = 1;
        }
        else if (PhaseCount == 3)
        {
            bool isLight = LightFraction < MiddleFraction && LightFraction < HeavyFraction;
            if (isLight || HeavyFraction < MiddleFraction)
            {
                Middle.CopyTo(isLight ? Light : Heavy);
                (LightFraction, HeavyFraction) = isLight ? (MiddleFraction, HeavyFraction) : (LightFraction, MiddleFraction);
                (LightRoot, HeavyRoot) = isLight ? (MiddleRoot, HeavyRoot) : (LightRoot, MiddleRoot);
                (LightDensity, HeavyDensity) = isLight ? (MiddleDensity, HeavyDensity) : (LightDensity, MiddleDensity);
            }

            PhaseCount = 2;
        }
    }

    /// <summary>Takes the phases of a solved state as a start.</summary>
    public void CopyFrom(EquilibriumResult near)
    {
        PhaseResult[] phases = near.Phases;
        PhaseResult light = phases[0];
        PhaseResult heavy = phases[^1];
        PhaseCount = phases.Length;
        light.MoleFractions.CopyTo(Light);
        heavy.MoleFractions.CopyTo(Heavy);
        LightFraction = phases.Length == 1 && !light.IsVapor ? 0 : light.Fraction;
        HeavyFraction = phases.Length == 1 && light.IsVapor ? 0 : heavy.Fraction;
        LightRoot = light.Figures.Root;
        HeavyRoot = heavy.Figures.Root;
        LightDensity = light.Figures.MolarDensity;
        HeavyDensity = heavy.Figures.MolarDensity;
        LightIsVapor = light.IsVapor;
        if (phases.Length == 3)
        {
            PhaseResult middle = phases[1];
            middle.MoleFractions.CopyTo(Middle);
            MiddleFraction = middle.Fraction;
            MiddleRoot = middle.Figures.Root;
            MiddleDensity = middle.Figures.MolarDensity;
        }
    }

    /// <summary>Copies every figure into another result's own memory.</summary>
    public static void Copy(scoped PhaseSplit source, ref PhaseSplit target)
    {
        source.Light.CopyTo(target.Light);
        source.Middle.CopyTo(target.Middle);
        source.Heavy.CopyTo(target.Heavy);
        target.PhaseCount = source.PhaseCount;
        target.StillUnstable = source.StillUnstable;
        target.LightFraction = source.LightFraction;
        target.MiddleFraction = source.MiddleFraction;
        target.HeavyFraction = source.HeavyFraction;
        target.LightDensity = source.LightDensity;
        target.MiddleDensity = source.MiddleDensity;
        target.HeavyDensity = source.HeavyDensity;
        target.LightRoot = source.LightRoot;
        target.MiddleRoot = source.MiddleRoot;
        target.HeavyRoot = source.HeavyRoot;
        target.LightIsVapor = source.LightIsVapor;
        target.GibbsGain = source.GibbsGain;
        target.Residual = source.Residual;
        target.TangentPlaneDistance = source.TangentPlaneDistance;
    }
}
