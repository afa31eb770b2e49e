using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

public sealed class AlphaFunctionTests
{
    private const double Critical = 190.564;

    public static TheoryData<string, double> Cases
    {
        get
        {
            TheoryData<string, double> data = [];
            foreach (string name in new[] { "1976", "1978", "Soave", "StryjekVera", "TwuPengRobinson", "TwuSoave", "TwuHelium", "TwuHydrogen" })
            {
                foreach (double w in new[] { -0.38, 0.011, 0.3, 0.491, 0.6, 0.9 })
                {
                    data.Add(name, w);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void ValueAndDerivativesAreThoseOfThePublishedFormula(string name, double acentricFactor)
    {
        (AlphaFunction alpha, PlainAlpha plain) = Pair(name, acentricFactor);
        foreach (double reduced in new[] { 0.052, 0.2, 0.45, 0.7, 0.95, 0.9999, 1.0001, 1.1, 1.6, 3, 5.2 })
        {
            // The generalised Twu function turns negative far below the critical temperature of a fluid like helium, which
            // the flashes meet from 1.9 times its critical temperature up only.
            if (acentricFactor < -0.3 && reduced < 1)
            {
                continue;
            }

            double t = reduced * Critical;
            Dual<Dual<Real>> expected = Dual<Dual<Real>>.Sqrt(plain.Of(Seed.Twice(t) / Dual<Dual<Real>>.Of(Critical), reduced > 1));
            double root = alpha.SquareRoot(t, out double first, out double second);

            // A few roundings of terms of order 1 to 5; the derivatives are scaled to the same order by T and T^2. The plain form squares and takes the root again: where sqrt(alpha) of the library is negative it shows the magnitude.
            double sign = Math.Sign(root);
            Assert.Equal(expected.Value.Value.Value * sign, root, 1e-12);
            Assert.Equal(expected.First() * t * sign, first * t, 1e-11);
            Assert.Equal(expected.Second() * t * t * sign, second * t * t, 1e-10);
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void OneAtTheCriticalTemperature(string name, double acentricFactor) =>
        Assert.Equal(1, Pair(name, acentricFactor).Library.SquareRoot(Critical, out _, out _), 1e-15);

    [Theory]
    [InlineData(0.45, true)]
    [InlineData(0.55, false)]
    public void Forms1976And1978DifferAboveTheirLimitOnly(double acentricFactor, bool equal)
    {
        double old = SoaveAlpha.PengRobinson1976(Critical, acentricFactor).SquareRoot(120, out _, out _);
        double later = SoaveAlpha.PengRobinson1978(Critical, acentricFactor).SquareRoot(120, out _, out _);
        Assert.Equal(equal, old == later);
    }

    private static (AlphaFunction Library, PlainAlpha Plain) Pair(string name, double w) => name switch
    {
        "1976" => (SoaveAlpha.PengRobinson1976(Critical, w), PlainAlpha.Soave.PengRobinson1976(w)),
        "1978" => (SoaveAlpha.PengRobinson1978(Critical, w), PlainAlpha.Soave.PengRobinson1978(w)),
        "Soave" => (SoaveAlpha.SoaveRedlichKwong(Critical, w), PlainAlpha.Soave.RedlichKwong(w)),
        "StryjekVera" => (new StryjekVeraAlpha(Critical, w, 0.0412), new PlainAlpha.StryjekVera(w, 0.0412)),
        "TwuPengRobinson" => (TwuGeneralizedAlpha.PengRobinson(Critical, w), new PlainAlpha.Twu(w, true)),
        "TwuHelium" => (new TwuAlpha(Critical, new(0.48558, 1.7173, 0.30271)), new PlainAlpha.TwuOfSubstance(0.48558, 1.7173, 0.30271)),
        "TwuHydrogen" => (new TwuAlpha(Critical, new(156.21, -0.0062072, 5.047)), new PlainAlpha.TwuOfSubstance(156.21, -0.0062072, 5.047)),
        "TwuSoave" => (TwuGeneralizedAlpha.SoaveRedlichKwong(Critical, w), new PlainAlpha.Twu(w, false)),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "unknown"),
    };
}
