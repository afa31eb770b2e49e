using CryoThermo.Substances;

namespace CryoThermo.Tests;

public sealed class FluidModelTests
{
    [Fact]
    public void CapacityErrorSpansTheComponentsThatWereCompared()
    {
        CapacityError error = FluidModel.PengRobinson.CapacityErrorOf(Composition.FromMoleFractions(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.15), ("propane", 0.25)))!;
        Assert.Equal(-13, error.LowPercent);
        Assert.Equal(21, error.HighPercent);
        Assert.Equal(
            "Peng-Robinson (1976): isothermal enthalpy difference of the pure gas at 300 K off by +21 % (nitrogen), +15 % (methane), -13 % (propane); "
            + "not compared: ethane. Two-phase regions are within a few percent.",
            error.Explanation);
        Assert.Contains("15 to 2 bar", error.Source.Verified, StringComparison.Ordinal);
    }

    [Fact]
    public void OneSidedErrorsKeepZeroOnTheOtherSide()
    {
        CapacityError error = FluidModel.PengRobinson.CapacityErrorOf(Composition.FromMoleFractions(("nitrogen", 1)))!;
        Assert.Equal(0, error.LowPercent);
        Assert.Equal(21, error.HighPercent);
        error = FluidModel.SoaveRedlichKwong.CapacityErrorOf(Composition.FromMoleFractions(("nitrogen", 0.5), ("propane", 0.5)))!;
        Assert.Equal(-1, error.LowPercent);
        Assert.Equal(0, error.HighPercent);
    }

    [Fact]
    public void NothingIsSaidOfFluidsThatWereNotComparedOrAreNotThere()
    {
        Assert.Null(FluidModel.PengRobinson.CapacityErrorOf(Composition.FromMoleFractions(("xenon", 1))));
        Assert.Null(FluidModel.PengRobinson.CapacityErrorOf(Composition.FromMoleFractions(("xenon", 1), ("nitrogen", 0))));
        Assert.Throws<ArgumentNullException>(() => FluidModel.PengRobinson.CapacityErrorOf(null!));
    }

    [Fact]
    public void TranslationIsAnotherModelAndLeavesTheFirstAlone()
    {
        FluidModel translated = FluidModel.SoaveRedlichKwong.WithVolumeTranslation();
        Assert.True(translated.IsVolumeTranslated);
        Assert.False(FluidModel.SoaveRedlichKwong.IsVolumeTranslated);
        Assert.Equal("Soave-Redlich-Kwong (1972), volumes translated", translated.ToString());
    }

    [Fact]
    public void PedigreeNamesModelReasonAndEachPair()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", 0.25), ("methane", 0.25), ("trifluoromethane", 0.25), ("hexafluoroethane", 0.25));
        Assert.StartsWith("default", fluid.Pedigree.Reason, StringComparison.Ordinal);
        FluidPedigree pedigree = fluid.WithModel(FluidModel.PengRobinson).Pedigree;
        Assert.Same(FluidModel.PengRobinson, pedigree.Model);
        Assert.Equal(6, pedigree.Pairs.Count);
        Assert.Equal(PairTier.Published, Pair("nitrogen", "methane").Tier);
        CubicPair fitted = Pair("trifluoromethane", "hexafluoroethane");
        Assert.Equal(PairTier.FittedHere, fitted.Tier);
        Assert.False(string.IsNullOrEmpty(fitted.FittedTo));
        Assert.All(pedigree.EstimatedPairs.Cast<CubicPair>(), p => Assert.True(p.HalfWidth95 > 0));
        Assert.Equal(pedigree.Pairs.Count(p => p.Tier == PairTier.Estimated), pedigree.EstimatedPairs.Count());
        Assert.NotEmpty(pedigree.EstimatedPairs);
        Assert.Equal("chosen by the caller", fluid.WithModel(FluidModel.SoaveRedlichKwong).Pedigree.Reason);

        // The parameter told is the parameter used: half of the attraction's cross term shows in d ln phi/dn.
        Assert.All(fluid.WithModel(FluidModel.SoaveRedlichKwong).Pedigree.Pairs, p => Assert.Equal(CubicModelKind.SoaveRedlichKwong, Assert.IsType<CubicPair>(p).Model));

        CubicPair Pair(string a, string b) => (CubicPair)pedigree.Pairs.Single(p =>
            (p.First.Name == a && p.Second.Name == b) || (p.First.Name == b && p.Second.Name == a));
    }
}
