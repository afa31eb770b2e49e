using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>
/// What a recuperative throttle cycle can do at best between two pressures: its cooling at a cold temperature is bounded
/// by the least isothermal enthalpy difference from there up to the warm end. Immutable and thread-safe.
/// </summary>
public sealed class ThrottleCycle
{
    /// <summary>Builds both isobars.</summary>
    /// <param name="fluid">The circulating fluid.</param>
    /// <param name="lowPressure">Absolute pressure of the returning stream.</param>
    /// <param name="highPressure">Absolute pressure of the entering stream, above the low pressure.</param>
    /// <param name="warmEnd">Temperature of the entering stream at the warm end.</param>
    /// <param name="lowest">Lowest temperature to consider.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressures or temperatures are in the wrong order, or out of range.</exception>
    public ThrottleCycle(WorkingFluid fluid, Pressure lowPressure, Pressure highPressure, Temperature warmEnd, Temperature lowest)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        if (!(highPressure.Pascals > lowPressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(highPressure), highPressure, $"highPressure is {highPressure.Bars:G6} bar; it must be above lowPressure, {lowPressure.Bars:G6} bar.");
        }

        Fluid = fluid;
        LowPressureIsobar = fluid.Isobar(lowPressure, lowest, warmEnd);
        HighPressureIsobar = fluid.Isobar(highPressure, lowest, warmEnd);
        Kernel = new(LowPressureIsobar.Table, HighPressureIsobar.Table, HighPressureIsobar.Table.MaxTemperature);
    }

    /// <summary>The circulating fluid.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Isobar of the returning stream.</summary>
    public Isobar LowPressureIsobar { get; }

    /// <summary>Isobar of the entering stream.</summary>
    public Isobar HighPressureIsobar { get; }

    /// <summary>Temperature of the entering stream at the warm end.</summary>
    public Temperature WarmEnd => HighPressureIsobar.Highest;

    internal CycleLimitKernel Kernel { get; }

    /// <summary>Enthalpy at low less enthalpy at high pressure, at one temperature.</summary>
    /// <param name="temperature">Within the range covered.</param>
    public MolarEnergy IsothermalEnthalpyDifference(Temperature temperature) =>
        MolarEnergy.FromJoulesPerMole(Kernel.EnthalpyDifference(temperature.Kelvins));

    /// <summary>The greatest cooling at a cold temperature, with its pinch and the reason for it.</summary>
    /// <param name="coldTemperature">Temperature at which the returning stream leaves the cold head, within the range covered.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range covered.</exception>
    public CycleLimit GreatestCooling(Temperature coldTemperature)
    {
        PinchFacts facts = Kernel.Explain(coldTemperature.Kelvins);
        return new(
            coldTemperature,
            MolarEnergy.FromJoulesPerMole(facts.Cooling),
            Temperature.FromKelvins(facts.Temperature),
            facts.Location,
            PinchExplanation.Describe(facts),
            facts.GainFromColderWarmEnd is { } gain ? MolarEnergy.FromJoulesPerMole(gain) : null,
            Fluid.Model.CapacityErrorOf(Fluid.Composition));
    }

    /// <summary>
    /// The lowest temperature at which the cycle still covers a heat leak with a perfect recuperator; null when it does
    /// not even at the warm end.
    /// </summary>
    /// <param name="leak">Heat leak a mole circulated; zero for the ideal lowest temperature.</param>
    public LowestTemperature? LowestTemperature(MolarEnergy leak = default) =>
        Kernel.LowestTemperature(leak.JoulesPerMole) is { } limit
            ? new(Temperature.FromKelvins(limit.Temperature), limit.AtEndOfIsobars)
            : null;
}
