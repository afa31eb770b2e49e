using CryoThermo.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Tests.Numerics;

public sealed class LinearSystemTests
{
    [Fact]
    public void AgreesWithAnIndependentSolver()
    {
        Random random = new(12);
        for (int k = 0; k < 300; k++)
        {
            int n = random.Next(1, 27);
            Matrix<double> a = Matrix<double>.Build.Dense(n, n, (_, _) => (2 * random.NextDouble()) - 1);
            Vector<double> b = Vector<double>.Build.Dense(n, _ => random.NextDouble());
            double condition = a.ConditionNumber();
            double[] x = b.ToArray();
            Assert.True(LinearSystem.Solve(a.ToRowMajorArray(), n, x));
            Vector<double> expected = a.Svd().Solve(b);
            double scale = expected.L2Norm();
            for (int i = 0; i < n; i++)
            {
                // Both solvers are backward stable: rounding times condition, with room for n and pivot growth.
                Assert.Equal(expected[i], x[i], 1e-14 * n * condition * scale);
            }
        }
    }

    [Fact]
    public void ZeroOnTheDiagonalIsNoObstacle()
    {
        double[] b = [2, 3];
        Assert.True(LinearSystem.Solve([0, 1, 1, 0], 2, b));
        Assert.Equal([3, 2], b);
    }

    [Fact]
    public void RowsOfVeryDifferentSizeAreSolved()
    {
        double[] b = [1e-200, 5e8];
        Assert.True(LinearSystem.Solve([1e-200, 0, 2e8, 1e8], 2, b));
        Assert.Equal(1, b[0], 1e-15);
        Assert.Equal(3, b[1], 1e-14);
    }

    [Theory]
    [InlineData(new[] { 0.0, 0, 0, 0 })]
    [InlineData(new[] { 1.0, 2, 2, 4 })]
    [InlineData(new[] { double.NaN, 1, 1, 1 })]
    [InlineData(new[] { double.PositiveInfinity, 1, 1, 1 })]
    public void SingularOrUnusableIsRefused(double[] a) => Assert.False(LinearSystem.Solve([.. a], 2, new double[2]));
}
