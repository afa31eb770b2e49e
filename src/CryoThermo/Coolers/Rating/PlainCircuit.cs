using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>One stream through one recuperator, one throttle and the cold head.</summary>
internal sealed class PlainCircuit(Cooler cooler, CoolerCharge charge, double room) : CoolerCircuit(cooler, charge, room)
{
    private readonly Cooler cooler = cooler;
    private readonly ColdBox box = new(cooler.Recuperator, room);

    /// <inheritdoc/>
    public override BoxExchange Exchange(CoolerPoint point)
    {
        if (cooler.Recuperator.Tubes is { } tubes)
        {
            return new(null, tubes.Rate(box.Streams(point.WarmEnd, point.ColdOutlet, point.Flow)), null);
        }

        CounterFlowKernel kernel = box.Kernel(point.WarmEnd, point.Guess.Low, point.Cold, point.Flow, isCoarse: false, isRemembered: false, out _, out _);
        double duty = Math.Min(point.Flow * point.Course.HighFall, kernel.GreatestDuty);
        return new(Recuperator.Of(kernel, duty, kernel.Conductance(duty)), null, null);
    }

    /// <inheritdoc/>
    protected override BoxStates States(double cold, CoolerGuess guess, State warmEnd, CoolerPoint? last, bool isFrozen, bool isCoarse, State? coldOutletKnown)
    {
        WorkingFluid fluid = warmEnd.Fluid;
        Pressure low = Pressure.FromPascals(guess.Low);
        Pressure high = Pressure.FromPascals(guess.High);
        ColdBoxCourse course = isFrozen && last is not null
            ? last.Course
            : Within(() => box.Course(warmEnd, guess.Low, cold, guess.Flow, h => Drawn(fluid, low, high, h, warmEnd, last?.Compression), last?.Course, isCoarse), guess, cold, CoolerObstacle.RecuperatorTooNarrow);
        Pressure coldPressure = Pressure.FromPascals(guess.Low * course.ColdPressureRatio);
        Pressure throttlePressure = Pressure.FromPascals(warmEnd.Pressure.Pascals * course.ThrottlePressureRatio);
        State coldOutlet = coldOutletKnown ?? Within(() => fluid.At(Temperature.FromKelvins(cold), coldPressure), guess, cold);
        State suction = Within(() => fluid.AtEnthalpy(low, coldOutlet.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(course.LowRise), last?.Compression.Suction ?? warmEnd), guess, cold);
        State throttleInlet = Within(() => fluid.AtEnthalpy(throttlePressure, warmEnd.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(course.HighFall), last?.ThrottleInlet ?? warmEnd), guess, cold);
        return new(course, coldOutlet, suction, throttleInlet, null);
    }

    /// <inheritdoc/>
    protected override SliceState[]?[] FillBox(BoxStates states, State warmEnd, CoolerGuess guess, CoolerPoint? last, List<SpaceFilling> fillings)
    {
        CoolerRecuperator recuperator = cooler.Recuperator;
        ColdBoxCourse course = states.Course;
        return
        [
            Side("recuperator, high side", recuperator.HighSideVolume, course.High, warmEnd, course.HighFall, isHigh: true, last?.Slices[0]),
            Side("recuperator, low side", recuperator.LowSideVolume, course.Low, states.Suction, course.LowRise, isHigh: false, last?.Slices[1]),
        ];

        SliceState[]? Side(string name, Volume volume, ContentPlace[] places, State start, double heat, bool isHigh, SliceState[]? remembered) =>
            Fill(name, volume.CubicMeters, places, start.Fluid, start.MolarEnthalpy.JoulesPerMole, start, start.Pressure.Pascals, heat, isHigh, remembered, fillings);
    }

    /// <summary>Flow that the compressor draws in from a suction of given enthalpy, mol/s.</summary>
    private double Drawn(WorkingFluid fluid, Pressure low, Pressure high, double enthalpy, State warmEnd, CompressorResult? last)
    {
        State suction = fluid.AtEnthalpy(low, MolarEnergy.FromJoulesPerMole(enthalpy), last?.Suction ?? warmEnd);
        double volumetric;
        try
        {
            volumetric = Compressor.Fill(cooler.Compressor.Filling, suction, high, out _, out _);
        }
        catch (ArgumentOutOfRangeException) when (last is not null)
        {
            // Refused where the compressor is computed, if its suction remains so.
            volumetric = last.VolumetricEfficiency;
        }

        return cooler.Compressor.SweptVolumeFlow.CubicMetersPerSecond * volumetric * suction.MolarDensity.MolesPerCubicMeter;
    }
}
