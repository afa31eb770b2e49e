using System.Globalization;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// The interaction parameter of two substances in a cubic equation, for the rule a = sum xi xj sqrt(ai aj) (1 - kij), constant or linear in 1/T:
/// k(T) = k + c (298.15 K/T - 1). Immutable and thread-safe.
/// </summary>
/// <param name="First">One substance.</param>
/// <param name="Second">The other substance.</param>
/// <param name="Model">The cubic equation the parameter belongs to.</param>
/// <param name="InteractionParameter">k, dimensionless; where it depends on temperature, its value at 298.15 K.</param>
/// <param name="Tier">How well it is founded.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="FittedTo">What it was fitted to; null when it was not fitted here.</param>
/// <param name="Confidence">How far a published value is trusted.</param>
/// <param name="StandardError">Standard error of a fitted value, or root mean square error of the estimating rule over the known pairs of its class; null when unknown.</param>
/// <param name="HalfWidth95">
/// Half-width of the error band of an estimated value, meant to hold 95 % of such pairs: the smallest residual of the rule not exceeded by
/// 95 % of the known pairs of its class, counted so that it holds for the next pair; null for values that were not estimated.
/// </param>
public sealed record CubicPair(
    SubstanceIdentity First,
    SubstanceIdentity Second,
    CubicModelKind Model,
    double InteractionParameter,
    PairTier Tier,
    Source Source,
    string? FittedTo,
    PairConfidence Confidence,
    double? StandardError,
    double? HalfWidth95)
    : BinaryPair(First, Second, Tier, Source, FittedTo)
{
    /// <summary>The temperature at which k(T) is <see cref="InteractionParameter"/>, K.</summary>
    internal const double ReferenceTemperature = 298.15;

    /// <summary>c of k(T) = k + c (298.15 K/T - 1), dimensionless; zero for a constant k. Outside the temperatures it was fitted at, k(T) is extrapolated.</summary>
    public double InverseTemperatureCoefficient { get; init; }

    /// <summary>Standard error of a fitted <see cref="InverseTemperatureCoefficient"/>; null when unknown or not fitted.</summary>
    public double? InverseTemperatureStandardError { get; init; }

    /// <inheritdoc/>
    public override string Parameters =>
        string.Create(CultureInfo.InvariantCulture, $"k = {InteractionParameter:0.0000}")
        + (InverseTemperatureCoefficient == 0
            ? string.Empty
            : string.Create(CultureInfo.InvariantCulture, $" {(InverseTemperatureCoefficient < 0 ? '-' : '+')} {Math.Abs(InverseTemperatureCoefficient):0.0000} (298.15 K/T - 1)"))
        + (HalfWidth95 is { } half ? string.Create(CultureInfo.InvariantCulture, $" +- {half:0.000}") : string.Empty);

    /// <summary>k at a temperature.</summary>
    /// <param name="temperature">K, greater than zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not positive and finite.</exception>
    public double InteractionAt(double temperature)
    {
        Guard.Positive(temperature, "K");
        return InteractionParameter + (InverseTemperatureCoefficient * ((ReferenceTemperature / temperature) - 1));
    }
}
