using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Materials;

public sealed class MetalTests(ITestOutputHelper output)
{
    private static double Integral(string metal, double from, double to) =>
        Metal.Named(metal).ConductivityIntegralWattsPerMeter(Temperature.FromKelvins(from), Temperature.FromKelvins(to));

    /// <summary>Integrals of the fits (Marquardt, Le and Radebaugh 2000), computed once by another program to five digits.</summary>
    [Theory]
    [InlineData("stainless steel 304", 4, 77, 326.13)]
    [InlineData("stainless steel 304", 20, 77, 307.44)]
    [InlineData("stainless steel 304", 77, 300, 2704.7)]
    [InlineData("stainless steel 304", 110, 300, 2412.2)]
    [InlineData("stainless steel 304", 4, 300, 3030.8)]
    [InlineData("copper RRR 50", 4, 77, 69535)]
    [InlineData("copper RRR 50", 20, 77, 55172)]
    [InlineData("copper RRR 50", 77, 300, 91689)]
    [InlineData("copper RRR 50", 110, 300, 76450)]
    [InlineData("copper RRR 50", 4, 300, 161220)]
    [InlineData("copper RRR 100", 4, 77, 100540)]
    [InlineData("copper RRR 100", 20, 77, 73142)]
    [InlineData("copper RRR 100", 77, 300, 93791)]
    [InlineData("copper RRR 100", 110, 300, 77852)]
    [InlineData("copper RRR 100", 4, 300, 194330)]
    [InlineData("aluminium 6061-T6", 4, 77, 3641.7)]
    [InlineData("aluminium 6061-T6", 20, 77, 3368.9)]
    [InlineData("aluminium 6061-T6", 77, 300, 28684)]
    [InlineData("aluminium 6061-T6", 110, 300, 25590)]
    [InlineData("aluminium 6061-T6", 4, 300, 32325)]
    [InlineData("aluminium 1100", 4, 77, 22580)]
    [InlineData("aluminium 1100", 20, 77, 19860)]
    [InlineData("aluminium 1100", 77, 300, 49886)]
    [InlineData("aluminium 1100", 110, 300, 41286)]
    [InlineData("aluminium 1100", 4, 300, 72465)]
    [InlineData("aluminium 3003", 4, 77, 6890.6)]
    [InlineData("aluminium 3003", 20, 77, 6328.3)]
    [InlineData("aluminium 3003", 77, 300, 36254)]
    [InlineData("aluminium 3003", 110, 300, 31463)]
    [InlineData("aluminium 3003", 4, 300, 43145)]
    [InlineData("aluminium 5083", 4, 77, 2322.2)]
    [InlineData("aluminium 5083", 20, 77, 2158.8)]
    [InlineData("aluminium 5083", 77, 300, 20828)]
    [InlineData("aluminium 5083", 110, 300, 18743)]
    [InlineData("aluminium 5083", 4, 300, 23150)]
    [InlineData("brass", 20, 77, 1570.6)]
    [InlineData("beryllium copper", 4, 77, 1513.9)]
    [InlineData("beryllium copper", 20, 77, 1415.8)]
    [InlineData("titanium alloy Ti-6Al-4V", 77, 300, 1212.5)]
    [InlineData("titanium alloy Ti-6Al-4V", 110, 300, 1089.8)]
    [InlineData("iron-nickel alloy Fe-36Ni", 4, 77, 246.11)]
    [InlineData("iron-nickel alloy Fe-36Ni", 20, 77, 231.33)]
    [InlineData("iron-nickel alloy Fe-36Ni", 77, 300, 2462.7)]
    [InlineData("iron-nickel alloy Fe-36Ni", 110, 300, 2224.7)]
    [InlineData("iron-nickel alloy Fe-36Ni", 4, 300, 2708.8)]
    [InlineData("nickel-chromium alloy 718", 20, 77, 288.99)]
    [InlineData("nickel-chromium alloy 718", 77, 300, 1883.4)]
    [InlineData("nickel-chromium alloy 718", 110, 300, 1654.8)]
    public void TheIntegralOfAFitIsThatComputedElsewhere(string metal, double from, double to, double expected) =>
        Assert.Equal(1, Integral(metal, from, to) / expected, 1e-4);

    /// <summary>
    /// Handbook integrals (White; Barron; Ekin; from memory) against the metals here; the tolerance is the uncertainty stated with the metal, plus the spread
    /// of the handbooks.
    /// </summary>
    [Theory]
    [InlineData("stainless steel 304", 4, 77, 317, 328)]
    [InlineData("stainless steel 304", 77, 300, 2700, 2750)]
    [InlineData("stainless steel 304", 4, 300, 3050, 3060)]
    [InlineData("copper RRR 50", 4, 300, 162000, 162000)]
    [InlineData("copper RRR 50", 4, 77, 68600, 68600)]
    [InlineData("copper RRR 50", 77, 300, 91400, 93400)]
    [InlineData("aluminium 6061-T6", 4, 300, 32000, 33000)]
    [InlineData("brass", 77, 300, 18000, 18000)]
    [InlineData("brass", 5, 300, 17200, 19700)]
    [InlineData("phosphorus-deoxidised copper", 77, 300, 42400, 42400)]
    [InlineData("constantan", 77, 300, 4900, 4900)]
    public void TheHandbooksAgreeWithinTheUncertaintyStated(string metal, double from, double to, double least, double most)
    {
        double found = Integral(metal, from, to);
        double share = Metal.Named(metal).UncertaintyShare;
        output.WriteLine($"{metal} {from}-{to} K: {found:F1} W/m, handbooks {least} to {most}, stated {share:P0}");
        Assert.InRange(found, least * (1 - share), most * (1 + share));
    }

    [Fact]
    public void WhereAFitIsWrongItIsNotUsed()
    {
        // The fit of brass would give 173 W/(m K) at 300 K; leaded brass has about 116.
        Assert.Equal(116, Metal.Named("brass").ConductivityAt(Temperature.FromKelvins(300)).WattsPerMeterKelvin, 0.5);
        ArgumentOutOfRangeException refused = Assert.Throws<ArgumentOutOfRangeException>(
            () => Metal.Named("beryllium copper").ConductivityAt(Temperature.FromKelvins(150)));
        Assert.Contains("116 K", refused.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Metal.Named("stainless steel").ConductivityAt(Temperature.FromKelvins(301)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Metal.Named("stainless steel").ConductivityAt(Temperature.FromKelvins(3)));
        Assert.Contains("stainless steel 304", Assert.Throws<ArgumentException>(() => Metal.Named("unobtainium")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryMetalIsContinuousPositiveAndSourced()
    {
        foreach (Metal metal in Metal.All)
        {
            Assert.NotEmpty(metal.Sources);
            Assert.InRange(metal.UncertaintyShare, 0.01, 0.3);
            double before = double.NaN;
            for (double t = metal.Lowest.Kelvins; t <= metal.Highest.Kelvins; t += 0.05)
            {
                double k = metal.ConductivityAt(Temperature.FromKelvins(t)).WattsPerMeterKelvin;
                Assert.InRange(k, 0.1, 5000);
                Assert.False(Math.Abs((k / before) - 1) > 0.05, $"{metal} jumps at {t} K");
                before = k;
            }

            double low = metal.Lowest.Kelvins;
            double high = metal.Highest.Kelvins;
            Assert.Equal(Integral(metal.Name, low, high), Integral(metal.Name, low, 65) + Integral(metal.Name, 65, high), Integral(metal.Name, low, high) * 1e-6);
            Assert.Equal(-Integral(metal.Name, low, 65), Integral(metal.Name, 65, low), 1e-9);
        }

        // k(123.15 K) = 10.22 and 152.48 W/(m K) are worked values of a public copy of the fits.
        Assert.Equal(10.22, Metal.Named("stainless steel 304").ConductivityAt(Temperature.FromKelvins(123.15)).WattsPerMeterKelvin, 0.005);
        Assert.Equal(152.48, Metal.Named("aluminium 3003").ConductivityAt(Temperature.FromKelvins(123.15)).WattsPerMeterKelvin, 0.02);
    }

    /// <summary>Tables and integrals of the fits, computed once by another program to four digits.</summary>
    [Theory]
    [InlineData("stainless steel 304", 4, 2.066)]
    [InlineData("stainless steel 304", 77, 204.5)]
    [InlineData("stainless steel 304", 300, 469.4)]
    [InlineData("copper RRR 50", 10, 0.8566)]
    [InlineData("copper RRR 50", 77, 195.9)]
    [InlineData("copper RRR 100", 300, 389.4)]
    [InlineData("aluminium 6061-T6", 20, 8.854)]
    [InlineData("aluminium 6061-T6", 300, 953.9)]
    [InlineData("aluminium 1100", 77, 337)]
    [InlineData("brass", 200, 357)]
    public void TheHeatCapacityIsThatComputedElsewhere(string metal, double at, double expected) =>
        Assert.Equal(1, Metal.Named(metal).HeatCapacityAt(Temperature.FromKelvins(at)).JoulesPerKilogramKelvin / expected, 3e-4);

    [Theory]
    [InlineData("stainless steel 304", 77, 300, 86580)]
    [InlineData("stainless steel 304", 20, 300, 92070)]
    [InlineData("copper RRR 50", 77, 300, 74960)]
    [InlineData("copper RRR 50", 110, 300, 67070)]
    [InlineData("copper RRR 50", 20, 300, 80300)]
    [InlineData("aluminium 6061-T6", 77, 300, 168900)]
    [InlineData("aluminium 6061-T6", 20, 300, 177500)]
    public void TheHeatIsThatComputedElsewhere(string metal, double from, double to, double expected) =>
        Assert.Equal(1, Heat(metal, from, to) / expected, 5e-4);

    /// <summary>Handbook heats, from memory (Johnson, WADD 60-56, 1960, and its kin), with the digits they print, within the uncertainty stated with the metal.</summary>
    [Theory]
    [InlineData("copper RRR 50", 80, 300, 73_550, 73_650)]
    [InlineData("copper RRR 50", 77, 300, 73_000, 74_500)]
    [InlineData("aluminium 1100", 80, 300, 160_500, 161_500)]
    [InlineData("aluminium 6061-T6", 80, 300, 160_500, 161_500)]
    [InlineData("stainless steel 304", 80, 300, 75_000, 85_000)] // "about 80"
    public void TheHeatIsThatOfHandbooks(string metal, double from, double to, double least, double most)
    {
        double found = Heat(metal, from, to);
        double share = Metal.Named(metal).HeatCapacity!.UncertaintyShare;
        output.WriteLine($"{metal} {from}-{to} K: {found / 1e3:F1} kJ/kg, handbook {least / 1e3:F1} to {most / 1e3:F1}, stated {share:P0}");
        Assert.InRange(found, least * (1 - share), most * (1 + share));
    }

    /// <summary>Debye's heat capacity at constant volume, with temperatures of 315 K (copper) and 394 K (aluminium), from memory; that at constant pressure is at most 4 % more up to 200 K.</summary>
    [Theory]
    [InlineData("copper RRR 50", 0.063546, 315, 50)]
    [InlineData("copper RRR 50", 0.063546, 315, 150)]
    [InlineData("aluminium 1100", 0.0269815, 394, 50)]
    [InlineData("aluminium 1100", 0.0269815, 394, 150)]
    [InlineData("aluminium 1100", 0.0269815, 394, 60)]
    public void DebyesTheoryIsNear(string metal, double molarMass, double debye, double t)
    {
        // 9 R (T/theta)^3 times the integral of x^4 e^x/(e^x - 1)^2.
        double end = debye / t;
        double sum = 0;
        const int Steps = 2000;
        for (int i = 0; i < Steps; i++)
        {
            double x = (i + 0.5) * end / Steps;
            double e = Math.Exp(x);
            sum += x * x * x * x * e / ((e - 1) * (e - 1)) * end / Steps;
        }

        double theory = 9 * 8.314462618 / molarMass * sum / Math.Pow(end, 3);
        double found = Metal.Named(metal).HeatCapacityAt(Temperature.FromKelvins(t)).JoulesPerKilogramKelvin;
        output.WriteLine($"{metal} {t} K: {found:F1}, Debye {theory:F1} J/(kg K)");
        Assert.InRange(found / theory, 0.95, 1.08);
    }

    [Fact]
    public void WhereThereIsNoHeatCapacityTheErrorSaysSo()
    {
        Metal bare = Metal.Named("titanium alloy Ti-6Al-4V");
        Assert.Null(bare.HeatCapacity);
        Assert.Contains("copper RRR 50", Assert.Throws<InvalidOperationException>(() => bare.HeatCapacityAt(Temperature.FromKelvins(100))).Message, StringComparison.Ordinal);
        Assert.Contains("density of titanium", Assert.Throws<InvalidOperationException>(() => bare.Density).Message, StringComparison.Ordinal);
        Assert.Contains(
            "20 to 300 K",
            Assert.Throws<ArgumentOutOfRangeException>(() => Metal.Named("brass").HeatCapacityAt(Temperature.FromKelvins(10))).Message,
            StringComparison.Ordinal);
        Assert.Equal("from", Assert.Throws<ArgumentOutOfRangeException>(() => Metal.Named("copper").EnthalpyJoulesPerKilogram(Temperature.FromKelvins(301), Temperature.FromKelvins(80))).ParamName);
    }

    [Fact]
    public void EveryHeatCapacityRisesIsSourcedAndAdds()
    {
        int found = 0;
        foreach (Metal metal in Metal.All.Where(m => m.HeatCapacity is not null))
        {
            found++;
            MetalHeatCapacity known = metal.HeatCapacity!;
            Assert.NotEmpty(known.Source.Publication);
            Assert.InRange(metal.Density.KilogramsPerCubicMeter, 2000, 10_000);
            double before = 0;
            for (double t = known.Lowest.Kelvins; t <= known.Highest.Kelvins; t += 0.5)
            {
                double c = metal.HeatCapacityAt(Temperature.FromKelvins(t)).JoulesPerKilogramKelvin;

                // The fit of stainless steel 304 turns over at 289 K.
                Assert.True(c > (metal.Name == "stainless steel 304" && t > 288 ? 0.9995 : 1) * before, $"{metal} at {t} K: {c}, before {before}");
                before = c;
            }

            Assert.Equal(Heat(metal.Name, 20, 300), Heat(metal.Name, 20, 90) + Heat(metal.Name, 90, 300), 1e-5 * Heat(metal.Name, 20, 300));
            Assert.Equal(-Heat(metal.Name, 90, 300), Heat(metal.Name, 300, 90), 1e-6);
        }

        Assert.Equal(7, found);
    }

    private static double Heat(string metal, double from, double to) =>
        Metal.Named(metal).EnthalpyJoulesPerKilogram(Temperature.FromKelvins(from), Temperature.FromKelvins(to));
}
