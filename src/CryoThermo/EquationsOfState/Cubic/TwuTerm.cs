namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// Tr^(N(M-1)) exp(L(1 - Tr^(N M))): Twu, Bluck, Cunningham, Coon, Fluid Phase Equilib. 69 (1991) 33 (from memory).
/// </summary>
/// <param name="L">L, dimensionless.</param>
/// <param name="M">M, dimensionless.</param>
/// <param name="N">N, dimensionless.</param>
internal readonly record struct TwuTerm(double L, double M, double N)
{
    /// <summary>Value with its first and second derivative by the reduced temperature.</summary>
    /// <param name="reduced">Tr.</param>
    /// <param name="first">First derivative.</param>
    /// <param name="second">Second derivative.</param>
    public double Alpha(double reduced, out double first, out double second)
    {
        double power = Math.Pow(reduced, N * M);
        double alpha = Math.Pow(reduced, N * (M - 1)) * Math.Exp(L * (1 - power));

        // d ln(alpha)/d ln(Tr) and its own slope.
        double slope = (N * (M - 1)) - (L * N * M * power);
        double slopeByLn = -L * N * M * N * M * power;
        first = alpha * slope / reduced;
        second = alpha * ((slope * slope) - slope + slopeByLn) / (reduced * reduced);
        return alpha;
    }
}
