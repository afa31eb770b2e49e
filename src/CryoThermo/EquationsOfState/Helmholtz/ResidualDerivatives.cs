namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// The reduced residual Helmholtz energy alpha(tau, delta) with all derivatives to second order, each multiplied by the powers of tau and
/// delta it was derived by. So multiplied they do not depend on the reducing point and add up over equations with different ones.
/// </summary>
/// <param name="Alpha">alpha.</param>
/// <param name="ByTau">tau d(alpha)/d(tau).</param>
/// <param name="ByDelta">delta d(alpha)/d(delta).</param>
/// <param name="ByTauTau">tau^2 d2(alpha)/d(tau)2.</param>
/// <param name="ByTauDelta">tau delta d2(alpha)/d(tau)d(delta).</param>
/// <param name="ByDeltaDelta">delta^2 d2(alpha)/d(delta)2.</param>
internal readonly record struct ResidualDerivatives(
    double Alpha, double ByTau, double ByDelta, double ByTauTau, double ByTauDelta, double ByDeltaDelta);
