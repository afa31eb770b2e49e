using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// What a compressor bears. The usual limits are class values from memory, given as bands; replace each by what the maker states. Null leaves a limit unchecked. Immutable
/// and thread-safe.
/// </summary>
public sealed record CompressorLimits
{
    private static readonly Source ClassValues = new("class values of refrigeration compressor texts", FromMemory: true);

    /// <summary>Temperature of the discharge line about 150 mm from the shell, K: 373 to 393.</summary>
    public LimitBand? DischargeLine { get; init; } = new(373, 393, ClassValues);

    /// <summary>Temperature at the discharge valve, K: 408 to 423.</summary>
    public LimitBand? DischargeValve { get; init; } = new(408, 423, ClassValues);

    /// <summary>Temperature at which oil begins to coke on the valve, K: 433 to 448, mineral oil.</summary>
    public LimitBand? OilCoking { get; init; } = new(433, 448, ClassValues);

    /// <summary>Temperature of the motor's winding, K: 403 (class B) to 428 (class F). Only checked where the winding's temperature is given.</summary>
    public LimitBand? Winding { get; init; } = new(403, 428, ClassValues);

    /// <summary>Discharge over suction pressure, absolute: 8 to 15 in a single stage.</summary>
    public LimitBand? PressureRatio { get; init; } = new(8, 15, ClassValues);

    /// <summary>Absolute pressure of the high side, bar: 20 to 28, by the rating of shell and relief of common machines.</summary>
    public LimitBand? HighPressureBars { get; init; } = new(20, 28, ClassValues);

    /// <summary>Superheat at the suction, K, at least: 10, and 0 at the far end, where drops come along.</summary>
    public LimitBand? SuctionSuperheat { get; init; } = new(10, 0, Source.CommonPractice);

    /// <summary>Current of the motor, A; none unless stated.</summary>
    public LimitBand? MotorAmperes { get; init; }

    /// <summary>Absolute standing pressure against which a motor starts, bar: 6 to 8 for small hermetic machines without unloading.</summary>
    public LimitBand? StandingBars { get; init; } = new(6, 8, ClassValues);

    /// <summary>The usual limits.</summary>
    public static CompressorLimits Usual { get; } = new();

    /// <summary>Each limit against what a compressor does.</summary>
    /// <param name="result">The compressor.</param>
    /// <param name="draw">Its motor; without it the current is not checked.</param>
    /// <param name="winding">Temperature of the winding, measured (<see cref="CompressorMotor.WindingTemperature"/>); no figure of it is computed here.</param>
    public LimitReport Assess(CompressorResult result, MotorDraw? draw = null, Temperature? winding = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<LimitCheck> checks = [];
        Add(DischargeLine, "discharge line", "K", result.Discharge.Temperature.Kelvins);
        double valve = ValveTemperature(result);
        Add(DischargeValve, "discharge valve", "K", valve);
        Add(OilCoking, "oil at the valve", "K", valve);
        if (winding is { } measured)
        {
            Add(Winding, "winding of the motor", "K", measured.Kelvins);
        }

        Add(PressureRatio, "pressure ratio", string.Empty, result.PressureRatio);
        Add(HighPressureBars, "high side, absolute", "bar", result.Discharge.Pressure.Bars);
        if (draw is not null)
        {
            Add(MotorAmperes, "current of the motor", "A", draw.Current.Amperes);
        }

        if (SuctionSuperheat is { } superheat && Superheat(result) is { } kelvins)
        {
            checks.Add(new("superheat at the suction", "K", kelvins, superheat, IsLeast: true));
        }

        return new([.. checks], [.. checks.Where(c => c.Verdict != LimitVerdict.Kept).Select(CautionOf).OrderByDescending(c => c.Severity)]);

        void Add(LimitBand? limit, string name, string unit, double figure)
        {
            if (limit is not null)
            {
                checks.Add(new(name, unit, figure, limit, IsLeast: false));
            }
        }
    }

    /// <summary>Whether a motor can be expected to start.</summary>
    /// <param name="highSide">Absolute pressure behind the compressor at the start.</param>
    /// <param name="lowSide">Absolute pressure before it, not above the former; equal when the sides have come to one pressure.</param>
    /// <param name="displacementPerRevolution">Swept by all cylinders in one revolution.</param>
    /// <remarks>
    /// The torque that a pressure difference asks of the shaft, averaged over a revolution, is difference times displacement over 2 pi. Equalised it is zero at the
    /// first turn; it grows at once, the faster the denser the gas, so that the standing pressure decides.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">A pressure is not above zero, the low side is above the high side, or the displacement out of 1e-9 to 1 m3.</exception>
    public CompressorStart AssessStart(Pressure highSide, Pressure lowSide, Volume displacementPerRevolution)
    {
        double high = Guard.Positive(highSide.Pascals, "Pa absolute", nameof(highSide));
        double low = Guard.InRange(lowSide.Pascals, double.Epsilon, high, "Pa absolute", nameof(lowSide));
        double swept = Guard.InRange(displacementPerRevolution.CubicMeters, 1e-9, 1, "m3", nameof(displacementPerRevolution));
        LimitCheck? check = StandingBars is { } limit ? new("standing pressure, absolute", "bar", high / 1e5, limit, IsLeast: false) : null;
        return new(
            highSide,
            lowSide,
            Torque.FromNewtonMeters((high - low) * swept / (2 * Math.PI)),
            check,
            check is null || check.Verdict == LimitVerdict.Kept ? [] : [CautionOf(check)]);
    }

    /// <summary>Hotter than the model knows counts as its highest temperature: far beyond every limit of a valve.</summary>
    private static double ValveTemperature(CompressorResult result)
    {
        try
        {
            return result.AtValve.Temperature.Kelvins;
        }
        catch (ArgumentOutOfRangeException)
        {
            return result.Suction.Fluid.Kernel.HighestTemperature;
        }
    }

    private static double? Superheat(CompressorResult result)
    {
        State suction = result.Suction;
        return result.LiquidAtSuction
            ? suction.Fluid.TryDewPoint(suction.Pressure, out State? wet) ? Math.Min(-1e-9, suction.Temperature.Kelvins - wet.Temperature.Kelvins) : -1e-9
            : suction.Fluid.TryDewPoint(suction.Pressure, out State? dew) ? suction.Temperature.Kelvins - dew.Temperature.Kelvins : null;
    }

    private static Caution CautionOf(LimitCheck check)
    {
        (string title, string rule, string advice) = check.Name switch
        {
            "discharge line" => (
                "Discharge line hot",
                "the line behind the shell tells of valve and oil, which are hotter still",
                "Lower the pressure ratio, cool suction or shell, or take a charge with less argon or nitrogen"),
            "discharge valve" => (
                "Discharge valve hot",
                "estimated with all of the work in the gas; reeds lose their temper and oil breaks down on them",
                "Lower the pressure ratio, cool suction or shell, compress in two stages, or take a charge with less argon or nitrogen"),
            "oil at the valve" => (
                "Oil cokes on the valve",
                "mineral oil leaves coke on what is this hot; a coked valve leaks, and that heats it further",
                "Do not run like this; lower the pressure ratio or compress in two stages"),
            "winding of the motor" => (
                "Motor winding hot", "insulation of class B to F ages fast above", "Lower the load or cool the shell; have the overload protector checked"),
            "pressure ratio" => (
                "Pressure ratio high", "a single stage fills badly and runs hot above", "Raise the suction pressure, lower the condensing pressure, or compress in two stages"),
            "high side, absolute" when check.Limit.IsStated => (
                "High side above its stated limit",
                "no part of the high side sees more than the pressure stated for it: the rating of the weakest part, or the setting of the relief, which opens there",
                "Open the throttle, charge less, or stop the compressor by a pressure switch below it; do not set the relief above the rating of the weakest part"),
            "high side, absolute" => (
                "High side above what common machines are rated for",
                "shell, tubes and relief must be rated for the pressure; no rating was stated here",
                "State the rating of the weakest part and the setting of the relief; do not run above it"),
            "current of the motor" => (
                "Motor current high", "above the stated current the overload protector trips or the winding burns", "Lower the suction pressure"),
            "superheat at the suction" => (
                "Liquid may reach the compressor", "liquid breaks valves and washes out oil", "Warm the suction gas or fit a suction accumulator"),
            _ => (
                "Start against the standing pressure doubtful",
                "small hermetic motors without unloading start against little more",
                "Charge less, add a buffer, unload the start by a by-pass, or fit a start capacitor; the motor's maker tells the pressure"),
        };
        bool isGrave = check.Verdict == LimitVerdict.Broken && check.Name is "high side, absolute";
        return new(
            isGrave ? CautionSeverity.Danger : check.Verdict == LimitVerdict.Broken ? CautionSeverity.Warning : CautionSeverity.Notice,
            title,
            check.ToString(),
            rule,
            $"{advice}. {Caution.Deference}",
            check.Limit.Source);
    }
}
