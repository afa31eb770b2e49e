using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// Something about a built cooler that is not known exactly. Its bounds are taken as two standard deviations of a normal distribution: 95 of 100 lie within. Of
/// conductance, valve and compressor a percentage is a factor: 30 % means times or over 1.3. Immutable and thread-safe.
/// </summary>
public sealed class CoolerUncertainty
{
    /// <summary>Bounds below this, in percent, millimetres or kelvins, count as zero.</summary>
    private const double KnownExactly = 1e-5;

    private static readonly Source Texts = new("cycle texts", FromMemory: true);
    private static readonly Source Stated = new("as stated for the machine", FromMemory: false);

    private readonly Func<CoolerCase, double, CoolerCase> move;

    private CoolerUncertainty(string name, string advice, Source source, Func<CoolerCase, double, CoolerCase> move)
    {
        Name = name;
        Advice = advice;
        Source = source;
        this.move = move;
    }

    /// <summary>What is not known, with its bounds.</summary>
    public string Name { get; }

    /// <summary>How to know it better.</summary>
    public string Advice { get; }

    /// <summary>Where the bounds come from.</summary>
    public Source Source { get; }

    /// <summary>Conductance of the recuperator, of both exchangers beside a separator, or the heat that its tubes exchange, where films of boiling blends are not known to better than 30 % or more.</summary>
    /// <param name="percent">Of it, above zero to 80; 30 is usual (cycle texts, from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Conductance(double percent = 30)
    {
        double share = Checked(percent, 80);
        return new(
            FormattableString.Invariant($"recuperator conductance times or over {1 + share:G4}"),
            "Read both temperatures at the warm end and both at the cold end at a known load: they give the conductance.",
            Texts,
            (c, u) =>
            {
                double factor = Math.Exp(u * Math.Log(1 + share));
                return c with { Cooler = c.Cooler with { Recuperator = c.Cooler.Recuperator.Scaled(factor), Separator = c.Cooler.Separator?.Scaled(factor) } };
            });
    }

    /// <summary>Heat leak into the cold head.</summary>
    /// <param name="factor">It may be this many times more, or less: above 1 to 10; 2 is usual (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Leak(double factor = 2)
    {
        Guard.InRange(factor, 1 + 1e-9, 10, "times");
        return new(
            FormattableString.Invariant($"heat leak times or over {factor:G4}"),
            "Let the cold head warm up with the compressor off and read its temperature over time, or boil a known liquid off it.",
            Source.CommonPractice,
            (c, u) => c with { Cooler = c.Cooler with { LeakFactor = c.Cooler.LeakFactor * Math.Pow(factor, u) } });
    }

    /// <summary>
    /// Bore of every capillary in the throttle, and of the opening of every valve: that of the hole with the valve's effective area (<see cref="ControlValve.EffectiveArea"/>).
    /// A seat is wider than that hole, so that the same tolerance of the seat itself moves the flow a little less.
    /// </summary>
    /// <param name="tolerance">Above zero to 10 mm, small against the bore; 0.02 mm is usual of drawn tube (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty ThrottleBore(Length tolerance)
    {
        double meters = Guard.InRange(tolerance.Meters, 1e-9, 1e-2, "m", nameof(tolerance));
        return new(
            FormattableString.Invariant($"bore of the throttle +-{tolerance.Millimeters:G3} mm"),
            "Pass dry nitrogen through it from a regulator, at the setting it has, and read the flow: that tells the opening better than any gauge.",
            Source.CommonPractice,
            (c, u) => c with { Cooler = c.Cooler with { Throttle = Each(c.Cooler.Throttle, p => WithBore(p, u * meters)) } });
    }

    /// <summary>Flow coefficient of every valve in the throttle.</summary>
    /// <param name="percent">Of it, above zero to 80; 10 is usual of a setting by eye (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty ValveCoefficient(double percent = 10)
    {
        double share = Checked(percent, 80);
        return new(
            FormattableString.Invariant($"valve coefficient times or over {1 + share:G4}"),
            "Pass dry nitrogen or air through the valve at this setting and read the flow.",
            Source.CommonPractice,
            (c, u) => c with { Cooler = c.Cooler with { Throttle = Each(c.Cooler.Throttle, p => p is ControlValve v ? new ControlValve(v.FlowCoefficientKv * Math.Exp(u * Math.Log(1 + share)), v.Style) : p) } });
    }

    /// <summary>Amount of one component in the charge.</summary>
    /// <param name="component">A component of the charge.</param>
    /// <param name="percent">Of its amount, above zero to 50; 2 is usual of filling by gauge (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Filling(string component, double percent = 2)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(component);
        double share = Checked(percent, 50);
        return new(
            FormattableString.Invariant($"amount of {component} +-{percent:G3} %"),
            "Weigh the bottle before and after, or have a sample of the circulating gas analysed.",
            Source.CommonPractice,
            (c, u) => c with { Charge = c.Charge.WithMore(component, u * share) });
    }

    /// <summary>Temperature of the room.</summary>
    /// <param name="difference">Above zero to 20 K; 5 K is usual of a room without a cooler of its own (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Ambient(TemperatureDelta difference)
    {
        double kelvins = Guard.InRange(difference.Kelvins, 1e-6, 20, "K", nameof(difference));
        return new(
            FormattableString.Invariant($"room +-{kelvins:G3} K"),
            "Log the room and the after-cooler's outlet over a day; a fan or a water loop fixes the outlet.",
            Source.CommonPractice,
            (c, u) => c with { Ambient = Temperature.FromKelvins(c.Ambient.Kelvins + (u * kelvins)) });
    }

    /// <summary>Swept volume and filling of the compressor.</summary>
    /// <param name="percent">Of the flow it delivers, above zero to 50; 10 is usual of one not measured (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Displacement(double percent = 10)
    {
        double share = Checked(percent, 50);
        return new(
            FormattableString.Invariant($"compressor flow times or over {1 + share:G4}"),
            "Pump a known volume of nitrogen up to pressure and time it, at the pressure ratio of the cooler.",
            Source.CommonPractice,
            (c, u) => c with { Cooler = c.Cooler with { Compressor = Faster(c.Cooler.Compressor, Math.Exp(u * Math.Log(1 + share))) } });
    }

    /// <summary>
    /// Error of the fluid's model on the cooling: the known error of the model where there is one on record, which is then taken as one-sided, and a stated share otherwise. Pairs
    /// with an error of their own are apart: <see cref="Pairs"/>.
    /// </summary>
    /// <param name="fluid">The charge.</param>
    /// <param name="percent">Taken where no error is on record: above zero to 50; 5 is a guess from the comparisons of this library (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Model(WorkingFluid fluid, double percent = 5)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double share = Checked(percent, 50);
        CapacityError? known = fluid.Model.CapacityErrorOf(fluid.Composition);

        // A model that computes e % too much leaves 1/(1 + e) of what it says.
        double least = known is null ? 1 - share : 1 / (1 + (known.HighPercent / 100));
        double most = known is null ? 1 + share : 1 / (1 + (known.LowPercent / 100));
        return new(
            FormattableString.Invariant($"{fluid.Model.Name}: cooling times {least:F2} to {most:F2}"),
            "Compute with the recommended model; a load measured at one temperature then tells the rest.",
            known?.Source ?? Source.CommonPractice,
            (c, u) => c with { Cooler = c.Cooler with { CoolingFactor = c.Cooler.CoolingFactor * (0.5 * (least + most + (u * (most - least)))) } });
    }

    /// <summary>
    /// The interaction of each pair whose error is on record: the half-width of the estimating rule, or twice the standard error of a pair fitted here. Pairs as published carry no
    /// error of their own; that of the model stands for them.
    /// </summary>
    /// <param name="fluid">The charge, under the model that differences are computed with.</param>
    public static IReadOnlyList<CoolerUncertainty> Pairs(WorkingFluid fluid)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        return
        [
            .. fluid.Pedigree.Pairs.Select(pair => pair switch
            {
                CubicPair { HalfWidth95: { } half } cubic => Pair(fluid, cubic, "k", half, u => cubic with { InteractionParameter = cubic.InteractionParameter + (u * half) }),
                CubicPair { Tier: PairTier.FittedHere, StandardError: { } error } cubic =>
                    Pair(fluid, cubic, "k", 2 * error, u => cubic with { InteractionParameter = cubic.InteractionParameter + (2 * u * error) }),
                MultiFluidPair { HalfWidth95: { } half } multi => Pair(fluid, multi, "gamma", half, u => Moved(multi, u * half)),
                MultiFluidPair { StandardErrors.TemperatureGamma: > 0 and var error } multi => Pair(fluid, multi, "gamma", 2 * error, u => Moved(multi, 2 * u * error)),
                _ => null,
            }).OfType<CoolerUncertainty>(),
        ];

        static MultiFluidPair Moved(MultiFluidPair pair, double more) => pair with { Temperature = pair.Temperature with { Gamma = pair.Temperature.Gamma + more } };
    }

    /// <summary>What is uncertain of a cooler, with the usual bounds where no other is stated.</summary>
    /// <param name="cooler">The cooler.</param>
    /// <param name="charge">Its charge.</param>
    /// <param name="stated">Bounds that are known better; null for none. What it says to be known exactly is left out.</param>
    /// <param name="differencesBy">Model that the differences are computed with, whose pairs count; null for that of the charge.</param>
    /// <exception cref="ArgumentOutOfRangeException">A stated figure is out of its range.</exception>
    public static IReadOnlyList<CoolerUncertainty> Usual(Cooler cooler, CoolerCharge charge, UncertaintyDescription? stated = null, FluidModel? differencesBy = null)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        ArgumentNullException.ThrowIfNull(charge);
        UncertaintyDescription told = stated ?? new();
        WorkingFluid fluid = charge.Fluid;
        List<CoolerUncertainty> found = [];
        Add(Above(told.ConductanceFactor), 30, p => [Conductance(p)]);
        if (cooler.Leaks.Count > 0)
        {
            Add(told.LeakFactor - 1, 1, f => [Leak(1 + f)]);
        }

        Add(told.ThrottleBore?.Millimeters, 0.02, b => [ThrottleBore(Length.FromMillimeters(b))]);
        Add(100 * told.FillingFraction, 2, p => [.. fluid.Composition.Components.Where((_, i) => fluid.Composition.MoleFractions[i] > 0).Select(c => Filling(c.Name, p))]);
        Add(told.AmbientDifference?.Kelvins, 5, k => [Ambient(TemperatureDelta.FromKelvins(k))]);
        Add(Above(told.CompressorFlowFactor), 10, p => [Displacement(p)]);
        bool isOnRecord = fluid.Model.CapacityErrorOf(fluid.Composition) is not null;
        Add(isOnRecord ? null : 100 * told.ModelFraction, 5, p => [Model(fluid, p)]);
        found.AddRange(Pairs(differencesBy is null ? fluid : fluid.WithModel(differencesBy)));
        return found;

        static double? Above(double? factor) => factor is { } times ? Math.Round(100 * (times - 1), 9) : null;

        void Add(double? given, double usual, Func<double, IEnumerable<CoolerUncertainty>> make)
        {
            if (given is not (>= 0 and < KnownExactly))
            {
                found.AddRange(make(given ?? usual).Select(u => given is null ? u : new(u.Name, u.Advice, Stated, u.move)));
            }
        }
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The cooler with this moved to a share of its bound: 1 is the upper, -1 the lower.</summary>
    /// <exception cref="ArgumentException">The charge lacks what this is about.</exception>
    internal CoolerCase Moved(CoolerCase from, double bound) => move(from, bound);

    private static double Checked(double percent, double most) => Guard.InRange(percent, 1e-6, most, "%") / 100;

    private static CoolerUncertainty Pair(WorkingFluid fluid, BinaryPair pair, string symbol, double half, Func<double, BinaryPair> moved)
    {
        bool isCubic = pair is CubicPair;
        string name = FormattableString.Invariant($"{pair.First.Name} with {pair.Second.Name}: {symbol} +-{half:G2}");
        return new(
            name,
            "Fit the pair to measured boiling points of the two, or have the blend's bubble point measured.",
            pair.Source,
            (c, u) => (c.Charge.Fluid.Model.Cubic is not null) == isCubic
                ? c with { Charge = new(c.Charge.Fluid.WithPair(moved(u)), c.Charge.Amount) }
                : throw new ArgumentException($"uncertainties holds '{name}', which is of {fluid.Model.Name}; the differences are computed with {c.Charge.Fluid.Model.Name}.", nameof(fluid)));
    }

    private static Machines.Compressor Faster(Machines.Compressor old, double factor) => new(old.SweptVolumeFlow * factor, old.Filling, old.Efficiency, old.ShellHeatLossFraction);

    private static IThrottlePart Each(IThrottlePart part, Func<IThrottlePart, IThrottlePart> change) => part switch
    {
        ThrottleSeries series => new ThrottleSeries([.. series.Parts.Select(p => Each(p, change))]),
        ThrottleBranches branches => new ThrottleBranches([.. branches.Branches.Select(p => Each(p, change))]),
        _ => change(part),
    };

    private static IThrottlePart WithBore(IThrottlePart part, double more)
    {
        return part switch
        {
            Capillary pipe => new Capillary(
                [.. pipe.Sections.Select(s => new CapillarySection(s.Bore * Factor(s.Bore.Meters), s.Length))], pipe.EntranceLoss, pipe.TwoPhaseViscosity, pipe.Exchange),
            ControlValve valve => new ControlValve(valve.FlowCoefficientKv * Math.Pow(Factor(Math.Sqrt(4 * valve.EffectiveArea.SquareMeters / Math.PI)), 2), valve.Style),
            _ => part,
        };

        // Never less than half of it: a bore that fine asks for a tolerance of its own.
        double Factor(double bore) => Math.Max(0.5, 1 + (more / bore));
    }
}
