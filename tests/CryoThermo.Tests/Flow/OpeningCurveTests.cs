using CryoThermo.Flow;

namespace CryoThermo.Tests.Flow;

public sealed class OpeningCurveTests
{
    private static readonly OpeningCurve Curve = new(
        new(0, 0), new(40, 0), new(100, 0.002), new(200, 0.010), new(350, 0.010), new(500, 0.05));

    [Fact]
    public void TheCurveGoesThroughItsPointsAndNeverFalls()
    {
        foreach (OpeningPoint point in Curve.Points)
        {
            Assert.Equal(point.FlowCoefficientKv, Curve.KvAt(point.Steps).FlowCoefficientKv, 1e-15);
            Assert.False(Curve.KvAt(point.Steps).IsExtrapolated);
        }

        double before = -1;
        for (double s = 0; s <= 600; s += 0.5)
        {
            double kv = Curve.KvAt(s).FlowCoefficientKv;
            Assert.True(kv >= before);
            before = kv;
        }

        Assert.Equal(40, Curve.DeadBandSteps);
        Assert.Equal(0, Curve.KvAt(20).FlowCoefficientKv);
    }

    [Fact]
    public void StepsAndKvReturnToEachOther()
    {
        for (double s = 41; s < 500; s += 7)
        {
            if (s is > 195 and < 355)
            {
                continue;
            }

            Assert.Equal(s, Curve.StepsFor(Curve.KvAt(s).FlowCoefficientKv).Steps, 1e-6);
        }

        // On a level stretch the least opening; beyond the table straight on, flagged.
        Assert.InRange(Curve.StepsFor(0.010).Steps, 199, 201);
        OpeningPoint beyond = Curve.StepsFor(0.06);
        Assert.True(beyond.IsExtrapolated);
        Assert.Equal(0.06, Curve.KvAt(beyond.Steps).FlowCoefficientKv, 1e-12);
        Assert.True(Curve.KvAt(501).IsExtrapolated);

        OpeningCurve open = new(new OpeningPoint(100, 0.01), new OpeningPoint(500, 0.05));
        Assert.Null(open.DeadBandSteps);
        Assert.True(open.KvAt(50).IsExtrapolated);
        Assert.True(open.StepsFor(0.005).IsExtrapolated);
        Assert.Equal(300, open.StepsFor(0.03).Steps, 1e-9);
    }

    [Fact]
    public void BadTablesAreRefused()
    {
        Assert.Throws<ArgumentException>(() => new OpeningCurve());
        Assert.Throws<ArgumentException>(() => new OpeningCurve(new OpeningPoint(0, 0), new OpeningPoint(10, 0)));
        Assert.Throws<ArgumentException>(() => new OpeningCurve(new OpeningPoint(10, 1), new OpeningPoint(5, 2)));
        Assert.Throws<ArgumentException>(() => new OpeningCurve(new OpeningPoint(0, 1), new OpeningPoint(5, 0.5)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new OpeningCurve(new OpeningPoint(0, -1), new OpeningPoint(5, 0.5)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Curve.KvAt(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Curve.StepsFor(0));
        OpeningCurve level = new(new OpeningPoint(0, 0), new OpeningPoint(10, 1), new OpeningPoint(20, 1));
        Assert.Contains("rises no more", Assert.Throws<ArgumentOutOfRangeException>(() => level.StepsFor(2)).Message, StringComparison.Ordinal);
    }
}
