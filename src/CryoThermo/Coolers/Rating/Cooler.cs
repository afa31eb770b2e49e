using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A recuperative throttle cooler as a machine: what it is built of. <c>Rate</c> tells what it does with a charge in a room. Immutable and thread-safe.
/// </summary>
public sealed record Cooler
{
    /// <summary>Puts the parts together.</summary>
    /// <param name="compressor">The compressor.</param>
    /// <param name="afterCooling">Behind it.</param>
    /// <param name="recuperator">Between the streams.</param>
    /// <param name="throttle">A valve, a capillary, or several parts.</param>
    /// <param name="spaces">Spaces that the charge fills, without those of the recuperator; at least one on the suction side.</param>
    /// <param name="leaks">Heat into the cold head from the room; empty for none. Each must run from the room to the cold, without intercept.</param>
    /// <exception cref="ArgumentException">There is no space on the suction side, two have one name, or a leak has an intercept.</exception>
    public Cooler(
        Compressor compressor,
        AfterCooling afterCooling,
        CoolerRecuperator recuperator,
        IThrottlePart throttle,
        IReadOnlyList<CoolerSpace> spaces,
        IReadOnlyList<HeatLeakItem> leaks)
    {
        ArgumentNullException.ThrowIfNull(compressor);
        ArgumentNullException.ThrowIfNull(afterCooling);
        ArgumentNullException.ThrowIfNull(recuperator);
        ArgumentNullException.ThrowIfNull(throttle);
        ArgumentNullException.ThrowIfNull(spaces);
        ArgumentNullException.ThrowIfNull(leaks);
        if (!spaces.Any(s => s.Place == SpacePlace.Suction))
        {
            throw new ArgumentException("spaces holds none on the suction side; the shell of the compressor or its suction line is one at least.", nameof(spaces));
        }

        if (spaces.GroupBy(s => s.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"spaces holds '{twice.Key}' {twice.Count()} times; each needs a name of its own.", nameof(spaces));
        }

        if (leaks.FirstOrDefault(l => l.ColdEnd is not null || l.WarmEnd is not null) is { } intercepted)
        {
            throw new ArgumentException($"leaks: '{intercepted.Name}' ends at an intercept; here each runs from the room to the cold head.", nameof(leaks));
        }

        Compressor = compressor;
        AfterCooling = afterCooling;
        Recuperator = recuperator;
        Throttle = throttle;
        Spaces = [.. spaces];
        Leaks = [.. leaks];
    }

    /// <summary>The compressor.</summary>
    public Compressor Compressor { get; init; }

    /// <summary>Behind the compressor.</summary>
    public AfterCooling AfterCooling { get; init; }

    /// <summary>Between after-cooler and cold box; null for none.</summary>
    public PreCooling? PreCooling { get; init; }

    /// <summary>Between the streams.</summary>
    /// <exception cref="ArgumentException">It is given by its tubes, and the cooler has a separator.</exception>
    public CoolerRecuperator Recuperator { get; init => field = BesideSeparator(value, Separator, nameof(Recuperator)); }

    /// <summary>Phase separator at the end of after-cooler and pre-cooler, with the cold exchanger; null for none. The recuperator is then the warm exchanger, and the throttle that of the vapour.</summary>
    /// <exception cref="ArgumentException">The recuperator is given by its tubes.</exception>
    public PhaseSeparator? Separator
    {
        get;
        init
        {
            _ = BesideSeparator(Recuperator, value, nameof(Separator));
            field = value;
        }
    }

    /// <summary>The throttle.</summary>
    public IThrottlePart Throttle { get; init; }

    /// <summary>Spaces that the charge fills, without those of the recuperator.</summary>
    public IReadOnlyList<CoolerSpace> Spaces { get; }

    /// <summary>Heat into the cold head.</summary>
    public IReadOnlyList<HeatLeakItem> Leaks { get; }

    /// <summary>Oil that takes up gas; null where it is left out.</summary>
    public OilCharge? Oil { get; init; }

    /// <summary>How much liquid a two-phase stream leaves behind.</summary>
    public HoldUpModel HoldUp { get; init; }

    /// <summary>What the compressor bears.</summary>
    public CompressorLimits Limits { get; init; } = CompressorLimits.Usual;

    /// <summary>Absolute pressure that the weakest part of the high side is rated for, warm; null where it is not told.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public Pressure? HighSideRating { get; init => field = Checked(value, nameof(HighSideRating)); }

    /// <summary>Absolute pressure that the weakest part of the low side is rated for, warm; null where it is not told.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public Pressure? LowSideRating { get; init => field = Checked(value, nameof(LowSideRating)); }

    /// <summary>Absolute pressure at which the relief device of the high side opens; null where there is none, or it is not told.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public Pressure? HighSideRelief { get; init => field = Checked(value, nameof(HighSideRelief)); }

    /// <summary><see cref="Limits"/>, with the lower of <see cref="HighSideRating"/> and <see cref="HighSideRelief"/> in place of the usual limit of the high side.</summary>
    public CompressorLimits AppliedLimits
    {
        get
        {
            Pressure[] stated = [.. new[] { HighSideRating, HighSideRelief }.OfType<Pressure>()];
            return stated.Length > 0 && Equals(Limits.HighPressureBars, CompressorLimits.Usual.HighPressureBars)
                ? Limits with { HighPressureBars = LimitBand.Stated(stated.Min(p => p.Bars)) }
                : Limits;
        }
    }

    /// <summary>What the cooler does with a charge.</summary>
    /// <param name="charge">What was filled.</param>
    /// <param name="ambient">The room, 200 to 330 K.</param>
    /// <param name="load">Load on the cold head, zero or more.</param>
    /// <exception cref="ArgumentException">The charge is pure, or flammable beside an oxidiser.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="CoolerRefusedException">Nothing circulates: the message tells the limit in the way.</exception>
    /// <exception cref="ConvergenceException">No circulation was found.</exception>
    public CoolerRating Rate(CoolerCharge charge, Temperature ambient, Power load)
    {
        ArgumentNullException.ThrowIfNull(charge);
        Guard.InRange(ambient.Kelvins, 200, 330, "K", nameof(ambient));
        double watts = Guard.InRange((double)load.Watts, 0, 1e9, "W", nameof(load));
        CheckFluid(charge.Fluid, nameof(charge));
        return new CoolerRater(this, charge, ambient).Rate(watts);
    }

    /// <summary>What conductance or length of the recuperator, displacement, opening and charge hold a cold temperature under a load at given pressures.</summary>
    /// <param name="demand">What is asked for. Compressor, throttle and recuperator of this cooler are taken as patterns: their size is what is found.</param>
    /// <exception cref="ArgumentException">The fluid is pure, or flammable beside an oxidiser, or the cooler has a phase separator.</exception>
    /// <exception cref="CoolerRefusedException">No size does it: the message tells the limit in the way.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public CoolerSizing SizeFor(CoolerDemand demand)
    {
        ArgumentNullException.ThrowIfNull(demand);
        CheckFluid(demand.Circulating, nameof(demand));
        return CoolerSizer.Size(this, demand);
    }

    /// <summary>Refuses a pure charge, and one that burns by itself.</summary>
    internal static void CheckFluid(WorkingFluid fluid, string parameter)
    {
        Composition composition = fluid.Composition;
        if (composition.MoleFractions.Count(z => z > 0) < 2)
        {
            throw new ArgumentException(
                $"{parameter}: {composition} is a single substance, which boils at one temperature: the cold temperature then no longer tells the state that leaves the cold head. At least two are needed. Compute it with both pressures held ({nameof(CoolerDesign)}), or add a little of a second substance: a hundredth of ethane in methane, of propane in ethane or of methane in nitrogen was found to rate.", parameter);
        }

        Flammability.RefuseFuelBesideOxidiser([.. composition.Components.Select((c, i) => new SubstanceShare(c.Name, composition.MoleFractions[i]))], "The charge", parameter);
    }

    private static CoolerRecuperator BesideSeparator(CoolerRecuperator recuperator, PhaseSeparator? separator, string name) =>
        separator is null || recuperator.Tubes is null
            ? recuperator
            : throw new ArgumentException($"{name}: a cooler with a phase separator has a warm exchanger given by its conductance ({nameof(CoolerRecuperator.OfConductance)}), not by its tubes.", name);

    private static Pressure? Checked(Pressure? pressure, string name)
    {
        Guard.Positive(pressure?.Pascals ?? 1, "Pa absolute", name);
        return pressure;
    }

    /// <summary>Factor on the heat leak: 1 but where its uncertainty is looked at.</summary>
    internal double LeakFactor { get; init; } = 1;

    /// <summary>Factor on the cooling: 1 but where the error of the model is looked at.</summary>
    internal double CoolingFactor { get; init; } = 1;

    /// <summary>
    /// The same parts without parting: one recuperator of both conductances and all volumes, the vessel a space of the warm high side.
    /// </summary>
    internal Cooler Joined => Separator is not { ColdExchanger: var cold } separator
        ? this
        : new(
            Compressor,
            AfterCooling,
            CoolerRecuperator.OfConductance(
                Recuperator.ConductanceWattsPerKelvin + cold.ConductanceWattsPerKelvin,
                Recuperator.HighSideVolume + cold.HighSideVolume,
                Recuperator.LowSideVolume + cold.LowSideVolume,
                Recuperator.HighSidePressureDrop,
                Recuperator.LowSidePressureDrop),
            Throttle,
            [.. Spaces, new CoolerSpace("vessel of the separator", separator.Volume, SpacePlace.WarmHighSide)],
            Leaks)
        {
            PreCooling = PreCooling,
            Oil = Oil,
            HoldUp = HoldUp,
            Limits = Limits,
            HighSideRating = HighSideRating,
            LowSideRating = LowSideRating,
            HighSideRelief = HighSideRelief,
            LeakFactor = LeakFactor,
            CoolingFactor = CoolingFactor,
        };

    /// <summary>All volumes together, m3.</summary>
    internal double TotalVolume => Spaces.Sum(s => s.Volume.CubicMeters) + Recuperator.HighSideVolume.CubicMeters + Recuperator.LowSideVolume.CubicMeters + (Separator?.TotalVolume ?? 0);
}
