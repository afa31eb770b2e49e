using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests;

public sealed class FreezeOutTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.15), ("propane", 0.25));

    private static Temperature K(double t) => Temperature.FromKelvins(t);

    private static Pressure Bar(double p) => Pressure.FromBars(p);

    /// <summary>
    /// A pure liquid freezes on its melting line. Tolerance: the constant volume change, compared by Clapeyron with the line, is 6 % off for
    /// carbon dioxide and 5 % for nitrogen (data note), that much of the rise; others have it from the line itself, with the curvature left out.
    /// </summary>
    [Theory]
    [InlineData("nitrogen", 50)]
    [InlineData("argon", 50)]
    [InlineData("methane", 50)]
    [InlineData("carbon dioxide", 100)]
    [InlineData("propane", 50)]
    [InlineData("krypton", 50)]
    [InlineData("ethylene", 50)]
    public void APureLiquidFreezesOnItsMeltingLine(string name, double bar)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name);
        FreezingPoint point = fluid.FreezeOut.FirstSolid(Bar(bar))!;
        double triple = fluid.Composition.Components[0].TripleTemperature!.Value;
        double melting = fluid.Boundaries.MeltingTemperature(Bar(bar)).Kelvins;
        Assert.Equal(melting, point.Temperature.Kelvins, 0.01 + (0.1 * (melting - triple)));
        Assert.Equal(FreezingOrigin.Liquid, point.Origin);
        Assert.Equal(name, point.Component.Name);
    }

    [Theory]
    [InlineData("carbon dioxide", 1.01325, 0.3)]
    [InlineData("argon", 0.3, 0.3)]
    public void APureGasFrostsOnItsSublimationLine(string name, double bar, double tolerance)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name);
        FreezingPoint point = fluid.FreezeOut.FirstSolid(Bar(bar))!;
        Assert.Equal(fluid.Boundaries.SublimationTemperature(Bar(bar)).Kelvins, point.Temperature.Kelvins, tolerance);
        Assert.Equal(FreezingOrigin.Gas, point.Origin);
    }

    [Fact]
    public void TheOrderOfTheComponentsDoesNotMatter()
    {
        (string, double)[] parts = [("carbon dioxide", 0.02), ("nitrogen", 0.38), ("methane", 0.6)];
        foreach (FluidModel model in new[] { FluidModel.Recommended, FluidModel.PengRobinson })
        {
            FreezingPoint a = WorkingFluid.Mixture(parts).WithModel(model).FreezeOut.FirstSolid(Bar(20))!;
            FreezingPoint b = WorkingFluid.Mixture([parts[2], parts[0], parts[1]]).WithModel(model).FreezeOut.FirstSolid(Bar(20))!;
            Assert.Equal("carbon dioxide", a.Component.Name);
            Assert.Equal(a.Component.Name, b.Component.Name);
            Assert.Equal(a.Temperature.Kelvins, b.Temperature.Kelvins, 1e-6);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void SolidAmountsBalanceAndLeaveAFluidAtSaturation(bool recommended)
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("carbon dioxide", 0.1), ("ethane", 0.2), ("methane", 0.7)).WithModel(recommended ? FluidModel.Recommended : FluidModel.PengRobinson);
        double before = 0;
        foreach (double t in new[] { 170.0, 150, 130, 110 })
        {
            FrozenState state = fluid.FreezeOut.WithSolidsAt(K(t), Bar(20));
            FrozenAmount solid = Assert.Single(state.Solids);
            Assert.Equal("carbon dioxide", solid.Component.Name);
            Assert.True(solid.Amount > before, $"less solid at {t} K than warmer");
            before = solid.Amount;
            for (int i = 0; i < 3; i++)
            {
                double whole = fluid.Composition.MoleFractions[i];
                double left = state.FluidFraction * state.Fluid!.Fluid.Composition.MoleFractions[i];
                Assert.Equal(whole, left + (i == 0 ? solid.Amount : 0), 1e-12);
            }

            // Recomputed from the fluid that is left, by another route.
            FreezingMargin margin = state.Fluid!.Fluid.FreezeOut.At(K(t), Bar(20)).Margins.Single(m => m.Component.Name == "carbon dioxide");
            Assert.Equal(0, margin.LnSaturationRatio, 1e-7);
        }

        Assert.Empty(fluid.FreezeOut.WithSolidsAt(K(210), Bar(20)).Solids);
    }

    [Fact]
    public void BelowTheEutecticEverythingIsSolid()
    {
        FreezeOut freezing = WorkingFluid.Mixture(("methane", 0.5), ("ethane", 0.5)).FreezeOut;
        FrozenState solid = freezing.WithSolidsAt(K(65), Bar(2));
        Assert.Null(solid.Fluid);
        Assert.Equal(0, solid.FluidFraction);
        Assert.Equal(1, solid.Solids.Sum(s => s.Amount), 1e-12);
        Assert.Equal(2, solid.Solids.Count);
        Assert.NotNull(freezing.WithSolidsAt(K(80), Bar(2)).Fluid);
    }

    /// <summary>A saturated solution is at its own freezing temperature: solubility and freezing point by separate routes.</summary>
    [Theory]
    [InlineData("carbon dioxide", "methane", 120)]
    [InlineData("ethylene", "methane", 95)]
    [InlineData("n-butane", "methane", 112)]
    public void ASaturatedSolutionFreezesAtItsOwnTemperature(string solute, string solvent, double t)
    {
        foreach (FluidModel model in new[] { FluidModel.Recommended, FluidModel.PengRobinson })
        {
            Solubility solution = WorkingFluid.Pure(solvent).WithModel(model).FreezeOut.Solubility(solute, K(t), Bar(10));
            Assert.True(solution.IsLimited);
            WorkingFluid mixture = WorkingFluid.Mixture(solution.Liquid).WithModel(model);
            FreezingMargin margin = mixture.FreezeOut.At(K(t), Bar(10)).Margins.Single(m => m.Component.Name == solute);
            Assert.Equal(0, margin.LnSaturationRatio, 1e-6);
            Assert.Equal(t, margin.FreezingTemperature!.Value.Kelvins, 1e-3);
        }
    }

    [Fact]
    public void ALiquidAboveItsMeltingPointIsNotLimitedBySolid()
    {
        Solubility free = WorkingFluid.Pure("methane").FreezeOut.Solubility("propane", K(120), Bar(10));
        Assert.False(free.IsLimited);
        Assert.Equal(1, free.MoleFraction);
    }

    /// <summary>
    /// Frost points of water in gas at 1 bar, 548 ppb to 1030 ppm: sublimation pressure over pressure (IAPWS R14-08, as listed with the data),
    /// in nitrogen by the multi-fluid model. Tolerance: 4 % of the pressure is 0.4 K.
    /// </summary>
    [Theory]
    [InlineData(1030, 253.15)]
    [InlineData(128, 233.15)]
    [InlineData(10.8, 213.15)]
    [InlineData(2.62, 203.15)]
    [InlineData(0.548, 193.15)]
    public void WaterFrostsFromGasWhereItsIceHasThePartialPressure(double ppm, double expected)
    {
        FreezingPoint frost = WorkingFluid.Pure("nitrogen").FreezeOut.FrostPoint(new("water", ppm), Bar(1))!;
        Assert.Equal(expected, frost.Temperature.Kelvins, 0.4);
        Assert.Equal(FreezingOrigin.Gas, frost.Origin);
        Assert.Equal("water", frost.Component.Name);
    }

    [Theory]
    [InlineData("carbon dioxide")]
    [InlineData("water")]
    [InlineData("n-hexane")]
    [InlineData("n-decane")]
    [InlineData("benzene")]
    [InlineData("n-hexadecane")]
    public void TracesDownToOnePartInATrillionFreezeTheColderTheLessThereIs(string trace)
    {
        double before = double.PositiveInfinity;
        foreach (double ppm in new[] { 1000.0, 1, 1e-3, 1e-6 })
        {
            // Null: colder than the model goes, 60 K; then all smaller amounts, too.
            double t = Blend.FreezeOut.FrostPoint(new(trace, ppm), Bar(1.5))?.Temperature.Kelvins ?? 0;
            Assert.True(t < before || (t == 0 && before == 0), $"{trace}, {ppm} ppm: {t} K after {before} K");
            Assert.True(t > 0 || ppm < 1, $"{trace}, {ppm} ppm: never freezes");
            before = t;
        }

        double melting = SubstanceCatalog.Default.Find(trace).Solid!.TripleTemperature;
        Assert.True(Blend.FreezeOut.FrostPoint(new(trace, 1000), Bar(1.5))!.Temperature.Kelvins < melting + 0.5);
    }

    /// <summary>A trace treated apart agrees with the same amount as a component, but for its action on the phases.</summary>
    [Fact]
    public void ATraceAgreesWithAComponentOfThatAmount()
    {
        FreezingPoint apart = WorkingFluid.Pure("methane").FreezeOut.FrostPoint(new("carbon dioxide", 20), Bar(5))!;
        FreezingPoint within = WorkingFluid.Mixture(("methane", 1 - 20e-6), ("carbon dioxide", 20e-6)).FreezeOut.FreezingPoints(Bar(5)).First(p => p.Component.Name == "carbon dioxide");
        Assert.Equal(within.Temperature.Kelvins, apart.Temperature.Kelvins, 0.01);
    }

    [Fact]
    public void ThePathTellsWhatFreezesFirstWhere()
    {
        FreezingRisk risk = Blend.FreezeOut.Along(
            [new("warm", K(250), Bar(18)), new("throttle inlet", K(110), Bar(18)), new("throttle outlet", K(95), Bar(1.5))],
            new TraceImpurity("water", 1e-6),
            new TraceImpurity("carbon dioxide", 20));
        Assert.Equal(3, risk.Points.Count);
        Assert.All(risk.Points, point => Assert.Equal(6, point.Margins.Count));
        Assert.True(risk.Freezes);
        Assert.Equal("throttle outlet", risk.Worst!.Place);
        FreezingMargin water = risk.Points[0].Margins.Single(m => m.Component.Name == "water");
        Assert.False(water.Freezes);
        Assert.True(water.Margin!.Value.Kelvins > 0);
        FreezingMargin dioxide = risk.Points[2].Margins.Single(m => m.Component.Name == "carbon dioxide");
        Assert.True(dioxide.Freezes);
        Assert.True(dioxide.Margin!.Value.Kelvins < 0 && dioxide.SaturationRatio > 1);
        Assert.Equal(20e-6, dioxide.MoleFraction, 1e-12);
        Assert.Contains(risk.Basis.NotConservative, s => s.First.Name == "nitrogen" && s.Second.Name == "methane");
        Assert.False(risk.Basis.IsConservative);
        Assert.Contains(risk.Basis.Notes, n => n.Contains("ethane and water estimated", StringComparison.Ordinal));
        Assert.NotEmpty(risk.Basis.Cautions);
    }

    /// <summary>A saturated trace holds twice as much before it freezes when its ratio is one half: the ratio is linear in the amount.</summary>
    [Fact]
    public void TheSaturationRatioOfATraceIsLinearInItsAmount()
    {
        PathPoint[] path = [new("here", K(110), Bar(2))];
        double one = Ratio(5);
        Assert.Equal(3 * one, Ratio(15), 1e-9 * one);

        double Ratio(double ppm) => Blend.FreezeOut.Along(path, new TraceImpurity("carbon dioxide", ppm)).Points[0].Margins
            .Single(m => m.Component.Name == "carbon dioxide").SaturationRatio;
    }

    /// <summary>5 ppm of 0.1 mol/s over an hour are 0.0018 mol or 32.4 mg of ice; the bore of 0.3 mm and 5 mm holds 0.32 mg (computed by hand).</summary>
    [Fact]
    public void FrostOfWaterFillsABoreInTheTimeItsMassTakes()
    {
        PluggingEstimate plug = Blend.FreezeOut.Plugging(
            new("water", 5), MolarFlow.FromMolesPerSecond(0.1), K(110), Bar(1.5), Length.FromMillimeters(0.3), Length.FromMillimeters(5));
        Assert.Equal(1, plug.FrozenFraction, 1e-6);
        Assert.Equal(0.0324, plug.FrostRate.GramsPerHour, 1e-4);
        Assert.Equal(917, plug.SolidDensity.KilogramsPerCubicMeter, 1.0);
        Assert.Equal(0.25 * Math.PI * 0.3e-3 * 0.3e-3 * 5e-3 * 916.7 / (0.0324275e-3 / 3600), plug.TimeToClose!.Value.Seconds, 0.05);
        Assert.Contains(plug.Basis.Cautions, c => c.Severity == CautionSeverity.Warning);
        Assert.Contains(plug.Basis.Notes, n => n.Contains("common practice, no source", StringComparison.Ordinal));

        PluggingEstimate none = Blend.FreezeOut.Plugging(
            new("water", 5), MolarFlow.FromMolesPerSecond(0.1), K(280), Bar(1.5), Length.FromMillimeters(0.3), Length.FromMillimeters(5));
        Assert.Null(none.TimeToClose);
        Assert.Equal(0, none.FrostRate.GramsPerHour);
    }

    [Fact]
    public void ASubstanceWithoutFiguresOfItsSolidIsNamed()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("R-134a", 0.5), ("propane", 0.5));
        Assert.Equal("1,1,1,2-tetrafluoroethane", Assert.Single(fluid.FreezeOut.NotJudged).Name);
        Assert.Equal("propane", Assert.Single(fluid.FreezeOut.Judged).Name);
        ArgumentException error = Assert.Throws<ArgumentException>(() => fluid.FreezeOut.Solubility("R-134a", K(150), Bar(1)));
        Assert.Contains("no figures of solid 1,1,1,2-tetrafluoroethane", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void WrongArgumentsSayWhatIsWrong()
    {
        Assert.Contains("10000", Assert.Throws<ArgumentOutOfRangeException>(() => new TraceImpurity("water", 2e4)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TraceImpurity("water", 0));
        Assert.Contains("part of the charge", Assert.Throws<ArgumentException>(() => Blend.FreezeOut.FrostPoint(new("CH4", 1), Bar(1))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Blend.FreezeOut.FrostPoint(new("watr", 1), Bar(1)));
        Assert.Contains("a solvent is missing", Assert.Throws<ArgumentException>(() => WorkingFluid.Pure("methane").FreezeOut.Solubility("methane", K(80), Bar(1))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Blend.FreezeOut.FirstSolid(Pressure.FromPascals(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => WorkingFluid.Pure("nitrogen").FreezeOut.Solubility("carbon dioxide", K(150), Bar(0.5)));
        Assert.Throws<InvalidOperationException>(() => WorkingFluid.Pure("air").FreezeOut);
    }

    [Fact]
    public void HydrocarbonsInOxygenCarryTheGravestCaution()
    {
        Solubility s = WorkingFluid.Pure("oxygen").FreezeOut.SolubilityAtSaturation("n-butane", K(90.2));
        Assert.Equal(CautionSeverity.Danger, s.Basis.Cautions[0].Severity);
    }
}
