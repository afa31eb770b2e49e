using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>One component of a recipe: what to fill and what gauge and scale show when it is in. Immutable and thread-safe.</summary>
/// <param name="Component">What is filled.</param>
/// <param name="Control">What to close the valve by: the scale for a liquefied gas, the gauge for a compressed one or one without a bottle.</param>
/// <param name="Amount">Amount to fill; zero where the machine holds enough already.</param>
/// <param name="Mass">Mass to fill.</param>
/// <param name="AbsolutePressure">Pressure in the machine afterwards, real gas.</param>
/// <param name="Gauge">The same as the gauge shows it.</param>
/// <param name="PartialPressure">Pressure the component would add as an ideal gas: the reading of the partial-pressure method.</param>
/// <param name="IdealPressure">Absolute pressure by Dalton's rule with ideal gases.</param>
/// <param name="Contents">Composition of the gas in the machine afterwards.</param>
/// <param name="BottlePressure">Absolute pressure the bottle still gives at the end; null without a bottle.</param>
/// <param name="BottleWeightBefore">Weight of bottle and contents before; null when it was not stated.</param>
/// <param name="BottleWeightAfter">Weight of bottle and contents afterwards; null when it was not stated.</param>
public sealed record ChargeStep(
    Substance Component,
    ChargeControl Control,
    AmountOfSubstance Amount,
    Mass Mass,
    Pressure AbsolutePressure,
    GaugePressure Gauge,
    Pressure PartialPressure,
    Pressure IdealPressure,
    Composition Contents,
    Pressure? BottlePressure,
    Mass? BottleWeightBefore,
    Mass? BottleWeightAfter)
{
    /// <summary>Real less ideal pressure: how far the partial-pressure method strays here.</summary>
    public Pressure Deviation => AbsolutePressure - IdealPressure;
}
