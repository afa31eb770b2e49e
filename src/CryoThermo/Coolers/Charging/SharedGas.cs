using CryoThermo.EquationsOfState;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// One gas of uniform pressure and composition in several volumes at their temperatures: sum of V rho(T, p, z) is the amount. Works with the
/// least dense root of the equation; whether that is stable is for others to judge. Holds memory of its own: not thread-safe, each calculation makes one.
/// </summary>
internal sealed class SharedGas
{
    private const double Tolerance = 2e-14;
    private const int MostSteps = 200;

    private readonly MixtureKernel equation;
    private readonly double[] temperatures;
    private readonly double[] volumes;
    private readonly double[][] scratch;
    private readonly double[] lnPhi;
    private readonly double[] byAmount;
    private readonly double[] byPressure;
    private readonly double[] fractions;

    /// <summary>Joins a gas and its volumes.</summary>
    /// <param name="fluid">The components; its mole fractions do not matter.</param>
    /// <param name="temperatures">Distinct temperatures, K.</param>
    /// <param name="volumes">Volume at each, m3.</param>
    public SharedGas(WorkingFluid fluid, double[] temperatures, double[] volumes)
    {
        Fluid = fluid;
        equation = fluid.Kernel.Equation;
        this.temperatures = temperatures;
        this.volumes = volumes;
        scratch = new double[temperatures.Length][];
        for (int k = 0; k < temperatures.Length; k++)
        {
            scratch[k] = new double[equation.ScratchLength];
            equation.SetTemperature(temperatures[k], scratch[k]);
        }

        int n = equation.ComponentCount;
        lnPhi = new double[n];
        byAmount = new double[n * n];
        byPressure = new double[n];
        fractions = new double[n];
        IdealPressurePerMole = equation.GasConstant / volumes.Zip(temperatures, (v, t) => v / t).Sum();
    }

    /// <summary>The components.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Pressure of a mole of ideal gas in these volumes, Pa/mol.</summary>
    public double IdealPressurePerMole { get; }

    /// <summary>Amount that the volumes hold at a pressure, mol.</summary>
    public double AmountAt(double pressure, ReadOnlySpan<double> z)
    {
        double sum = 0;
        for (int k = 0; k < volumes.Length; k++)
        {
            sum += volumes[k] * equation.LnFugacityCoefficients(temperatures[k], pressure, z, DensityRoot.Vapor, scratch[k], lnPhi, out _);
        }

        return sum;
    }

    /// <summary>
    /// Pressure of given amounts; the amount rises with pressure, so the root lies in a bracket that only closes. False when the gas
    /// cannot hold the amount: its vapour root ends before.
    /// </summary>
    /// <param name="amounts">mol, in the order of the components, not all zero.</param>
    /// <param name="pressure">Pa; where the vapour ends when false is returned.</param>
    public bool TryPressure(ReadOnlySpan<double> amounts, out double pressure)
    {
        double total = ToFractions(amounts);
        double low = 0;
        double high = equation.HighestPressure;
        pressure = Math.Clamp(total * IdealPressurePerMole, equation.LowestPressure, high);
        for (int step = 0; step < MostSteps; step++)
        {
            double miss = -total;
            double slope = 0;
            for (int k = 0; k < volumes.Length; k++)
            {
                double density = equation.LnFugacityCoefficients(temperatures[k], pressure, fractions, DensityRoot.Vapor, scratch[k], lnPhi, out _);
                equation.Pressure(temperatures[k], density, fractions, scratch[k], out double byVolume);
                miss += volumes[k] * density;
                slope -= volumes[k] * density * density / byVolume;
            }

            if (Math.Abs(miss) <= Tolerance * total)
            {
                return true;
            }

            low = miss < 0 ? pressure : low;
            high = miss > 0 ? pressure : high;
            double next = pressure - (miss / slope);
            if (!(next > low && next < high))
            {
                next = high < equation.HighestPressure ? 0.5 * (low + high) : Math.Min(2 * pressure, high);
            }

            // A bracket this thin with a miss left holds a jump, or rounding of the density.
            if (high - low <= 1e-15 * high || next == pressure)
            {
                return Math.Abs(miss) <= 1e-11 * total;
            }

            pressure = next;
        }

        return false;
    }

    /// <summary>How the pressure of given amounts answers to each, Pa/mol, at a pressure solved before.</summary>
    public void PressureByAmount(ReadOnlySpan<double> amounts, double pressure, Span<double> result)
    {
        // With A = sum V rho - N = 0: dA/dn_i = sum V rho^2 (v - v_i)/N - 1 with partial molar volumes v_i, and dp/dn_i = -(dA/dn_i)/(dA/dp).
        double total = ToFractions(amounts);
        result.Fill(-1);
        double slope = 0;
        for (int k = 0; k < volumes.Length; k++)
        {
            double t = temperatures[k];
            double density = equation.LnFugacityDerivatives(
                t, pressure, fractions, DensityRoot.Vapor, scratch[k], lnPhi, byAmount, default, byPressure, out _);
            equation.Pressure(t, density, fractions, scratch[k], out double byVolume);
            slope -= volumes[k] * density * density / byVolume;
            for (int i = 0; i < result.Length; i++)
            {
                double partialVolume = equation.GasConstant * t * ((1 / pressure) + byPressure[i]);
                result[i] += volumes[k] * density * density * ((1 / density) - partialVolume) / total;
            }
        }

        for (int i = 0; i < result.Length; i++)
        {
            result[i] /= -slope;
        }
    }

    private double ToFractions(ReadOnlySpan<double> amounts)
    {
        double total = 0;
        foreach (double amount in amounts)
        {
            total += amount;
        }

        for (int i = 0; i < fractions.Length; i++)
        {
            fractions[i] = amounts[i] / total;
        }

        return total;
    }
}
