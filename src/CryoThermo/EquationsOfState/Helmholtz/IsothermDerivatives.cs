namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>The reduced residual Helmholtz energy along an isotherm: alpha, delta d(alpha)/d(delta), delta^2 d2(alpha)/d(delta)2.</summary>
/// <param name="Alpha">alpha.</param>
/// <param name="ByDelta">delta d(alpha)/d(delta).</param>
/// <param name="ByDeltaDelta">delta^2 d2(alpha)/d(delta)2.</param>
internal readonly record struct IsothermDerivatives(double Alpha, double ByDelta, double ByDeltaDelta)
{
    /// <summary>p/(rho R T).</summary>
    public double Compressibility => 1 + ByDelta;

    /// <summary>dp/drho at constant temperature over R T.</summary>
    public double Stiffness => 1 + (2 * ByDelta) + ByDeltaDelta;

    /// <summary>Residual Gibbs energy over R T counted from the ideal gas at the same density: alpha + delta d(alpha)/d(delta).</summary>
    public double ResidualGibbs => Alpha + ByDelta;
}
