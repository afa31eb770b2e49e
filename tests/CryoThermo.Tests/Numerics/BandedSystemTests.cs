using CryoThermo.Numerics;
using MathNet.Numerics.LinearAlgebra;

namespace CryoThermo.Tests.Numerics;

public sealed class BandedSystemTests
{
    [Theory]
    [InlineData(12, 2, 3, 1)]
    [InlineData(40, 5, 5, 2)]
    [InlineData(7, 6, 6, 3)]
    public void ItSolvesWhatADenseSolverSolves(int size, int below, int above, int seed)
    {
        Random random = new(seed);
        BandedSystem system = new(size, below, above);
        for (int repeat = 0; repeat < 3; repeat++)
        {
            Matrix<double> full = Matrix<double>.Build.Dense(size, size);
            Vector<double> right = Vector<double>.Build.Dense(size, _ => random.NextDouble() - 0.5);
            system.Clear();
            for (int i = 0; i < size; i++)
            {
                system.Right[i] = right[i];
                for (int j = Math.Max(0, i - below); j <= Math.Min(size - 1, i + above); j++)
                {
                    full[i, j] = random.NextDouble() - 0.5;
                    system[i, j] = full[i, j];
                }
            }

            Vector<double> expected = full.Solve(right);
            Assert.True(system.Solve());
            for (int i = 0; i < size; i++)
            {
                Assert.Equal(expected[i], system.Right[i], 1e-9 * (1 + expected.AbsoluteMaximum()));
            }
        }
    }

    [Fact]
    public void ASingularSystemIsTold()
    {
        BandedSystem system = new(4, 1, 1);
        system[0, 0] = 1;
        system[2, 2] = 1;
        system[3, 3] = 1;
        Assert.False(system.Solve());
    }
}
