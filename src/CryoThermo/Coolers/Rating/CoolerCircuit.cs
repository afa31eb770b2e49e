using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>The circuit of a cooler at a guess of what circulates: its states, flows and contents. Remembers isobars of its last state; not thread-safe.</summary>
internal abstract class CoolerCircuit
{
    private readonly Cooler cooler;
    private readonly WorkingFluid charged;
    private readonly double[] amounts;
    private readonly double total;
    private readonly double[] molarMasses;
    private readonly double room;

    protected CoolerCircuit(Cooler cooler, CoolerCharge charge, double room)
    {
        this.cooler = cooler;
        this.room = room;
        charged = charge.Fluid;
        total = charge.Amount.Moles;
        amounts = [.. charged.Composition.MoleFractions.Select(z => z * total)];
        molarMasses = [.. charged.Composition.Components.Select(c => c.MolarMass)];
    }

    /// <summary>The circuit of a cooler, as it is built.</summary>
    public static CoolerCircuit Of(Cooler cooler, CoolerCharge charge, double room) =>
        cooler.Separator is { } separator ? new SeparatedCircuit(cooler, separator, charge, room) : new PlainCircuit(cooler, charge, room);

    /// <summary>What was filled.</summary>
    protected WorkingFluid Charged => charged;

    /// <summary>A first guess moved to where the circuit has states.</summary>
    public virtual CoolerGuess Started(CoolerGuess guess) => guess;

    /// <summary>The exchangers of a state, to be told.</summary>
    public abstract BoxExchange Exchange(CoolerPoint point);

    /// <summary>States round the cold box.</summary>
    protected abstract BoxStates States(double cold, CoolerGuess guess, State warmEnd, CoolerPoint? last, bool isFrozen, bool isCoarse, State? coldOutletKnown);

    /// <summary>Adds what the cold box holds; the states in its slices, for the next time.</summary>
    protected abstract SliceState[]?[] FillBox(BoxStates states, State warmEnd, CoolerGuess guess, CoolerPoint? last, List<SpaceFilling> fillings);

    /// <summary>States, flows and contents at a guess; the state behind the cold head from its temperature, unless it is known: of a narrow boiling range a temperature does not tell it closely.</summary>
    public CoolerPoint Evaluate(double cold, CoolerGuess guess, CoolerPoint? last, bool isFrozen, bool isCoarse, bool isVerified, State? coldOutletKnown)
    {
        WorkingFluid fluid = charged.WithFractions(guess.Fractions);
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

        BoxStates states = States(cold, guess, warmEnd, last, isFrozen, isCoarse, coldOutletKnown);
        ColdBoxCourse course = states.Course;
        State coldOutlet = states.ColdOutlet;
        State throttleInlet = states.ThrottleInlet;
        Pressure coldPressure = coldOutlet.Pressure;
        CompressorResult compression = Compress(cooler.Compressor, states.Suction, high);
        if (!(throttleInlet.Pressure > coldPressure))
        {
            throw new CoolerRefusedException(CoolerObstacle.RecuperatorTooNarrow, "The recuperator loses all of the pressure between the sides.");
        }

        ThrottlePassage? passage = isVerified ? null : last?.Passage.At(throttleInlet, coldPressure.Pascals, isFrozen);
        passage ??= new(Within(() => cooler.Throttle.FlowTo(throttleInlet, coldPressure), guess, cold), last?.Passage);
        State evaporatorInlet = Within(() => throttleInlet.Fluid.AtEnthalpy(coldPressure, throttleInlet.MolarEnthalpy, last?.EvaporatorInlet ?? coldOutlet), guess, cold);
        double compressed = compression.MolarFlow.MolesPerSecond;
        List<SpaceFilling> fillings = [];
        SliceState[]?[] slices = Within(
            () =>
            {
                FillSpaces(fluid, guess, compression, warmEnd, throttleInlet, evaporatorInlet, coldOutlet, fillings);
                return FillBox(states, warmEnd, guess, last, fillings);
            },
            guess,
            cold);
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
            Separated = states.Separated,
            Passage = passage,
            Fillings = fillings,
            Slices = slices,
            NextAfterCooler = nextAfter,
            NextWarmEnd = nextWarm,
            PreCooled = preCooled,
            FlowMiss = FlowMissOf(passage, throttleInlet, compressed * (states.Separated?.VaporShare ?? 1)),
            ContentMiss = miss,
            Drift = drift,
        };
    }

    /// <summary>The same with the flow of the throttle by its own computation.</summary>
    public CoolerPoint WithThrottle(CoolerPoint point)
    {
        ThrottlePassage passage = new(Within(() => cooler.Throttle.FlowTo(point.ThrottleInlet, point.ColdOutlet.Pressure), point.Guess, point.Cold), point.Passage);
        return point with { Passage = passage, FlowMiss = FlowMissOf(passage, point.ThrottleInlet, point.ThrottleFlow) };
    }

    private static double FlowMissOf(ThrottlePassage passage, State inlet, double flow) =>
        Math.Log(Math.Max(1e-300, passage.Kilograms / inlet.Fluid.Composition.MolarMass.KilogramsPerMole) / flow);

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

    /// <summary>A part of a state; what it refuses is a limit of the cooler.</summary>
    public static T Within<T>(Func<T> part, CoolerGuess guess, double cold, CoolerObstacle obstacle = CoolerObstacle.ModelRange)
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

    /// <summary>What the spaces beside the cold box hold, and the oil.</summary>
    private void FillSpaces(
        WorkingFluid fluid,
        CoolerGuess guess,
        CompressorResult compression,
        State warmEnd,
        State throttleInlet,
        State evaporatorInlet,
        State coldOutlet,
        List<SpaceFilling> fillings)
    {
        const int ColdSlices = 4;
        HoldUpModel model = cooler.HoldUp;
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
                        State middle = coldOutlet.Fluid.AtEnthalpy(coldOutlet.Pressure, MolarEnergy.FromJoulesPerMole(from + ((to - from) * (i + 0.5) / ColdSlices)), coldOutlet);
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
    }

    /// <summary>Adds what a volume at the high pressure holds of something that does not flow there.</summary>
    protected void AddStill(SpaceFilling filling, State state, double volume) => filling.Add(state.Result, volume, isHigh: true, HoldUpModel.Homogeneous, molarMasses);

    /// <summary>Adds what a passage of a recuperator holds; the states in its slices, for the next time, or null where it has no volume.</summary>
    /// <param name="name">The passage.</param>
    /// <param name="volume">Its volume, m3.</param>
    /// <param name="places">Its slices.</param>
    /// <param name="fluid">What flows in it.</param>
    /// <param name="start">Enthalpy where the slices are counted from, J/mol.</param>
    /// <param name="near">A state of the fluid there, to begin from.</param>
    /// <param name="pressure">Pa there.</param>
    /// <param name="heat">What the fluid has less at the other end, J/mol.</param>
    /// <param name="isHigh">Whether its gas follows the high pressure.</param>
    /// <param name="remembered">States found before; null for none.</param>
    /// <param name="fillings">What it is added to.</param>
    protected SliceState[]? Fill(
        string name, double volume, ContentPlace[] places, WorkingFluid fluid, double start, State near, double pressure, double heat, bool isHigh, SliceState[]? remembered, List<SpaceFilling> fillings)
    {
        SpaceFilling filling = new(name, amounts.Length);
        fillings.Add(filling);
        if (volume == 0)
        {
            return null;
        }

        SliceState[] memory = new SliceState[places.Length];
        SliceState? before = null;
        for (int i = 0; i < places.Length; i++)
        {
            ContentPlace place = places[i];
            SliceState from = remembered is not null ? remembered[i] : before ?? new(near.Result, null);
            SliceState found = from.Moved(fluid, pressure * place.PressureRatio, start - (place.HeatShare * heat));
            memory[i] = found;
            before = found with { Trials = null };
            filling.Add(found.State, volume * place.VolumeShare, isHigh, cooler.HoldUp, molarMasses);
        }

        return memory;
    }
}
