using CryoThermo.Charts;
using FsCheck.Xunit;

namespace CryoThermo.Tests.Charts;

public sealed class LabelPlacementTests
{
    private const double Width = 0.25;
    private const double Height = 0.06;

    /// <summary>Two curves near a diagonal leave two free corners: the label's box must lie in the area and on no curve.</summary>
    [Property]
    public void TheBoxCoversNoCurveOfADiagonalPair(byte place, byte gap)
    {
        double share = place / 255.0;
        double offset = 0.001 + (0.1 * gap / 255.0);
        (double X, double Y)[] upper = [.. Enumerable.Range(0, 21).Select(i => (i / 20.0, Math.Min(1, (i / 20.0) + offset)))];
        (double X, double Y)[] lower = [.. Enumerable.Range(0, 21).Select(i => (i / 20.0, i / 20.0))];

        (double x, double y) = LabelPlacement.Near(share, share, Width, Height, [upper, lower]);

        Assert.InRange(x, Width / 2, 1 - (Width / 2));
        Assert.InRange(y, Height / 2, 1 - (Height / 2));
        Assert.All(upper.Concat(lower).SelectMany(static p => Refine(p)), p => Assert.False(
            Math.Abs(p.X - x) < Width / 2 && Math.Abs(p.Y - y) < Height / 2, $"the box at {x}, {y} covers {p}"));

        static IEnumerable<(double X, double Y)> Refine((double X, double Y) p) =>
            Enumerable.Range(0, 5).Select(k => (p.X + (k * 0.01), p.Y + (k * 0.01)));
    }

    [Fact]
    public void AFreePlaceAtThePointItselfIsTaken()
    {
        (double x, double y) = LabelPlacement.Near(0.5, 0.5, Width, Height, []);

        Assert.Equal(0.5, x, 0.01);
        Assert.Equal(0.5, y, 0.01);
    }
}
