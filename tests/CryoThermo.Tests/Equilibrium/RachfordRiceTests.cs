using CryoThermo.Equilibrium;

namespace CryoThermo.Tests.Equilibrium;

public sealed class RachfordRiceTests
{
    [Fact]
    public void SolvesTheEquationOrTellsWhichPhaseIsAlone()
    {
        Random random = new(41);
        int solved = 0;
        for (int k = 0; k < 5000; k++)
        {
            int n = random.Next(2, 26);
            double[] z = [.. Enumerable.Range(0, n).Select(_ => Math.Pow(random.NextDouble(), 6))];
            double sum = z.Sum();
            z = [.. z.Select(v => v / sum)];
            double spread = Math.Pow(10, -2 + (3 * random.NextDouble()));
            double[] lnK = [.. z.Select(_ => spread * ((2 * random.NextDouble()) - 1))];
            double atHeavy = z.Zip(lnK, (zi, k1) => zi * Math.Exp(k1)).Sum() - 1;
            double atLight = 1 - z.Zip(lnK, (zi, k1) => zi * Math.Exp(-k1)).Sum();
            bool found = RachfordRice.TrySolve(z, lnK, out double logOdds);
            if (Math.Abs(atHeavy) < 1e-13 || Math.Abs(atLight) < 1e-13)
            {
                continue;
            }

            Assert.Equal(atHeavy > 0 && atLight < 0, found);
            if (!found)
            {
                Assert.Equal(atHeavy > 0 ? double.PositiveInfinity : double.NegativeInfinity, logOdds);
                continue;
            }

            solved++;

            // Amounts of both phases from the answer, each with its own digits: their mole fractions must sum to 1.
            double lightFraction = 1 / (1 + Math.Exp(-logOdds));
            double heavyFraction = 1 / (1 + Math.Exp(logOdds));
            double light = 0;
            double heavy = 0;
            for (int i = 0; i < n; i++)
            {
                light += z[i] / (lightFraction + (heavyFraction * Math.Exp(-lnK[i])));
                heavy += z[i] / ((lightFraction * Math.Exp(lnK[i])) + heavyFraction);
            }

            // 26 terms that sum to one.
            Assert.Equal(1, light, 2e-14);
            Assert.Equal(1, heavy, 2e-14);
        }

        Assert.True(solved > 1000, $"only {solved} cases with two phases");
    }

    [Theory]
    [InlineData(1e-12)]
    [InlineData(1e-100)]
    [InlineData(0.25)]
    public void SmallPhaseKeepsItsDigits(double lightFraction)
    {
        // Two components: b = z1/(1 - K2) - z2/(K1 - 1). With K2 = 0 and K1 = 1 + z2/(z1 - b) it is b by construction,
        // where the rounding of K1 - 1 must not count against the solver: only fractions above 1e-15 can be prescribed so.
        double z1 = 0.5;
        double[] lnK = [Math.Log(1 + (0.5 / (z1 - lightFraction))), double.NegativeInfinity];
        if (lightFraction > 1e-15)
        {
            Assert.True(RachfordRice.TrySolve([z1, 0.5], lnK, out double logOdds));
            double k1 = Math.Exp(lnK[0]);
            double expected = z1 - (0.5 / (k1 - 1));
            Assert.Equal(1, 1 / (1 + Math.Exp(-logOdds)) / expected, 1e-3);
        }
        else
        {
            // The mirror image holds whatever the size: swapping the phases changes the sign of the log-odds.
            double[] wide = [230, -0.5, -1];
            double[] z = [1e-100, 0.5, 0.5 - 1e-100];
            Assert.True(RachfordRice.TrySolve(z, wide, out double logOdds));
            Assert.True(RachfordRice.TrySolve(z, [.. wide.Select(v => -v)], out double mirrored));
            Assert.Equal(logOdds, -mirrored, 1e-12 * Math.Abs(logOdds));

            // z1 K1 = 1e-100 e^230 = 0.768 only: sum z K below 1 would leave one phase; here it is 0.768 + 0.303 + 0.184 = 1.255.
            double b = 1 / (1 + Math.Exp(-logOdds));
            Assert.InRange(b, 1e-101, 1e-99);
        }
    }

    [Fact]
    public void AbsentComponentsDoNotCount()
    {
        Assert.True(RachfordRice.TrySolve([0.4, 0.6], [1, -1], out double expected));
        Assert.True(RachfordRice.TrySolve([0.4, 0, 0.6], [1, 500, -1], out double actual));
        Assert.Equal(expected, actual, 1e-14);
    }

    [Fact]
    public void ExponentialMinusOneKeepsItsDigits()
    {
        foreach (double x in new[] { -700, -0.5001, -0.4999, -1e-3, -1e-12, 1e-12, 1e-3, 0.4999, 0.5001, 20 })
        {
            // Series x + x^2/2 + ... to the twentieth term below one half: exact to rounding.
            double expected = Math.Exp(x) - 1;
            if (Math.Abs(x) < 0.5)
            {
                double term = x;
                expected = 0;
                List<double> terms = [];
                for (int k = 1; k < 21; k++)
                {
                    terms.Add(term);
                    term *= x / (k + 1);
                }

                terms.Reverse();
                expected = terms.Sum();
            }

            Assert.Equal(1, RachfordRice.ExpMinusOne(x) / expected, 5e-16);
        }

        Assert.Equal(0, RachfordRice.ExpMinusOne(0));
    }
}
