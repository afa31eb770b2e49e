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

        Span<double> viscosity = stackalloc double[components.Length];
        DiluteViscosities(temperature, x, viscosity);
        double dilute = Mix(x, viscosity, viscosity);
        return molarDensity > 0 ? dilute + states.Viscosity(temperature, molarDensity, x) : dilute;
    }

    /// <summary>Thermal conductivity without what the critical point adds, W/(m K).</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3; 0 for the dilute gas.</param>
    /// <param name="x">Mole fractions, summing to 1.</param>
    public double BackgroundConductivity(double temperature, double molarDensity, ReadOnlySpan<double> x)
    {
        if (Only(x) is >= 0 and int only)
        {
            return components[only].Conductivity(temperature, molarDensity);
        }

        Span<double> viscosity = stackalloc double[components.Length];
        Span<double> conductivity = stackalloc double[components.Length];
        DiluteViscosities(temperature, x, viscosity);
        for (int i = 0; i < components.Length; i++)
        {
            conductivity[i] = x[i] > 0 ? components[i].DiluteConductivity(temperature, viscosity[i]) : 0;
        }

        double dilute = Mix(x, viscosity, conductivity);
        return molarDensity > 0 ? dilute + states.Conductivity(temperature, molarDensity, x) : dilute;
    }

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

    /// <summary>Sum over i of x_i value_i / sum over j of x_j phi_ij, with phi of Wilke from the viscosities of the dilute gases.</summary>
    private double Mix(ReadOnlySpan<double> x, ReadOnlySpan<double> viscosity, ReadOnlySpan<double> values)
    {
        int n = components.Length;
        Span<double> root = stackalloc double[n];
        for (int i = 0; i < n; i++)
        {
            root[i] = Math.Sqrt(viscosity[i]);
        }

        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            if (x[i] <= 0)
            {
                continue;
            }

            double weight = 0;
            for (int j = 0; j < n; j++)
            {
                if (x[j] > 0)
                {
                    double term = 1 + (root[i] / root[j] * massRoot[(i * n) + j]);
                    weight += x[j] * term * term * massShare[(i * n) + j];
                }
            }

            sum += x[i] * values[i] / weight;
        }

        return sum;
    }
}
