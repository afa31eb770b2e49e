using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Insulation;
using CryoThermo.Tests.Coolers.Rating;
using UnitsNet;

namespace CryoThermo.Tests.Design;

public sealed class RestConfidenceTests(RatedCoolers coolers) : IClassFixture<RatedCoolers>
{
    private static readonly Temperature Wanted = Temperature.FromKelvins(121);

    [Fact]
    public void Usual_uncertainties_give_a_band_a_probability_and_a_ranking()
    {
        CoolerRating rating = coolers.PlainRating;
        RestConfidence band = RestConfidence.Of(rating, Wanted, CoolerUncertainty.Usual(rating.Cooler, rating.Charge));
        Assert.Equal(rating.Reached!.ColdTemperature, band.NominalColdTemperature);
        Assert.True(band.ColdTemperature.Least < band.ColdTemperature.Nominal && band.ColdTemperature.Nominal < band.ColdTemperature.Greatest);
        Assert.Equal(100, band.Contributions.Sum(c => c.PercentOfVariance), 1e-6);
        Assert.All(band.Contributions.Zip(band.Contributions.Skip(1)), p => Assert.True(p.First.PercentOfVariance >= p.Second.PercentOfVariance));
        Assert.StartsWith(band.Contributions[0].Uncertainty.Name, band.MeasureFirst, StringComparison.Ordinal);
        Assert.Contains("in 90 of 100", band.ToString(), StringComparison.Ordinal);
        Assert.Same(FluidModel.PengRobinson, band.DifferencesBy);
        Assert.True(band.LargestDifference!.Value.Kelvins < 0.35 * (band.ColdTemperature.Greatest - band.ColdTemperature.Least).Kelvins, $"{band.LargestDifference} of {band.ColdTemperature}");

        // The load is carried at 121 K in as many cases as it rests there or colder: by the net cooling there, in another way.
        CoolerConfidence atWanted = CoolerConfidence.Of(
            rating.Cooler, rating.Charge, RatedCoolers.Room, Wanted, rating.Load, CoolerUncertainty.Usual(rating.Cooler, rating.Charge));
        Assert.Equal(atWanted.ProbabilityPercent, band.ProbabilityPercent, 5.0);

        // Computed here, as printed in docs/concepts/cooler-rating.md.
        Assert.Equal(117.0, band.ColdTemperature.Least.Kelvins, 0.1);
        Assert.Equal(134.2, band.ColdTemperature.Greatest.Kelvins, 0.1);
        Assert.Equal(22, band.ProbabilityPercent, 1.0);
        Assert.Equal(-3.9, band.Contributions[0].AtLowerBound.Kelvins, 0.1);
        Assert.Equal(8.7, band.Contributions[0].AtUpperBound.Kelvins, 0.1);
    }

    // Against coolers rated from warm with the thing itself changed.
    [Fact]
    public void Bounds_are_where_coolers_built_so_come_to_rest()
    {
        CoolerRating rating = coolers.PlainRating;
        RestConfidence band = RestConfidence.Of(rating, Wanted, [CoolerUncertainty.Leak(2), CoolerUncertainty.Ambient(TemperatureDelta.FromKelvins(5))]);
        double Rests(Cooler cooler, double room) => cooler.Rate(rating.Charge, Temperature.FromKelvins(room), rating.Load).Reached!.ColdTemperature.Kelvins - band.NominalColdTemperature.Kelvins;
        Cooler plain = rating.Cooler;
        Cooler leaking = new(plain.Compressor, plain.AfterCooling, plain.Recuperator, plain.Throttle, plain.Spaces, [RatedCoolers.Leak, HeatLeakItem.Known("as much again", new(Power.FromWatts(4), Power.FromWatts(4), Power.FromWatts(4)), Source.CommonPractice)]);
        RestContribution leak = band.Contributions.Single(c => c.Uncertainty.Name.StartsWith("heat leak", StringComparison.Ordinal));
        RestContribution ambient = band.Contributions.Single(c => c.Uncertainty.Name.StartsWith("room", StringComparison.Ordinal));
        Assert.Equal(Rests(leaking, 293.15), leak.AtUpperBound.Kelvins, 0.05);
        Assert.Equal(Rests(plain, 288.15), ambient.AtLowerBound.Kelvins, 0.05);
    }

    [Fact]
    public void Differences_by_another_model_are_put_upon_the_rating()
    {
        CoolerRating rating = coolers.PlainRating;
        RestConfidence band = RestConfidence.Of(rating, Temperature.FromKelvins(60), [CoolerUncertainty.Leak(2)], FluidModel.SoaveRedlichKwong);
        Assert.Equal(0, band.ProbabilityPercent);
        Assert.Same(FluidModel.SoaveRedlichKwong, band.DifferencesBy);
        Assert.Contains(band.Remarks, r => r.Contains("Of the 10 pairs of substances", StringComparison.Ordinal));
        Assert.Contains(band.Remarks, r => r.Contains("under which the nominal cooler rests at", StringComparison.Ordinal));
        RestContribution leak = Assert.Single(band.Contributions);
        Assert.True(leak.AtLowerBound.Kelvins < 0 && leak.AtUpperBound.Kelvins > 0);
        Assert.InRange(rating.Reached!.ColdTemperature.Kelvins, band.ColdTemperature.Least.Kelvins, band.ColdTemperature.Greatest.Kelvins);
    }

    [Fact]
    public void A_rating_without_a_state_is_refused()
    {
        CoolerRating none = RatedCoolers.Plain.Rate(RatedCoolers.Charge(1.0), RatedCoolers.Room, Power.FromWatts(500));
        Assert.Throws<ArgumentException>(() => RestConfidence.Of(none, Wanted, []));
        Assert.Throws<ArgumentException>(() => RestConfidence.Of(coolers.PlainRating, Wanted, [CoolerUncertainty.Filling("argon")]));
        Assert.Throws<ArgumentOutOfRangeException>(() => RestConfidence.Of(coolers.PlainRating, Temperature.FromKelvins(10), []));
    }

    // The hole with the effective area of a Kv of 0.004: 1.9633e-5 m2 times 0.004, 0.3162 mm wide.
    [Fact]
    public void A_tolerance_of_the_bore_moves_valve_and_capillary()
    {
        CoolerCase nominal = new(
            RatedCoolers.Plain with { Throttle = new ThrottleSeries([new ControlValve(0.004, ValveStyle.Needle), new Capillary(Length.FromMillimeters(0.8), Length.FromMeters(2))]) }, RatedCoolers.Charge(1), RatedCoolers.Room);
        CoolerUncertainty bore = CoolerUncertainty.ThrottleBore(Length.FromMillimeters(0.02));
        ThrottleSeries wide = Assert.IsType<ThrottleSeries>(bore.Moved(nominal, 1).Cooler.Throttle);
        Assert.Equal(0.004 * Math.Pow(0.3362 / 0.3162, 2), Assert.IsType<ControlValve>(wide.Parts[0]).FlowCoefficientKv, 1e-6);
        Assert.Equal(0.82, Assert.IsType<Capillary>(wide.Parts[1]).Sections[0].Bore.Millimeters, 1e-9);
        ThrottleSeries narrow = Assert.IsType<ThrottleSeries>(bore.Moved(nominal, -1).Cooler.Throttle);
        Assert.Equal(0.004 * Math.Pow(0.2962 / 0.3162, 2), Assert.IsType<ControlValve>(narrow.Parts[0]).FlowCoefficientKv, 1e-6);
    }

    // An estimated pair of a cubic and a fitted one of the multi-fluid model: the boiling point moves one way with the bound, the other way against it.
    [Theory]
    [InlineData("argon", "sulfur hexafluoride", false, "k +-")]
    [InlineData("methane", "propane", true, "gamma +-")]
    public void Pairs_with_an_error_on_record_move_the_fluid(string first, string second, bool isMultiFluid, string says)
    {
        WorkingFluid blend = WorkingFluid.Mixture((first, 0.5), (second, 0.5));
        WorkingFluid fluid = isMultiFluid ? blend : blend.WithModel(FluidModel.PengRobinson);
        CoolerUncertainty pair = Assert.Single(CoolerUncertainty.Pairs(fluid));
        Assert.Contains(says, pair.Name, StringComparison.Ordinal);
        CoolerCase nominal = new(RatedCoolers.Plain, new(fluid, AmountOfSubstance.FromMoles(1)), RatedCoolers.Room);
        Temperature at = Temperature.FromKelvins(isMultiFluid ? 180 : 230);
        double Boils(double bound) => pair.Moved(nominal, bound).Charge.Fluid.BubblePoint(at).Pressure.Pascals;
        double middle = fluid.BubblePoint(at).Pressure.Pascals;
        Assert.Equal(middle, Boils(0), 1e-6 * middle);
        Assert.True((Boils(1) - middle) * (Boils(-1) - middle) < 0, $"{Boils(-1)}, {middle}, {Boils(1)} Pa");
        CoolerCase other = nominal with { Charge = new(isMultiFluid ? blend.WithModel(FluidModel.PengRobinson) : blend, AmountOfSubstance.FromMoles(1)) };
        Assert.Contains("differences are computed with", Assert.Throws<ArgumentException>(() => pair.Moved(other, 1)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_stated_goes_before_the_usual()
    {
        IReadOnlyList<CoolerUncertainty> told = CoolerUncertainty.Usual(
            RatedCoolers.Plain,
            RatedCoolers.Charge(1),
            new UncertaintyDescription { ConductanceFactor = 1.8, LeakFactor = 1, FillingFraction = 0, AmbientDifference = TemperatureDelta.FromKelvins(2) });
        Assert.Equal(
            ["recuperator conductance times or over 1.8", "bore of the throttle +-0.02 mm", "room +-2 K", "compressor flow times or over 1.1", "Peng-Robinson (1976): cooling times 0.83 to 1.25"],
            told.Select(u => u.Name));
        Assert.Equal("as stated for the machine", told[0].Source.Publication);
        Assert.Equal("common practice, no source", told[1].Source.Publication);
        Assert.Throws<ArgumentOutOfRangeException>(() => CoolerUncertainty.Usual(RatedCoolers.Plain, RatedCoolers.Charge(1), new UncertaintyDescription { LeakFactor = 0.5 }));
    }
}
