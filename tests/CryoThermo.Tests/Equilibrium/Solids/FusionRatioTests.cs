using CryoThermo.Equilibrium.Solids;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Equilibrium.Solids;

public sealed class FusionRatioTests
{
    private const double R = 8.314462618;

    public static TheoryData<string> Known => [.. SubstanceCatalog.Default.All.Where(s => s.Solid is not null).Select(s => s.Name)];

    [Theory]
    [MemberData(nameof(Known))]
    public void TheRatioIsOneAtTheTriplePointAndFallsBelowIt(string name)
    {
        SolidProperties solid = SubstanceCatalog.Default.Find(name).Solid!;
        Assert.Equal(0, FusionRatio.Ln(solid, solid.TripleTemperature), 1e-14);
        double previous = 0;
        for (double share = 0.99; share > 0.2; share -= 0.01)
        {
            double ln = FusionRatio.Ln(solid, share * solid.TripleTemperature);
            Assert.True(ln < previous, $"{name} at {share:0.00}: {ln} is not below {previous}");
            previous = ln;
        }
    }

    /// <summary>d(ln ratio)/dT = (liquid less solid enthalpy)/(R T^2), with the enthalpy written down separately.</summary>
    [Theory]
    [MemberData(nameof(Known))]
    public void TheSlopeIsTheEnthalpyOfFusionThere(string name)
    {
        SolidProperties solid = SubstanceCatalog.Default.Find(name).Solid!;
        foreach (double share in new[] { 0.3, 0.45, 0.52, 0.7, 0.95, 1.05 })
        {
            double t = share * solid.TripleTemperature;
            double step = 1e-4 * t;
            if (solid.Transitions.Any(x => Math.Abs(x.Temperature - t) < 2 * step))
            {
                continue;
            }

            double slope = (FusionRatio.Ln(solid, t + step) - FusionRatio.Ln(solid, t - step)) / (2 * step);
            double expected = FusionRatio.Enthalpy(solid, t) / (R * t * t);
            Assert.True(Math.Abs(slope - expected) <= 1e-6 * Math.Abs(expected) + 1e-12, $"{name} at {share}: {slope} and {expected}");
        }
    }

    /// <summary>The heat-capacity term by Simpson's rule over its definition: c falls linearly to zero at half the triple temperature.</summary>
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.6)]
    [InlineData(0.35)]
    public void TheHeatCapacityTermIsTheIntegralOfItsDefinition(double share)
    {
        SolidProperties solid = SubstanceCatalog.Default.Find("water").Solid!;
        double triple = solid.TripleTemperature;
        double t = share * triple;
        double c = solid.HeatCapacityDifference!.Value;
        double without = -(solid.FusionEnthalpy / R) * ((1 / t) - (1 / triple));
        const int Steps = 4000;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double at = t + ((triple - t) * i / Steps);
            double missing = at >= 0.5 * triple ? c * ((triple - at) - ((triple - at) * (triple - at) / triple)) : 0.25 * c * triple;
            sum += (i == 0 || i == Steps ? 1 : i % 2 == 1 ? 4 : 2) * missing / (R * at * at);
        }

        double integral = sum * (triple - t) / Steps / 3;
        Assert.Equal(without + integral, FusionRatio.Ln(solid, t), 1e-7);
    }

    /// <summary>
    /// Ratios from independent sublimation and vapour-pressure equations, as noted with the data when they were collected (computed there from
    /// recalled equations). Tolerance: what the data note says the two differ by, 0.03, for temperatures within 25 % of the triple point.
    /// </summary>
    [Theory]
    [InlineData("nitrogen", 57, -0.1344)]
    [InlineData("argon", 70, -0.3161)]
    [InlineData("argon", 77, -0.1478)]
    [InlineData("carbon monoxide", 64, -0.0941)]
    [InlineData("methane", 80, -0.1506)]
    [InlineData("ethane", 80, -0.4927)]
    [InlineData("ethane", 85, -0.2434)]
    [InlineData("carbon dioxide", 180, -0.9574)]
    [InlineData("water", 230, -0.4254)]
    [InlineData("water", 250, -0.2272)]
    public void TheRatioAgreesWithIndependentPressures(string name, double temperature, double expected) =>
        Assert.Equal(expected, FusionRatio.Ln(SubstanceCatalog.Default.Find(name).Solid!, temperature), 0.03);
}
