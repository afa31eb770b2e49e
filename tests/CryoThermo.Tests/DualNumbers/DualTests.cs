namespace CryoThermo.Tests.DualNumbers;

public sealed class DualTests
{
    [Fact]
    public void DerivativesOfAFormulaWithKnownDerivatives()
    {
        // f = exp(x) sqrt(x)/(x - 5) + ln x; its derivatives by hand below.
        const double x = 1.7;
        Dual<Dual<Real>> v = Seed.Twice(x);
        Dual<Dual<Real>> f = (Dual<Dual<Real>>.Exp(v) * Dual<Dual<Real>>.Sqrt(v) / (v - Dual<Dual<Real>>.Of(5))) + Dual<Dual<Real>>.Log(v);
        double g = Math.Exp(x) * Math.Sqrt(x) / (x - 5);
        double logSlope = 1 + (0.5 / x) - (1 / (x - 5));
        double logSlopeByX = (-0.5 / (x * x)) + (1 / ((x - 5) * (x - 5)));
        Assert.Equal(g + Math.Log(x), f.Value.Value.Value, 1e-14);
        Assert.Equal((g * logSlope) + (1 / x), f.First(), 1e-14);
        Assert.Equal((g * ((logSlope * logSlope) + logSlopeByX)) - (1 / (x * x)), f.Second(), 1e-13);
    }

    [Fact]
    public void MixedDerivative()
    {
        Dual<Dual<Real>> x = Seed.Mixed(2, first: true, second: false);
        Dual<Dual<Real>> y = Seed.Mixed(3, first: false, second: true);
        Dual<Dual<Real>> f = x * x * Dual<Dual<Real>>.Log(y);
        Assert.Equal(4 * Math.Log(3), f.First(), 1e-14);
        Assert.Equal(4.0 / 3, f.Value.Slope.Value, 1e-14);
        Assert.Equal(4.0 / 3, f.Second(), 1e-14);
    }
}
