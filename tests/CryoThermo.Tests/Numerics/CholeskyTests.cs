using CryoThermo.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Tests.Numerics;

public sealed class CholeskyTests
{
    [Fact]
    public void SolvesRandomPositiveDefiniteSystems()
    {
        Random random = new(11);
        for (int k = 0; k < 300; k++)
        {
            int n = random.Next(1, 26);
            double shift = k % 3 == 0 ? random.NextDouble() : 0;
            Matrix<double> g = Matrix<double>.Build.Dense(n, n, (_, _) => (2 * random.NextDouble()) - 1);
            Matrix<double> a = (g * g.Transpose()) + (0.1 * Matrix<double>.Build.DenseIdentity(n));
            double[] flat = a.ToRowMajorArray();
            double[] x = [.. Enumerable.Range(0, n).Select(_ => random.NextDouble())];
            double[] b = ((a + (shift * Matrix<double>.Build.DenseIdentity(n))) * Vector<double>.Build.Dense(x)).ToArray();
            Assert.True(Cholesky.Factor(flat, n, shift));
            Cholesky.Solve(flat, n, b);

            // Eigenvalues lie between 0.1 and about 30: condition 300, times rounding 2e-16 n^2.
            for (int i = 0; i < n; i++)
            {
                Assert.Equal(x[i], b[i], 1e-11);
            }
        }
    }

    [Fact]
    public void OnlyTheLowerTriangleIsRead()
    {
        double[] a = [4, double.NaN, 2, 3];
        double[] b = [8, 7];
        Assert.True(Cholesky.Factor(a, 2, 0));
        Cholesky.Solve(a, 2, b);
        Assert.Equal(1.25, b[0], 1e-15);
        Assert.Equal(1.5, b[1], 1e-15);
    }

    [Theory]
    [InlineData(new[] { 1.0, 2, 2, 1 }, 2)]
    [InlineData(new[] { -1.0 }, 1)]
    [InlineData(new[] { 0.0 }, 1)]
    [InlineData(new[] { 1.0, 1, 1, 1 }, 2)]
    [InlineData(new[] { double.NaN }, 1)]
    [InlineData(new[] { double.PositiveInfinity }, 1)]
    public void WhatIsNotPositiveDefiniteIsRefused(double[] a, int n)
    {
        double[] copy = [.. a];
        Assert.False(Cholesky.Factor(copy, n, 0));
        if (double.IsFinite(a[0]))
        {
            copy = [.. a];
            Assert.True(Cholesky.Factor(copy, n, 3));
        }
    }
}
