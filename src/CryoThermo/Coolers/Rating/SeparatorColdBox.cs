using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A cold box with one phase separator: the fluid arrives partly condensed, its vapour and liquid part, and run side by side through the warm exchanger against the mixed return. Behind it the
/// liquid is throttled into the return; the vapour goes on through the cold exchanger against its own return, is throttled and feeds the cold head. Two pressures throughout; no heat from
/// outside. Units: K, Pa, J/mol, mol/s, W, W/K. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// <para>
/// The unknown is the enthalpy H of both hot streams between the exchangers, a mole of the whole flow. From it follow the cold exchanger, the mixed return, the warm exchanger and with it an
/// enthalpy F(H) that the hot streams would leave at. A step dH raises the duty of the cold exchanger by at most what its hot stream brings more, so the mixed return by at most dH; and the
/// hot streams leave the warm exchanger higher by at most what the return enters higher (its outlet does not fall). So F rises by at most dH, F(H) - H never rises, and there is one steady
/// state, or, only where perfect exchangers touch at both ends, a stretch of them with one suction enthalpy and so one cooling. The same comparison shows that the cooling never falls with
/// the warm conductance nor with the cold temperature.
/// </para>
/// <para>
/// Where the cold head is warmer than the middle, the cold exchanger runs backwards: its return warms the vapour stream. That is a steady state too, as in cool-down, and solved. Which way it
/// runs does not depend on its own conductance, since it does nothing where both its streams enter at one temperature; run as drawn it gives the more cooling the more conductance it has, run
/// backwards the less.
/// </para>
/// </remarks>
internal sealed class SeparatorColdBox
{
    /// <summary>The isobars reach this far above the warm end, K, so that the phase boundary of the separator lies inside.</summary>
    public const double Margin = 0.5;

    /// <summary>Less of either phase counts as none.</summary>
    private const double LeastShare = 1e-9;

    private readonly double warmConductance;
    private readonly double coldConductance;
    private readonly IsobarTable vaporHigh;
    private readonly IsobarTable liquidHigh;
    private readonly IsobarTable composite;
    private readonly IsobarTable vaporLow;
    private readonly IsobarTable wholeLow;

    /// <summary>Parts the fluid and builds the isobars.</summary>
    /// <param name="fluid">The circulating fluid.</param>
    /// <param name="lowPressure">Pa.</param>
    /// <param name="highPressure">Pa, above the low pressure.</param>
    /// <param name="warmEndTemperature">Of the fluid at the separator, K.</param>
    /// <param name="lowestTemperature">Lowest temperature to consider, K.</param>
    /// <param name="warmConductance">Of the warm exchanger, both hot streams together against the return, W/K; above zero, may be infinite.</param>
    /// <param name="coldConductance">Of the cold exchanger, W/K; zero for none, may be infinite.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="SeparatorRefusedException">The fluid does not arrive as vapour and liquid.</exception>
    public SeparatorColdBox(
        WorkingFluid fluid, double lowPressure, double highPressure, double warmEndTemperature, double lowestTemperature, double warmConductance, double coldConductance)
    {
        Guard.Positive(lowPressure, "Pa");
        Guard.Positive(highPressure, "Pa");
        if (!(highPressure > lowPressure))
        {
            throw new ArgumentOutOfRangeException(
                nameof(highPressure), highPressure, $"highPressure is {highPressure / 1e5:G6} bar; it must be above lowPressure, {lowPressure / 1e5:G6} bar.");
        }

        WarmEndTemperature = Guard.Positive(warmEndTemperature, "K");
        if (!(lowestTemperature > 0 && lowestTemperature < warmEndTemperature))
        {
            throw new ArgumentOutOfRangeException(
                nameof(lowestTemperature), lowestTemperature, $"lowestTemperature is {lowestTemperature:G6} K; it must be above zero and below warmEndTemperature, {warmEndTemperature:G6} K.");
        }

        LowestTemperatureCovered = lowestTemperature;
        this.warmConductance = Conductance(warmConductance, double.Epsilon);
        this.coldConductance = Conductance(coldConductance, 0);
        (VaporShare, Vapor, Liquid) = Part(fluid.At(Temperature.FromKelvins(warmEndTemperature), Pressure.FromPascals(highPressure)));
        vaporHigh = Table(Vapor, highPressure);
        liquidHigh = Table(Liquid, highPressure);
        vaporLow = Table(Vapor, lowPressure);
        wholeLow = Table(fluid, lowPressure);
        composite = CompositeIsobar.Sum(vaporHigh, VaporShare, liquidHigh, 1 - VaporShare);
        WarmEndEnthalpy = composite.Enthalpy(warmEndTemperature);

        IsobarTable Table(WorkingFluid stream, double pressure) => stream.Isobar(
            Pressure.FromPascals(pressure), Temperature.FromKelvins(lowestTemperature), Temperature.FromKelvins(warmEndTemperature + Margin)).Table;
    }

    /// <summary>Between streams parted already, on isobars from the lowest temperature to <see cref="Margin"/> above the warm end.</summary>
    public SeparatorColdBox(
        double vaporShare,
        WorkingFluid vapor,
        WorkingFluid liquid,
        double warmEndTemperature,
        double lowestTemperature,
        IsobarTable vaporHigh,
        IsobarTable liquidHigh,
        IsobarTable vaporLow,
        IsobarTable wholeLow,
        double warmConductance,
        double coldConductance)
    {
        (WarmEndTemperature, LowestTemperatureCovered) = (warmEndTemperature, lowestTemperature);
        (VaporShare, Vapor, Liquid) = (vaporShare, vapor, liquid);
        (this.vaporHigh, this.liquidHigh, this.vaporLow, this.wholeLow) = (vaporHigh, liquidHigh, vaporLow, wholeLow);
        this.warmConductance = Conductance(warmConductance, double.Epsilon);
        this.coldConductance = Conductance(coldConductance, 0);
        composite = CompositeIsobar.Sum(vaporHigh, VaporShare, liquidHigh, 1 - VaporShare);
        WarmEndEnthalpy = composite.Enthalpy(warmEndTemperature);
    }

    private SeparatorColdBox(SeparatorColdBox other, double warmConductance, double coldConductance)
    {
        (WarmEndTemperature, LowestTemperatureCovered) = (other.WarmEndTemperature, other.LowestTemperatureCovered);
        (VaporShare, Vapor, Liquid, WarmEndEnthalpy) = (other.VaporShare, other.Vapor, other.Liquid, other.WarmEndEnthalpy);
        (vaporHigh, liquidHigh, composite, vaporLow, wholeLow) = (other.vaporHigh, other.liquidHigh, other.composite, other.vaporLow, other.wholeLow);
        this.warmConductance = Conductance(warmConductance, double.Epsilon);
        this.coldConductance = Conductance(coldConductance, 0);
    }

    /// <summary>Temperature of the separator, K.</summary>
    public double WarmEndTemperature { get; }

    /// <summary>Lowest temperature considered, K.</summary>
    public double LowestTemperatureCovered { get; }

    /// <summary>Moles of vapour over moles of the whole in the separator.</summary>
    public double VaporShare { get; }

    /// <summary>The fluid of the vapour stream.</summary>
    public WorkingFluid Vapor { get; }

    /// <summary>The fluid of the liquid stream; where two liquids settle, both together.</summary>
    public WorkingFluid Liquid { get; }

    /// <summary>Of both hot streams at the warm end, J a mole of the whole flow.</summary>
    public double WarmEndEnthalpy { get; }

    /// <summary>Of the vapour at the warm end, J a mole of it.</summary>
    public double WarmEndVaporEnthalpy => vaporHigh.Enthalpy(WarmEndTemperature);

    /// <summary>Of the liquid at the warm end, J a mole of it.</summary>
    public double WarmEndLiquidEnthalpy => liquidHigh.Enthalpy(WarmEndTemperature);

    /// <summary>The isobar of both hot streams side by side, a mole of the whole flow.</summary>
    public IsobarTable Composite => composite;

    /// <summary>The same streams and isobars with other conductances, W/K.</summary>
    public SeparatorColdBox With(double warmConductance, double coldConductance) => new(this, warmConductance, coldConductance);

    /// <summary>Temperature and enthalpies of both hot streams, side by side with an enthalpy in J a mole of the whole flow; in a jump of one of them both go the same share of it.</summary>
    public (double Temperature, double Vapor, double Liquid) Beside(double enthalpy)
    {
        double t = composite.TemperatureAtEnthalpy(enthalpy);
        double vaporBelow = vaporHigh.EnthalpyBelow(t);
        double liquidBelow = liquidHigh.EnthalpyBelow(t);
        double vaporJump = vaporHigh.Enthalpy(t) - vaporBelow;
        double liquidJump = liquidHigh.Enthalpy(t) - liquidBelow;
        double jump = (VaporShare * vaporJump) + ((1 - VaporShare) * liquidJump);
        double share = jump > 1e-9 ? Math.Clamp((enthalpy - (VaporShare * vaporBelow) - ((1 - VaporShare) * liquidBelow)) / jump, 0, 1) : 0;
        double vapor = Math.Clamp(vaporBelow + (share * vaporJump), vaporHigh.MinEnthalpy, vaporHigh.MaxEnthalpy);
        return (t, vapor, liquidBelow + (share * liquidJump));
    }

    /// <summary>The steady state at a cold temperature and a flow.</summary>
    /// <param name="coldTemperature">Of the return leaving the cold head, K, from <see cref="LowestTemperatureCovered"/> to <see cref="WarmEndTemperature"/>; where it boils at one temperature, all vapour.</param>
    /// <param name="flow">Whole flow, mol/s.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="SeparatorRefusedException">There is no steady state within the temperatures considered.</exception>
    /// <exception cref="ConvergenceException">None was found.</exception>
    public SeparatorColdBoxState Solve(double coldTemperature, double flow) =>
        TrySolve(coldTemperature, flow, out SeparatorColdBoxState? state, out SeparatorObstacle? obstacle) ? state : throw Refusal(obstacle.Value, coldTemperature);

    /// <summary>As <see cref="Solve"/>, with the obstacle instead of an exception.</summary>
    public bool TrySolve(
        double coldTemperature, double flow, [NotNullWhen(true)] out SeparatorColdBoxState? state, [NotNullWhen(false)] out SeparatorObstacle? obstacle)
    {
        Guard.InRange(coldTemperature, LowestTemperatureCovered, WarmEndTemperature, "K");
        Guard.Positive(flow, "mol/s");
        Solver solver = new(this, coldTemperature, flow);
        obstacle = solver.Run(out double enthalpy);
        state = obstacle is null ? solver.State(enthalpy) : null;
        return obstacle is null;
    }

    /// <summary>
    /// The greatest cooling at a cold temperature that any exchangers give, J a mole of the whole flow: a perfect warm one, and a perfect cold one, or none where that would run backwards.
    /// </summary>
    /// <param name="coldTemperature">As for <see cref="Solve"/>.</param>
    /// <exception cref="SeparatorRefusedException">There is no steady state within the temperatures considered.</exception>
    public double GreatestCooling(double coldTemperature)
    {
        SeparatorColdBoxState perfect = With(double.PositiveInfinity, double.PositiveInfinity).Solve(coldTemperature, 1);
        return (perfect.ColdDuty < 0 ? With(double.PositiveInfinity, 0).Solve(coldTemperature, 1) : perfect).CoolingPerMole;
    }

    /// <summary>The lowest cold temperature at which the gross cooling still is a given one; null when it is less even at the warm end.</summary>
    /// <param name="flow">Whole flow, mol/s.</param>
    /// <param name="cooling">Gross cooling, W.</param>
    public ColdLimit? LowestTemperature(double flow, double cooling)
    {
        Guard.Positive(flow, "mol/s");
        if (!double.IsFinite(cooling))
        {
            throw new ArgumentOutOfRangeException(nameof(cooling), cooling, $"cooling is {cooling} W; it must be finite.");
        }

        double atTop = Excess(WarmEndTemperature, out SeparatorObstacle? above);
        if (above is SeparatorObstacle.ColderThanCovered)
        {
            return new(WarmEndTemperature, true);
        }

        if (!(atTop >= 0))
        {
            return null;
        }

        double atBottom = Excess(LowestTemperatureCovered, out SeparatorObstacle? below);
        if (atBottom >= 0)
        {
            return new(LowestTemperatureCovered, true);
        }

        (double low, double high) = BracketedRoot.Narrow(
            t => Excess(t, out _), LowestTemperatureCovered, atBottom, WarmEndTemperature, atTop, (a, b) => Math.Abs(b - a) <= 1e-7);
        if (below is not null && low < high)
        {
            _ = Excess(low, out below);
        }

        return new(high, below is SeparatorObstacle.ColderThanCovered);

        double Excess(double t, out SeparatorObstacle? obstacle) =>
            TrySolve(t, flow, out SeparatorColdBoxState? state, out obstacle) ? state.CoolingPerMole - (cooling / flow) : -1;
    }

    private static double Conductance(
        double value, double least, [System.Runtime.CompilerServices.CallerArgumentExpression(nameof(value))] string parameter = "") => value >= least
        ? value
        : throw new ArgumentOutOfRangeException(
            parameter, value, $"{parameter} is {value:G9} W/K; it must {(least > 0 ? "be above zero" : "not be negative")} and may be infinite.");

    /// <summary>Parts the fluid as it arrives: the share of its vapour, and both fluids.</summary>
    /// <exception cref="SeparatorRefusedException">It is vapour or liquid alone.</exception>
    public static (double VaporShare, WorkingFluid Vapor, WorkingFluid Liquid) Part(State arriving)
    {
        WorkingFluid fluid = arriving.Fluid;
        string place = FormattableString.Invariant($"{arriving.Temperature.Kelvins:F2} K ({arriving.Temperature.DegreesCelsius:F1} degC) and {arriving.Pressure.Bars:G5} bar absolute");
        if (fluid.Composition.Components.Count == 1)
        {
            throw new SeparatorRefusedException(
                SeparatorObstacle.NothingToSeparate, $"{fluid.Composition} has one component: at {place} it is vapour or liquid alone. A separator needs a blend.");
        }

        Phase[] liquids = [.. arriving.Phases.Where(p => p.Kind == PhaseKind.Liquid)];
        Phase? vapor = arriving.Phases.FirstOrDefault(p => p.Kind == PhaseKind.Vapor);
        double liquidShare = liquids.Sum(p => p.Fraction);
        if (vapor is null || vapor.Fraction < LeastShare || liquidShare < LeastShare)
        {
            bool isVapor = vapor is not null && vapor.Fraction >= LeastShare;
            throw new SeparatorRefusedException(
                SeparatorObstacle.NothingToSeparate,
                $"At the separator, {place}, the fluid is all {(isVapor ? "vapour: cool it further, raise the high pressure or take more of the heavy components" : "liquid: a warmer separator or a lower high pressure leaves vapour")}.");
        }

        double[] x = new double[fluid.Composition.Components.Count];
        foreach (Phase liquid in liquids)
        {
            for (int i = 0; i < x.Length; i++)
            {
                x[i] += liquid.Fraction / liquidShare * liquid.Composition.MoleFractions[i];
            }
        }

        return (1 - liquidShare, fluid.WithFractions([.. vapor.Composition.MoleFractions]), fluid.WithFractions(x));
    }

    /// <summary>An obstacle as an exception.</summary>
    public SeparatorRefusedException Refusal(SeparatorObstacle obstacle, double coldTemperature) => new(
        obstacle,
        obstacle is SeparatorObstacle.ReturnTooWarm
            ? $"With the cold head at {coldTemperature:F2} K the mixed return would be warmer than the streams that come from the separator at {WarmEndTemperature:F2} K: the warm exchanger cannot cool them."
            : $"With the cold head at {coldTemperature:F2} K the streams meet at the liquid's throttle below {LowestTemperatureCovered:F2} K, the lowest temperature considered.");

    /// <summary>One cold temperature and flow.</summary>
    private sealed class Solver(SeparatorColdBox box, double coldTemperature, double flow)
    {
        /// <summary>Width of the last bracket, J/mol: well below the error of the isobars, above the rounding of enthalpies.</summary>
        private const double Narrow = 1e-9;

        private readonly double vaporShare = box.VaporShare;
        private readonly double liquidShare = 1 - box.VaporShare;
        private readonly double coldInlet = Math.Min(box.vaporLow.Enthalpy(coldTemperature), box.vaporLow.MaxEnthalpy);
        private double lastCold;
        private double lastWarm;

        /// <summary>Finds the enthalpy between the exchangers, J a mole of the whole flow; an obstacle where there is none.</summary>
        public SeparatorObstacle? Run(out double enthalpy)
        {
            double top = box.WarmEndEnthalpy;
            double bottom = box.composite.MinEnthalpy;
            enthalpy = top;
            double atTop = Gap(top);
            if (!(atTop < 0))
            {
                return SeparatorObstacle.ReturnTooWarm;
            }

            double atBottom = Gap(bottom);
            if (atBottom < 0)
            {
                return SeparatorObstacle.ColderThanCovered;
            }

            // The upper end: there the hot streams need not give more than the exchanger's conductance allows.
            (_, enthalpy) = BracketedRoot.Narrow(Gap, bottom, atBottom, top, atTop, (a, b) => Math.Abs(b - a) <= Narrow);
            double mixed = MixedEnthalpy(box.Beside(enthalpy), ColdGain(box.Beside(enthalpy)));
            return mixed < box.wholeLow.MinEnthalpy ? SeparatorObstacle.ColderThanCovered : null;
        }

        /// <summary>The state at the enthalpy found: duties from enthalpies, so that every balance closes.</summary>
        public SeparatorColdBoxState State(double enthalpy)
        {
            (double Temperature, double Vapor, double Liquid) middle = box.Beside(enthalpy);
            (CounterFlowKernel? coldExchanger, bool isReversed) = ColdExchanger(middle.Vapor);
            double gain = ColdGain(middle);
            double mixed = MixedEnthalpy(middle, gain);
            CounterFlowKernel warmExchanger = WarmExchanger(mixed) ?? throw new ConvergenceException(
                "cold box with a phase separator",
                $"cold head {coldTemperature:G6} K, flow {flow:G6} mol/s",
                double.PositiveInfinity,
                "The warm exchanger has next to nothing to do here; try a colder cold head.");
            double suction = mixed + (box.WarmEndEnthalpy - enthalpy);
            double warmDuty = flow * (box.WarmEndEnthalpy - enthalpy);
            double coldDuty = flow * vaporShare * gain;
            return new()
            {
                VaporShare = vaporShare,
                Vapor = box.Vapor,
                Liquid = box.Liquid,
                ColdTemperature = coldTemperature,
                MiddleTemperature = middle.Temperature,
                CoolingPerMole = suction - box.WarmEndEnthalpy,
                SuctionEnthalpy = suction,
                VaporMiddleEnthalpy = middle.Vapor,
                VaporThrottleInletEnthalpy = middle.Vapor - gain,
                LiquidThrottleInletEnthalpy = middle.Liquid,
                ColdReturnEnthalpy = coldInlet + gain,
                MixedEnthalpy = mixed,
                WarmDuty = warmDuty,
                ColdDuty = coldDuty,
                WarmPinch = warmExchanger.Pinch(Math.Clamp(warmDuty, 0, warmExchanger.GreatestDuty)),
                ColdPinch = coldExchanger?.Pinch(Math.Clamp(isReversed ? -coldDuty : coldDuty, 0, coldExchanger.GreatestDuty))
                    ?? new(coldTemperature, coldTemperature, 0, PinchLocation.ColdEnd),
                WarmExchanger = warmExchanger,
                ColdExchanger = coldExchanger,
            };
        }

        /// <summary>The enthalpy that the hot streams would leave the warm exchanger at, less the one assumed; never rises with it.</summary>
        private double Gap(double enthalpy)
        {
            (double Temperature, double Vapor, double Liquid) middle = box.Beside(enthalpy);
            CounterFlowKernel? exchanger = WarmExchanger(MixedEnthalpy(middle, ColdGain(middle)));
            lastWarm = exchanger?.Duty(box.warmConductance, lastWarm) ?? 0;
            return box.WarmEndEnthalpy - (lastWarm / flow) - enthalpy;
        }

        /// <summary>What the return takes up in the cold exchanger, J a mole of the vapour stream; negative where it gives.</summary>
        private double ColdGain((double Temperature, double Vapor, double Liquid) middle)
        {
            (CounterFlowKernel? exchanger, bool isReversed) = ColdExchanger(middle.Vapor);
            if (exchanger is null)
            {
                return 0;
            }

            lastCold = exchanger.Duty(box.coldConductance, lastCold);
            return (isReversed ? -lastCold : lastCold) / (flow * vaporShare);
        }

        private (CounterFlowKernel? Exchanger, bool IsReversed) ColdExchanger(double vaporEnthalpy)
        {
            double streams = flow * vaporShare;
            double hot = box.vaporHigh.TemperatureAtEnthalpy(vaporEnthalpy);
            double cold = box.vaporLow.TemperatureAtEnthalpy(coldInlet);
            return hot > cold ? (new(box.vaporHigh, streams, vaporEnthalpy, box.vaporLow, streams, coldInlet), false)
                : hot < cold ? (new(box.vaporLow, streams, coldInlet, box.vaporHigh, streams, vaporEnthalpy), true)
                : (null, false);
        }

        private double MixedEnthalpy((double Temperature, double Vapor, double Liquid) middle, double coldGain) =>
            (vaporShare * (coldInlet + coldGain)) + (liquidShare * middle.Liquid);

        /// <summary>The warm exchanger with a mixed return; null where that is not colder than the separator. Colder than the isobars counts as their end, which a caller tells apart.</summary>
        private CounterFlowKernel? WarmExchanger(double mixed)
        {
            double entering = Math.Clamp(mixed, box.wholeLow.MinEnthalpy, box.wholeLow.MaxEnthalpy);
            return box.wholeLow.TemperatureAtEnthalpy(entering) < box.WarmEndTemperature
                ? new(box.composite, flow, box.WarmEndEnthalpy, box.wholeLow, flow, entering)
                : null;
        }
    }
}
