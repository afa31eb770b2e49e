using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Materials;
using MathNet.Numerics.LinearAlgebra;
using UnitsNet;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class AxialConductionTests
{
    /// <summary>Closed form for equal capacity rates: P. G. Kroeger, Adv. Cryog. Eng. 12 (1967) 363, from memory; six figures of it.</summary>
    [Theory]
    [InlineData(10, 0.01, 0.0988306)]
    [InlineData(20, 0.01, 0.0563866)]
    [InlineData(50, 0.005, 0.0243372)]
    [InlineData(50, 0.02, 0.0379455)]
    [InlineData(10, 0.1, 0.157392)]
    [InlineData(100, 0.01, 0.0194728)]
    public void EqualCapacityRatesGiveKroegersFigures(double transferUnits, double parameter, double expected)
    {
        AxialConductionLoss loss = AxialConductionLoss.Of(transferUnits, 1, parameter);
        Assert.Equal(expected, loss.Ineffectiveness, expected > 0.1 ? 5.1e-7 : 5.1e-8);
        Assert.Equal(1 / (1 + transferUnits), loss.IneffectivenessWithoutConduction, 1e-12);

        // His formula itself, over the whole range.
        foreach (double n in (double[])[0.1, 1, 30, 300, 1000])
        {
            foreach (double l in (double[])[1e-6, 1e-4, 0.03, 1])
            {
                double root = Math.Sqrt(l * n / (1 + (l * n)));
                double phi = root * Math.Tanh(n / root);
                double closed = 1 / (1 + (n * (1 + (l * phi)) / (1 + (l * n))));
                Assert.Equal(1, AxialConductionLoss.Of(n, 1, l).Ineffectiveness / closed, 1e-11);
            }
        }
    }

    /// <summary>Another program's solution of the same equations with an imbalance, to the figures it printed (computed elsewhere, 4 to 6 figures).</summary>
    [Theory]
    [InlineData(10, 0.01, 0.9, 0.0621654, 5.1e-8, 0.054997)]
    [InlineData(20, 0.02, 0.9, 0.028487, 5.1e-7, 0.0154106)]
    [InlineData(50, 0.02, 0.95, 0.0184074, 5.1e-8, 0.00445137)]
    [InlineData(10, 0.1, 0.8, 0.0822942, 5.1e-8, 0.0303534)]
    [InlineData(20, 0.1, 0.5, 0.00326818, 5.1e-9, 2.27005e-05)]
    public void UnequalCapacityRatesGiveTheFiguresOfAnotherProgram(
        double transferUnits, double parameter, double ratio, double expected, double digit, double without)
    {
        AxialConductionLoss loss = AxialConductionLoss.Of(transferUnits, ratio, parameter);
        Assert.Equal(expected, loss.Ineffectiveness, digit);
        Assert.Equal(1, loss.IneffectivenessWithoutConduction / without, 1e-5);

        // Equal films: it does not matter which stream has the lesser capacity rate.
        Assert.Equal(1, AxialConductionLoss.Of(transferUnits, ratio, parameter, hotIsLesser: false).Ineffectiveness / loss.Ineffectiveness, 1e-12);
    }

    /// <summary>Finite differences of second order, two meshes, extrapolated: written independently of the modes.</summary>
    [Theory]
    [InlineData(10, 1, 0.1, 1, true)]
    [InlineData(10, 0.8, 0.1, 3, true)]
    [InlineData(20, 0.6, 0.02, 0.4, false)]
    [InlineData(3, 0.95, 1, 1, false)]
    [InlineData(1, 0.3, 0.5, 10, true)]
    public void FiniteDifferencesComeToTheSame(double transferUnits, double ratio, double parameter, double films, bool hotIsLesser)
    {
        double hotRate = hotIsLesser ? 1 : 1 / ratio;
        double coldRate = hotIsLesser ? 1 / ratio : 1;
        double hotFilm = transferUnits * (1 + films);
        double coldFilm = transferUnits * (1 + (1 / films));
        AxialConduction exact = new(hotFilm, coldFilm, hotRate, coldRate, parameter);
        (double hot, double cold, double middle) coarse = Meshed(hotFilm, coldFilm, hotRate, coldRate, parameter, 100);
        (double hot, double cold, double middle) fine = Meshed(hotFilm, coldFilm, hotRate, coldRate, parameter, 200);
        Assert.Equal(1, exact.HotIneffectiveness / (((4 * fine.hot) - coarse.hot) / 3), 2e-5);
        Assert.Equal(1, exact.ColdIneffectiveness / (((4 * fine.cold) - coarse.cold) / 3), 2e-5);
        Assert.Equal(((4 * fine.middle) - coarse.middle) / 3, exact.At(0.5).Hot, 2e-6);
    }

    [Fact]
    public void RandomExchangersKeepTheirBalanceAndTheirOrder()
    {
        Random random = new(7);
        for (int i = 0; i < 20_000; i++)
        {
            double n = Math.Pow(10, (6 * random.NextDouble()) - 3);
            double ratio = random.Next(4) == 0 ? 1 - Math.Pow(10, -16 * random.NextDouble()) : Math.Pow(10, -3 * random.NextDouble());
            double l = Math.Pow(10, (12 * random.NextDouble()) - 9);
            double films = Math.Pow(10, (6 * random.NextDouble()) - 3);
            bool hotIsLesser = random.Next(2) == 0;
            double hotRate = hotIsLesser ? 1 : 1 / ratio;
            double coldRate = hotIsLesser ? 1 / ratio : 1;
            AxialConduction exact = new(n * (1 + films), n * (1 + (1 / films)), hotRate, coldRate, l);
            string where = $"NTU {n:R}, ratio {ratio:R}, parameter {l:R}, films {films:R}, hot lesser {hotIsLesser}";
            AxialConductionLoss loss = AxialConductionLoss.Of(n, ratio, l, hotIsLesser, films);
            Assert.True(loss.Ineffectiveness is >= 0 and <= 1, where);
            Assert.True(loss.Ineffectiveness >= (loss.IneffectivenessWithoutConduction * (1 - 1e-9)) - 1e-300, $"{where}: {loss}");

            // Heat given is heat taken.
            double given = hotRate * (1 - exact.HotIneffectiveness);
            double taken = coldRate * (1 - exact.ColdIneffectiveness);
            Assert.True(Math.Abs(given - taken) <= 1e-10 * Math.Max(hotRate, coldRate), $"{where}: {given:R} and {taken:R}");
            (double hot, double wall, double cold) = exact.At(random.NextDouble());
            Assert.True(hot >= wall - 1e-10 && wall >= cold - 1e-10 && hot <= 1 + 1e-10 && cold >= -1e-10, $"{where}: {hot:R}, {wall:R}, {cold:R}");
            (double inlet, _, _) = exact.At(0);
            (_, _, double other) = exact.At(1);
            Assert.True(Math.Abs(inlet - 1) < 1e-9 && Math.Abs(other) < 1e-9, where);
        }
    }

    [Fact]
    public void LimitsAreMet()
    {
        // Without conduction, and with so little that it no longer counts.
        Assert.Equal(1, AxialConductionLoss.Of(50, 0.9, 1e-9).Ineffectiveness / AxialConduction.WithoutConduction(50, 0.9), 1e-4);
        Assert.Equal(AxialConductionLoss.Of(50, 0.9, 0).Ineffectiveness, AxialConduction.WithoutConduction(50, 0.9));

        // A wall of one temperature, both streams against it with NTU of their own: two exchangers with one temperature each.
        double hot = 1 - Math.Exp(-20);
        double cold = 1 - Math.Exp(-20 * 0.5);
        double effectiveness = 1 / ((1 / hot) + (0.5 / cold));
        Assert.Equal(1 - effectiveness, AxialConductionLoss.Of(10, 0.5, 1e3).Ineffectiveness, 1e-3);

        // More conduction never helps.
        double before = 0;
        for (double l = 1e-6; l < 1e3; l *= 3)
        {
            double now = AxialConductionLoss.Of(100, 0.98, l).Ineffectiveness;
            Assert.True(now > before);
            before = now;
        }

        // With film conductances in the ratio of three the figure changes by less than 0.4 % (the note of the other program).
        Assert.Equal(1, AxialConductionLoss.Of(50, 1, 0.02, hotOverColdFilm: 3).Ineffectiveness / 0.0379455, 4e-3);
    }

    [Fact]
    public void TheWallOfATubeGivesItsParameter()
    {
        // Integral of stainless steel 304 from 77 to 300 K: 2704.7 W/m (Marquardt, Le and Radebaugh 2000); 1 m of 20 mm2, 0.5 W/K.
        ConductionBar wall = new(SolidMaterial.Named("stainless steel 304"), Length.FromMeters(1), Area.FromSquareMillimeters(20));
        double parameter = AxialConductionLoss.ParameterOf(wall, Temperature.FromKelvins(300), Temperature.FromKelvins(77), 0.5);
        Assert.Equal(2704.7 * 20e-6 / 223 / 0.5, parameter, parameter * 1e-4);
    }

    [Fact]
    public void FiguresOutOfRangeAreRefused()
    {
        Assert.Equal("transferUnits", Assert.Throws<ArgumentOutOfRangeException>(() => AxialConductionLoss.Of(-1, 1, 0.1)).ParamName);
        Assert.Equal("capacityRatio", Assert.Throws<ArgumentOutOfRangeException>(() => AxialConductionLoss.Of(1, 1.1, 0.1)).ParamName);
        Assert.Equal("conductionParameter", Assert.Throws<ArgumentOutOfRangeException>(() => AxialConductionLoss.Of(1, 1, -0.1)).ParamName);
        Assert.Equal("hotOverColdFilm", Assert.Throws<ArgumentOutOfRangeException>(() => AxialConductionLoss.Of(1, 1, 0.1, true, double.NaN)).ParamName);
    }

    // Cells of the wall, streams at their faces, means of the faces against the cell.
    private static (double Hot, double Cold, double Middle) Meshed(double hotFilm, double coldFilm, double hotRate, double coldRate, double wall, int n)
    {
        Matrix<double> a = Matrix<double>.Build.Dense(3 * n, 3 * n);
        Vector<double> r = Vector<double>.Build.Dense(3 * n);

        // Unknown: hot at face i+1, cold at face i, wall of cell i.
        for (int i = 0; i < n; i++)
        {
            int hot = 3 * i;
            int cold = hot + 1;
            int own = hot + 2;
            double half = hotFilm / n / 2;
            a[hot, hot] = -hotRate - half;
            a[hot, own] = 2 * half;
            a[own, hot] = half;
            if (i == 0)
            {
                r[hot] = -(hotRate - half);
                r[own] -= half;
            }
            else
            {
                a[hot, hot - 3] = hotRate - half;
                a[own, hot - 3] = half;
            }

            double other = coldFilm / n / 2;
            a[cold, cold] = coldRate + other;
            a[cold, own] = -2 * other;
            a[own, cold] = other;
            if (i < n - 1)
            {
                a[cold, cold + 3] = -coldRate + other;
                a[own, cold + 3] = other;
            }

            a[own, own] = -(2 * half) - (2 * other);
            foreach (int next in (int[])[own - 3, own + 3])
            {
                if (next > 0 && next < 3 * n)
                {
                    a[own, own] -= wall * n;
                    a[own, next] += wall * n;
                }
            }
        }

        Vector<double> x = a.Solve(r);
        return (x[(3 * n) - 3], 1 - x[1], x[(3 * (n / 2)) - 3]);
    }
}
