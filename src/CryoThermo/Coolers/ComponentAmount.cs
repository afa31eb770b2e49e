namespace CryoThermo.Coolers;

/// <summary>One component of a mixture and its amount. Immutable and thread-safe.</summary>
/// <param name="Substance">The substance as the file names it.</param>
/// <param name="Amount">The amount in the basis of the mixture, zero or more.</param>
public sealed record ComponentAmount(string Substance, double Amount);
