namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// alpha = alpha0 + w (alpha1 - alpha0), alpha_k = Tr^(N(M-1)) exp(L(1 - Tr^(N M))), with separate constants below and
/// above Tc. Twu, Coon, Cunningham, Fluid Phase Equilib. 105 (1995) 49 (Peng-Robinson) and 61 (Soave-Redlich-Kwong);
/// constants recalled, their slopes at Tr = 1 agree between the two sets to 7e-6.
/// </summary>
internal sealed class TwuGeneralizedAlpha : AlphaFunction
{
    private readonly double criticalTemperature;
    private readonly double acentricFactor;
    private readonly Constants constants;

    private TwuGeneralizedAlpha(double criticalTemperature, double acentricFactor, Constants constants)
    {
        this.criticalTemperature = criticalTemperature;
        this.acentricFactor = acentricFactor;
        this.constants = constants;
    }

    /// <summary>Constants for the Peng-Robinson form.</summary>
    public static TwuGeneralizedAlpha PengRobinson(double criticalTemperature, double acentricFactor) =>
        new(criticalTemperature, acentricFactor, new(
            new(0.125283, 0.911807, 1.94815), new(0.511614, 0.784054, 2.81252),
            new(0.401219, 4.96307, -0.2), new(0.024955, 1.248089, -8.0)));

    /// <summary>Constants for the Soave-Redlich-Kwong form.</summary>
    public static TwuGeneralizedAlpha SoaveRedlichKwong(double criticalTemperature, double acentricFactor) =>
        new(criticalTemperature, acentricFactor, new(
            new(0.141599, 0.919422, 2.496441), new(0.500315, 0.799457, 3.29179),
            new(0.441411, 6.500018, -0.2), new(0.03258, 1.289098, -8.0)));

    /// <inheritdoc/>
    public override double SquareRoot(double temperature, out double first, out double second)
    {
        double reduced = temperature / criticalTemperature;
        (TwuTerm set0, TwuTerm set1) = reduced <= 1 ? (constants.Below0, constants.Below1) : (constants.Above0, constants.Above1);
        double a0 = set0.Alpha(reduced, out double a0First, out double a0Second);
        double a1 = set1.Alpha(reduced, out double a1First, out double a1Second);
        double alpha = a0 + (acentricFactor * (a1 - a0));
        double alphaFirst = (a0First + (acentricFactor * (a1First - a0First))) / criticalTemperature;
        double alphaSecond = (a0Second + (acentricFactor * (a1Second - a0Second))) / (criticalTemperature * criticalTemperature);
        double root = Math.Sqrt(alpha);
        first = 0.5 * alphaFirst / root;
        second = (0.5 * alphaSecond / root) - (first * first / root);
        return root;
    }

    private readonly record struct Constants(TwuTerm Below0, TwuTerm Below1, TwuTerm Above0, TwuTerm Above1);
}
