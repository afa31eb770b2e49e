namespace CryoThermo.Machines;

/// <summary>A figure with what it may be at least and at most. Immutable and thread-safe.</summary>
/// <param name="Nominal">By the formulae as they stand.</param>
/// <param name="Least">With what is uncertain at that end of its stated range which gives least: for an exchanger every film at its low end, friction at its high one.</param>
/// <param name="Greatest">The other way round.</param>
/// <typeparam name="T">Kind of figure.</typeparam>
public sealed record FigureBand<T>(T Nominal, T Least, T Greatest);
