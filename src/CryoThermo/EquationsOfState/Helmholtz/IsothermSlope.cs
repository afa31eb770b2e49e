namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// A mixture along an isotherm: alpha and its derivatives by ln(delta) to third order, which tell pressure, stiffness and curvature.
/// </summary>
/// <param name="Alpha">alpha.</param>
/// <param name="First">d(alpha)/d(ln delta).</param>
/// <param name="Second">d2(alpha)/d(ln delta)2.</param>
/// <param name="Third">d3(alpha)/d(ln delta)3.</param>
internal readonly record struct IsothermSlope(double Alpha, double First, double Second, double Third)
{
    /// <summary>p/(rho R T).</summary>
    public double Compressibility => 1 + First;

    /// <summary>dp/drho at constant temperature over R T.</summary>
    public double Stiffness => 1 + First + Second;

    /// <summary>rho d2p/drho2 at constant temperature over R T.</summary>
    public double Curvature => Second + Third;

    /// <summary>Residual Gibbs energy over R T counted from the ideal gas at the same density.</summary>
    public double ResidualGibbs => Alpha + First;
}
