using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>How long a bottle feeds a flow. Immutable and thread-safe.</summary>
/// <param name="Usable">Amount that can be drawn.</param>
/// <param name="UsableMass">The same as mass.</param>
/// <param name="Flow">The flow.</param>
/// <param name="Lasts">Time until it is drawn.</param>
/// <param name="IdealLasts">Time that an ideal gas would suggest; of a liquefied gas the same as <see cref="Lasts"/>.</param>
/// <param name="Remarks">What is not covered.</param>
public sealed record BottleEndurance(
    AmountOfSubstance Usable, Mass UsableMass, MolarFlow Flow, Duration Lasts, Duration IdealLasts, IReadOnlyList<string> Remarks)
{
    /// <summary>
    /// A bottle of compressed gas, drawn slowly at its temperature down to a residual pressure: V (rho(T, p) - rho(T, p residual)), real gas.
    /// </summary>
    /// <param name="bottle">The bottle, with its volume.</param>
    /// <param name="residual">Absolute pressure it is left at: that of the feed, and above the atmosphere so that no air gets in.</param>
    /// <param name="flow">The flow, above zero.</param>
    /// <exception cref="ArgumentException">The bottle holds liquid, or its volume is not stated.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The residual pressure is not below that of the bottle, or the flow not above zero.</exception>
    public static BottleEndurance OfCompressed(GasBottle bottle, Pressure residual, MolarFlow flow)
    {
        ArgumentNullException.ThrowIfNull(bottle);
        if (bottle.Kind != BottleKind.Compressed || bottle.Volume is not { } volume)
        {
            throw new ArgumentException($"bottle is {bottle}; one of compressed gas with its volume is needed.", nameof(bottle));
        }

        double rate = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        if (!(residual.Pascals > 0 && residual.Pascals < bottle.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(residual), residual, $"residual is {residual.Bars:G6} bar absolute; it must be above 0 and below the pressure of the bottle, {bottle.Pressure.Bars:G6} bar absolute.");
        }

        double full = bottle.Fluid.At(bottle.Temperature, bottle.Pressure).MolarDensity.MolesPerCubicMeter;
        double left = bottle.Fluid.At(bottle.Temperature, residual).MolarDensity.MolesPerCubicMeter;
        double usable = (full - left) * volume.CubicMeters;
        double ideal = (bottle.Pressure.Pascals - residual.Pascals) * volume.CubicMeters / (8.314462618 * bottle.Temperature.Kelvins);
        return new(
            AmountOfSubstance.FromMoles(usable),
            Mass.FromKilograms(usable * bottle.Fluid.Composition.MolarMass.KilogramsPerMole),
            flow,
            Duration.FromSeconds(usable / rate),
            Duration.FromSeconds(ideal / rate),
            ["The bottle is taken as staying at its temperature; drawn fast it cools, gives less and needs time to come back."]);
    }

    /// <summary>A bottle of liquefied gas: the mass that can be drawn over the flow.</summary>
    /// <param name="bottle">The bottle.</param>
    /// <param name="usableMass">Mass that can be drawn, above zero.</param>
    /// <param name="flow">The flow, above zero.</param>
    /// <exception cref="ArgumentException">The bottle holds no liquid.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Mass or flow is not above zero.</exception>
    public static BottleEndurance OfLiquefied(GasBottle bottle, Mass usableMass, MolarFlow flow)
    {
        ArgumentNullException.ThrowIfNull(bottle);
        if (bottle.Kind != BottleKind.Liquefied)
        {
            throw new ArgumentException($"bottle is {bottle}; one of liquefied gas is needed.", nameof(bottle));
        }

        double mass = Guard.Positive(usableMass.Kilograms, "kg", nameof(usableMass));
        double rate = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        double moles = mass / bottle.Fluid.Composition.MolarMass.KilogramsPerMole;
        Saturation boiling = bottle.Fluid.Saturation(bottle.Temperature);
        double heat = rate * (boiling.Vapor.MolarEnthalpy.JoulesPerMole - boiling.Liquid.MolarEnthalpy.JoulesPerMole);
        Duration lasts = Duration.FromSeconds(moles / rate);
        return new(
            AmountOfSubstance.FromMoles(moles),
            usableMass,
            flow,
            lasts,
            lasts,
            [$"Boiling this flow takes {heat:G3} W from the surroundings; a bottle that does not get it cools, and its pressure falls below {bottle.Pressure.Bars:G4} bar absolute."]);
    }

    /// <summary>The result as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        "How long a bottle lasts",
        ["usable, mol", "usable, kg", "flow, mol/s", "flow, L/min (0 degC, 1 atm)", "lasts, h", "ideal gas, h"],
        [
            [
                $"{Usable.Moles:F2}", $"{UsableMass.Kilograms:F4}", $"{Flow.MolesPerSecond:E3}", $"{Flow.MolesPerSecond * 60 * 22.413969545:F3}",
                $"{Lasts.Hours:F2}", $"{IdealLasts.Hours:F2}",
            ],
        ]);
}
