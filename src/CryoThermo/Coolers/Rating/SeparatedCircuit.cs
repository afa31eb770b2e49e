using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A phase separator at the warm end, the vapour through two exchangers, the throttle and the cold head, the liquid through the warm one and into the return.</summary>
internal sealed class SeparatedCircuit(Cooler cooler, PhaseSeparator separator, CoolerCharge charge, double room) : CoolerCircuit(cooler, charge, room)
{
    /// <summary>Steps of the first high pressure in search of liquid beside vapour, and their factor.</summary>
    private const int MostSteps = 16;
    private const double Step = 1.2;

    private readonly Cooler cooler = cooler;
    private readonly SeparatedBox box = new(cooler.Recuperator, separator.ColdExchanger);

    /// <inheritdoc/>
    /// <remarks>Where nothing settles there is no state to go on from: the high pressure is raised until something does, or lowered until something is vapour.</remarks>
    public override CoolerGuess Started(CoolerGuess guess)
    {
        WorkingFluid fluid = Charged.WithFractions(guess.Fractions);
        double most = 0.3 * Charged.Kernel.HighestPressure;
        double high = guess.High;
        for (int i = 0; i < MostSteps && high > guess.Low && high < most; i++)
        {
            if (!fluid.TryAt(Temperature.FromKelvins(guess.WarmEnd), Pressure.FromPascals(high), out State? state))
            {
                break;
            }

            if (state.VaporFraction is > 0 and < 1)
            {
                return guess with { High = high };
            }

            high *= state.VaporFraction > 0 ? Step : 1 / Step;
        }

        return guess;
    }

    /// <inheritdoc/>
    public override BoxExchange Exchange(CoolerPoint point) =>
        box.Exchange(point.Separated!, (SeparatedCourse)point.Course, point.Guess.Low, point.Cold, point.Flow);

    /// <inheritdoc/>
    protected override BoxStates States(double cold, CoolerGuess guess, State warmEnd, CoolerPoint? last, bool isFrozen, bool isCoarse, State? coldOutletKnown)
    {
        Pressure low = Pressure.FromPascals(guess.Low);
        SeparatedStreams streams = Within(() => Parted(warmEnd), guess, cold);
        SeparatedCourse course = isFrozen && last?.Course is SeparatedCourse held
            ? held
            : Within(() => box.Course(streams, warmEnd.Pressure.Pascals, guess.Low, cold, guess.Flow, isCoarse), guess, cold);
        CoolerPoint? near = last?.Separated is null ? null : last;
        WorkingFluid vapor = streams.Vapor.Fluid;
        State coldOutlet = coldOutletKnown ?? Within(() => vapor.At(Temperature.FromKelvins(cold), Pressure.FromPascals(guess.Low * course.ColdPressureRatio)), guess, cold);
        double share = streams.VaporShare;
        double mixed = (share * (coldOutlet.MolarEnthalpy.JoulesPerMole + course.ColdFall)) + ((1 - share) * (streams.Liquid.MolarEnthalpy.JoulesPerMole - course.LiquidFall));
        State suction = Within(
            () => warmEnd.Fluid.AtEnthalpy(low, MolarEnergy.FromJoulesPerMole(mixed + Fall(course, share)), last?.Compression.Suction ?? warmEnd), guess, cold);
        State throttleInlet = Within(
            () => vapor.AtEnthalpy(streams.Vapor.Pressure, streams.Vapor.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(course.VaporFall + course.ColdFall), near?.ThrottleInlet ?? streams.Vapor), guess, cold);
        return new(course, coldOutlet, suction, throttleInlet, streams);
    }

    /// <inheritdoc/>
    protected override SliceState[]?[] FillBox(BoxStates states, State warmEnd, CoolerGuess guess, CoolerPoint? last, List<SpaceFilling> fillings)
    {
        (SeparatedStreams streams, SeparatedCourse course) = (states.Separated!, (SeparatedCourse)states.Course);
        SliceState[]?[] slices = last?.Separated is null ? new SliceState[]?[5] : last.Slices;
        double share = streams.VaporShare;
        double high = streams.Vapor.Pressure.Pascals;
        double warmVolume = cooler.Recuperator.HighSideVolume.CubicMeters;
        CoolerRecuperator cold = separator.ColdExchanger;
        SpaceFilling vessel = new("separator", states.Suction.Fluid.Composition.Components.Count);
        fillings.Add(vessel);
        double volume = separator.Volume.CubicMeters;
        double level = separator.LevelAt(1 - share);
        AddStill(vessel, streams.Vapor, volume * (1 - level));
        AddStill(vessel, streams.Liquid, volume * level);
        WorkingFluid vapor = streams.Vapor.Fluid;
        double vaporEnthalpy = streams.Vapor.MolarEnthalpy.JoulesPerMole;

        // The streams share the high side of the warm exchanger as their moles; a liquid takes less room, but its passage is as long.
        return
        [
            Fill("warm exchanger, vapour stream", warmVolume * share, course.Vapor, vapor, vaporEnthalpy, streams.Vapor, high, course.VaporFall, isHigh: true, slices[0], fillings),
            Fill("warm exchanger, liquid stream", warmVolume * (1 - share), course.Liquid, streams.Liquid.Fluid, streams.Liquid.MolarEnthalpy.JoulesPerMole, streams.Liquid, high, course.LiquidFall, isHigh: true, slices[1], fillings),
            Fill("warm exchanger, return", cooler.Recuperator.LowSideVolume.CubicMeters, course.Return, states.Suction.Fluid, states.Suction.MolarEnthalpy.JoulesPerMole, states.Suction, guess.Low, Fall(course, share), isHigh: false, slices[2], fillings),
            Fill("cold exchanger, high side", cold.HighSideVolume.CubicMeters, course.Cold, vapor, vaporEnthalpy - course.VaporFall, states.ThrottleInlet, high, course.ColdFall, isHigh: true, slices[3], fillings),
            Fill("cold exchanger, low side", cold.LowSideVolume.CubicMeters, course.Cold, vapor, states.ColdOutlet.MolarEnthalpy.JoulesPerMole + course.ColdFall, states.ColdOutlet, states.ColdOutlet.Pressure.Pascals, course.ColdFall, isHigh: false, slices[4], fillings),
        ];
    }

    // What both streams lose in the warm exchanger, J a mole that circulates.
    private static double Fall(SeparatedCourse course, double share) => (share * course.VaporFall) + ((1 - share) * course.LiquidFall);

    // The pressure drop of the high side is taken before the vessel.
    private SeparatedStreams Parted(State warmEnd)
    {
        Pressure drop = cooler.Recuperator.HighSidePressureDrop;
        if (!(warmEnd.Pressure > drop))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.RecuperatorTooNarrow, FormattableString.Invariant($"The recuperator's high side loses {drop.Bars:G4} bar of {warmEnd.Pressure.Bars:G4} bar absolute."));
        }

        State arriving = drop.Pascals > 0 ? warmEnd.Fluid.AtEnthalpy(warmEnd.Pressure - drop, warmEnd.MolarEnthalpy, warmEnd) : warmEnd;
        try
        {
            (double share, WorkingFluid vapor, WorkingFluid liquid) = SeparatorColdBox.Part(arriving);
            return new(arriving, share, vapor.At(arriving.Temperature, arriving.Pressure), liquid.At(arriving.Temperature, arriving.Pressure));
        }
        catch (SeparatorRefusedException error)
        {
            throw new CoolerRefusedException(CoolerObstacle.NothingToSeparate, error.Message);
        }
    }
}
