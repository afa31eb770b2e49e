namespace CryoThermo.Equilibrium;

/// <summary>
/// What a stability test starts from: a tangent plane and the phases known to lie in it, which trials may run into. SI, molar.
/// </summary>
internal readonly ref struct TestedPhases
{
    private readonly ReadOnlySpan<double> third;
    private readonly double density;
    private readonly double otherDensity;
    private readonly double thirdDensity;

    /// <summary>One phase.</summary>
    /// <param name="d">ln x_i + ln phi_i(x) of it, ignored where x_i is zero.</param>
    /// <param name="phase">Its mole fractions; a zero component stays out.</param>
    /// <param name="density">Its molar density.</param>
    public TestedPhases(ReadOnlySpan<double> d, ReadOnlySpan<double> phase, double density)
    {
        D = d;
        Phase = phase;
        this.density = density;
    }

    /// <summary>Two phases in equilibrium, which share their plane.</summary>
    public TestedPhases(ReadOnlySpan<double> d, ReadOnlySpan<double> phase, double density, ReadOnlySpan<double> other, double otherDensity)
        : this(d, phase, density)
    {
        Other = other;
        this.otherDensity = otherDensity;
    }

    /// <summary>Three phases in equilibrium.</summary>
    public TestedPhases(
        ReadOnlySpan<double> d,
        ReadOnlySpan<double> phase,
        double density,
        ReadOnlySpan<double> other,
        double otherDensity,
        ReadOnlySpan<double> third,
        double thirdDensity)
        : this(d, phase, density, other, otherDensity)
    {
        this.third = third;
        this.thirdDensity = thirdDensity;
    }

    /// <summary>The plane: ln x_i + ln phi_i(x).</summary>
    public ReadOnlySpan<double> D { get; }

    /// <summary>Mole fractions of the phase that starts are made from.</summary>
    public ReadOnlySpan<double> Phase { get; }

    /// <summary>Mole fractions of a second phase; empty when there is none.</summary>
    public ReadOnlySpan<double> Other { get; }

    /// <summary>True when a trial has run into a phase already known, so that its distance can only end at zero.</summary>
    /// <param name="x">Mole fractions of the trial.</param>
    /// <param name="trialDensity">Its molar density.</param>
    /// <param name="norm">Sum of its amounts.</param>
    /// <param name="tm">Its distance.</param>
    public bool IsKnown(ReadOnlySpan<double> x, double trialDensity, double norm, double tm) =>
        Math.Abs(norm - 1) < 1e-2 && tm > -1e-7
        && IsNear(x, trialDensity, 1e-4);

    /// <summary>True when a trial is about to run into a known phase, so that it will end there if it converges fast.</summary>
    /// <param name="x">Mole fractions of the trial.</param>
    /// <param name="trialDensity">Its molar density.</param>
    /// <param name="tm">Its distance: above zero all round a stable phase.</param>
    public bool IsAbout(ReadOnlySpan<double> x, double trialDensity, double tm) => tm is > 0 and < 1e-3 && IsNear(x, trialDensity, 1e-2);

    private bool IsNear(ReadOnlySpan<double> x, double trialDensity, double tolerance) =>
        IsNear(x, Phase, trialDensity, density, tolerance)
        || (!Other.IsEmpty && IsNear(x, Other, trialDensity, otherDensity, tolerance))
        || (!third.IsEmpty && IsNear(x, third, trialDensity, thirdDensity, tolerance));

    private static bool IsNear(ReadOnlySpan<double> x, ReadOnlySpan<double> phase, double density, double phaseDensity, double tolerance)
    {
        if (Math.Abs(density - phaseDensity) > 2 * tolerance * phaseDensity)
        {
            return false;
        }

        for (int i = 0; i < x.Length; i++)
        {
            if (Math.Abs(x[i] - phase[i]) > tolerance * (phase[i] + 1e-3))
            {
                return false;
            }
        }

        return true;
    }
}
