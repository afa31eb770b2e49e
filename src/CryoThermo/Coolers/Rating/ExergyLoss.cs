using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Work lost in a part of a cooler, at the temperature of the room. Immutable.</summary>
/// <param name="Part">The part.</param>
/// <param name="Loss">Work that a part without loss would have saved.</param>
/// <param name="SharePercent">Of the work supplied, percent.</param>
public sealed record ExergyLoss(string Part, Power Loss, double SharePercent);
