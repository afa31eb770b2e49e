using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>The circuit of a cooler at a guess of what circulates: its states, flows and contents. Remembers isobars of its last state; not thread-safe.</summary>
internal sealed class CoolerCircuit
{
    private readonly Cooler cooler;
    private readonly WorkingFluid charged;
    private readonly double[] amounts;
    private readonly double total;
    private readonly double[] molarMasses;
    private readonly double room;
    private readonly ColdBox box;

    public CoolerCircuit(Cooler cooler, CoolerCharge charge, double room)
    {
        this.cooler = cooler;
        this.room = room;
        charged = charge.Fluid;
        total = charge.Amount.Moles;
        amounts = [.. charged.Composition.MoleFractions.Select(z => z * total)];
        molarMasses = [.. charged.Composition.Components.Select(c => c.MolarMass)];
        box = new(cooler.Recuperator, room);
    }

    /// <summary>The recuperator.</summary>
    public ColdBox Box => box;

    /// <summary>States, flows and contents at a guess.</summary>
    public CoolerPoint Evaluate(double cold, CoolerGuess guess, CoolerPoint? last, bool isFrozen, bool isCoarse, bool isVerified, bool isHeld)
    {
        WorkingFluid fluid = charged.WithFractions(guess.Fractions);
        Pressure low = Pressure.FromPascals(guess.Low);
        Pressure high = Pressure.FromPascals(guess.High);
        Pressure afterPressure = high - cooler.AfterCooling.PressureDrop;
        if (!(afterPressure.Pascals > guess.Low))
        {
            throw new CoolerRefusedException(CoolerObstacle.ThrottleTooLarge, "The after-cooler loses all of the pressure.");
        }

        State after = Within(() => fluid.At(Temperature.FromKelvins(guess.AfterCooler), afterPressure), guess, cold);
        State warmEnd = guess.WarmEnd < guess.AfterCooler ? Within(() => fluid.At(Temperature.FromKelvins(guess.WarmEnd), afterPressure), guess, cold) : after;
        if (warmEnd.Temperature.Kelvins <= cold)
        {
            throw new CoolerRefusedException(CoolerObstacle.NoCooling, FormattableString.Invariant($"The stream enters the cold box at {warmEnd.Temperature.Kelvins:F2} K, not warmer than the cold end of {cold:F2} K."));
        }

        ColdBoxCourse course = isFrozen && last is not null
            ? last.Course
            : Within(() => box.Course(warmEnd, guess.Low, cold, guess.Flow, h => Drawn(fluid, low, high, h, warmEnd, last?.Compression), last?.Course, isCoarse), guess, cold, CoolerObstacle.RecuperatorTooNarrow);
        Pressure coldPressure = Pressure.FromPascals(guess.Low * course.ColdPressureRatio);
        Pressure throttlePressure = Pressure.FromPascals(afterPressure.Pascals * course.ThrottlePressureRatio);
        State coldOutlet = Within(() => fluid.At(Temperature.FromKelvins(cold), coldPressure), guess, cold);
        State suction = Within(() => fluid.AtEnthalpy(low, coldOutlet.MolarEnthalpy + MolarEnergy.FromJoulesPerMole(course.LowRise), last?.Compression.Suction ?? warmEnd), guess, cold);
        CompressorResult compression = Compress(cooler.Compressor, suction, high);
        State throttleInlet = Within(() => fluid.AtEnthalpy(throttlePressure, warmEnd.MolarEnthalpy - MolarEnergy.FromJoulesPerMole(course.HighFall), last?.ThrottleInlet ?? warmEnd), guess, cold);
        if (!(throttlePressure > coldPressure))
        {
            throw new CoolerRefusedException(CoolerObstacle.RecuperatorTooNarrow, "The recuperator loses all of the pressure between the sides.");
        }

        ThrottlePassage? passage = isHeld ? ThrottlePassage.None : isVerified ? null : last?.Passage.At(throttleInlet, coldPressure.Pascals, isFrozen);
        passage ??= new(Within(() => cooler.Throttle.FlowTo(throttleInlet, coldPressure), guess, cold), last?.Passage);
        State evaporatorInlet = Within(() => fluid.AtEnthalpy(coldPressure, throttleInlet.MolarEnthalpy, last?.EvaporatorInlet ?? coldOutlet), guess, cold);
        double compressed = compression.MolarFlow.MolesPerSecond;
        List<SliceState> highSlices = [];
        List<SliceState> lowSlices = [];
        List<SpaceFilling> fillings = Within(
            () => Contents(fluid, guess, compression, warmEnd, throttleInlet, evaporatorInlet, coldOutlet, suction, course, last, highSlices, lowSlices), guess, cold);
        double miss = 0;
        for (int i = 0; i < amounts.Length; i++)
        {
            miss = Math.Max(miss, Math.Abs(fillings.Sum(f => f.Moles(i)) - amounts[i]) / total);
        }

        double nextAfter = isFrozen ? guess.AfterCooler : Within(() => cooler.AfterCooling.OutletTemperature(compression.Discharge, compressed, room), guess, cold);
        PreCooledStream? preCooled = isFrozen ? last?.PreCooled : cooler.PreCooling is { } pre ? PreCooled(() => pre.Cool(after, compressed, room, last?.PreCooled)) : null;
        double nextWarm = isFrozen ? guess.WarmEnd : preCooled?.Outlet ?? nextAfter;
        double drift = Math.Max(Math.Abs(nextAfter - guess.AfterCooler), Math.Abs(nextWarm - guess.WarmEnd)) / 300;
        if (!isFrozen)
        {
            drift = Math.Max(drift, Math.Abs((compressed / guess.Flow) - 1));
            drift = last is null
                ? 1
                : Math.Max(drift, Math.Max(Math.Abs((course.ColdPressureRatio / last.Course.ColdPressureRatio) - 1), Math.Abs(course.HighFall - last.Course.HighFall) / Math.Abs(course.HighFall + course.LowRise)));
        }

        return new()
        {
            Cold = cold,
            Guess = guess,
            Course = course,
            Compression = compression,
            AfterCooler = after,
            WarmEnd = warmEnd,
            ThrottleInlet = throttleInlet,
            EvaporatorInlet = evaporatorInlet,
            ColdOutlet = coldOutlet,
            Passage = passage,
            Fillings = fillings,
            HighSlices = highSlices.Count > 0 ? [.. highSlices] : null,
            LowSlices = lowSlices.Count > 0 ? [.. lowSlices] : null,
            NextAfterCooler = nextAfter,
            NextWarmEnd = nextWarm,
            PreCooled = preCooled,
            FlowMiss = isHeld ? 0 : FlowMissOf(passage, fluid, compressed),
            ContentMiss = miss,
            Drift = drift,
        };
    }

    /// <summary>The same with the flow of the throttle by its own computation.</summary>
    public CoolerPoint WithThrottle(CoolerPoint point)
    {
        ThrottlePassage passage = new(Within(() => cooler.Throttle.FlowTo(point.ThrottleInlet, point.ColdOutlet.Pressure), point.Guess, point.Cold), point.Passage);
        return point with { Passage = passage, FlowMiss = FlowMissOf(passage, point.Fluid, point.Flow) };
    }

    private static double FlowMissOf(ThrottlePassage passage, WorkingFluid fluid, double compressed) =>
        Math.Log(Math.Max(1e-300, passage.Kilograms / fluid.Composition.MolarMass.KilogramsPerMole) / compressed);

    /// <summary>Flow that the compressor draws in from a suction of given enthalpy, mol/s; its cylinder filled as a state ago.</summary>
    private double Drawn(WorkingFluid fluid, Pressure low, Pressure high, double enthalpy, State warmEnd, CompressorResult? last)
    {
        State suction = fluid.AtEnthalpy(low, MolarEnergy.FromJoulesPerMole(enthalpy), last?.Suction ?? warmEnd);
        double volumetric = last?.VolumetricEfficiency ?? Compressor.Fill(cooler.Compressor.Filling, suction, high, out _, out _);
        return cooler.Compressor.SweptVolumeFlow.CubicMetersPerSecond * volumetric * suction.MolarDensity.MolesPerCubicMeter;
    }

    /// <summary>The compressor on a suction state; what it refuses is a limit of the cooler.</summary>
    public static CompressorResult Compress(Compressor compressor, State suction, Pressure high)
    {
        try
        {
            return compressor.Compress(suction, high);
        }
        catch (ArgumentOutOfRangeException error)
        {
            throw CoolerRefusedException.Of(error, CoolerObstacle.DischargeTooHot);
        }
    }

    /// <summary>The pre-cooler on a stream; what it refuses is a limit of the cooler.</summary>
    public static PreCooledStream PreCooled(Func<PreCooledStream> part)
    {
        try
        {
            return part();
        }
        catch (PreCoolerRefusedException error)
        {
            throw new CoolerRefusedException(CoolerObstacle.PreCooler, error.Message);
        }
        catch (ArgumentException error)
        {
            throw CoolerRefusedException.Of(error, CoolerObstacle.PreCooler);
        }
    }

    private static T Within<T>(Func<T> part, CoolerGuess guess, double cold, CoolerObstacle obstacle = CoolerObstacle.ModelRange)
    {
        try
        {
            return part();
        }
        catch (ArgumentException error)
        {
            throw CoolerRefusedException.Of(
                error, obstacle, FormattableString.Invariant($"At {guess.Low / 1e5:G4} and {guess.High / 1e5:G4} bar absolute with the cold end at {cold:F1} K: "));
        }
    }

    /// <summary>What every space holds.</summary>
    private List<SpaceFilling> Contents(
        WorkingFluid fluid,
        CoolerGuess guess,
        CompressorResult compression,
        State warmEnd,
        State throttleInlet,
        State evaporatorInlet,
        State coldOutlet,
        State suction,
        ColdBoxCourse course,
        CoolerPoint? last,
        List<SliceState> highSlices,
        List<SliceState> lowSlices)
    {
        const int ColdSlices = 4;
        HoldUpModel model = cooler.HoldUp;
        List<SpaceFilling> fillings = [];
        EquilibriumResult? standing = null;
        foreach (CoolerSpace space in cooler.Spaces)
        {
            SpaceFilling filling = new(space.Name, amounts.Length);
            fillings.Add(filling);
            double volume = space.Volume.CubicMeters;
            switch (space.Place)
            {
                case SpacePlace.Suction:
                    standing ??= fluid.At(Temperature.FromKelvins(room), Pressure.FromPascals(guess.Low)).Result;
                    filling.Add(standing, volume, isHigh: false, HoldUpModel.Homogeneous, molarMasses);
                    break;
                case SpacePlace.Discharge:
                    filling.Add(compression.Discharge.Result, volume, isHigh: true, model, molarMasses);
                    break;
                case SpacePlace.WarmHighSide:
                    filling.Add(warmEnd.Result, volume, isHigh: true, model, molarMasses);
                    break;
                case SpacePlace.ThrottleInlet:
                    filling.Add(throttleInlet.Result, volume, isHigh: true, model, molarMasses);
                    break;
                default:
                    double from = evaporatorInlet.MolarEnthalpy.JoulesPerMole;
                    double to = coldOutlet.MolarEnthalpy.JoulesPerMole;
                    for (int i = 0; i < ColdSlices; i++)
                    {
                        State middle = fluid.AtEnthalpy(coldOutlet.Pressure, MolarEnergy.FromJoulesPerMole(from + ((to - from) * (i + 0.5) / ColdSlices)), coldOutlet);
                        filling.Add(middle.Result, volume / ColdSlices, isHigh: false, model, molarMasses);
                    }

                    break;
            }
        }

        if (cooler.Oil is { } oil)
        {
            SpaceFilling dissolved = new("oil", amounts.Length);
            if (!oil.TryDissolved(fluid.Composition.Components, guess.Fractions, guess.Low, dissolved.LowGas))
            {
                throw new CoolerRefusedException(
                    CoolerObstacle.OilSaturated,
                    FormattableString.Invariant($"At {guess.Low / 1e5:G4} bar absolute the oil would hold more than 90 % (mole) gas by Henry's law, which does not reach so far."));
            }

            fillings.Add(dissolved);
        }

        Side("recuperator, high side", cooler.Recuperator.HighSideVolume, course.High, warmEnd, warmEnd.Pressure.Pascals, course.HighFall, isHigh: true, last?.HighSlices, highSlices);
        Side("recuperator, low side", cooler.Recuperator.LowSideVolume, course.Low, suction, guess.Low, course.LowRise, isHigh: false, last?.LowSlices, lowSlices);
        return fillings;

        void Side(string name, Volume volume, ContentPlace[] places, State start, double pressure, double heat, bool isHigh, SliceState[]? remembered, List<SliceState> memory)
        {
            SpaceFilling filling = new(name, amounts.Length);
            fillings.Add(filling);
            if (volume.CubicMeters == 0)
            {
                return;
            }

            SliceState? before = null;
            for (int i = 0; i < places.Length; i++)
            {
                ContentPlace place = places[i];
                double enthalpy = start.MolarEnthalpy.JoulesPerMole - (place.HeatShare * heat);
                SliceState near = remembered is not null ? remembered[i] : before ?? new(start.Result, null);
                SliceState found = near.Moved(fluid, pressure * place.PressureRatio, enthalpy);
                memory.Add(found);
                before = found with { Trials = null };
                filling.Add(found.State, volume.CubicMeters * place.VolumeShare, isHigh, cooler.HoldUp, molarMasses);
            }
        }
    }
}
