using CryoThermo.EquationsOfState;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.RootFinding;

namespace CryoThermo.Tests.Checks;

/// <summary>
/// The published critical point of a natural gas, found from the fugacities alone without the library's solver, by the conditions of
/// Heidemann, Khalil, AIChE J. 26 (1980) 769: the smallest eigenvalue of d(ln f_i)/d(n_j) at constant temperature and volume is zero, and so is
/// the third-order change along its eigenvector.
/// </summary>
public sealed class MixtureCriticalPointTests
{
    private static readonly double[] Amounts = [0.014, 0.943, 0.027, 0.0074, 0.0049, 0.0027, 0.001];

    private static readonly MixtureKernel Equation = WorkingFluid.Mixture(
            ("nitrogen", 0.014), ("methane", 0.943), ("ethane", 0.027), ("propane", 0.0074), ("n-butane", 0.0049), ("n-pentane", 0.0027), ("n-hexane", 0.001))
        .WithModel(FluidModel.SoaveRedlichKwong).Kernel.Equation;

    [Fact]
    public void TheNaturalGasOfMichelsenHasItsPublishedCriticalPoint()
    {
        double volume = Brent.FindRoot(v => ThirdOrder(LimitTemperature(v), v), 0.85e-4, 1.25e-4, 1e-9);
        double temperature = LimitTemperature(volume);
        double[] scratch = new double[Equation.ScratchLength];
        Equation.SetTemperature(temperature, scratch);
        double pressure = Equation.Pressure(temperature, 1 / volume, Amounts, scratch, out _);

        // Michelsen, Fluid Phase Equilib. 4 (1980) 1, from memory: 203.13 K, 58.11 atm (Soave-Redlich-Kwong). The paper's pure
        // constants and pair parameters are not at hand: 0.3 K and 0.5 % are allowed for ours.
        Assert.InRange(temperature, 203.13 - 0.3, 203.13 + 0.3);
        Assert.InRange(pressure / 101325, 58.11 * 0.995, 58.11 * 1.005);
    }

    // The warmest temperature at which the mixture is at the limit of stability at a volume.
    private static double LimitTemperature(double volume) =>
        Brent.FindRoot(t => Eigen(Matrix(t, volume, Amounts), out _), 150, 260, 1e-10);

    private static double ThirdOrder(double temperature, double volume)
    {
        Eigen(Matrix(temperature, volume, Amounts), out Vector<double> direction);
        double[] scaled = [.. direction.Select((d, i) => d * Math.Sqrt(Amounts[i]))];
        const double Step = 1e-3;
        return (Along(Step) - Along(-Step)) / (2 * Step);

        double Along(double s)
        {
            double[] moved = [.. Amounts.Select((n, i) => n + (s * scaled[i]))];
            Matrix<double> matrix = Matrix(temperature, volume, moved, symmetricScale: false);
            double sum = 0;
            for (int i = 0; i < scaled.Length; i++)
            {
                for (int j = 0; j < scaled.Length; j++)
                {
                    sum += scaled[i] * scaled[j] * matrix[i, j];
                }
            }

            return sum;
        }
    }

    private static double Eigen(Matrix<double> matrix, out Vector<double> direction)
    {
        var eigen = matrix.Evd(Symmetricity.Symmetric);
        direction = eigen.EigenVectors.Column(0);
        if (direction[1] < 0)
        {
            direction = -direction;
        }

        return eigen.EigenValues[0].Real;
    }

    // d(ln f_i)/d(n_j) at constant T and V, by central differences; scaled by sqrt(n_i n_j) for the eigenvalue.
    private static Matrix<double> Matrix(double temperature, double volume, double[] amounts, bool symmetricScale = true)
    {
        int n = amounts.Length;
        Matrix<double> result = Matrix<double>.Build.Dense(n, n);
        for (int j = 0; j < n; j++)
        {
            double step = 1e-4 * amounts[j];
            double[] more = LnFugacity(temperature, volume, Moved(amounts, j, step));
            double[] less = LnFugacity(temperature, volume, Moved(amounts, j, -step));
            for (int i = 0; i < n; i++)
            {
                result[i, j] = (more[i] - less[i]) / (2 * step);
            }
        }

        result = (result + result.Transpose()) / 2;
        return symmetricScale ? result.MapIndexed((i, j, value) => value * Math.Sqrt(amounts[i] * amounts[j])) : result;
    }

    private static double[] Moved(double[] amounts, int index, double step)
    {
        double[] moved = [.. amounts];
        moved[index] += step;
        return moved;
    }

    private static double[] LnFugacity(double temperature, double volume, double[] amounts)
    {
        double total = amounts.Sum();
        double[] x = [.. amounts.Select(a => a / total)];
        double[] ln = new double[amounts.Length];
        double[] scratch = new double[Equation.ScratchLength];
        Equation.SetTemperature(temperature, scratch);
        Equation.LnFugacityAtDensity(temperature, total / volume, x, scratch, ln);
        return [.. ln.Select((value, i) => value + Math.Log(x[i]))];
    }
}
