using CryoThermo.Diagnostics;

namespace CryoThermo.IdealGas;

/// <summary>
/// The spin forms of hydrogen as ideal gases, from the rotational levels of the molecule in its vibrational ground state. Nuclear spin
/// gives even levels (para) weight 1 and odd levels (ortho) weight 3. SI, molar; enthalpy counts from molecules at rest without rotation
/// at 0 K. Immutable and thread-safe, without allocation.
/// </summary>
internal static class RotationalHydrogen
{
    /// <summary>Lowest temperature, K.</summary>
    public const double LowestTemperature = 1;

    /// <summary>Highest temperature, K: above, vibration sets in.</summary>
    public const double HighestTemperature = 600;

    /// <summary>Para share of hydrogen left alone at ambient temperature.</summary>
    public const double NormalParaFraction = 0.25;

    /// <summary>Molar gas constant, J/(mol K): CODATA 2018, exact.</summary>
    public const double GasConstant = IdealGasFunction.GasConstant;

    /// <summary>Second radiation constant h c/k, cm K: CODATA 2018.</summary>
    private const double SecondRadiationConstant = 1.438776877;

    private const int HighestLevel = 20;

    // Level energies over k, K. Term values of Dabrowski, Can. J. Phys. 62 (1984) 1639, from memory; above J = 6 by an expansion in J (J + 1)
    // whose first constants follow from the first three levels.
    private static readonly double[] Levels = EnergiesOverBoltzmann();

    /// <summary>Ratio of ortho to para molecules in equilibrium: its logarithm and d(ln ratio)/dT, 1/K.</summary>
    public static double LnOrthoToPara(double temperature, out double slope)
    {
        Moments para = Sum(temperature, 0);
        Moments ortho = Sum(temperature, 1);
        slope = (ortho.Mean - para.Mean) / (temperature * temperature);
        return ortho.LnPartition - para.LnPartition;
    }

    /// <summary>Para fraction in equilibrium and its derivative, 1/K.</summary>
    public static double EquilibriumParaFraction(double temperature, out double slope)
    {
        double ratio = Math.Exp(LnOrthoToPara(Check(temperature), out double lnSlope));
        double para = 1 / (1 + ratio);
        slope = -para * (ratio / (1 + ratio)) * lnSlope;
        return para;
    }

    /// <summary>Enthalpy (J/mol) and heat capacity (J/(mol K)) of para or ortho hydrogen.</summary>
    public static double Enthalpy(double temperature, bool isOrtho, out double heatCapacity)
    {
        Moments moments = Sum(Check(temperature), isOrtho ? 1 : 0);
        heatCapacity = GasConstant * (2.5 + (moments.Variance / (temperature * temperature)));
        return GasConstant * ((2.5 * temperature) + moments.Mean);
    }

    /// <summary>Enthalpy of ortho less that of para hydrogen, J/mol: what conversion releases.</summary>
    public static double ConversionEnthalpy(double temperature) =>
        Enthalpy(temperature, true, out _) - Enthalpy(temperature, false, out _);

    /// <summary>Heat capacity of hydrogen that stays in equilibrium while its temperature changes, J/(mol K).</summary>
    public static double EquilibriumHeatCapacity(double temperature)
    {
        double para = EquilibriumParaFraction(temperature, out double slope);
        Enthalpy(temperature, false, out double paraHeatCapacity);
        Enthalpy(temperature, true, out double orthoHeatCapacity);
        return (para * paraHeatCapacity) + ((1 - para) * orthoHeatCapacity) - (slope * ConversionEnthalpy(temperature));
    }

    private static double Check(double temperature) => Guard.InRange(temperature, LowestTemperature, HighestTemperature, "K", nameof(temperature));

    // Energies are counted from the lowest level of the form, so that nothing underflows at low temperature.
    private static Moments Sum(double temperature, int first)
    {
        double lowest = Levels[first];
        double weightOfSpin = first == 0 ? 1 : 3;
        double sum = 0;
        double energy = 0;
        double square = 0;
        for (int j = first; j <= HighestLevel; j += 2)
        {
            double above = Levels[j] - lowest;
            double weight = weightOfSpin * ((2 * j) + 1) * Math.Exp(-above / temperature);
            sum += weight;
            energy += weight * above;
            square += weight * above * above;
        }

        double mean = energy / sum;
        return new(Math.Log(sum) - (lowest / temperature), lowest + mean, (square / sum) - (mean * mean));
    }

    private static double[] EnergiesOverBoltzmann()
    {
        double[] termValues = [0, 118.487, 354.373, 705.519, 1168.798, 1740.189, 2414.898];
        double[] energies = new double[HighestLevel + 1];
        for (int j = 0; j <= HighestLevel; j++)
        {
            double x = j * (j + 1.0);
            double wavenumber = j < termValues.Length
                ? termValues[j]
                : (59.3348 * x) - (0.045744 * x * x) + (5.1e-5 * x * x * x) - (5e-8 * x * x * x * x);
            energies[j] = SecondRadiationConstant * wavenumber;
        }

        return energies;
    }

    private readonly record struct Moments(double LnPartition, double Mean, double Variance);
}
