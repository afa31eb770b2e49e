using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>
/// Surface tension: of a pure fluid by its own curve, of a mixture by the parachors of its components (D. B. Macleod, Trans. Faraday Soc. 19 (1923)
/// 38; S. Sugden, J. Chem. Soc. 125 (1924) 32; mixtures: C. F. Weinaug, D. L. Katz, Ind. Eng. Chem. 35 (1943) 239). N/m.
/// </summary>
internal static class SurfaceTensions
{
    // Own estimates; the publication of the mixture form states 5 to 10 % for mixtures.
    private const double MixturePercent = 10;
    private const double EstimatedPercent = 15;
    private const double Bar = 1e5;
    private const double Atmosphere = 1.01325;

    private const string Weinaug = "parachors of the components with the densities of both phases (D. B. Macleod 1923, S. Sugden 1924, C. F. Weinaug and D. L. Katz 1943)";

    /// <summary>Of a pure liquid in contact with its vapour, N/m; zero from the critical temperature up.</summary>
    public static (double Value, TransportMethod Method) Pure(Substance substance, double temperature) =>
        substance.Transport?.SurfaceTension is { } curve
            ? (curve.At(temperature), new(curve.Provenance.Source.Publication, curve.UncertaintyPercent, false))
            : (Estimate(substance, temperature), new("J. R. Brock, R. B. Bird, AIChE J. 1 (1955) 174, from the critical and the boiling point, estimated", EstimatedPercent, true));

    /// <summary>Between a liquid and a vapour of a mixture, N/m; zero where the phases become alike.</summary>
    public static (double Value, TransportMethod Method) Mixture(
        IReadOnlyList<Substance> components, ReadOnlySpan<double> liquid, double liquidDensity, ReadOnlySpan<double> vapor, double vaporDensity)
    {
        double sum = 0;
        List<string> estimated = [];
        for (int i = 0; i < components.Count; i++)
        {
            if (liquid[i] <= 0 && vapor[i] <= 0)
            {
                continue;
            }

            if (components[i].Transport?.Parachor is null)
            {
                estimated.Add(components[i].Name);
            }

            // Parachors are in (mN/m)^(1/4) cm3/mol.
            sum += ParachorOf(components[i]) * 1e-6 * ((liquid[i] * liquidDensity) - (vapor[i] * vaporDensity));
        }

        double root = Math.Max(sum, 0);
        string tail = estimated.Count == 0 ? string.Empty : $"; parachor estimated for {string.Join(", ", estimated)}";
        return (1e-3 * root * root * root * root, new(Weinaug + tail, estimated.Count == 0 ? MixturePercent : EstimatedPercent, estimated.Count > 0));
    }

    private static double ParachorOf(Substance substance)
    {
        if (substance.Transport?.Parachor is { } parachor)
        {
            return parachor;
        }

        // At the boiling point, the liquid's density by H. G. Rackett, J. Chem. Eng. Data 15 (1970) 514; the vapour's is left out.
        double reduced = BoilingRatio(substance);
        double compressibility = substance.CriticalPressure / (substance.CriticalMolarDensity * SubstanceReader.GasConstant * substance.CriticalTemperature);
        double density = substance.CriticalMolarDensity * Math.Pow(compressibility, -Math.Pow(1 - reduced, 2.0 / 7));
        return Math.Pow(1e3 * Estimate(substance, reduced * substance.CriticalTemperature), 0.25) / (density * 1e-6);
    }

    /// <summary>Brock and Bird in the form of D. G. Miller (from memory).</summary>
    private static double Estimate(Substance substance, double temperature)
    {
        double boiling = BoilingRatio(substance);
        double critical = substance.CriticalPressure / Bar;
        double q = (0.1196 * (1 + (boiling * Math.Log(critical / Atmosphere) / (1 - boiling)))) - 0.279;
        double distance = Math.Max(0, 1 - (temperature / substance.CriticalTemperature));
        return 1e-3 * Math.Pow(critical, 2.0 / 3) * Math.Cbrt(substance.CriticalTemperature) * Math.Max(q, 0) * Math.Pow(distance, 11.0 / 9);
    }

    /// <summary>Boiling temperature at 101325 Pa over the critical one; where none is given, from the acentric factor by the straight line of the logarithm of the vapour pressure.</summary>
    private static double BoilingRatio(Substance substance) => substance.NormalBoilingTemperature is { } boiling
        ? boiling / substance.CriticalTemperature
        : 1 / (1 + (Math.Log10(substance.CriticalPressure / Bar / Atmosphere) / (7.0 / 3 * (1 + substance.AcentricFactor))));
}
