namespace CryoThermo.Fitting;

/// <summary>A parameter after a fit; dimensionless. Immutable.</summary>
/// <param name="Parameter">Which one.</param>
/// <param name="Start">Its value before.</param>
/// <param name="Value">Its value after.</param>
/// <param name="StandardError">
/// Its standard error from the scatter of the points about the fit; with fewer than three points more than parameters at least that which the
/// stated uncertainties imply. It does not hold what all points share: a false scale of the pressure gauge, an impurity.
/// </param>
/// <param name="IsAtLimit">True when the value ended at its allowed limit: the data ask for more than the model should give.</param>
public sealed record FittedParameter(PairParameter Parameter, double Start, double Value, double StandardError, bool IsAtLimit);
