using CryoThermo.EquationsOfState.Cubic;

namespace CryoThermo.Benchmarks;

/// <summary>The five-component Peng-Robinson mixture that the C++ yardstick also computes: same constants, same compositions.</summary>
internal static class FiveComponentBlend
{
    public const int States = 256;
    public const double Pressure = 1.5e6;

    private static readonly (double CriticalTemperature, double CriticalPressure, double AcentricFactor)[] Substances =
    [
        (126.19, 3.396e6, 0.037), (190.56, 4.599e6, 0.011), (305.32, 4.872e6, 0.099), (369.83, 4.248e6, 0.152), (407.81, 3.629e6, 0.184),
    ];

    private static readonly double[] Interaction =
    [
        0.00, 0.03, 0.05, 0.08, 0.10,
        0.03, 0.00, 0.00, 0.01, 0.02,
        0.05, 0.00, 0.00, 0.00, 0.00,
        0.08, 0.01, 0.00, 0.00, 0.00,
        0.10, 0.02, 0.00, 0.00, 0.00,
    ];

    public static CubicMixture Create() => new(
        CubicForm.PengRobinson,
        [.. Substances.Select(s => new CubicComponent(
            s.CriticalTemperature, s.CriticalPressure, s.AcentricFactor, SoaveAlpha.PengRobinson1976(s.CriticalTemperature, s.AcentricFactor), 0))],
        Interaction);

    /// <summary>256 compositions around a middle one and as many temperatures from 120 to 300 K, by the generator of the yardstick.</summary>
    public static (double[][] Compositions, double[] Temperatures) CreateStates()
    {
        double[][] compositions = new double[States][];
        double[] temperatures = new double[States];
        uint random = 20;
        for (int k = 0; k < States; k++)
        {
            double[] x = [0.30, 0.30, 0.15, 0.15, 0.10];
            for (int i = 0; i < x.Length; i++)
            {
                x[i] *= 0.8 + (0.4 * Next());
            }

            double sum = x.Sum();
            compositions[k] = [.. x.Select(v => v / sum)];
            temperatures[k] = 120 + (180 * Next());
        }

        return (compositions, temperatures);

        double Next()
        {
            random = unchecked((random * 1664525u) + 1013904223u);
            return random / 4294967296.0;
        }
    }
}
