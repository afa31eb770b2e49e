namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random numbers that depend on seed and case number alone, on every machine: SplitMix64 (Steele, Lea, Flood, OOPSLA 2014).
/// </summary>
public sealed class CaseRandom
{
    private ulong state;

    /// <summary>Starts the sequence of one case.</summary>
    /// <param name="seed">Seed of the run.</param>
    /// <param name="number">Number of the case.</param>
    public CaseRandom(int seed, int number)
    {
        state = ((ulong)(uint)seed << 32) | (uint)number;
        Next();
        state ^= Next();
    }

    /// <summary>Uniform in [0, 1).</summary>
    public double Uniform() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>Uniform between two bounds.</summary>
    public double Uniform(double low, double high) => low + ((high - low) * Uniform());

    /// <summary>Uniform whole number from 0 to below a bound.</summary>
    public int Whole(int below) => (int)(Uniform() * below);

    /// <summary>Exponential with mean 1.</summary>
    public double Exponential() => -Math.Log(1 - Uniform());

    /// <summary>A point of the simplex: normalised exponentials raised to a power; 1 is uniform, larger powers lie nearer to the corners.</summary>
    public void Simplex(Span<double> x, double power)
    {
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = Math.Pow(Exponential() + 1e-12, power);
            sum += x[i];
        }

        for (int i = 0; i < x.Length; i++)
        {
            x[i] /= sum;
        }
    }

    private ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        ulong z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
