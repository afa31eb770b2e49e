using System.Numerics;
using CryoThermo.EquationsOfState;
using CryoThermo.EquationsOfState.Cubic;
using MathNet.Numerics;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

public sealed class CompressibilityTests
{
    /// <summary>Fixed point with 2^-700: A, B and Z down to 1e-60 are held exactly, products too after one shift.</summary>
    private const int FractionBits = 700;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void RootsAreExactToTwelveDigitsAndOutermost(bool pengRobinson)
    {
        CubicMixture kernel = Pure(pengRobinson);
        Random random = new(31);
        int threeRoots = 0;
        for (int k = 0; k < 5000; k++)
        {
            // From a millipascal to a gigapascal, reduced temperature 0.15 to 5.
            double reducedPressure = Math.Pow(10, -10 + (12.5 * random.NextDouble()));
            double reducedTemperature = 0.15 + (random.Next(3) == 0 ? 4.85 * random.NextDouble() : 1.1 * random.NextDouble());
            double root = 1 + (0.5 * (1 - Math.Sqrt(reducedTemperature)));
            double a = 0.45 * root * root * reducedPressure / (reducedTemperature * reducedTemperature);
            double b = 0.08 * reducedPressure / reducedTemperature;
            double liquid = kernel.SolveCompressibility(a, b, DensityRoot.Liquid, out DensityRoot foundLiquid);
            double vapor = kernel.SolveCompressibility(a, b, DensityRoot.Vapor, out DensityRoot foundVapor);
            Proven(pengRobinson, a, b, liquid);
            Proven(pengRobinson, a, b, vapor);
            Assert.True(liquid > b && liquid <= vapor);

            // The eigenvalues of the companion matrix: good to 1e-16 of the largest root each, to its square root near a double one.
            (double c2, double c1, double c0) = Coefficients(pengRobinson, a, b);
            double[] expected = [.. FindRoots.Polynomial([c0, c1, c2, 1]).Where(z => Math.Abs(z.Imaginary) < 1e-12 && z.Real > b * (1 + 1e-9)).Select(z => z.Real).Order()];
            double scale = Math.Max(1, vapor);
            if (b > 1e-6 && expected.Length == 3 && expected[1] - expected[0] > 1e-5 * scale && expected[2] - expected[1] > 1e-5 * scale)
            {
                threeRoots++;
                Assert.Equal(expected[0], liquid, 1e-10 * scale);
                Assert.Equal(expected[2], vapor, 1e-10 * scale);
                Assert.Equal(DensityRoot.Liquid, foundLiquid);
                Assert.Equal(DensityRoot.Vapor, foundVapor);
            }
            else if (b > 1e-6 && expected.Length == 1)
            {
                Assert.Equal(expected[0], liquid, 1e-9 * scale);
                Assert.Equal(liquid, vapor);
                Assert.Equal(foundLiquid, foundVapor);
            }
        }

        Assert.True(threeRoots > 200, $"only {threeRoots} cases with three roots");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void RootsNextToADoubleOneAreFoundAndCounted(bool pengRobinson)
    {
        CubicMixture kernel = Pure(pengRobinson);
        (double d1, double d2) = pengRobinson ? (1 + Math.Sqrt(2), 1 - Math.Sqrt(2)) : (1, 0);
        double criticalVolume = pengRobinson ? 3.9513730 : 3.8473221;
        Random random = new(33);
        int compared = 0;
        for (int k = 0; k < 5000; k++)
        {
            // A spinodal: at v = y b it is dp/dv = 0 that gives A/B, and the pressure there gives B. Next to the critical point the other
            // spinodal is too near for the count below.
            double y = 1.05 * Math.Pow(40, random.NextDouble());
            double product = (y + d1) * (y + d2);
            double ratio = product * product / (((2 * y) + d1 + d2) * (y - 1) * (y - 1));
            double b = (1 / (y - 1)) - (ratio / product);
            if (!(b > 1e-8) || Math.Abs((y / criticalVolume) - 1) < 0.25)
            {
                continue;
            }

            // From closer than where the solver stops trusting its starting polynomial to well apart. More attraction turns the liquid
            // spinodal into two roots, the vapour spinodal into none.
            double miss = (random.Next(2) == 0 ? 1 : -1) * Math.Pow(10, -9 + (6 * random.NextDouble()));
            double a = ratio * b * (1 + miss);
            double liquid = kernel.SolveCompressibility(a, b, DensityRoot.Liquid, out DensityRoot foundLiquid);
            double vapor = kernel.SolveCompressibility(a, b, DensityRoot.Vapor, out DensityRoot foundVapor);
            Proven(pengRobinson, a, b, liquid);
            Proven(pengRobinson, a, b, vapor);
            bool three = miss > 0 == y < criticalVolume;
            Assert.True(three == liquid < vapor, $"v/b = {y:R}, miss {miss:R}, B {b:R}: {liquid:R} and {vapor:R}");
            if (three)
            {
                Assert.Equal((DensityRoot.Liquid, DensityRoot.Vapor), (foundLiquid, foundVapor));
            }

            compared++;
        }

        Assert.True(compared > 3000, $"{compared} compared");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void TheStableRootHasTheLowerGibbsEnergy(bool pengRobinson)
    {
        CubicMixture kernel = Pure(pengRobinson);
        double[] scratch = new double[kernel.ScratchLength];
        double[] lnPhi = new double[1];
        Random random = new(32);
        int differing = 0;
        for (int k = 0; k < 3000; k++)
        {
            double t = 60 + (130 * random.NextDouble());
            double p = Math.Pow(10, -3 + (9.5 * random.NextDouble()));
            kernel.SetTemperature(t, scratch);
            kernel.LnFugacityCoefficients(t, p, [1], DensityRoot.Liquid, scratch, lnPhi, out DensityRoot liquidRoot);
            double liquid = lnPhi[0];
            kernel.LnFugacityCoefficients(t, p, [1], DensityRoot.Vapor, scratch, lnPhi, out DensityRoot vaporRoot);
            double vapor = lnPhi[0];
            kernel.LnFugacityCoefficients(t, p, [1], DensityRoot.Stable, scratch, lnPhi, out DensityRoot found);
            Assert.Equal(Math.Min(liquid, vapor), lnPhi[0]);
            if (liquidRoot != vaporRoot && Math.Abs(liquid - vapor) > 1e-10)
            {
                differing++;
                Assert.Equal(liquid < vapor ? DensityRoot.Liquid : DensityRoot.Vapor, found);
            }
        }

        Assert.True(differing > 300, $"only {differing} cases with two roots");
    }

    [Fact]
    public void ColdLiquidAtOneMillipascalKeepsItsDigits()
    {
        // ln of the density ratio is the integral of dp over the bulk modulus -v dp/dv; over a kilopascal the trapezoid is
        // exact to the cube of the compression, 1e-19. The ratio itself has two roundings.
        CubicMixture kernel = Pure(pengRobinson: true);
        double[] scratch = new double[kernel.ScratchLength];
        kernel.SetTemperature(60, scratch);
        double vanishing = kernel.LnFugacityCoefficients(60, 1e-3, [1], DensityRoot.Liquid, scratch, new double[1], out _);
        double kilopascal = kernel.LnFugacityCoefficients(60, 1e3, [1], DensityRoot.Liquid, scratch, new double[1], out _);
        kernel.Pressure(60, vanishing, [1], scratch, out double slopeLow);
        kernel.Pressure(60, kilopascal, [1], scratch, out double slopeHigh);
        double expected = 0.5 * (1e3 - 1e-3) * ((vanishing / -slopeLow) + (kilopascal / -slopeHigh));
        Assert.Equal(expected, (kilopascal - vanishing) / vanishing * (1 - (0.5 * expected)), 5e-16);
        Assert.InRange(expected, 1e-8, 1e-6);
    }

    // A root lies within the tolerance when the polynomial, evaluated without rounding, changes sign across it.
    private static void Proven(bool pengRobinson, double a, double b, double z)
    {
        (double c2, double c1, double c0) = Coefficients(pengRobinson, a, b);
        double slope = Math.Abs((((3 * z) + (2 * c2)) * z) + c1);
        double terms = (z * z * z) + Math.Abs(c2 * z * z) + Math.Abs(c1 * z) + Math.Abs(c0);

        // 1e-12 unless the root is so nearly double that rounding of the polynomial itself moves it further.
        double tolerance = Math.Max(1e-12, 1e-15 * terms / (z * slope));
        if (tolerance > 1e-3)
        {
            return;
        }

        int below = Sign(pengRobinson, a, b, z * (1 - tolerance));
        int above = Sign(pengRobinson, a, b, z * (1 + tolerance));
        Assert.True(below * above < 0, $"A = {a:R}, B = {b:R}: {z:R} is not a root within {tolerance:G3}");
    }

    private static (double C2, double C1, double C0) Coefficients(bool pengRobinson, double a, double b) => pengRobinson
        ? (b - 1, a - (3 * b * b) - (2 * b), (b * b * b) + (b * b) - (a * b))
        : (-1, a - b - (b * b), -(a * b));

    private static int Sign(bool pengRobinson, double a, double b, double z)
    {
        BigInteger exactA = Exact(a);
        BigInteger exactB = Exact(b);
        BigInteger exactZ = Exact(z);
        BigInteger one = BigInteger.One << FractionBits;
        BigInteger bb = exactB * exactB;
        (BigInteger c2, BigInteger c1, BigInteger c0) = pengRobinson
            ? (exactB - one, (((exactA - (2 * exactB)) << FractionBits) - (3 * bb)), ((bb * exactB) + ((bb - (exactA * exactB)) << FractionBits)))
            : (-one, ((exactA - exactB) << FractionBits) - bb, -((exactA * exactB) << FractionBits));
        return ((exactZ * exactZ * exactZ) + (c2 * exactZ * exactZ) + (c1 * exactZ) + c0).Sign;
    }

    private static BigInteger Exact(double value)
    {
        long bits = BitConverter.DoubleToInt64Bits(value);
        int exponent = (int)((bits >> 52) & 0x7FF) - 1075;
        BigInteger mantissa = (bits & 0xFFFFFFFFFFFFF) | 0x10000000000000;
        return mantissa << (exponent + FractionBits);
    }

    private static CubicMixture Pure(bool pengRobinson) => new(
        pengRobinson ? CubicForm.PengRobinson : CubicForm.SoaveRedlichKwong,
        [new(190.564, 4.5992e6, 0.01142, SoaveAlpha.PengRobinson1976(190.564, 0.01142), 0)],
        [0]);
}
