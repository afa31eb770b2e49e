namespace CryoThermo.Checks.Values;

/// <summary>A figure of a cooler mixture to compare with: a single one, or bounds.</summary>
/// <param name="Quantity">What it is, with its unit.</param>
/// <param name="IsReported">True when published; false when an independent program computed it, or it was expected from such a computation.</param>
/// <param name="Least">Lower bound; null for none.</param>
/// <param name="Greatest">Upper bound; equal to the lower one for a single figure; null for none.</param>
/// <param name="Tolerance">How far outside is still met, in the unit of the figure; null where none is stated: shown, not judged.</param>
/// <param name="RelativeTolerance">The same as a part of a single figure.</param>
/// <param name="Cold">Cold temperature, K, where the quantity needs one.</param>
/// <param name="Warm">Warm end, K, where the quantity needs one.</param>
/// <param name="LowPressure">Another low pressure than that of the mixture, Pa.</param>
/// <param name="HighPressure">Another high pressure, Pa.</param>
/// <param name="Measured">Measured gross cooling, J/mol, of a share.</param>
/// <param name="PureGas">The pure gas of a ratio.</param>
/// <param name="IsSameEquation">True when compared with the same equation and pairs only: Peng-Robinson with the pairs of the tables.</param>
/// <param name="Source">Its source where not that of the mixture.</param>
/// <param name="Mark">How it came here where not as the mixture.</param>
public sealed record CoolerFigure(
    CoolerQuantity Quantity,
    bool IsReported,
    double? Least,
    double? Greatest,
    double? Tolerance,
    double? RelativeTolerance,
    double? Cold,
    double? Warm,
    double? LowPressure,
    double? HighPressure,
    double? Measured,
    string? PureGas,
    bool IsSameEquation,
    string? Source,
    SourceMark? Mark)
{
    /// <summary>The only figure, or null for bounds.</summary>
    public double? Only => Least is { } value && value == Greatest ? value : null;

    /// <summary>How far a value is outside of the bounds, with its sign; 0 inside.</summary>
    public double Outside(double value) => value < Least ? value - Least.Value : value > Greatest ? value - Greatest.Value : 0;

    /// <summary>What is allowed outside, in the unit of the figure; null where the figure is not judged.</summary>
    public double? Allowed => Tolerance ?? (RelativeTolerance is { } part ? part * Math.Abs(Only ?? throw new InvalidOperationException("A relative tolerance needs a single figure.")) : null);
}
