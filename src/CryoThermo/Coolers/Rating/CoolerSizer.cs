using CryoThermo.Flow;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Sizes a cooler for a demand.</summary>
internal static class CoolerSizer
{
    private const int MostRounds = 30;
    private const double DropTolerance = 1e-6;

    public static CoolerSizing Size(Cooler pattern, CoolerDemand demand)
    {
        if (pattern.Separator is not null)
        {
            throw new ArgumentException("The cooler has a phase separator, for which no sizes are found; rate it with sizes given, or size the cooler without one.");
        }

        WorkingFluid fluid = demand.Circulating;
        double cold = demand.ColdTemperature.Kelvins;
        Pressure low = demand.SuctionPressure;
        Pressure high = demand.DischargePressure;
        CoolerCharge unit = new(fluid, AmountOfSubstance.FromMoles(1));
        CoolerSolver solver = new(pattern, unit, demand.AmbientTemperature);
        ColdBox box = new(pattern.Recuperator, demand.AmbientTemperature.Kelvins);
        double needed = (double)demand.Load.Watts + solver.Leak(cold);
        if (!(needed > 0))
        {
            throw new ArgumentException("load and leak together are not above zero.", nameof(demand));
        }

        // Temperatures behind after- and pre-cooler follow from the flow, which follows from them.
        double flow = 0;
        double after = demand.AmbientTemperature.Kelvins + 5;
        double warm = after;
        PreCooledStream? preCooled = null;
        double coldPressure = low.Pascals + pattern.Recuperator.LowSidePressureDrop.Pascals;
        double throttlePressure = high.Pascals - pattern.AfterCooling.PressureDrop.Pascals - pattern.Recuperator.HighSidePressureDrop.Pascals;
        for (int round = 0; ; round++)
        {
            State afterCooler = At(fluid, after, high - pattern.AfterCooling.PressureDrop);
            State warmEnd = warm < after ? At(fluid, warm, afterCooler.Pressure) : afterCooler;
            CycleCapacity limit = Limit(warmEnd, coldPressure, throttlePressure, cold);
            if (!(limit.Cooling > 0))
            {
                throw new CoolerRefusedException(
                    CoolerObstacle.NoCooling,
                    FormattableString.Invariant($"Between {coldPressure / 1e5:G4} and {throttlePressure / 1e5:G4} bar absolute {fluid.Composition} does not cool at {cold:F1} K: the enthalpy difference at {limit.PinchTemperature:F1} K is {limit.Cooling:F0} J/mol. Change the blend or the pressures."));
            }

            double cooling = demand.ShareOfLimit * limit.Cooling;
            double now = needed / cooling;
            State suction = fluid.AtEnthalpy(low, warmEnd.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(cooling));
            CompressorResult compression = CoolerCircuit.Compress(pattern.Compressor, suction, high);
            double swept = now / compression.VolumetricEfficiency / suction.MolarDensity.MolesPerCubicMeter;
            double nextAfter = pattern.AfterCooling.OutletTemperature(compression.Discharge, now, demand.AmbientTemperature.Kelvins);
            State entering = At(fluid, nextAfter, afterCooler.Pressure);
            preCooled = pattern.PreCooling?.Cool(entering, now, demand.AmbientTemperature.Kelvins, preCooled);
            double nextWarm = preCooled?.Outlet ?? nextAfter;
            double change = Math.Max(Math.Abs((flow / now) - 1), Math.Max(Math.Abs(nextAfter - after), Math.Abs(nextWarm - warm)) / 100);
            double lastCold = coldPressure;
            double lastThrottle = throttlePressure;
            State coldOutlet = At(fluid, cold, Pressure.FromPascals(coldPressure));
            State throttleInlet = fluid.AtEnthalpy(
                Pressure.FromPascals(throttlePressure), coldOutlet.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(cooling));
            double? conductance = null;
            TubeRecuperator? tubes = null;
            if (pattern.Recuperator.Tubes is { } shape)
            {
                // High-side duty: from the warm end to what the cold head leaves to the throttle.
                double duty = now * (warmEnd.MolarEnthalpy - throttleInlet.MolarEnthalpy).JoulesPerMole;
                TubeRecuperatorSizing length = shape.LengthFor(Power.FromWatts(duty), box.Streams(warmEnd, coldOutlet, now));
                tubes = length.Rating.Recuperator;
                coldPressure = low.Pascals + length.Rating.ColdPressureDrop.Nominal.Pascals;
                throttlePressure = warmEnd.Pressure.Pascals - length.Rating.HotPressureDrop.Nominal.Pascals;
            }
            else
            {
                CounterFlowKernel kernel = box.Kernel(warmEnd, low.Pascals, cold, 1, isCoarse: false, isRemembered: false, out _, out _);
                double duty = (warmEnd.MolarEnthalpy - throttleInlet.MolarEnthalpy).JoulesPerMole;
                conductance = now * kernel.Conductance(Math.Max(0, duty));
                if (!double.IsFinite(conductance.Value))
                {
                    throw new CoolerRefusedException(CoolerObstacle.NoCooling, FormattableString.Invariant($"No recuperator brings the streams together at {cold:F1} K."));
                }
            }

            change = Math.Max(change, Math.Max(Math.Abs((coldPressure / lastCold) - 1), Math.Abs((throttlePressure / lastThrottle) - 1)));
            (flow, after, warm) = (now, nextAfter, nextWarm);
            if (change <= DropTolerance && preCooled is { IsExact: false })
            {
                // What was carried over is computed, and the rounds go on from there.
                PreCooledStream exact = preCooled.Exactly(entering, now, warm);
                change = Math.Abs(exact.Outlet - preCooled.Outlet) / 100;
                preCooled = exact;
                warm = exact.Outlet;
            }

            if (change <= DropTolerance || round >= MostRounds)
            {
                return Result(pattern, demand, now, now * limit.Cooling, swept, conductance, tubes, throttleInlet, Pressure.FromPascals(coldPressure), after, warm);
            }
        }
    }

    private static CoolerSizing Result(
        Cooler pattern,
        CoolerDemand demand,
        double flow,
        double greatest,
        double swept,
        double? conductance,
        TubeRecuperator? tubes,
        State throttleInlet,
        Pressure behind,
        double after,
        double warm)
    {
        WorkingFluid fluid = demand.Circulating;
        MassFlow mass = MassFlow.FromKilogramsPerSecond(flow * fluid.Composition.MolarMass.KilogramsPerMole);
        ControlValve valve = ControlValve.ForFlow(throttleInlet, behind, mass, ValveStyle.Needle);
        Length? capillary = pattern.Throttle is Capillary pipe ? pipe.LengthFor(throttleInlet, behind, mass).Capillary.Length : null;
        Compressor model = pattern.Compressor;
        CoolerRecuperator old = pattern.Recuperator;
        Cooler sized = pattern with
        {
            Compressor = new(VolumeFlow.FromCubicMetersPerSecond(swept), model.Filling, model.Efficiency, model.ShellHeatLossFraction),
            Recuperator = tubes is null
                ? CoolerRecuperator.OfConductance(Math.Max(1e-6, conductance!.Value), old.HighSideVolume, old.LowSideVolume, old.HighSidePressureDrop, old.LowSidePressureDrop)
                : CoolerRecuperator.OfTubes(tubes, old.LeakWattsPerMeterKelvin),
            Throttle = valve,
        };

        // What the spaces hold in this state is the charge.
        CoolerSolver solver = new(sized, new(fluid, AmountOfSubstance.FromMoles(1)), demand.AmbientTemperature);
        double[] moles = solver.ContentsAt(
            demand.ColdTemperature.Kelvins,
            new(demand.SuctionPressure.Pascals, demand.DischargePressure.Pascals, [.. fluid.Composition.MoleFractions], flow, after, warm));
        double total = moles.Sum();
        CoolerCharge charge = new(fluid.WithFractions([.. moles.Select(m => m / total)]), AmountOfSubstance.FromMoles(total));
        State standing = charge.Fluid.AtDensity(demand.AmbientTemperature, Molarity.FromMolesPerCubicMeter(total / sized.TotalVolume));
        return new(
            demand, sized, charge, MolarFlow.FromMolesPerSecond(flow), Power.FromWatts(greatest), VolumeFlow.FromCubicMetersPerSecond(swept), conductance, tubes?.Length, valve, capillary, standing.Pressure);
    }

    private static CycleCapacity Limit(State warmEnd, double coldPressure, double throttlePressure, double cold)
    {
        if (!(throttlePressure > coldPressure))
        {
            throw new CoolerRefusedException(CoolerObstacle.RecuperatorTooNarrow, "The recuperator loses all of the pressure between the sides.");
        }

        WorkingFluid fluid = warmEnd.Fluid;
        State entering = fluid.AtEnthalpy(Pressure.FromPascals(throttlePressure), warmEnd.MolarEnthalpy);
        ThrottleCycle cycle = new(fluid, Pressure.FromPascals(coldPressure), Pressure.FromPascals(throttlePressure), entering.Temperature, Temperature.FromKelvins(cold));
        return cycle.Kernel.GreatestCooling(cold);
    }

    private static State At(WorkingFluid fluid, double kelvins, Pressure pressure) => fluid.At(Temperature.FromKelvins(kelvins), pressure);
}
