using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

public sealed class QuantumCovolumeTests
{
    /// <summary>Helium, neon and hydrogen: Aasen et al., Fluid Phase Equilib. 524 (2020) 112790, from memory.</summary>
    [Theory]
    [InlineData(1.4912, 3.2634, 5.1953)]
    [InlineData(0.4673, 2.4634, 44.492)]
    [InlineData(3.0696, 12.682, 33.19)]
    public void RatioAndDerivativesAreThoseOfThePublishedFormula(double a, double b, double tc)
    {
        QuantumCovolume function = new(a, b, tc);
        Assert.Equal(1, function.Ratio(tc, out _, out _));
        double last = double.PositiveInfinity;
        foreach (double reduced in new[] { 0.05, 0.42, 0.7, 1, 1.5, 8, 60, 200 })
        {
            double t = reduced * tc;
            Dual<Dual<Real>> diameter = Dual<Dual<Real>>.Of(1) + (Dual<Dual<Real>>.Of(a) / (Seed.Twice(t) + Dual<Dual<Real>>.Of(b)));
            Dual<Dual<Real>> expected = diameter * diameter * diameter / Dual<Dual<Real>>.Of(Math.Pow(1 + (a / (tc + b)), 3));
            double ratio = function.Ratio(t, out double first, out double second);
            Assert.Equal(expected.Value.Value.Value, ratio, 1e-14);
            Assert.Equal(expected.First() * t, first * t, 1e-14);
            Assert.Equal(expected.Second() * t * t, second * t * t, 1e-13);
            Assert.True(ratio < last);
            last = ratio;
        }
    }
}
