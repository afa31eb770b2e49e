using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A steady state of a cooler. Immutable and thread-safe.</summary>
public sealed class CoolerState
{
    internal CoolerState(Cooler cooler, CoolerSolver solver, CoolerPoint point, double room, bool isStable)
    {
        Cooler = cooler;
        IsStable = isStable;
        ColdTemperature = Temperature.FromKelvins(point.Cold);
        Compression = point.Compression;
        ThrottleFlow = point.Passage.Flow ?? throw new InvalidOperationException("The flow of the throttle was not computed.");
        double flow = point.Flow;
        double leak = solver.Leak(point.Cold);
        GrossCooling = Power.FromWatts(point.Gross);
        HeatLeak = Power.FromWatts(leak);
        NetCooling = Power.FromWatts(point.Gross - leak);
        HeatIntoRecuperator = Power.FromWatts(flow * (point.Course.LowRise - point.Course.HighFall));
        AfterCoolerHeat = Power.FromWatts(flow * (point.Compression.Discharge.MolarEnthalpy - point.AfterCooler.MolarEnthalpy).JoulesPerMole);
        List<LoopPoint> loop =
        [
            new("compressor suction", point.Compression.Suction),
            new("compressor discharge", point.Compression.Discharge),
            new("after-cooler outlet", point.AfterCooler),
        ];
        if (cooler.PreCooling is { } pre)
        {
            loop.Add(new("pre-cooler outlet", point.WarmEnd));
            PreCoolerHeat = Power.FromWatts(flow * (point.AfterCooler.MolarEnthalpy - point.WarmEnd.MolarEnthalpy).JoulesPerMole);
            PreCooler = point.PreCooled is StagePreCooledStream { IsExact: true } stage
                ? stage.Computed
                : pre.Machine?.Cool(point.AfterCooler, MolarFlow.FromMolesPerSecond(flow), Temperature.FromKelvins(room));
            UpperCooler = (point.PreCooled as UpperPreCooledStream)?.State();
            Bath = pre.Bath is { } bath && point.WarmEnd.Temperature < point.AfterCooler.Temperature ? bath.Cool(point.AfterCooler, MolarFlow.FromMolesPerSecond(flow)) : null;
        }

        BoxExchange exchange = solver.Circuit.Exchange(point);
        (Recuperator, Tubes) = (exchange.Recuperator, exchange.Tubes);
        Separation = point.Separated is null ? null : new(cooler.Separator!, point, exchange);
        Loop = [.. loop, .. Cold(point, Separation)];
        Contents =
        [
            .. point.Fillings.Select(f => new SpaceContent(
                f.Name,
                [.. Enumerable.Range(0, f.Liquid.Length).Select(i => AmountOfSubstance.FromMoles(f.Moles(i)))],
                AmountOfSubstance.FromMoles(Enumerable.Range(0, f.Liquid.Length).Sum(f.Moles)),
                AmountOfSubstance.FromMoles(f.Liquid.Sum()))),
        ];
        Limits = cooler.AppliedLimits.Assess(point.Compression);
        double power = (double)point.Compression.Power.Watts;
        CoefficientOfPerformance = (double)NetCooling.Watts / power;
        PercentOfCarnot = 100 * CoefficientOfPerformance * ((room / point.Cold) - 1);
        TotalPower = point.Compression.Power + (PreCooler?.Compression.Power ?? Power.Zero) + (UpperCooler?.TotalPower ?? Power.Zero);
        double total = (double)TotalPower.Watts;
        TotalCoefficientOfPerformance = (double)NetCooling.Watts / total;
        UsefulWork = ((double)NetCooling.Watts * ((room / point.Cold) - 1)) + ExtraWork(room);
        TotalPercentOfCarnot = 100 * UsefulWork / total;
        ExergyLosses = Losses(point, room);
    }

    /// <summary>The cooler.</summary>
    public Cooler Cooler { get; }

    /// <summary>
    /// Whether the cooler comes back to it: where the stream by chance leaves the cold head with more enthalpy, warmer but where the curve turns back, cooling grows by more than the
    /// load and the leak.
    /// </summary>
    public bool IsStable { get; }

    /// <summary>Temperature of the stream that leaves the cold head, its warmest.</summary>
    public Temperature ColdTemperature { get; }

    /// <summary>Absolute pressure at the suction.</summary>
    public Pressure SuctionPressure => Compression.Suction.Pressure;

    /// <summary>Absolute pressure at the discharge.</summary>
    public Pressure DischargePressure => Compression.Discharge.Pressure;

    /// <summary>Flow, power and discharge state.</summary>
    public CompressorResult Compression { get; }

    /// <summary>What circulates: lighter than the charge by what is held back.</summary>
    public WorkingFluid CirculatingFluid => Compression.Suction.Fluid;

    /// <summary>States round the loop, from the compressor's suction on.</summary>
    public IReadOnlyList<LoopPoint> Loop { get; }

    /// <summary>The flow through the throttle; with a separator that of the vapour stream.</summary>
    public IThrottleFlow ThrottleFlow { get; }

    /// <summary>Cooling at the cold head, leak not taken off.</summary>
    public Power GrossCooling { get; }

    /// <summary>Heat that leaks into the cold head.</summary>
    public Power HeatLeak { get; }

    /// <summary>Cooling left for the load.</summary>
    public Power NetCooling { get; }

    /// <summary>Heat that reaches the recuperator from the room.</summary>
    public Power HeatIntoRecuperator { get; }

    /// <summary>Heat given off in the after-cooler.</summary>
    public Power AfterCoolerHeat { get; }

    /// <summary>Heat taken out by the pre-cooler; null without one.</summary>
    public Power? PreCoolerHeat { get; }

    /// <summary>The vapour-compression stage that pre-cools; null without one.</summary>
    public PreCoolerResult? PreCooler { get; }

    /// <summary>The upper cooler of a cascade, its cooling left for the load being the heat of this cooler's stream and the extra load; null without one.</summary>
    public CoolerState? UpperCooler { get; }

    /// <summary>The bath that pre-cools; null without one.</summary>
    public BathPreCoolerResult? Bath { get; }

    /// <summary>What the phase separator does; null without one.</summary>
    public PhaseSeparation? Separation { get; }

    /// <summary>The recuperator given by its conductance, with a separator the warm exchanger, whose hot stream is vapour and liquid side by side; null where the tubes are given.</summary>
    public RecuperatorResult? Recuperator { get; }

    /// <summary>The recuperator given by its tubes; null where the conductance is given.</summary>
    public TubeRecuperatorRating? Tubes { get; }

    /// <summary>What each space holds; together the charge.</summary>
    public IReadOnlyList<SpaceContent> Contents { get; }

    /// <summary>Limits of the compressor against this state.</summary>
    public LimitReport Limits { get; }

    /// <summary>Cooling left for the load over the power taken up by the gas; a pre-cooler's power is not in it.</summary>
    public double CoefficientOfPerformance { get; }

    /// <summary>The same times (room/cold - 1), percent.</summary>
    public double PercentOfCarnot { get; }

    /// <summary>Power taken up by the gas in all compressors: this cooler's, its pre-cooler's, those of the coolers above it. What cools to a given temperature or boils away has none.</summary>
    public Power TotalPower { get; }

    /// <summary>Cooling left for the load over <see cref="TotalPower"/>.</summary>
    public double TotalCoefficientOfPerformance { get; }

    /// <summary>Least work for the cooling left for the load, and for extra loads on the coolers above, over <see cref="TotalPower"/>, percent.</summary>
    public double TotalPercentOfCarnot { get; }

    /// <summary>Work lost in each part, those of the coolers above included; with the least work for the loads at every temperature the work supplied.</summary>
    public IReadOnlyList<ExergyLoss> ExergyLosses { get; }

    /// <summary>The state as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Cold head at {ColdTemperature.Kelvins:F2} K ({ColdTemperature.DegreesCelsius:F2} degC), {(IsStable ? "stable" : "not stable")}"),
        ["figure", "value"],
        [
            Row("cooling left for the load, W", $"{NetCooling.Watts:F2}"),
            Row("heat leak, W", $"{HeatLeak.Watts:F2}"),
            Row("suction, bar absolute", $"{SuctionPressure.Bars:F3}"),
            Row("discharge, bar absolute", $"{DischargePressure.Bars:F3}"),
            Row("flow, g/s", $"{Compression.MassFlow.GramsPerSecond:F3}"),
            Row("circulating, mole fractions", $"{CirculatingFluid.Composition}"),
            Row("suction, K (degC)", $"{Compression.Suction.Temperature.Kelvins:F1} ({Compression.Suction.Temperature.DegreesCelsius:F1})"),
            Row("discharge, K (degC)", $"{Compression.Discharge.Temperature.Kelvins:F1} ({Compression.Discharge.Temperature.DegreesCelsius:F1})"),
            Row("power taken up by the gas, W", $"{Compression.Power.Watts:F1}"),
            Row("throttle inlet, K (degC)", $"{ThrottleFlow.Inlet.Temperature.Kelvins:F1} ({ThrottleFlow.Inlet.Temperature.DegreesCelsius:F1}), {ThrottleFlow.Inlet.PhaseDescription}"),
            .. Separation is { } parted
                ?
                [
                    Row("liquid in the separator, mol %", $"{100 * (1 - parted.VaporShare):F2}"),
                    Row("liquid before its throttle, K (degC)", $"{parted.LiquidThrottle.Inlet.Temperature.Kelvins:F1} ({parted.LiquidThrottle.Inlet.Temperature.DegreesCelsius:F1}), {parted.LiquidThrottle.Inlet.PhaseDescription}"),
                    Row("liquid flow, g/s", $"{parted.LiquidThrottle.MassFlow.GramsPerSecond:F4}"),
                    Row("liquid's throttle, Kv in m3/h", $"{parted.LiquidValve?.FlowCoefficientKv ?? 0:G3}"),
                ]
                : Array.Empty<IReadOnlyList<string>>(),
            Row("cooling over power", $"{CoefficientOfPerformance:F4}"),
            Row("of Carnot, %", $"{PercentOfCarnot:F2}"),
            .. UpperCooler is { } upper
                ?
                [
                    Row("upper cold head, K (degC)", $"{upper.ColdTemperature.Kelvins:F2} ({upper.ColdTemperature.DegreesCelsius:F2})"),
                    Row("heat from the stream to the upper cold head, W", $"{PreCoolerHeat!.Value.Watts:F2}"),
                    Row("upper suction, bar absolute", $"{upper.SuctionPressure.Bars:F3}"),
                    Row("upper discharge, bar absolute", $"{upper.DischargePressure.Bars:F3}"),
                    Row("power taken up by the gas in all compressors, W", $"{TotalPower.Watts:F1}"),
                    Row("all of Carnot, %", $"{TotalPercentOfCarnot:F2}"),
                ]
                : Array.Empty<IReadOnlyList<string>>(),
        ]);

    /// <summary>What each space holds, as a table: amounts by component.</summary>
    public ResultTable ToContentTable() => new(
        "What the spaces hold, mol",
        ["space", .. CirculatingFluid.Composition.Components.Select(c => c.Name), "all", "of it liquid"],
        [
            .. Contents.Select(c => (IReadOnlyList<string>)[c.Space, .. c.Amounts.Select(a => FormattableString.Invariant($"{a.Moles:F4}")), FormattableString.Invariant($"{c.Total.Moles:F4}"), FormattableString.Invariant($"{c.Liquid.Moles:F4}")]),
        ]);

    /// <summary>Least work, W, for the loads at every temperature.</summary>
    private double UsefulWork { get; }

    private static IReadOnlyList<string> Row(string figure, FormattableString value) => [figure, FormattableString.Invariant(value)];

    // Least work for the extra loads of the coolers above, W.
    private double ExtraWork(double room) => UpperCooler is null
        ? 0
        : UpperCooler.ExtraWork(room) + ((double)Cooler.PreCooling!.Upper!.ExtraLoad.Watts * ((room / UpperCooler.ColdTemperature.Kelvins) - 1));

    // States from the cold box on, behind its warm end.
    private static IEnumerable<LoopPoint> Cold(CoolerPoint point, PhaseSeparation? separation)
    {
        if (separation is not null)
        {
            yield return new("separator", separation.Arriving);
            yield return new("vapour from the separator", separation.Vapor);
            yield return new("liquid from the separator", separation.Liquid);
            yield return new("liquid before its throttle", separation.LiquidThrottle.Inlet);
            yield return new("liquid behind its throttle", separation.BehindLiquidThrottle);
            yield return new("vapour stream between the exchangers", separation.VaporBetween);
        }

        yield return new("throttle inlet", point.ThrottleInlet);
        yield return new("throttle outlet", point.EvaporatorInlet);
        yield return new("cold head outlet", point.ColdOutlet);
        if (separation is not null)
        {
            yield return new("return before mixing", separation.ReturnBeforeMixing);
            yield return new("mixed return", separation.MixedReturn);
        }
    }

    private List<ExergyLoss> Losses(CoolerPoint point, double room)
    {
        double flow = point.Flow;
        double supplied = (double)Compression.Power.Watts;
        List<(string Part, double Loss)> losses = [];
        State suction = Compression.Suction;
        losses.Add(("compressor", supplied - (flow * Exergy(suction, Compression.Discharge))));
        losses.Add(("after-cooler", -flow * Exergy(Compression.Discharge, point.AfterCooler)));
        if (PreCoolerHeat is not null)
        {
            double given = flow * Exergy(point.AfterCooler, point.WarmEnd);
            if (PreCooler is not null)
            {
                double own = (double)PreCooler.Compression.Power.Watts;
                supplied += own;
                losses.Add(("pre-cooler", own - given));
            }
            else if (UpperCooler is not null)
            {
                supplied += UpperCooler.UsefulWork + UpperCooler.ExergyLosses.Sum(l => (double)l.Loss.Watts);
                losses.AddRange(UpperCooler.ExergyLosses.Select(l => ("upper cooler, " + l.Part, (double)l.Loss.Watts)));
                losses.Add(("from the stream to the upper cold head", ((double)PreCoolerHeat.Value.Watts * ((room / UpperCooler.ColdTemperature.Kelvins) - 1)) - given));
            }
            else
            {
                // Whatever cools supplies what the stream takes up; its own losses are not known.
                supplied += given;
                losses.Add(("pre-cooler (its own losses not counted)", 0));
            }
        }

        double behind = point.ThrottleFlow;
        if (Separation is { } parted)
        {
            double liquid = flow - behind;
            State liquidInlet = parted.LiquidThrottle.Inlet;
            losses.Add(("warm exchanger", (flow * (Exergy(suction, parted.MixedReturn) + Held(point.WarmEnd))) - (behind * Held(parted.VaporBetween)) - (liquid * Held(liquidInlet))));
            losses.Add(("liquid's throttle", liquid * Exergy(parted.BehindLiquidThrottle, liquidInlet)));
            losses.Add(("mixing", (behind * Held(parted.ReturnBeforeMixing)) + (liquid * Held(parted.BehindLiquidThrottle)) - (flow * Held(parted.MixedReturn))));
            losses.Add(("cold exchanger", behind * (Exergy(point.ThrottleInlet, parted.VaporBetween) + Exergy(parted.ReturnBeforeMixing, point.ColdOutlet))));
        }
        else
        {
            losses.Add(("recuperator", flow * (Exergy(point.ThrottleInlet, point.WarmEnd) + Exergy(suction, point.ColdOutlet))));
        }

        losses.Add(("throttle", behind * Exergy(point.EvaporatorInlet, point.ThrottleInlet)));
        double carnot = (room / point.Cold) - 1;
        losses.Add(("cold head", (behind * Exergy(point.ColdOutlet, point.EvaporatorInlet)) - (point.Gross * carnot)));
        losses.Add(("heat leak", (double)HeatLeak.Watts * carnot));
        return [.. losses.Select(l => new ExergyLoss(l.Part, Power.FromWatts(l.Loss), 100 * l.Loss / supplied))];

        // Gain of exergy of a mole from one state to another, J/mol.
        double Exergy(State from, State to) =>
            (to.MolarEnthalpy - from.MolarEnthalpy).JoulesPerMole - (room * (to.MolarEntropy - from.MolarEntropy).JoulesPerMoleKelvin);

        // Exergy of a mole but for a constant of each component, which goes out where streams part and join, J/mol.
        double Held(State state) => state.MolarEnthalpy.JoulesPerMole - (room * state.MolarEntropy.JoulesPerMoleKelvin);
    }
}
