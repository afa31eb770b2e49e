namespace CryoThermo.Fitting;

/// <summary>A measured set before and after a fit. Immutable.</summary>
/// <param name="Set">Name of the set.</param>
/// <param name="Kind">Which deviation, and with it the unit.</param>
/// <param name="IsHeldOut">True when the points were not used in the fit.</param>
/// <param name="Uncertainty">Mean stated expanded uncertainty in the same unit.</param>
/// <param name="Before">With the parameters before.</param>
/// <param name="After">With the fitted parameters.</param>
public sealed record SetDeviations(
    string Set, MeasurementKind Kind, bool IsHeldOut, double Uncertainty, DeviationFigures Before, DeviationFigures After);
