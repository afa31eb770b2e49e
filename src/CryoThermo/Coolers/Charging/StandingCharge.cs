using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// A charge shut into a machine at rest: the pressure when everything has come to one temperature, the buffer volume for an allowed pressure,
/// the check of the motor's start. Equilibrium of the real fluid, condensed where it condenses; what dissolves in oil is not counted, so the
/// true pressure is lower by it. Immutable and thread-safe.
/// </summary>
public sealed class StandingCharge
{
    private readonly double moles;
    private readonly double volume;

    /// <summary>Names charge and machine.</summary>
    /// <param name="fluid">Everything that was charged, not what circulates: the composition of the whole.</param>
    /// <param name="amount">How much of it, above zero.</param>
    /// <param name="volumes">The machine; the temperatures of its volumes do not matter here.</param>
    /// <param name="localAtmosphere">The atmosphere round the gauge, absolute: 25 to 115 kPa.</param>
    /// <exception cref="ArgumentOutOfRangeException">The amount is not above zero, or the atmosphere out of its range.</exception>
    /// <exception cref="ArgumentException">No volume is given, or two have one name.</exception>
    public StandingCharge(WorkingFluid fluid, AmountOfSubstance amount, IReadOnlyList<MachineVolume> volumes, Pressure localAtmosphere)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        moles = Guard.Positive(amount.Moles, "mol", nameof(amount));
        _ = GaugePressure.FromAbsolute(Pressure.FromPascals(1), localAtmosphere);
        Fluid = fluid;
        Amount = amount;
        Volumes = ChargeRequest.Checked(volumes);
        LocalAtmosphere = localAtmosphere;
        volume = Volumes.Sum(v => v.Volume.CubicMeters);
    }

    /// <summary>Everything that was charged.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>How much of it.</summary>
    public AmountOfSubstance Amount { get; }

    /// <summary>The machine.</summary>
    public IReadOnlyList<MachineVolume> Volumes { get; }

    /// <summary>The atmosphere round the gauge, absolute.</summary>
    public Pressure LocalAtmosphere { get; }

    /// <summary>The charge of a recipe.</summary>
    /// <param name="recipe">The recipe.</param>
    public static StandingCharge Of(ChargeRecipe recipe)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        return new(recipe.FinalFluid, recipe.TotalAmount, recipe.Request.Volumes, recipe.Request.LocalAtmosphere);
    }

    /// <summary>The machine at rest, all of it at one temperature.</summary>
    /// <param name="temperature">Of everything; 220 to 500 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range, or the charge does not fit into the machine.</exception>
    public StandingState At(Temperature temperature)
    {
        Guard.InRange(temperature.Kelvins, MachineVolume.LowestKelvins, MachineVolume.HighestKelvins, "K", nameof(temperature));
        State state = Fluid.AtDensity(temperature, Molarity.FromMolesPerCubicMeter(moles / volume));
        bool gas = state.Phases.Count == 1 && ChargeRecipe.Condensed(Fluid, temperature, state.Pressure.Pascals) is null;
        double liquid = gas ? 0 : state.Phases.Where(p => p.Kind == PhaseKind.Liquid).Sum(p => p.Fraction);
        return new(temperature, state.Pressure, GaugePressure.FromAbsolute(state.Pressure, LocalAtmosphere), liquid, state);
    }

    /// <summary>Cautions of the machine warmed to a temperature with the motor off.</summary>
    /// <param name="hottest">The hottest it can get; 328 K (55 degC) is usual for a machine in the sun (ISO 5149, EN 378, from memory).</param>
    /// <param name="allowed">Absolute pressure the machine may hold by the rating of its weakest part.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range, or the pressure not above zero.</exception>
    public IReadOnlyList<Caution> AssessOverPressure(Temperature hottest, Pressure allowed)
    {
        Guard.Positive(allowed.Pascals, "Pa absolute", nameof(allowed));
        StandingState warm = At(hottest);
        List<Caution> cautions =
        [
            .. CautionRules.Assess(ChargeCautions.CircuitOf(
                Fluid.Composition, warm.AbsolutePressure, warm.AbsolutePressure, LocalAtmosphere, Volumes, relief: null)).Where(c => c.Title != "High-side relief"),
        ];
        if (warm.AbsolutePressure.Pascals > allowed.Pascals)
        {
            cautions.Add(new(
                CautionSeverity.Danger,
                "Standing pressure above what is allowed",
                $"{warm.AbsolutePressure.Bars:G4} bar absolute at {hottest.DegreesCelsius:F1} degC against {allowed.Bars:G4} bar absolute",
                "the whole charge warmed to the hottest surroundings with the machine off must stay within the rating of its weakest part (threshold: the rating)",
                $"Charge less, or add a buffer of at least {BufferVolumeFor(allowed, hottest).Liters:G3} L; a relief device on every part that can be shut off. {Caution.Deference}",
                new Source("standstill at the hottest surroundings: ISO 5149, EN 378", FromMemory: true)));
        }

        ChargeCautions.Venting(Fluid.Composition, cautions);
        return [.. cautions.OrderByDescending(c => c.Severity)];
    }

    /// <summary>
    /// Further volume, at the same temperature, that brings the standing pressure down to an allowed one: N/rho(T, p) less the volume of the
    /// machine; zero when none is needed.
    /// </summary>
    /// <param name="allowed">Absolute pressure allowed.</param>
    /// <param name="temperature">Of everything; 220 to 500 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range, or the pressure not above zero.</exception>
    public Volume BufferVolumeFor(Pressure allowed, Temperature temperature)
    {
        Guard.Positive(allowed.Pascals, "Pa absolute", nameof(allowed));
        Guard.InRange(temperature.Kelvins, MachineVolume.LowestKelvins, MachineVolume.HighestKelvins, "K", nameof(temperature));
        double density = Fluid.At(temperature, allowed).MolarDensity.MolesPerCubicMeter;
        return Volume.FromCubicMeters(Math.Max(0, (moles / density) - volume));
    }

    /// <summary>Whether the motor starts against the standing pressure.</summary>
    /// <param name="temperature">Of everything; 220 to 500 K.</param>
    /// <param name="limit">Highest absolute pressure the motor starts against, by its maker; the library has no figure of its own.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of its range, or the pressure not above zero.</exception>
    public StartCheck CheckStart(Temperature temperature, Pressure limit)
    {
        Guard.Positive(limit.Pascals, "Pa absolute", nameof(limit));
        StandingState standing = At(temperature);
        bool starts = standing.AbsolutePressure.Pascals <= limit.Pascals;
        List<Caution> cautions = [];
        if (!starts)
        {
            cautions.Add(new(
                CautionSeverity.Warning,
                "Motor does not start against the standing pressure",
                $"standing pressure {standing.AbsolutePressure.Bars:G4} bar absolute, limit {limit.Bars:G4} bar absolute",
                "above the pressure stated for the motor its torque does not turn the compressor over: it hums, heats and trips",
                $"Charge less, add a buffer of at least {BufferVolumeFor(limit, temperature).Liters:G3} L, or unload the start by a by-pass from discharge to suction. {Caution.Deference}",
                new Source("limit as stated for the motor", FromMemory: false)));
        }

        if (!standing.IsGas)
        {
            cautions.Add(new(
                CautionSeverity.Warning,
                "Liquid in the machine at rest",
                $"{100 * standing.LiquidFraction:F1} % (mole) of the charge is liquid at {temperature.DegreesCelsius:F1} degC",
                "liquid collects in the coldest part; in a compressor shell it dilutes the oil and can break valves at the start (threshold: any liquid)",
                $"Warm the shell before starting (crankcase heater), or charge less of the heavy components. {Caution.Deference}",
                Source.CommonPractice));
        }

        return new(standing, limit, starts, limit - standing.AbsolutePressure, cautions);
    }

    /// <summary>Standing pressure over temperature as a table for notebooks and reports.</summary>
    /// <param name="temperatures">Temperatures, 220 to 500 K each.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is out of its range.</exception>
    public ResultTable ToTable(params IReadOnlyList<Temperature> temperatures)
    {
        ArgumentNullException.ThrowIfNull(temperatures);
        return new(
            $"Standing pressure of {moles:G5} mol in {1000 * volume:G4} L",
            ["temperature, K", "temperature, degC", "absolute, bar", "gauge, bar", "liquid, % (mole)"],
            [.. temperatures.Select(At).Select(s => (IReadOnlyList<string>)
            [
                $"{s.Temperature.Kelvins:F2}",
                $"{s.Temperature.DegreesCelsius:F2}",
                $"{s.AbsolutePressure.Bars:F4}",
                $"{s.Gauge.Reading.Bars:F4}",
                $"{100 * s.LiquidFraction:F2}",
            ])]);
    }
}
