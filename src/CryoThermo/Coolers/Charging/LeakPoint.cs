using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>What a leak has left behind. Immutable and thread-safe.</summary>
/// <param name="LostFraction">Share of the first charge that is gone, mol/mol.</param>
/// <param name="Left">Amount left.</param>
/// <param name="Remaining">What is left, with its composition.</param>
/// <param name="LeakPressure">Absolute pressure at the leak.</param>
/// <param name="Lost">Composition of everything lost so far; null at the start.</param>
public sealed record LeakPoint(double LostFraction, AmountOfSubstance Left, WorkingFluid Remaining, Pressure LeakPressure, Composition? Lost);
