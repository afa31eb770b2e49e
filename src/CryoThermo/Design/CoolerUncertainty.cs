using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// Something about a built cooler that is not known exactly. Its bounds are taken as two standard deviations of a normal distribution: 95 of 100 lie within. Of
/// conductance, valve and compressor a percentage is a factor: 30 % means times or over 1.3. Immutable and thread-safe.
/// </summary>
public sealed class CoolerUncertainty
{
    private readonly Func<CoolerCase, double, CoolerCase> move;

    private CoolerUncertainty(string name, string advice, Func<CoolerCase, double, CoolerCase> move)
    {
        Name = name;
        Advice = advice;
        this.move = move;
    }

    /// <summary>What is not known, with its bounds.</summary>
    public string Name { get; }

    /// <summary>How to know it better.</summary>
    public string Advice { get; }

    /// <summary>Conductance of the recuperator, or the heat that its tubes exchange, where films of boiling blends are not known to better than 30 % or more.</summary>
    /// <param name="percent">Of it, above zero to 80; 30 is usual (cycle texts, from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Conductance(double percent = 30)
    {
        double share = Checked(percent, 80);
        return new(
            FormattableString.Invariant($"recuperator conductance +-{percent:G3} %"),
            "Read both temperatures at the warm end and both at the cold end at a known load: they give the conductance.",
            (c, u) => c with { Cooler = c.Cooler with { Recuperator = c.Cooler.Recuperator.Scaled(Math.Exp(u * Math.Log(1 + share))) } });
    }

    /// <summary>Heat leak into the cold head.</summary>
    /// <param name="factor">It may be this many times more, or less: above 1 to 10; 2 is usual (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Leak(double factor = 2)
    {
        Guard.InRange(factor, 1 + 1e-9, 10, "times");
        return new(
            FormattableString.Invariant($"heat leak times or over {factor:G3}"),
            "Let the cold head warm up with the compressor off and read its temperature over time, or boil a known liquid off it.",
            (c, u) => c with { Cooler = c.Cooler with { LeakFactor = c.Cooler.LeakFactor * Math.Pow(factor, u) } });
    }

    /// <summary>Bore of every capillary in the throttle.</summary>
    /// <param name="tolerance">Above zero to a tenth of the bore; 0.02 mm is usual of drawn tube (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty CapillaryBore(Length tolerance)
    {
        double meters = Guard.InRange(tolerance.Meters, 1e-9, 1e-2, "m", nameof(tolerance));
        return new(
            FormattableString.Invariant($"capillary bore +-{tolerance.Millimeters:G3} mm"),
            "Pass dry nitrogen through it from a regulator and read the flow: it gives the bore better than any gauge.",
            (c, u) => c with { Cooler = c.Cooler with { Throttle = WithBore(c.Cooler.Throttle, u * meters) } });
    }

    /// <summary>Flow coefficient of every valve in the throttle.</summary>
    /// <param name="percent">Of it, above zero to 80; 10 is usual of a setting by eye (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty ValveCoefficient(double percent = 10)
    {
        double share = Checked(percent, 80);
        return new(
            FormattableString.Invariant($"valve coefficient +-{percent:G3} %"),
            "Pass dry nitrogen or air through the valve at this setting and read the flow.",
            (c, u) => c with { Cooler = c.Cooler with { Throttle = WithCoefficient(c.Cooler.Throttle, Math.Exp(u * Math.Log(1 + share))) } });
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
            (c, u) => c with { Charge = c.Charge.WithMore(component, u * share) });
    }

    /// <summary>Temperature of the room.</summary>
    /// <param name="difference">Above zero to 20 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Ambient(TemperatureDelta difference)
    {
        double kelvins = Guard.InRange(difference.Kelvins, 1e-6, 20, "K", nameof(difference));
        return new(
            FormattableString.Invariant($"room +-{kelvins:G3} K"),
            "Log the room and the after-cooler's outlet over a day; a fan or a water loop fixes the outlet.",
            (c, u) => c with { Ambient = Temperature.FromKelvins(c.Ambient.Kelvins + (u * kelvins)) });
    }

    /// <summary>Swept volume and filling of the compressor.</summary>
    /// <param name="percent">Of the flow it delivers, above zero to 50; 10 is usual of one not measured (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Displacement(double percent = 10)
    {
        double share = Checked(percent, 50);
        return new(
            FormattableString.Invariant($"compressor flow +-{percent:G3} %"),
            "Pump a known volume of nitrogen up to pressure and time it, at the pressure ratio of the cooler.",
            (c, u) => c with { Cooler = c.Cooler with { Compressor = Faster(c.Cooler.Compressor, Math.Exp(u * Math.Log(1 + share))) } });
    }

    /// <summary>
    /// Error of the fluid's model, pairs estimated among it, on the cooling: from the known error of the model where there is one on record, which is then taken as one-sided, and
    /// a stated share otherwise.
    /// </summary>
    /// <param name="fluid">The charge.</param>
    /// <param name="percent">Taken where no error is on record, and added where pairs are estimated: above zero to 50; 5 is a guess from the comparisons of this library (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">The figure is out of its range.</exception>
    public static CoolerUncertainty Model(WorkingFluid fluid, double percent = 5)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double share = Checked(percent, 50);
        CapacityError? known = fluid.Model.CapacityErrorOf(fluid.Composition);

        // A model that computes e % too much leaves 1/(1 + e) of what it says.
        double least = known is null ? 1 - share : 1 / (1 + (known.HighPercent / 100));
        double most = known is null ? 1 + share : 1 / (1 + (known.LowPercent / 100));
        int estimated = fluid.Pedigree.EstimatedPairs.Count();
        least -= estimated > 0 && known is not null ? share : 0;
        most += estimated > 0 && known is not null ? share : 0;
        return new(
            FormattableString.Invariant($"model of the fluid ({fluid.Model.Name}{(estimated > 0 ? FormattableString.Invariant($", {estimated} pairs estimated") : string.Empty)}): cooling times {least:F2} to {most:F2}"),
            "Compute with the recommended model; a load measured at one temperature then tells the rest.",
            (c, u) => c with { Cooler = c.Cooler with { CoolingFactor = c.Cooler.CoolingFactor * (0.5 * (least + most + (u * (most - least)))) } });
    }

    /// <summary>What is usually uncertain of a cooler.</summary>
    /// <param name="cooler">The cooler.</param>
    /// <param name="charge">Its charge.</param>
    public static IReadOnlyList<CoolerUncertainty> Usual(Cooler cooler, CoolerCharge charge)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        ArgumentNullException.ThrowIfNull(charge);
        IThrottlePart[] parts = cooler.Throttle is ThrottleSeries series ? [.. series.Parts] : [cooler.Throttle];
        return
        [
            Conductance(),
            .. cooler.Leaks.Count > 0 ? [Leak()] : Array.Empty<CoolerUncertainty>(),
            .. parts.Any(p => p is Capillary) ? [CapillaryBore(Length.FromMillimeters(0.02))] : Array.Empty<CoolerUncertainty>(),
            .. parts.Any(p => p is ControlValve) ? [ValveCoefficient()] : Array.Empty<CoolerUncertainty>(),
            .. charge.Fluid.Composition.Components.Where((_, i) => charge.Fluid.Composition.MoleFractions[i] > 0).Select(c => Filling(c.Name)),
            Ambient(TemperatureDelta.FromKelvins(5)),
            Displacement(),
            Model(charge.Fluid),
        ];
    }

    /// <inheritdoc/>
    public override string ToString() => Name;

    /// <summary>The cooler with this moved to a share of its bound: 1 is the upper, -1 the lower.</summary>
    internal CoolerCase Moved(CoolerCase from, double bound) => move(from, bound);

    private static double Checked(double percent, double most) => Guard.InRange(percent, 1e-6, most, "%") / 100;

    private static Machines.Compressor Faster(Machines.Compressor old, double factor) => new(old.SweptVolumeFlow * factor, old.Filling, old.Efficiency, old.ShellHeatLossFraction);

    private static IThrottlePart WithBore(IThrottlePart part, double more) => part switch
    {
        ThrottleSeries series => new ThrottleSeries([.. series.Parts.Select(p => WithBore(p, more))]),
        Capillary pipe => new Capillary([.. pipe.Sections.Select(s => new CapillarySection(Length.FromMeters(Math.Max(0.5 * s.Bore.Meters, s.Bore.Meters + more)), s.Length))], pipe.EntranceLoss, pipe.TwoPhaseViscosity, pipe.Exchange),
        _ => part,
    };

    private static IThrottlePart WithCoefficient(IThrottlePart part, double factor) => part switch
    {
        ThrottleSeries series => new ThrottleSeries([.. series.Parts.Select(p => WithCoefficient(p, factor))]),
        ControlValve valve => new ControlValve(valve.FlowCoefficientKv * factor, valve.Style),
        _ => part,
    };
}
