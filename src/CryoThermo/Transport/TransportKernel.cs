using CryoThermo.EquationsOfState;
using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>
/// Viscosity and thermal conductivity of a fluid at given temperature, molar density and composition. A pure fluid takes its own correlation;
/// a mixture the dilute gas of C. R. Wilke, J. Chem. Phys. 18 (1950) 517, and E. A. Mason, S. C. Saxena, Phys. Fluids 1 (1958) 361, with the dense
/// part by corresponding states. SI. Immutable, thread-safe, without allocation per call.
/// </summary>
internal sealed class TransportKernel
{
    private readonly TransportComponent[] components;
    private readonly CorrespondingStates states;

    // Of Wilke's formula, for each pair: (Mj/Mi)^(1/4) and 1/sqrt(8 (1 + Mi/Mj)).
    private readonly double[] massRoot;
    private readonly double[] massShare;

    /// <summary>Takes the substances in the order of the mole fractions.</summary>
    public TransportKernel(IReadOnlyList<Substance> substances)
    {
        components = [.. substances.Select(s => new TransportComponent(s))];
        states = new([.. components.Select(c => c.Coefficients)]);
        int n = components.Length;
        massRoot = new double[n * n];
        massShare = new double[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                double ratio = components[i].MolarMass / components[j].MolarMass;
                massRoot[(i * n) + j] = Math.Pow(ratio, -0.25);
                massShare[(i * n) + j] = 1 / Math.Sqrt(8 * (1 + ratio));
            }
        }
    }

    /// <summary>The components in order.</summary>
    public IReadOnlyList<TransportComponent> Components => components;

    /// <summary>Dynamic viscosity, Pa s.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3; 0 for the dilute gas.</param>
    /// <param name="x">Mole fractions, summing to 1.</param>
    public double Viscosity(double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        if (Only(x) is >= 0 and int only)
        {
            return components[only].Viscosity(temperature, molarDensity);
        }

        int n = components.Length;
        Span<double> dilute = stackalloc double[n];
        Span<double> weight = stackalloc double[n];
        DiluteViscosities(temperature, x, dilute);
        Weights(x, dilute, weight);
        return Mean(dilute, weight) + (molarDensity > 0 ? states.Viscosity(temperature, molarDensity, x) : 0);
    }

    /// <summary>Thermal conductivity without what the critical point adds, W/(m K).</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3; 0 for the dilute gas.</param>
    /// <param name="x">Mole fractions, summing to 1.</param>
    public double BackgroundConductivity(double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        Evaluate(temperature, molarDensity, x, out _, out double conductivity);
        return conductivity;
    }

    /// <summary>Viscosity and conductivity at once: the dilute gases are needed for both.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3; 0 for the dilute gas.</param>
    /// <param name="x">Mole fractions, summing to 1.</param>
    /// <param name="viscosity">Dynamic viscosity, Pa s.</param>
    /// <param name="background">Thermal conductivity without what the critical point adds, W/(m K).</param>
    public void Evaluate(double temperature, double molarDensity, ReadOnlySpan<double> x, out double viscosity, out double background)
    {
        if (Only(x) is >= 0 and int only)
        {
            viscosity = components[only].Viscosity(temperature, molarDensity);
            background = components[only].Conductivity(temperature, molarDensity);
            return;
        }

        int n = components.Length;
        Span<double> dilute = stackalloc double[n];
        Span<double> weight = stackalloc double[n];
        DiluteViscosities(temperature, x, dilute);
        Weights(x, dilute, weight);
        viscosity = Mean(dilute, weight);
        for (int i = 0; i < n; i++)
        {
            dilute[i] = x[i] > 0 ? components[i].DiluteConductivity(temperature, dilute[i]) : 0;
        }

        background = Mean(dilute, weight);
        if (molarDensity > 0)
        {
            viscosity += states.Viscosity(temperature, molarDensity, x);
            background += states.Conductivity(temperature, molarDensity, x);
        }
    }

    /// <summary>What the critical point adds to the thermal conductivity of a pure fluid, W/(m K); 0 for mixtures and where it is not known.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="x">Mole fractions, summing to 1.</param>
    /// <param name="equation">The equation of state the density belongs to.</param>
    /// <param name="viscosity">Pa s.</param>
    /// <param name="isobaric">Isobaric heat capacity, J/(mol K).</param>
    /// <param name="isochoric">Isochoric heat capacity, J/(mol K).</param>
    /// <param name="densityByPressure">d(density)/dp at constant temperature, mol/(m3 Pa).</param>
    public double CriticalConductivity(
        double temperature, double molarDensity, ReadOnlySpan<double> x, MixtureKernel equation, double viscosity, double isobaric, double isochoric, double densityByPressure) =>
        Only(x) is >= 0 and int only && components[only].Enhancement is { } enhancement
            ? CryoThermo.Transport.CriticalConductivity.At(enhancement, equation, x, temperature, molarDensity, viscosity, isobaric, isochoric, densityByPressure)
            : 0;

    /// <summary>Density over the critical one, of a mixture with the mole average of the critical volumes.</summary>
    public double ReducedDensity(double molarDensity, ReadOnlySpan<double> x) => states.ReducedDensity(molarDensity, x);

    /// <summary>The only component present; -1 for a mixture.</summary>
    public static int Only(ReadOnlySpan<double> x)
    {
        int only = -1;
        for (int i = 0; i < x.Length; i++)
        {
            if (x[i] > 0)
            {
                if (only >= 0)
                {
                    return -1;
                }

                only = i;
            }
        }

        return only;
    }

    private void DiluteViscosities(double temperature, ReadOnlySpan<double> x, Span<double> viscosity)
    {
        for (int i = 0; i < components.Length; i++)
        {
            viscosity[i] = x[i] > 0 ? components[i].DiluteViscosity(temperature) : 0;
        }
    }

    /// <summary>x_i / sum over j of x_j phi_ij, with phi of Wilke from the viscosities of the dilute gases.</summary>
    private void Weights(ReadOnlySpan<double> x, ReadOnlySpan<double> viscosity, Span<double> weight)
    {
        int n = components.Length;
        Span<double> root = stackalloc double[n];
        for (int i = 0; i < n; i++)
        {
            root[i] = Math.Sqrt(viscosity[i]);
        }

        for (int i = 0; i < n; i++)
        {
            weight[i] = 0;
            if (x[i] <= 0)
            {
                continue;
            }

            double sum = 0;
            for (int j = 0; j < n; j++)
            {
                if (x[j] > 0)
                {
                    double term = 1 + (root[i] / root[j] * massRoot[(i * n) + j]);
                    sum += x[j] * term * term * massShare[(i * n) + j];
                }
            }

            weight[i] = x[i] / sum;
        }
    }

    private static double Mean(ReadOnlySpan<double> values, ReadOnlySpan<double> weight)
    {
        double sum = 0;
        for (int i = 0; i < values.Length; i++)
        {
            sum += values[i] * weight[i];
        }

        return sum;
    }
}
