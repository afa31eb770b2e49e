using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>A bottle that one component is filled from. Immutable and thread-safe.</summary>
public sealed class GasBottle
{
    private GasBottle(string substance, BottleKind kind, WorkingFluid fluid, Temperature temperature, Pressure pressure, Volume? volume, Mass? grossWeight)
    {
        Substance = substance;
        Kind = kind;
        Fluid = fluid;
        Temperature = temperature;
        Pressure = pressure;
        Volume = volume;
        GrossWeight = grossWeight;
    }

    /// <summary>The name as given.</summary>
    public string Substance { get; }

    /// <summary>Whether it holds liquid or gas under pressure.</summary>
    public BottleKind Kind { get; }

    /// <summary>Temperature of the bottle.</summary>
    public Temperature Temperature { get; }

    /// <summary>Absolute pressure before anything is drawn: the vapour pressure of a liquefied gas.</summary>
    public Pressure Pressure { get; }

    /// <summary>Water capacity of a bottle of compressed gas; null when it is not stated.</summary>
    public Volume? Volume { get; }

    /// <summary>Weight of bottle and contents before anything is drawn; null when it was not weighed.</summary>
    public Mass? GrossWeight { get; }

    internal WorkingFluid Fluid { get; }

    /// <summary>A bottle with liquid in it: it gives the vapour pressure at its temperature and no more.</summary>
    /// <param name="substance">Chemical name, formula or ISO 817 designation.</param>
    /// <param name="temperature">Temperature of the bottle, below the critical temperature of its contents.</param>
    /// <param name="grossWeight">Weight of bottle and contents; null when it was not weighed.</param>
    /// <exception cref="ArgumentException">The substance is unknown.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no liquid at the temperature, or the weight is not above zero.</exception>
    public static GasBottle Liquefied(string substance, Temperature temperature, Mass? grossWeight = null)
    {
        WorkingFluid fluid = FluidOf(substance);
        Weighed(grossWeight);
        double critical = fluid.Kernel.Equation.CriticalTemperature(0);
        if (!(temperature.Kelvins < critical))
        {
            throw new ArgumentOutOfRangeException(
                nameof(temperature),
                temperature,
                $"temperature is {temperature.Kelvins:G6} K; {fluid.Composition.Components[0].Name} has no liquid at or above {critical:G6} K. Describe the bottle as one of compressed gas, with the pressure its gauge shows.");
        }

        return new(substance, BottleKind.Liquefied, fluid, temperature, fluid.Saturation(temperature).Pressure, null, grossWeight);
    }

    /// <summary>A bottle of compressed gas.</summary>
    /// <param name="substance">Chemical name, formula or ISO 817 designation.</param>
    /// <param name="temperature">Temperature of the bottle.</param>
    /// <param name="pressure">Absolute pressure before anything is drawn.</param>
    /// <param name="volume">Water capacity; null when it is not stated: then the fall of the pressure is left out.</param>
    /// <param name="grossWeight">Weight of bottle and contents; null when it was not weighed.</param>
    /// <exception cref="ArgumentException">The substance is unknown.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the contents are liquid at that temperature and pressure.</exception>
    public static GasBottle Compressed(string substance, Temperature temperature, Pressure pressure, Volume? volume = null, Mass? grossWeight = null)
    {
        WorkingFluid fluid = FluidOf(substance);
        Weighed(grossWeight);
        Guard.Positive(pressure.Pascals, "Pa absolute", nameof(pressure));
        if (volume is { } size)
        {
            Guard.Positive(size.CubicMeters, "m3", nameof(volume));
        }

        if (temperature.Kelvins < fluid.Kernel.Equation.CriticalTemperature(0) && fluid.Saturation(temperature).Pressure.Pascals is var boiling && pressure.Pascals >= boiling)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure),
                pressure,
                $"pressure is {pressure.Bars:G6} bar absolute; at {temperature.Kelvins:G6} K {fluid.Composition.Components[0].Name} is a gas below its vapour pressure of {boiling / 1e5:G6} bar absolute only. Describe the bottle as one of liquefied gas.");
        }

        // Refuses a temperature or pressure out of the range of the equation here rather than later.
        _ = fluid.At(temperature, pressure);
        return new(substance, BottleKind.Compressed, fluid, temperature, pressure, volume, grossWeight);
    }

    /// <summary>
    /// Absolute pressure the bottle gives after an amount was drawn slowly, so that it stays at its temperature. Of liquefied gas always the
    /// vapour pressure: whether enough is left tells the weight. Null when more is drawn than it holds.
    /// </summary>
    /// <param name="drawn">Zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The amount is negative.</exception>
    public Pressure? PressureAfter(AmountOfSubstance drawn)
    {
        double moles = Guard.InRange(drawn.Moles, 0, double.MaxValue, "mol", nameof(drawn));
        if (Kind == BottleKind.Liquefied || Volume is not { } volume || moles == 0)
        {
            return Pressure;
        }

        double left = Fluid.At(Temperature, Pressure).MolarDensity.MolesPerCubicMeter - (moles / volume.CubicMeters);
        return left > 0 ? Fluid.AtDensity(Temperature, Molarity.FromMolesPerCubicMeter(left)).Pressure : null;
    }

    /// <inheritdoc/>
    public override string ToString() =>
        $"{Substance}, {(Kind == BottleKind.Liquefied ? "liquefied" : "compressed")}, {Pressure.Bars:G5} bar absolute at {Temperature.DegreesCelsius:G4} degC";

    private static WorkingFluid FluidOf(string substance)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(substance);
        WorkingFluid fluid = WorkingFluid.Pure(substance);
        return fluid.IsPseudoPure
            ? throw new ArgumentException($"substance is {substance}, a mixture described as if it were pure: charge its components.", nameof(substance))
            : fluid;
    }

    private static void Weighed(Mass? grossWeight)
    {
        if (grossWeight is { } weight)
        {
            Guard.Positive(weight.Kilograms, "kg", nameof(grossWeight));
        }
    }
}
