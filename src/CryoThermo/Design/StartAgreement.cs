namespace CryoThermo.Design;

/// <summary>How well the independent starts agree: each start's best after its local search, by the exploration model.</summary>
/// <param name="Values">The first goal's figure of each start, in its unit; with several goals the weighted geometric mean.</param>
/// <param name="SpreadPercent">Largest less smallest over the largest, percent.</param>
/// <param name="WithinHalfPercent">Starts within 0.5 % of the best.</param>
public sealed record StartAgreement(IReadOnlyList<double> Values, double SpreadPercent, int WithinHalfPercent);
