namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>
/// A mixture's isotherm on a fine grid of densities: its outermost rising stretches, found with no knowledge of how the library looks for
/// them. The vapour stretch begins at zero density, the liquid one ends at the highest density of the grid; where the pressure rises
/// everywhere both are the whole.
/// </summary>
internal sealed class IsothermScan
{
    // Equal ratios up to a hundredth of the highest density, for vapours at the lowest temperatures; equal steps from there.
    private const int Ratios = 1200;
    private const int Points = Ratios + 3000;

    private readonly SampleMixture sample;
    private readonly double temperature;
    private readonly double[] density = new double[Points];
    private readonly double[] pressure = new double[Points];
    private readonly int vaporEnd;
    private readonly int liquidBegin;

    public IsothermScan(SampleMixture sample, double temperature)
    {
        this.sample = sample;
        this.temperature = temperature;
        sample.Kernel.SetTemperature(temperature, sample.Scratch);
        double highest = sample.Kernel.DensityLimit(sample.X, sample.Scratch);
        for (int k = 0; k < Points; k++)
        {
            density[k] = highest * (k < Ratios ? Math.Pow(10, -12 + (10.0 * k / Ratios)) : 0.01 + (0.99 * (k + 1 - Ratios) / (Points - Ratios)));
            pressure[k] = At(density[k]);
        }

        while (vaporEnd < Points - 1 && pressure[vaporEnd + 1] > pressure[vaporEnd])
        {
            vaporEnd++;
        }

        liquidBegin = Points - 1;
        while (liquidBegin > 0 && pressure[liquidBegin - 1] < pressure[liquidBegin])
        {
            liquidBegin--;
        }
    }

    /// <summary>Whether the pressure rises with density everywhere.</summary>
    public bool RisesEverywhere => vaporEnd == Points - 1;

    /// <summary>Whether there is a stretch of rising pressure between the outermost falling ones.</summary>
    public bool HasLoopBetween
    {
        get
        {
            for (int k = vaporEnd + 1; k < liquidBegin; k++)
            {
                if (pressure[k] > pressure[k - 1])
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>The highest pressure on the vapour stretch, as far as the grid tells.</summary>
    public double VaporLimit => pressure[vaporEnd];

    /// <summary>The lowest pressure on the liquid stretch, as far as the grid tells.</summary>
    public double LiquidLimit => pressure[liquidBegin];

    /// <summary>The highest pressure of the grid.</summary>
    public double HighestPressure => pressure[^1];

    /// <summary>A density between the outermost stretches whose pressure rises through the one given; null when there is none.</summary>
    public double? RootBetween(double p)
    {
        for (int k = vaporEnd + 1; k < liquidBegin; k++)
        {
            if (pressure[k - 1] < p && pressure[k] >= p)
            {
                return Bisect(k - 1, p);
            }
        }

        return null;
    }

    /// <summary>The density of the vapour stretch at a pressure; null when the stretch does not reach it.</summary>
    public double? VaporRoot(double p)
    {
        if (p <= pressure[0])
        {
            return Bisect(-1, p);
        }

        for (int k = 1; k <= vaporEnd; k++)
        {
            if (pressure[k] >= p)
            {
                return Bisect(k - 1, p);
            }
        }

        return null;
    }

    /// <summary>The density of the liquid stretch at a pressure; null when the stretch does not reach it.</summary>
    public double? LiquidRoot(double p)
    {
        for (int k = Points - 1; k > liquidBegin; k--)
        {
            if (pressure[k - 1] < p && pressure[k] >= p)
            {
                return Bisect(k - 1, p);
            }
        }

        return RisesEverywhere ? VaporRoot(p) : null;
    }

    /// <summary>Residual Gibbs energy over R T of a density whose pressure is <paramref name="p"/>.</summary>
    public double Gibbs(double molarDensity, double p)
    {
        double[] lnFugacity = new double[sample.X.Length];
        sample.Kernel.LnFugacityAtDensity(temperature, molarDensity, sample.X, sample.Scratch, lnFugacity);
        return sample.X.Zip(lnFugacity, (x, f) => x * f).Sum() - Math.Log(p);
    }

    private double At(double molarDensity) => sample.Kernel.Pressure(temperature, molarDensity, sample.X, sample.Scratch, out _);

    private double Bisect(int below, double p)
    {
        double low = below < 0 ? 0 : density[below];
        double high = density[below + 1];
        for (int k = 0; k < 60; k++)
        {
            double middle = 0.5 * (low + high);
            if (At(middle) < p)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return 0.5 * (low + high);
    }
}
