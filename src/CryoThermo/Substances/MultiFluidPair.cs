using System.Globalization;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// The parameters of two substances in the multi-fluid model: reducing volume, reducing temperature, departure function. Immutable and
/// thread-safe.
/// </summary>
/// <param name="First">The component i of the asymmetric parameters.</param>
/// <param name="Second">The component j.</param>
/// <param name="Volume">Parameters of the reducing molar volume.</param>
/// <param name="Temperature">Parameters of the reducing temperature.</param>
/// <param name="Departure">Departure function; null when the pair has none.</param>
/// <param name="DepartureWeight">Factor of the departure function; 0 when there is none.</param>
/// <param name="Tier">How well the parameters are founded.</param>
/// <param name="Source">Where they come from.</param>
/// <param name="FittedTo">What they were fitted to; null when they were not fitted here.</param>
/// <param name="Basis">What the source based them on; null when it does not say.</param>
/// <param name="StandardErrors">Standard errors of fitted parameters; null when they were not fitted here.</param>
/// <param name="HalfWidth95">
/// Half-width of the error band of the estimated gamma of the reducing temperature, meant to hold 95 % of such pairs; null where none is
/// known, and for pairs that were not estimated.
/// </param>
public sealed record MultiFluidPair(
    SubstanceIdentity First,
    SubstanceIdentity Second,
    ReducingParameters Volume,
    ReducingParameters Temperature,
    DepartureFunction? Departure,
    double DepartureWeight,
    PairTier Tier,
    Source Source,
    string? FittedTo,
    string? Basis,
    MultiFluidPairErrors? StandardErrors,
    double? HalfWidth95)
    : BinaryPair(First, Second, Tier, Source, FittedTo)
{
    /// <inheritdoc/>
    public override string Parameters =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"volume beta {Volume.Beta:0.0000} gamma {Volume.Gamma:0.0000}, temperature beta {Temperature.Beta:0.0000} gamma {Temperature.Gamma:0.0000}")
        + (HalfWidth95 is { } half ? string.Create(CultureInfo.InvariantCulture, $" +- {half:0.000}") : string.Empty)
        + (Departure is null ? string.Empty : string.Create(CultureInfo.InvariantCulture, $", departure '{Departure.Name}' times {DepartureWeight:0.####}"));

    /// <summary>Whether the parameters were fitted to measurements of this pair.</summary>
    internal bool RestsOnMeasurements => Tier == PairTier.FittedHere || Basis == FittedByStandard;

    /// <summary>
    /// Whether the parameters are more than a mean that the standard takes where it had no measurements: measured, or given by a user's file.
    /// </summary>
    internal bool IsFounded => Basis is not (MeanByStandard or UnitByStandard);

    internal const string MeanByStandard = "arithmetic mean of the critical constants: the standard had no measurements";

    internal const string UnitByStandard = "unit parameters: the standard had no sufficient measurements";

    /// <summary>The basis of pairs of the standard that were fitted to measurements.</summary>
    internal const string FittedByStandard = "fitted to measurements of the pair";

    /// <summary>The same pair with the components exchanged.</summary>
    public MultiFluidPair Exchange() => this with
    {
        First = Second,
        Second = First,
        Volume = Volume.Exchange(),
        Temperature = Temperature.Exchange(),
        StandardErrors = StandardErrors?.Exchange(Volume.Beta, Temperature.Beta),
    };
}
