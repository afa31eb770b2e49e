using CryoThermo.Equilibrium;
using CryoThermo.Machines;

namespace CryoThermo.Coolers.Rating;

/// <summary>Both exchangers about a phase separator, between their streams. Remembers isobars of its last search; not thread-safe.</summary>
internal sealed class SeparatedBox(CoolerRecuperator warm, CoolerRecuperator cold)
{
    /// <summary>How much lower the isobars go where streams meet below them, K.</summary>
    private const double Deeper = 20;

    /// <summary>Less heat than this, J a mole that circulates, is not shared out over the slices.</summary>
    private const double Nothing = 1e-6;

    private readonly IsobarMemory vaporHigh = new();
    private readonly IsobarMemory liquidHigh = new();
    private readonly IsobarMemory vaporLow = new();
    private readonly IsobarMemory wholeLow = new();
    private double floor = double.PositiveInfinity;

    /// <summary>What the exchangers do.</summary>
    /// <param name="streams">What the separator parts.</param>
    /// <param name="warmEndPressure">Before the pressure drop of the high side, Pa.</param>
    /// <param name="suctionPressure">Pa.</param>
    /// <param name="coldHead">Temperature at which the vapour stream leaves the cold head, K.</param>
    /// <param name="flow">All that circulates, mol/s.</param>
    /// <param name="isCoarse">Whether coarse isobars are enough.</param>
    /// <exception cref="CoolerRefusedException">There is no steady state.</exception>
    public SeparatedCourse Course(SeparatedStreams streams, double warmEndPressure, double suctionPressure, double coldHead, double flow, bool isCoarse)
    {
        (SeparatorColdBox box, SeparatorColdBoxState state) = Solve(streams, suctionPressure, coldHead, flow, isCoarse, isRemembered: true);
        double behind = (suctionPressure + warm.LowSidePressureDrop.Pascals) / suctionPressure;
        double share = streams.VaporShare;
        double vaporFall = box.WarmEndVaporEnthalpy - state.VaporMiddleEnthalpy;
        double liquidFall = box.WarmEndLiquidEnthalpy - state.LiquidThrottleInletEnthalpy;
        double whole = (share * vaporFall) + ((1 - share) * liquidFall);
        double[] heats = Shares(state.WarmExchanger, state.WarmDuty);
        ContentPlace[] vapor = new ContentPlace[ColdBox.Slices];
        ContentPlace[] liquid = new ContentPlace[ColdBox.Slices];
        ContentPlace[] mixed = new ContentPlace[ColdBox.Slices];
        for (int i = 0; i < ColdBox.Slices; i++)
        {
            // Both hot streams have one temperature at each place, and so each its own share of what it gives.
            (_, double ofVapor, double ofLiquid) = box.Beside(box.WarmEndEnthalpy - (heats[i] * whole));
            vapor[i] = Place(whole > Nothing ? (box.WarmEndVaporEnthalpy - ofVapor) / vaporFall : 0, 1);
            liquid[i] = Place(whole > Nothing ? (box.WarmEndLiquidEnthalpy - ofLiquid) / liquidFall : 0, 1);
            mixed[i] = Place(heats[i], behind);
        }

        // Run backwards, the cold exchanger is entered by its hot stream at the cold head: counted from there.
        double coldFall = state.VaporMiddleEnthalpy - state.VaporThrottleInletEnthalpy;
        double[] inCold = state.ColdExchanger is { } exchanger ? Shares(exchanger, Math.Abs(state.ColdDuty)) : new double[ColdBox.Slices];
        return new(
            vaporFall,
            liquidFall,
            coldFall,
            whole,
            streams.Arriving.Pressure.Pascals / warmEndPressure,
            behind,
            vapor,
            liquid,
            mixed,
            [.. inCold.Select(h => Place(coldFall < 0 ? 1 - h : h, 1))]);

        static ContentPlace Place(double heatShare, double pressureRatio) => new(1.0 / ColdBox.Slices, heatShare, pressureRatio);
    }

    /// <summary>The exchangers in a state, on fine isobars made anew.</summary>
    public BoxExchange Exchange(SeparatedStreams streams, SeparatedCourse course, double suctionPressure, double coldHead, double flow)
    {
        (_, SeparatorColdBoxState state) = Solve(streams, suctionPressure, coldHead, flow, isCoarse: false, isRemembered: false);
        return new(
            Told(state.WarmExchanger, flow * course.HighFall),
            null,
            state.ColdExchanger is { } exchanger ? Told(exchanger, flow * streams.VaporShare * Math.Abs(course.ColdFall)) : null);

        static RecuperatorResult Told(CounterFlowKernel kernel, double heat)
        {
            double duty = Math.Clamp(heat, 0, kernel.GreatestDuty);
            return Recuperator.Of(kernel, duty, kernel.Conductance(duty));
        }
    }

    private static double[] Shares(CounterFlowKernel kernel, double heat)
    {
        double duty = Math.Clamp(heat, 0, kernel.GreatestDuty);
        return duty > 0 ? [.. kernel.HeatInMiddleOfParts(duty, ColdBox.Slices, ColdBox.Blur).Select(q => q / duty)] : new double[ColdBox.Slices];
    }

    // With a warm cold head the liquid's throttle is the coldest place: the isobars go as low as that takes.
    private (SeparatorColdBox Box, SeparatorColdBoxState State) Solve(SeparatedStreams streams, double suctionPressure, double coldHead, double flow, bool isCoarse, bool isRemembered)
    {
        double lowPressure = suctionPressure + warm.LowSidePressureDrop.Pascals;
        double highPressure = streams.Arriving.Pressure.Pascals;
        if (!(highPressure > lowPressure))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.RecuperatorTooNarrow,
                FormattableString.Invariant($"The recuperator loses {warm.HighSidePressureDrop.Bars:G4} and {warm.LowSidePressureDrop.Bars:G4} bar; above a suction of {suctionPressure / 1e5:G4} bar absolute nothing is left for the throttles."));
        }

        double warmEnd = streams.Arriving.Temperature.Kelvins;
        if (!(warmEnd > coldHead))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.NoCooling, FormattableString.Invariant($"The stream enters the separator at {warmEnd:F2} K, not warmer than the cold end of {coldHead:F2} K."));
        }

        double least = Math.Min(coldHead, streams.Vapor.Fluid.Kernel.LowestTemperature + 1);
        while (true)
        {
            double lowest = Math.Max(least, Math.Min(coldHead, floor));
            SeparatorColdBox box = new(
                streams.VaporShare,
                streams.Vapor.Fluid,
                streams.Liquid.Fluid,
                warmEnd,
                lowest,
                Table(streams.Vapor.Fluid, highPressure, lowest, vaporHigh),
                Table(streams.Liquid.Fluid, highPressure, lowest, liquidHigh),
                Table(streams.Vapor.Fluid, lowPressure, lowest, vaporLow),
                Table(streams.Arriving.Fluid, lowPressure, lowest, wholeLow),
                warm.ConductanceWattsPerKelvin,
                cold.ConductanceWattsPerKelvin);
            if (box.TrySolve(Math.Clamp(coldHead, lowest, warmEnd), flow, out SeparatorColdBoxState? state, out SeparatorObstacle? obstacle))
            {
                return (box, state);
            }

            if (obstacle != SeparatorObstacle.ColderThanCovered || lowest <= least)
            {
                SeparatorRefusedException refusal = box.Refusal(obstacle.Value, coldHead);
                throw new CoolerRefusedException(obstacle == SeparatorObstacle.ReturnTooWarm ? CoolerObstacle.NoCooling : CoolerObstacle.ModelRange, refusal.Message);
            }

            floor = lowest - Deeper;
        }

        IsobarTable Table(WorkingFluid fluid, double pressure, double lowest, IsobarMemory memory) => IsobarBuilder.Build(
            fluid.Kernel, fluid.Composition.Fractions, pressure, lowest, warmEnd + SeparatorColdBox.Margin, isCoarse, isRemembered ? memory : null);
    }
}
