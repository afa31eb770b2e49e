using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What a space of a running cooler holds. Immutable.</summary>
/// <param name="Space">The space; those of the recuperator and what the oil holds among them.</param>
/// <param name="Amounts">Amount of each component, in the order of the charge.</param>
/// <param name="Total">All of it.</param>
/// <param name="Liquid">How much of it is liquid; gas dissolved in oil is not.</param>
public sealed record SpaceContent(string Space, IReadOnlyList<AmountOfSubstance> Amounts, AmountOfSubstance Total, AmountOfSubstance Liquid);
