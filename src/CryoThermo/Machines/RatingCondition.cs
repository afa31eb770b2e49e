using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// The condition for which a compressor is rated. Evaporating and condensing temperatures are those of the dew point at suction and discharge pressure, as is common
/// with blends. Immutable and thread-safe.
/// </summary>
public sealed record RatingCondition
{
    /// <summary>A condition with the temperature of the suction gas.</summary>
    /// <param name="evaporatingDew">Dew point at the suction pressure.</param>
    /// <param name="condensingDew">Dew point at the discharge pressure, above the former.</param>
    /// <param name="returnGas">Temperature of the suction gas, not below the evaporating one.</param>
    /// <param name="liquidSubcooling">Liquid below the bubble point at discharge pressure, 0 to 100 K.</param>
    /// <param name="name">What it is called in results.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public RatingCondition(
        Temperature evaporatingDew, Temperature condensingDew, Temperature returnGas, TemperatureDelta liquidSubcooling = default, string name = "own condition")
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Guard.InRange(evaporatingDew.Kelvins, 30, 500, "K", nameof(evaporatingDew));
        Guard.InRange(condensingDew.Kelvins, evaporatingDew.Kelvins + 0.1, 600, "K", nameof(condensingDew));
        Guard.InRange(returnGas.Kelvins, evaporatingDew.Kelvins, 600, "K", nameof(returnGas));
        Guard.InRange(liquidSubcooling.Kelvins, 0, 100, "K", nameof(liquidSubcooling));
        EvaporatingDew = evaporatingDew;
        CondensingDew = condensingDew;
        ReturnGas = returnGas;
        LiquidSubcooling = liquidSubcooling;
        Name = name;
    }

    /// <summary>Dew point at the suction pressure.</summary>
    public Temperature EvaporatingDew { get; }

    /// <summary>Dew point at the discharge pressure.</summary>
    public Temperature CondensingDew { get; }

    /// <summary>Temperature of the suction gas.</summary>
    public Temperature ReturnGas { get; }

    /// <summary>Liquid below the bubble point at discharge pressure.</summary>
    public TemperatureDelta LiquidSubcooling { get; }

    /// <summary>What it is called in results.</summary>
    public string Name { get; }

    /// <summary>Where the named conditions come from.</summary>
    public static Source Source { get; } = new("EN 12900 and ASHRAE 23 with the practice around them", FromMemory: true);

    /// <summary>EN 12900, high evaporating temperature: 5 and 50 degC, gas of 20 degC, no subcooling (from memory).</summary>
    public static RatingCondition EuropeanHigh { get; } = Celsius(5, 50, 20, 0, "EN 12900, high");

    /// <summary>EN 12900, medium evaporating temperature: -10 and 45 degC, gas of 20 degC, no subcooling (from memory).</summary>
    public static RatingCondition EuropeanMedium { get; } = Celsius(-10, 45, 20, 0, "EN 12900, medium");

    /// <summary>EN 12900, low evaporating temperature: -35 and 40 degC, gas of 20 degC, no subcooling (from memory).</summary>
    public static RatingCondition EuropeanLow { get; } = Celsius(-35, 40, 20, 0, "EN 12900, low");

    /// <summary>Household machines in Europe: -25 and 55 degC, gas of 32 degC, no subcooling (from memory).</summary>
    public static RatingCondition EuropeanHousehold { get; } = Celsius(-25, 55, 32, 0, "European household");

    /// <summary>ASHRAE, low back pressure: -23.3 and 54.4 degC, gas and liquid of 32.2 degC (from memory).</summary>
    public static RatingCondition AmericanLow { get; } = Celsius(-23.3, 54.4, 32.2, 22.2, "ASHRAE, low back pressure");

    /// <summary>ASHRAE, high back pressure: 7.2 and 54.4 degC, gas of 35 degC, liquid of 46.1 degC (from memory).</summary>
    public static RatingCondition AmericanHigh { get; } = Celsius(7.2, 54.4, 35, 8.3, "ASHRAE, high back pressure");

    /// <summary>A condition with the superheat of the suction gas.</summary>
    /// <param name="evaporatingDew">Dew point at the suction pressure.</param>
    /// <param name="condensingDew">Dew point at the discharge pressure, above the former.</param>
    /// <param name="superheat">Of the suction gas, 0 to 100 K.</param>
    /// <param name="liquidSubcooling">Liquid below the bubble point at discharge pressure, 0 to 100 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static RatingCondition WithSuperheat(
        Temperature evaporatingDew, Temperature condensingDew, TemperatureDelta superheat, TemperatureDelta liquidSubcooling = default)
    {
        Guard.InRange(superheat.Kelvins, 0, 100, "K", nameof(superheat));
        return new(evaporatingDew, condensingDew, Temperature.FromKelvins(evaporatingDew.Kelvins + superheat.Kelvins), liquidSubcooling);
    }

    /// <summary>Suction state and discharge pressure of a refrigerant at this condition, with the liquid before the throttle.</summary>
    /// <param name="refrigerant">Pure or a blend; its dew points must exist at both temperatures.</param>
    /// <exception cref="ArgumentException">The refrigerant has no dew point at one of the temperatures.</exception>
    public (State Suction, Pressure Discharge, State Liquid) Of(WorkingFluid refrigerant)
    {
        ArgumentNullException.ThrowIfNull(refrigerant);
        Pressure low = Dew(EvaporatingDew, "evaporating");
        Pressure high = Dew(CondensingDew, "condensing");
        State suction = ReturnGas.Kelvins > EvaporatingDew.Kelvins + 1e-6
            ? refrigerant.At(ReturnGas, low)
            : refrigerant.DewPoint(EvaporatingDew);
        State bubble = refrigerant.BubblePoint(high);
        State liquid = LiquidSubcooling.Kelvins > 0 ? refrigerant.At(bubble.Temperature - LiquidSubcooling, high) : bubble;
        return (suction, high, liquid);

        Pressure Dew(Temperature at, string which) => refrigerant.TryDewPoint(at, out State? dew)
            ? dew.Pressure
            : throw new ArgumentException(
                $"{refrigerant.Composition} has no dew point at the {which} temperature of {at.Kelvins:F2} K ({at.DegreesCelsius:F1} degC); is it the refrigerant of the nameplate?", nameof(refrigerant));
    }

    private static RatingCondition Celsius(double evaporating, double condensing, double gas, double subcooling, string name) => new(
        Temperature.FromDegreesCelsius(evaporating),
        Temperature.FromDegreesCelsius(condensing),
        Temperature.FromDegreesCelsius(gas),
        TemperatureDelta.FromKelvins(subcooling),
        name);
}
