using CryoThermo.Substances;

namespace CryoThermo.Insulation;

/// <summary>The dilute gas between two walls: means over their temperatures. SI.</summary>
internal readonly record struct DiluteGas(double Conductivity, double Viscosity, double HeatCapacity, double MolarMass, double MeanTemperature)
{
    private static readonly double[] Points = [-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640];
    private static readonly double[] Weights = [0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891];

    /// <summary>Prandtl number of the means.</summary>
    public double Prandtl => HeatCapacity / MolarMass * Viscosity / Conductivity;

    /// <summary>Ratio of heat capacities of the mean.</summary>
    public double Gamma => HeatCapacity / (HeatCapacity - SubstanceReader.GasConstant);

    /// <summary>Mean free path times pressure, m Pa: mu sqrt(pi R T/(2 M)), at the mean temperature.</summary>
    public double MeanFreePathPressure => Viscosity * Math.Sqrt(Math.PI * SubstanceReader.GasConstant * MeanTemperature / (2 * MolarMass));

    /// <summary>Conductivity and heat capacity averaged over the temperatures, by five points of Gauss; viscosity at their middle.</summary>
    /// <param name="gas">The gas.</param>
    /// <param name="first">K.</param>
    /// <param name="second">K.</param>
    /// <exception cref="ArgumentException">Its transport properties are not known at these temperatures.</exception>
    public static DiluteGas Between(WorkingFluid gas, double first, double second)
    {
        ReadOnlySpan<double> x = gas.Composition.Fractions;
        double middle = 0.5 * (first + second);
        double conductivity = 0;
        double heat = 0;
        for (int i = 0; i < Points.Length; i++)
        {
            double t = middle + (0.5 * (second - first) * Points[i]);
            conductivity += 0.5 * Weights[i] * gas.TransportKernel.BackgroundConductivity(t, 0, x);
            heat += 0.5 * Weights[i] * gas.IdealGasHeatCapacity(t);
        }

        double viscosity = gas.TransportKernel.Viscosity(middle, 0, x);
        return conductivity > 0 && viscosity > 0 && heat > SubstanceReader.GasConstant && double.IsFinite(conductivity * viscosity * heat)
            ? new(conductivity, viscosity, heat, gas.Composition.MolarMass.KilogramsPerMole, middle)
            : throw new ArgumentException($"The gas {gas} has no transport properties between {first:G5} and {second:G5} K here.", nameof(gas));
    }
}
