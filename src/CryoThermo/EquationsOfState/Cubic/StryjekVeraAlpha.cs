namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// sqrt(alpha) = 1 + kappa (1 - sqrt(Tr)), kappa = kappa0 + kappa1 (1 + sqrt(Tr))(0.7 - Tr), kappa1 taken as zero above
/// Tc (common practice). Stryjek, Vera, Can. J. Chem. Eng. 64 (1986) 323, for Peng-Robinson.
/// </summary>
internal sealed class StryjekVeraAlpha(double criticalTemperature, double acentricFactor, double kappa1) : AlphaFunction
{
    private readonly double kappa0 =
        0.378893 + (acentricFactor * (1.4897153 + (acentricFactor * (-0.17131848 + (0.0196554 * acentricFactor)))));

    /// <inheritdoc/>
    public override double SquareRoot(double temperature, out double first, out double second)
    {
        double reduced = temperature / criticalTemperature;
        double root = Math.Sqrt(reduced);
        double k1 = reduced > 1 ? 0 : kappa1;

        // (1 + r)(1 - r)(0.7 - Tr) = (1 - Tr)(0.7 - Tr): the substance-specific part is a plain quadratic in Tr.
        double rootFirst = 0.5 * root / temperature;
        double rootSecond = -0.5 * rootFirst / temperature;
        first = (-kappa0 * rootFirst) + (k1 * ((2 * reduced) - 1.7) / criticalTemperature);
        second = (-kappa0 * rootSecond) + (2 * k1 / (criticalTemperature * criticalTemperature));
        return 1 + (kappa0 * (1 - root)) + (k1 * (1 - reduced) * (0.7 - reduced));
    }
}
