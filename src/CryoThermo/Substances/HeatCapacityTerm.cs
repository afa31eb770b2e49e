namespace CryoThermo.Substances;

/// <summary>One term of the reduced ideal-gas heat capacity cp0/R. Immutable and thread-safe.</summary>
public abstract record HeatCapacityTerm
{
    /// <summary>Above this ratio of characteristic to actual temperature exp(-x) is zero in double precision.</summary>
    private protected const double LargestExponent = 700;

    private protected HeatCapacityTerm()
    {
    }

    /// <summary>The term's contribution to cp0/R, dimensionless.</summary>
    /// <param name="temperature">Temperature, K; greater than zero.</param>
    public abstract double At(double temperature);
}
