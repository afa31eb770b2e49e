using CryoThermo.Diagnostics;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Tests.Materials;

public sealed class SurfaceAndServiceTests
{
    [Fact]
    public void EmissivitiesAreOrderedAndWithinTheirEnds()
    {
        foreach (SurfaceFinish finish in SurfaceFinish.All)
        {
            Assert.NotEmpty(finish.Source.Publication);
            Assert.True(finish.Source.FromMemory);
            for (double t = finish.Lowest.Kelvins; t <= 330; t += 1)
            {
                EmissivityRange range = finish.EmissivityAt(Temperature.FromKelvins(t));
                Assert.True(range.Least > 0.004 && range.Greatest <= 0.96, $"{finish} at {t} K");
                Assert.True(range.Least <= range.Typical * (1 + 1e-12) && range.Typical <= range.Greatest * (1 + 1e-12), $"{finish} at {t} K");
            }

            Assert.Contains(finish.Name, Assert.Throws<ArgumentOutOfRangeException>(() => finish.EmissivityAt(Temperature.FromKelvins(331))).Message, StringComparison.Ordinal);
            Assert.Throws<ArgumentOutOfRangeException>(() => finish.EmissivityAt(finish.Lowest - TemperatureDelta.FromKelvins(1)));
        }

        Assert.Contains("copper, polished", Assert.Throws<ArgumentException>(() => SurfaceFinish.Named("velvet")).Message, StringComparison.Ordinal);
    }

    /// <summary>
    /// Hagen and Rubens: emissivity of a clean metal 0.751 sqrt(rho T) - 0.632 rho T with rho in ohm cm (Jakob; Siegel and Howell, from memory). Resistivities at 300 K,
    /// from memory: copper 1.7e-6, stainless steel 72e-6 ohm cm. The best surfaces of the table lie near it and not far from it: copper between three quarters of and 1.1 times the best, steel within its range.
    /// </summary>
    [Fact]
    public void TheBestMetalSurfacesAreThoseOfTheory()
    {
        static double Theory(double ohmCentimeters) => (0.751 * Math.Sqrt(ohmCentimeters * 300)) - (0.632 * ohmCentimeters * 300);
        Temperature room = Temperature.FromKelvins(300);
        Assert.InRange(Theory(1.7e-6) / SurfaceFinish.Named("copper, polished").EmissivityAt(room).Least, 0.75, 1.1);
        EmissivityRange steel = SurfaceFinish.Named("stainless steel, electropolished").EmissivityAt(room);
        Assert.InRange(Theory(72e-6), steel.Least, steel.Greatest);
    }

    [Fact]
    public void WhatIsNotFitForTheColdIsSaidSo()
    {
        Temperature cold = Temperature.FromKelvins(85);
        Assert.Null(SolidMaterial.Named("copper").ColdService!.CautionAt(cold));
        Assert.Null(SolidMaterial.Named("stainless steel 316").ColdService!.CautionAt(cold));
        Caution seal = ColdService.Named("NBR seal").CautionAt(cold)!;
        Assert.Equal(CautionSeverity.Warning, seal.Severity);
        Assert.Contains("licensed practice", seal.Advice, StringComparison.Ordinal);
        Assert.Null(ColdService.Named("NBR seal").CautionAt(Temperature.FromKelvins(260)));
        Assert.NotNull(ColdService.Named("zinc and its die castings").CautionAt(Temperature.FromKelvins(250)));
        Assert.NotNull(ColdService.Named("magnesium alloys").CautionAt(cold));
        Assert.Null(ColdService.Named("magnesium alloys").CautionAt(Temperature.FromKelvins(300)));
        Assert.Equal(CautionSeverity.Notice, SolidMaterial.Named("titanium alloy Ti-6Al-4V").ColdService!.CautionAt(cold)!.Severity);
        Assert.Contains("oxygen", SolidMaterial.Named("titanium alloy Ti-6Al-4V").ColdService!.OxygenNote!, StringComparison.Ordinal);
        Assert.Contains("316L", ColdService.HydrogenRule, StringComparison.Ordinal);
        Assert.Contains("titanium", ColdService.OxygenRule, StringComparison.Ordinal);
        foreach (ColdService service in ColdService.All)
        {
            Assert.Equal(service.Suitability == ColdSuitability.SuitedToLimit, service.Lowest is not null);
            Assert.All(service.Materials, m => Assert.Equal(m, SolidMaterial.Named(m).Name));
        }
    }

    [Fact]
    public void StressesAreForOrientationOnlyAndSaySo()
    {
        Assert.Equal(7, AllowableStress.All.Count);
        foreach (AllowableStress stress in AllowableStress.All)
        {
            Assert.InRange(stress.Least.Megapascals, 20, stress.Greatest.Megapascals);
            Assert.Contains("code in force", stress.Caution.Rule, StringComparison.Ordinal);
            Assert.Contains("licensed practice", stress.Caution.Advice, StringComparison.Ordinal);
            Assert.True(stress.Source.FromMemory);
        }

        // From memory, ASME II-D: a weld takes the strength out of 6061-T6.
        IReadOnlyList<AllowableStress> aluminium = AllowableStress.Of(SolidMaterial.Named("aluminium 6061-T6"));
        Assert.True(aluminium.Single(s => s.Condition == "welded").Greatest < aluminium.Single(s => s.Condition == "not welded").Least);
        Assert.Empty(AllowableStress.Of(SolidMaterial.Named("PTFE")));
    }
}
