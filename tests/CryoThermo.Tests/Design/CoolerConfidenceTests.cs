using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using CryoThermo.Flow;
using CryoThermo.Tests.Coolers.Rating;
using UnitsNet;

namespace CryoThermo.Tests.Design;

public sealed class CoolerConfidenceTests
{
    private static readonly Temperature Target = Temperature.FromKelvins(121);

    private static readonly Lazy<CoolerConfidence> Usual = new(() => CoolerConfidence.Of(
        RatedCoolers.Plain, RatedCoolers.Charge(1.0), RatedCoolers.Room, Target, Power.FromWatts(10), CoolerUncertainty.Usual(RatedCoolers.Plain, RatedCoolers.Charge(1.0))));

    [Fact]
    public void Usual_uncertainties_give_a_band_a_probability_and_a_ranking()
    {
        CoolerConfidence band = Usual.Value;
        Assert.True(band.NetCooling.Least < band.NetCooling.Nominal && band.NetCooling.Nominal < band.NetCooling.Greatest);
        Assert.InRange(band.ProbabilityPercent, 5, 95);
        Assert.Equal(100, band.Contributions.Sum(c => c.PercentOfVariance), 1e-6);
        Assert.Equal(11, band.Contributions.Count);

        // Computed here, as printed in docs/concepts/cooler-rating.md.
        Assert.Equal(8.5, (double)band.NominalNetCooling.Watts, 0.05);
        Assert.Equal(4.1, (double)band.NetCooling.Least.Watts, 0.1);
        Assert.Equal(12.2, (double)band.NetCooling.Greatest.Watts, 0.1);
        Assert.Equal(24, band.ProbabilityPercent, 1.0);
        Assert.Equal([39, 29, 17, 7, 6, 2], band.Contributions.Take(6).Select(c => (int)Math.Round(c.PercentOfVariance)));
        Assert.All(band.Contributions.Zip(band.Contributions.Skip(1)), p => Assert.True(p.First.PercentOfVariance >= p.Second.PercentOfVariance));
        Assert.StartsWith(band.Contributions[0].Uncertainty.Name, band.MeasureFirst, StringComparison.Ordinal);
        Assert.Contains("W in 90 of 100", band.ToString(), StringComparison.Ordinal);
    }

    // The parabolas against coolers solved as drawn.
    [Fact]
    public void Draws_solved_as_they_are_lie_within_the_band_of_the_parabolas()
    {
        CoolerConfidence band = Usual.Value;
        Assert.True(band.LargestDifference!.Value.Watts < 0.35m * (band.NetCooling.Greatest - band.NetCooling.Least).Watts, $"{band.LargestDifference} of {band.NetCooling}");
    }

    // Each bound is the rating's own figure at that bound: nominal cooling of the rated state there.
    [Fact]
    public void Nominal_cooling_is_that_of_the_rating()
    {
        CoolerConfidence band = Usual.Value;
        CoolerState state = RatedCoolers.Plain.Rate(RatedCoolers.Charge(1.0), RatedCoolers.Room, band.NominalNetCooling).Reached!;
        Assert.Equal(121, state.ColdTemperature.Kelvins, 0.02);
    }

    [Fact]
    public void Leak_moves_the_cooling_by_itself_alone()
    {
        CoolerConfidence band = CoolerConfidence.Of(RatedCoolers.Plain, RatedCoolers.Charge(1.0), RatedCoolers.Room, Target, Power.FromWatts(10), [CoolerUncertainty.Leak(2)]);
        UncertaintyContribution leak = Assert.Single(band.Contributions);
        Assert.Equal((double)band.NominalNetCooling.Watts - 4, (double)leak.AtUpperBound.Watts, 0.01);
        Assert.Equal((double)band.NominalNetCooling.Watts + 2, (double)leak.AtLowerBound.Watts, 0.01);
        Assert.Equal(100, leak.PercentOfVariance);
    }

    [Fact]
    public void Bore_of_a_capillary_counts_where_there_is_one()
    {
        Cooler cooler = RatedCoolers.Plain with { Throttle = new Capillary(Length.FromMillimeters(0.7), Length.FromMeters(2)) };
        IReadOnlyList<CoolerUncertainty> usual = CoolerUncertainty.Usual(cooler, RatedCoolers.Charge(1.0));
        Assert.Contains(usual, u => u.Name.StartsWith("bore of the throttle", StringComparison.Ordinal));
        Assert.Equal(11, usual.Count);
        CoolerConfidence band = CoolerConfidence.Of(cooler, RatedCoolers.Charge(0.8), RatedCoolers.Room, Temperature.FromKelvins(140), Power.FromWatts(5), [CoolerUncertainty.ThrottleBore(Length.FromMillimeters(0.02))]);
        Assert.True(band.NetCooling.Greatest > band.NetCooling.Least);
    }

    [Fact]
    public void Figures_out_of_range_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CoolerUncertainty.Conductance(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => CoolerUncertainty.Leak(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CoolerUncertainty.Filling("methane", 60));
        Assert.Throws<ArgumentException>(() => CoolerConfidence.Of(
            RatedCoolers.Plain, RatedCoolers.Charge(1.0), RatedCoolers.Room, Target, Power.FromWatts(10), [CoolerUncertainty.Filling("argon")]));
    }
}
