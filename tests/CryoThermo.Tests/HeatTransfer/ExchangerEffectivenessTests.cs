using CryoThermo.HeatTransfer;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class ExchangerEffectivenessTests
{
    private static readonly FlowArrangement[] All = Enum.GetValues<FlowArrangement>();

    /// <summary>Cross-flow by finite differences: written independently of the series and of the formulas of a mixed stream.</summary>
    [Theory]
    [InlineData(0.5, 0.3)]
    [InlineData(1, 1)]
    [InlineData(3, 0.7)]
    [InlineData(4, 1)]
    public void CrossFlowIsThatOfFiniteDifferences(double transferUnits, double ratio)
    {
        Assert.Equal(Extrapolated(transferUnits, ratio, false, false), ExchangerEffectiveness.Effectiveness(FlowArrangement.CrossFlowBothUnmixed, transferUnits, ratio), 2e-5);
        Assert.Equal(Extrapolated(transferUnits, ratio, true, false), ExchangerEffectiveness.Effectiveness(FlowArrangement.CrossFlowLesserMixed, transferUnits, ratio), 2e-5);
        Assert.Equal(Extrapolated(transferUnits, ratio, false, true), ExchangerEffectiveness.Effectiveness(FlowArrangement.CrossFlowGreaterMixed, transferUnits, ratio), 2e-5);
    }

    /// <summary>Handbook figures of Kays and London's tables, from memory, three digits.</summary>
    [Theory]
    [InlineData(FlowArrangement.CounterFlow, 1, 1, 0.500)]
    [InlineData(FlowArrangement.CounterFlow, 3, 0.5, 0.874)]
    [InlineData(FlowArrangement.ParallelFlow, 1, 1, 0.432)]
    [InlineData(FlowArrangement.CrossFlowBothUnmixed, 1, 1, 0.476)]
    [InlineData(FlowArrangement.OneTemperature, 2, 0, 0.865)]
    public void HandbookFiguresAreMet(FlowArrangement arrangement, double transferUnits, double ratio, double expected) =>
        Assert.Equal(expected, ExchangerEffectiveness.Effectiveness(arrangement, transferUnits, ratio), 0.0015);

    [Fact]
    public void LimitsAndOrderHold()
    {
        Random random = new(3);
        for (int i = 0; i < 2000; i++)
        {
            double n = Math.Pow(10, (5 * random.NextDouble()) - 2);
            double c = random.Next(5) == 0 ? random.Next(2) : Math.Pow(10, -12 * random.NextDouble());
            double counter = ExchangerEffectiveness.Effectiveness(FlowArrangement.CounterFlow, n, c);
            double unmixed = ExchangerEffectiveness.Effectiveness(FlowArrangement.CrossFlowBothUnmixed, n, c);
            double parallel = ExchangerEffectiveness.Effectiveness(FlowArrangement.ParallelFlow, n, c);
            double single = ExchangerEffectiveness.Effectiveness(FlowArrangement.OneTemperature, n, c);
            Assert.True(single >= counter - 1e-12 && counter >= unmixed - 1e-9 && unmixed >= parallel - 1e-9, $"{n:R} {c:R}: {single} {counter} {unmixed} {parallel}");
            foreach (FlowArrangement arrangement in All)
            {
                double e = ExchangerEffectiveness.Effectiveness(arrangement, n, c);
                Assert.True(e is >= 0 and <= 1, $"{arrangement} {n:R} {c:R}: {e}");
                Assert.True(e <= single + 1e-12, $"{arrangement} {n:R} {c:R}: {e}");
                if (e < 0.999 * ExchangerEffectiveness.Effectiveness(arrangement, 1000, c))
                {
                    double back = ExchangerEffectiveness.TransferUnits(arrangement, e, c);
                    Assert.Equal(e, ExchangerEffectiveness.Effectiveness(arrangement, back, c), 1e-9);
                }
            }
        }

        foreach (FlowArrangement arrangement in All)
        {
            Assert.Equal(0, ExchangerEffectiveness.Effectiveness(arrangement, 0, 0.5));
            Assert.Equal(1 - Math.Exp(-2), ExchangerEffectiveness.Effectiveness(arrangement, 2, 0), 1e-12);
            Assert.Equal(0, ExchangerEffectiveness.TransferUnits(arrangement, 0, 0.5));
        }
    }

    [Fact]
    public void FiguresOutOfRangeAreRefused()
    {
        Assert.Equal("transferUnits", Assert.Throws<ArgumentOutOfRangeException>(() => ExchangerEffectiveness.Effectiveness(FlowArrangement.CounterFlow, -1, 1)).ParamName);
        Assert.Equal("capacityRatio", Assert.Throws<ArgumentOutOfRangeException>(() => ExchangerEffectiveness.Effectiveness(FlowArrangement.CounterFlow, 1, double.NaN)).ParamName);
        Assert.Equal("arrangement", Assert.Throws<ArgumentOutOfRangeException>(() => ExchangerEffectiveness.Effectiveness((FlowArrangement)99, 1, 1)).ParamName);
        Assert.Equal("effectiveness", Assert.Throws<ArgumentOutOfRangeException>(() => ExchangerEffectiveness.TransferUnits(FlowArrangement.ParallelFlow, 0.6, 1)).ParamName);
    }

    private static double Extrapolated(double n, double c, bool firstMixed, bool secondMixed)
    {
        double coarse = Meshed(n, c, firstMixed, secondMixed, 100);
        return ((4 * Meshed(n, c, firstMixed, secondMixed, 200)) - coarse) / 3;
    }

    // The lesser stream (capacity rate 1, enters at 1) runs along x, the greater (1/c, enters at 0) along y; means of the sides of each cell. A mixed
    // stream has one temperature across its width.
    private static double Meshed(double n, double c, bool lesserMixed, bool greaterMixed, int m)
    {
        double part = n / m;
        double otherPart = n * c / m;
        double outlet = 0;
        if (lesserMixed)
        {
            // Column by column: the lesser stream of one temperature passes the greater, which enters fresh at every column.
            double temperature = 1;
            for (int i = 0; i < m; i++)
            {
                double share = (1 - Math.Exp(-c * n)) / c / m;
                temperature *= (1 - (share / 2)) / (1 + (share / 2));
            }

            return 1 - temperature;
        }

        if (greaterMixed)
        {
            double temperature = 0;
            for (int j = 0; j < m; j++)
            {
                double share = c * (1 - Math.Exp(-n)) / m;
                double next = (temperature + (share * (1 - (temperature / 2)))) / (1 + (share / 2));
                outlet += ((1 - ((temperature + next) / 2)) * (1 - Math.Exp(-n))) / m;
                temperature = next;
            }

            return outlet;
        }

        double[] along = new double[m];
        Array.Fill(along, 1);
        double[] across = new double[m];
        for (int i = 0; i < m; i++)
        {
            // A column of cells at x = i, the greater stream entering at 0.
            double other = 0;
            for (int j = 0; j < m; j++)
            {
                // Both ends means: a1 = a0 - part (am - bm), b1 = b0 + otherPart (am - bm).
                double difference = (along[j] - other) / (1 + (0.5 * (part + otherPart)));
                along[j] -= part * difference;
                other += otherPart * difference;
            }

            across[i] = other;
        }

        return across.Average() / c;
    }
}
