namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>The reduced residual Helmholtz energy of a mixture with its derivatives by ln(tau) and ln(delta) at constant composition.</summary>
/// <param name="Alpha">alpha.</param>
/// <param name="ByTau">d(alpha)/d(ln tau).</param>
/// <param name="ByDelta">d(alpha)/d(ln delta).</param>
/// <param name="ByTauTau">d2(alpha)/d(ln tau)2.</param>
/// <param name="ByTauDelta">d2(alpha)/d(ln tau)d(ln delta).</param>
/// <param name="ByDeltaDelta">d2(alpha)/d(ln delta)2.</param>
internal readonly record struct MixtureDerivatives(
    double Alpha, double ByTau, double ByDelta, double ByTauTau, double ByTauDelta, double ByDeltaDelta)
{
    /// <summary>p/(rho R T).</summary>
    public double Compressibility => 1 + ByDelta;

    /// <summary>dp/drho at constant temperature over R T.</summary>
    public double Stiffness => 1 + ByDelta + ByDeltaDelta;
}
