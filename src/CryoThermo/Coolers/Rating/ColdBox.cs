using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>The recuperator of a cooler between its streams. Remembers isobars of its last search; not thread-safe.</summary>
internal sealed class ColdBox(CoolerRecuperator recuperator, double room)
{
    /// <summary>Parts of equal surface that a side is held in.</summary>
    public const int Slices = 20;

    /// <summary>Share of the suction pressure that a low side by its tubes is first taken to lose.</summary>
    private const double FirstDrop = 0.03;

    /// <summary>
    /// Added to the difference of the streams where the surface is shared out for what it holds, K: conduction along the tubes and uneven flow keep it from heaping up at a
    /// pinch (common practice, no source). The heat exchanged follows from the difference as it is.
    /// </summary>
    public const double Blur = 0.2;

    private readonly IsobarMemory highMemory = new();
    private readonly IsobarMemory lowMemory = new();

    /// <summary>The course of both streams.</summary>
    /// <param name="warmEnd">The high-pressure stream as it enters.</param>
    /// <param name="suctionPressure">Pa.</param>
    /// <param name="cold">Temperature at which the stream leaves the cold head, K.</param>
    /// <param name="flow">Flow expected, mol/s.</param>
    /// <param name="flowAt">Flow drawn in, mol/s, at an enthalpy of the suction, J/mol.</param>
    /// <param name="last">A course nearby; null for none.</param>
    /// <param name="isCoarse">Whether coarse isobars are enough.</param>
    public ColdBoxCourse Course(State warmEnd, double suctionPressure, double cold, double flow, Func<double, double> flowAt, ColdBoxCourse? last, bool isCoarse) =>
        recuperator.Tubes is { } tubes
            ? OfTubes(tubes, warmEnd, suctionPressure, cold, flow, last)
            : OfConductance(warmEnd, suctionPressure, cold, flowAt, isCoarse);

    /// <summary>Temperatures along a recuperator given by its conductance; with phases remembered from the isobars before, or sought from every start.</summary>
    public CounterFlowKernel Kernel(State warmEnd, double suctionPressure, double cold, double flow, bool isCoarse, bool isRemembered, out double coldPressure, out double throttlePressure)
    {
        throttlePressure = warmEnd.Pressure.Pascals - recuperator.HighSidePressureDrop.Pascals;
        coldPressure = suctionPressure + recuperator.LowSidePressureDrop.Pascals;
        if (!(throttlePressure > coldPressure))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.RecuperatorTooNarrow,
                FormattableString.Invariant($"The recuperator loses {recuperator.HighSidePressureDrop.Bars:G4} and {recuperator.LowSidePressureDrop.Bars:G4} bar; between {suctionPressure / 1e5:G4} and {warmEnd.Pressure.Bars:G4} bar absolute nothing is left for the throttle."));
        }

        WorkingFluid fluid = warmEnd.Fluid;
        State entering = recuperator.HighSidePressureDrop.Pascals == 0 ? warmEnd : fluid.AtEnthalpy(Pressure.FromPascals(throttlePressure), warmEnd.MolarEnthalpy);
        Temperature warm = entering.Temperature;
        if (!(warm.Kelvins > cold))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.NoCooling,
                FormattableString.Invariant($"The high-pressure stream enters the recuperator at {warm.Kelvins:F2} K after its pressure drop, not warmer than the cold end of {cold:F2} K."));
        }

        IsobarTable high = IsobarBuilder.Build(fluid.Kernel, fluid.Composition.Fractions, throttlePressure, cold, warm.Kelvins, isCoarse, isRemembered ? highMemory : null);
        IsobarTable low = IsobarBuilder.Build(fluid.Kernel, fluid.Composition.Fractions, coldPressure, cold, warm.Kelvins, isCoarse, isRemembered ? lowMemory : null);
        return CounterFlowKernel.FromInletTemperatures(high, flow, warm.Kelvins, low, flow, cold);
    }

    private ColdBoxCourse OfConductance(State warmEnd, double suctionPressure, double cold, Func<double, double> flowAt, bool isCoarse)
    {
        CounterFlowKernel kernel = Kernel(warmEnd, suctionPressure, cold, 1, isCoarse, isRemembered: true, out double coldPressure, out double throttlePressure);
        double inlet = kernel.ColdOutletEnthalpy(0);
        (_, double duty) = FlowMatch.Solve(kernel, recuperator.ConductanceWattsPerKelvin, q => flowAt(inlet + q));

        // Parts of equal surface, not of equal heat: close to a pinch most of the surface, and so of what it holds, is at nearly one temperature.
        double[] heat = duty > 0 ? kernel.HeatInMiddleOfParts(duty, Slices, Blur) : new double[Slices];
        double entering = throttlePressure / warmEnd.Pressure.Pascals;
        double behind = coldPressure / suctionPressure;
        ContentPlace[] high = new ContentPlace[Slices];
        ContentPlace[] low = new ContentPlace[Slices];
        for (int i = 0; i < Slices; i++)
        {
            double share = duty > 0 ? heat[i] / duty : 0;
            high[i] = new(1.0 / Slices, share, entering);
            low[i] = new(1.0 / Slices, share, behind);
        }

        return new(duty, duty, entering, behind, entering, high, low);
    }

    private ColdBoxCourse OfTubes(TubeRecuperator tubes, State warmEnd, double suctionPressure, double cold, double flow, ColdBoxCourse? last)
    {
        WorkingFluid fluid = warmEnd.Fluid;
        double molarMass = fluid.Composition.MolarMass.KilogramsPerMole;
        double coldPressure = suctionPressure * (last?.ColdPressureRatio ?? (1 + FirstDrop));
        State inlet = fluid.At(Temperature.FromKelvins(cold), Pressure.FromPascals(coldPressure));
        ExchangeProfile profile = new TubeExchange(tubes, Streams(warmEnd, inlet, flow)).Settle(() => tubes.Length.Meters);
        double fall = profile.HotFall;
        double rise = profile.ColdEnthalpy[0] - profile.ColdEnthalpy[^1];
        double drop = profile.ColdPressure[^1] - profile.ColdPressure[0];
        int each = profile.Segments / Slices;
        ContentPlace[] high = new ContentPlace[Slices];
        ContentPlace[] low = new ContentPlace[Slices];
        for (int i = 0; i < Slices; i++)
        {
            int at = (i * each) + (each / 2);
            high[i] = new(1.0 / Slices, (profile.HotEnthalpy[0] - profile.HotEnthalpy[at]) / fall, profile.HotPressure[at] / profile.HotPressure[0]);
            low[i] = new(1.0 / Slices, (profile.ColdEnthalpy[0] - profile.ColdEnthalpy[at]) / rise, (suctionPressure + profile.ColdPressure[at] - profile.ColdPressure[0]) / suctionPressure);
        }

        return new(
            fall * molarMass, rise * molarMass, profile.HotPressure[^1] / profile.HotPressure[0], (suctionPressure + drop) / suctionPressure, 1, high, low);
    }

    /// <summary>The streams that tubes are asked to bring together.</summary>
    public RecuperatorStreams Streams(State warmEnd, State coldInlet, double flow)
    {
        MassFlow mass = MassFlow.FromKilogramsPerSecond(flow * warmEnd.Fluid.Composition.MolarMass.KilogramsPerMole);
        return new(
            warmEnd,
            mass,
            coldInlet,
            mass,
            recuperator.LeakWattsPerMeterKelvin > 0 ? new RecuperatorSurroundings(Temperature.FromKelvins(room), recuperator.LeakWattsPerMeterKelvin) : null);
    }
}
