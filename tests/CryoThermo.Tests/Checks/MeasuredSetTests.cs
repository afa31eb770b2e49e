using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Checks;

public sealed class MeasuredSetTests
{
    [Fact]
    public void EveryNameIsASubstanceOfTheCatalogueInItsOwnSpelling()
    {
        string[] names =
        [
            .. CheckValues.Measured.SelectMany(s => s.Components),
            .. CheckValues.Measured.SelectMany(s => s.Columns).Where(c => c.Of is not null).Select(c => c.Of!),
            .. CheckValues.EquilibriumPoints.SelectMany(p => (p.Liquid ?? p.Vapor!).Keys),
            .. CheckValues.Blends.SelectMany(b => b.MoleFractions.Keys),
            .. CheckValues.Excess.SelectMany(e => e.MoleFractions.Keys),
            .. CheckValues.PureFluidFigures.Select(f => f.Fluid),
            .. CheckValues.ReferenceDifferences.Select(d => d.Fluid),
            .. CheckValues.Tables.SelectMany(t => t.MoleFractions.Keys),
            .. CheckValues.States.SelectMany(s => s.Components),
            .. CheckValues.Splits.SelectMany(s => s.Components),
        ];
        Assert.True(names.Length > 200);
        Assert.All(names.Distinct(), name => Assert.Equal(name, SubstanceCatalog.Default.Find(name).Name));
    }

    [Fact]
    public void EverySetHasASourceAndRowsOfItsColumns()
    {
        Assert.Equal(73, CheckValues.Measured.Count);
        Assert.Equal(CheckValues.Measured.Count, CheckValues.Measured.Select(s => s.Name).Distinct().Count());
        Assert.All(CheckValues.Measured, set =>
        {
            Assert.False(string.IsNullOrWhiteSpace(set.Source));
            Assert.NotEmpty(set.Points);
            Assert.All(set.Points, point => Assert.Equal(set.Columns.Count, point.Count));
        });
    }

    [Fact]
    public void EveryNotedDeviationIsMetOrItsDifferenceExplained()
    {
        NotedComparison[] all = [.. CheckValues.Measured.SelectMany(NotedComparison.Of)];
        Assert.True(all.Length > 100);
        Assert.Empty(all.Where(c => !c.IsMet && c.Reason is null).Select(c => $"{c.Set.Name} {c.Figure.Quantity}: noted {c.Figure.MeanAbsolute}, here {c.Here?.MeanAbsolute}"));

        // No explanation is kept for a difference that is gone.
        Assert.All(CheckValues.Reasons, reason => Assert.Contains(all, c => !c.IsMet && c.Set.Name == reason.Set && c.Figure.Quantity == reason.Quantity));
    }

    [Fact]
    public void TheAccuracyDocumentIsWhatTheCommandWrites() =>
        Assert.Equal(File.ReadAllText(RepositoryFiles.PathOf("docs", "accuracy.md")), AccuracyDocument.Write());
}
