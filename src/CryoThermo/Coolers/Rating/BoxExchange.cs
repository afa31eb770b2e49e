using CryoThermo.Machines;

namespace CryoThermo.Coolers.Rating;

/// <summary>The exchangers of a cold box in a state.</summary>
/// <param name="Recuperator">The recuperator, with a separator the warm one, by its conductance; null where the tubes are given.</param>
/// <param name="Tubes">The recuperator by its tubes; null where the conductance is given.</param>
/// <param name="Cold">The cold exchanger behind a separator; null without one, or where both its streams enter at one temperature.</param>
internal sealed record BoxExchange(RecuperatorResult? Recuperator, TubeRecuperatorRating? Tubes, RecuperatorResult? Cold);
