namespace CryoThermo.Tests.HeatTransfer;

public sealed class TwoStreamExchangerTests
{
    [Theory]
    [InlineData(0.5, 1)]
    [InlineData(30, 1)]
    [InlineData(1000, 1)]
    [InlineData(30, 0.9)]
    [InlineData(400, 0.97)]
    public void WithoutLeakItIsTheTextbookFormula(double transferUnits, double ratio)
    {
        // W. M. Kays, A. L. London, Compact Heat Exchangers (from memory).
        double e = Math.Exp(-transferUnits * (1 - ratio));
        double expected = ratio < 1 ? (1 - ratio) * e / (1 - (ratio * e)) : 1 / (1 + transferUnits);
        TwoStreamExchanger exchanger = new(transferUnits, 1, 1 / ratio, 300, 80);
        Assert.Equal(expected, (exchanger.HotOutlet - 80) / 220, 1e-12);
        Assert.Equal(0, exchanger.HeatFromSurroundings, 1e-8);
    }

    [Fact]
    public void HeatEvenlyGivenFollowsItsClosedForm()
    {
        // Equal capacity rates C, heat q evenly into the cold stream, derived by hand: with D the difference, D' = -q/C (place from the hot end), and
        // Th' = -N D; so D(0) = (dT + (N/2 - ...)) solved below by integrating the two lines directly.
        const double N = 25;
        const double Q = 3;
        const double C = 2;
        TwoStreamExchanger exchanger = new(N * C, C, C, 300, 80, coldHeat: Q);

        // D(s) = D0 + (Q/C) s, Th(1) = 300 - N (D0 + Q/(2C)), Th(1) - 80 = D0 + Q/C.
        double first = (220 - (N * Q / (2 * C)) - (Q / C)) / (1 + N);
        Assert.Equal(80 + first + (Q / C), exchanger.HotOutlet, 1e-9);
        Assert.Equal(Q, exchanger.HeatFromSurroundings, 1e-9);
        (double hot, double cold) = exchanger.At(0.4);
        Assert.Equal(first + (0.4 * Q / C), hot - cold, 1e-9);
        Assert.Equal(300 - (N * ((first * 0.4) + (0.5 * 0.16 * Q / C))), hot, 1e-9);
    }

    [Fact]
    public void AStreamAloneWarmsToTheSurroundings()
    {
        TwoStreamExchanger exchanger = new(0, 2, 3, 250, 90, coldLeak: 6, surroundings: 310);
        Assert.Equal(250, exchanger.HotOutlet, 1e-10);
        Assert.Equal(310 - (220 * Math.Exp(-2)), exchanger.ColdOutlet, 1e-9);
    }

    [Fact]
    public void ALeakThroughAConductanceIsMetByStepsOfRunge()
    {
        TwoStreamExchanger exchanger = new(8, 1, 1.1, 300, 80, hotLeak: 0.1, coldLeak: 0.3, surroundings: 305, hotHeat: 1, coldHeat: 2);

        // From the hot end with the cold outlet found, fourth order (Runge and Kutta).
        double hot = 300;
        double cold = exchanger.ColdOutlet;
        const int Steps = 4000;
        const double H = 1.0 / Steps;
        for (int i = 0; i < Steps; i++)
        {
            (double h1, double c1) = Slope(hot, cold);
            (double h2, double c2) = Slope(hot + (0.5 * H * h1), cold + (0.5 * H * c1));
            (double h3, double c3) = Slope(hot + (0.5 * H * h2), cold + (0.5 * H * c2));
            (double h4, double c4) = Slope(hot + (H * h3), cold + (H * c3));
            hot += H / 6 * (h1 + (2 * h2) + (2 * h3) + h4);
            cold += H / 6 * (c1 + (2 * c2) + (2 * c3) + c4);
            if (i == (Steps / 4) - 1)
            {
                Assert.Equal(hot, exchanger.At(0.25).Hot, 1e-6);
                Assert.Equal(cold, exchanger.At(0.25).Cold, 1e-6);
            }
        }

        Assert.Equal(80, cold, 1e-6);
        Assert.Equal(hot, exchanger.HotOutlet, 1e-6);

        static (double Hot, double Cold) Slope(double hot, double cold) =>
            ((-8 * (hot - cold)) + (0.1 * (305 - hot)) + 1, -((8 * (hot - cold)) + (0.3 * (305 - cold)) + 2) / 1.1);
    }
}
