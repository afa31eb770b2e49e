using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The greatest cooling of a throttle cycle at a cold temperature and what limits it.</summary>
/// <param name="ColdTemperature">The cold temperature.</param>
/// <param name="GreatestCooling">Greatest cooling a mole circulated; negative when the cycle cannot reach the temperature.</param>
/// <param name="PinchTemperature">Where the isothermal enthalpy difference is least.</param>
/// <param name="Location">At the warm end, inside, or at the cold end.</param>
/// <param name="Explanation">Why the pinch is there, in a sentence.</param>
/// <param name="GainFromWarmEnd5KelvinsColder">How much more cooling a warm end 5 K colder would give; null when that is below the cold temperature.</param>
/// <param name="CapacityError">How far the model's capacities are known to be off for this fluid; null for a model without a record.</param>
public sealed record CycleLimit(
    Temperature ColdTemperature,
    MolarEnergy GreatestCooling,
    Temperature PinchTemperature,
    PinchLocation Location,
    string Explanation,
    MolarEnergy? GainFromWarmEnd5KelvinsColder,
    CapacityError? CapacityError);
