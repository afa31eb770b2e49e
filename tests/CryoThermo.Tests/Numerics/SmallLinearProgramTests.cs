using CryoThermo.Checks.Soak;
using CryoThermo.Numerics;

namespace CryoThermo.Tests.Numerics;

public sealed class SmallLinearProgramTests
{
    [Fact]
    public void ThePlaneExampleHasItsKnownCorner()
    {
        // 3x + 5y over x <= 4, 2y <= 12, 3x + 2y <= 18: by hand (2, 6), 36.
        double[] x = new double[2];
        Assert.True(SmallLinearProgram.TryMaximise([3, 5], [[1, 0], [0, 2], [3, 2]], [4, 12, 18], x));
        Assert.Equal(2, x[0], 12);
        Assert.Equal(6, x[1], 12);
    }

    [Fact]
    public void RandomProgramsAreSolvedAsByAllCorners()
    {
        for (int number = 0; number < 300; number++)
        {
            CaseRandom random = new(5, number);
            double[] c = [random.Uniform(-1, 1), random.Uniform(-1, 1)];
            double[][] rows = [[1, 0], [0, 1], .. Enumerable.Range(0, 5).Select(_ => new[] { random.Uniform(-1, 1), random.Uniform(-1, 1) })];
            double[] limits = [2, 3, .. Enumerable.Range(0, 5).Select(_ => random.Whole(4) == 0 ? 0 : random.Uniform(0, 1))];
            double[] x = new double[2];
            Assert.True(SmallLinearProgram.TryMaximise(c, rows, limits, x));
            Assert.All(rows.Zip(limits), r => Assert.True((r.First[0] * x[0]) + (r.First[1] * x[1]) <= r.Second + 1e-9));
            Assert.All(x, v => Assert.True(v >= -1e-12));
            Assert.Equal(BestCorner(c, rows, limits), (c[0] * x[0]) + (c[1] * x[1]), 8);
        }
    }

    [Fact]
    public void AnUnboundedProgramIsRefused() => Assert.False(SmallLinearProgram.TryMaximise([1, 0], [[0, 1]], [1], new double[2]));

    private static double BestCorner(double[] c, double[][] rows, double[] limits)
    {
        (double A, double B, double Limit)[] lines = [(-1, 0, 0), (0, -1, 0), .. rows.Zip(limits).Select(r => (r.First[0], r.First[1], r.Second))];
        double best = double.NegativeInfinity;
        for (int i = 0; i < lines.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                double determinant = (lines[i].A * lines[j].B) - (lines[j].A * lines[i].B);
                if (Math.Abs(determinant) < 1e-12)
                {
                    continue;
                }

                double x = ((lines[i].Limit * lines[j].B) - (lines[j].Limit * lines[i].B)) / determinant;
                double y = ((lines[i].A * lines[j].Limit) - (lines[j].A * lines[i].Limit)) / determinant;
                if (lines.All(l => (l.A * x) + (l.B * y) <= l.Limit + 1e-9))
                {
                    best = Math.Max(best, (c[0] * x) + (c[1] * y));
                }
            }
        }

        return best;
    }
}
