using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;

namespace CryoThermo.Tests.Checks;

/// <summary>Published mixtures of throttle coolers. Each figure stands with its source and tolerance in published-cooler-mixtures.json.</summary>
public sealed class CoolerCheckTests
{
    [Fact]
    public void EachFigureIsInsideItsToleranceOrTheMissIsKnown()
    {
        CoolerCheck[] missed = [.. CoolerCheck.All.Where(c => !c.IsMet)];
        Assert.Equal(
            string.Join('\n', CheckValues.KnownCoolerMisses.Select(m => m.Subject).Order(StringComparer.Ordinal)),
            string.Join('\n', missed.Select(c => c.Subject).Order(StringComparer.Ordinal)));
        Assert.All(CheckValues.KnownCoolerMisses, known =>
        {
            CoolerCheck now = missed.Single(c => c.Subject == known.Subject);
            Assert.Equal(known.Limit, now.Limit!.Value, 9);
            Assert.True(Math.Abs(Math.Abs(now.Deviation) - known.Reached) <= 0.01 * known.Reached, $"{known.Subject}: {now.Deviation:G4}, {known.Reached} when it was noted");
            Assert.NotEmpty(known.Reason);
        });
    }

    [Fact]
    public void NothingMeasuredIsAboveTheComputedLimit()
    {
        // Measured 1765 J/mol gross at 150 K: Derking et al., Cryogenics 57 (2013) 26-30, abstract; both warm ends, both models.
        CoolerCheck[] measured = [.. CoolerCheck.All.Where(c => c.Figure is { IsReported: true, Quantity: CoolerQuantity.ShareOfGreatest })];
        Assert.Equal(4, measured.Length);
        Assert.All(measured, c => Assert.InRange(c.Computed, 0.5, 1));
    }

    [Fact]
    public void EachMixtureIsWholeAndComparedByBothModels()
    {
        Assert.Equal(20, CheckValues.CoolerMixtures.Count);
        Assert.All(CheckValues.CoolerMixtures, mixture =>
        {
            Assert.Equal(1, mixture.MoleFractions.Values.Sum(), 1e-6);
            Assert.NotEmpty(mixture.Source);
            Assert.NotEmpty(mixture.Figures);
            Assert.All(CoolerModel.Both, model => Assert.Contains(CoolerCheck.All, c => c.Mixture == mixture && c.Model == model));
        });
        Assert.Equal(CoolerCheck.All.Count, CoolerCheck.All.Select(c => c.Subject).Distinct().Count());
        Assert.All(CoolerCheck.All, c => Assert.True(double.IsFinite(c.Computed) && double.IsFinite(c.Deviation), c.Subject));
    }
}
