using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using CryoThermo.Tests.HeatTransfer;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Machines;

/// <summary>The solver of exchangers of tubes with constant properties, against exact solutions.</summary>
public sealed class ExchangeSolverTests(ITestOutputHelper output)
{
    private const double Warm = 300;
    private const double Cold = 100;
    private const double HeatCapacity = 1500;

    // Number of transfer units by the smaller capacity rate, ratio of the capacity rates, which is the smaller.
    [Theory]
    [InlineData(0.5, 1, true)]
    [InlineData(3, 0.7, true)]
    [InlineData(8, 0.95, false)]
    [InlineData(30, 1, true)]
    [InlineData(60, 0.9, false)]
    [InlineData(200, 1, true)]
    public void ConstantPropertiesAreExact(double units, double ratio, bool hotIsLess)
    {
        double least = 2;
        double hotRate = hotIsLess ? least : least / ratio;
        double coldRate = hotIsLess ? least / ratio : least;
        ExchangeProfile found = Solve(units * least, 1, hotRate, coldRate, new Plain());

        // The effectiveness of counter-flow, any textbook of heat transfer.
        double decay = Math.Exp(-units * (1 - ratio));
        double effectiveness = ratio == 1 ? units / (1 + units) : (1 - decay) / (1 - (ratio * decay));
        double duty = hotRate * (found.HotTemperature[0] - found.HotTemperature[^1]);
        output.WriteLine($"{duty / (least * (Warm - Cold)):R} of {effectiveness:R}");
        Assert.Equal(1, duty / (least * (Warm - Cold)) / effectiveness, 1e-6);
        Assert.Equal(1, coldRate * (found.ColdTemperature[0] - found.ColdTemperature[^1]) / duty, 1e-6);
    }

    [Theory]
    [InlineData(5, 1, 0.02, 1)]
    [InlineData(15, 0.9, 0.01, 0)]
    [InlineData(2, 0.6, 0.3, 0.4)]
    public void HeatFromOutsideIsAsInTheExactSolution(double units, double ratio, double leakShare, double toHot)
    {
        double least = 2;
        double around = 290;
        TwoStreamExchanger exact = new(
            units * least, least, least / ratio, Warm, Cold, leakShare * least * toHot, leakShare * least * (1 - toHot), around);
        ExchangeProfile found = Solve(
            units * least, 1, least, least / ratio, new Plain { AmbientConductance = leakShare * least, AmbientTemperature = around, AmbientShareToHot = toHot });
        output.WriteLine($"{found.HotTemperature[^1]:R} of {exact.HotOutlet:R} K, {found.ColdTemperature[0]:R} of {exact.ColdOutlet:R} K");

        // The leak is taken at the mean of each of 200 segments: an error of second order in them, 1e-4 K here.
        Assert.Equal(exact.HotOutlet, found.HotTemperature[^1], 2e-3);
        Assert.Equal(exact.ColdOutlet, found.ColdTemperature[0], 2e-3);
    }

    [Theory]
    [InlineData(10, 1, 0.01)]
    [InlineData(20, 0.9, 0.02)]
    [InlineData(50, 0.95, 0.005)]
    [InlineData(10, 0.8, 0.1)]
    public void ConductionAlongTheWallCostsWhatTheExactSolutionTells(double units, double ratio, double lambda)
    {
        double least = 2;
        double coldRate = least / ratio;
        double film = 2 * units * least;
        AxialConduction exact = new(film, film, least, coldRate, lambda * least);
        ExchangeProfile found = Solve(units * least, 1, least, coldRate, new Plain { Axial = lambda * least });
        double missing = (found.HotTemperature[^1] - Cold) / (Warm - Cold);
        output.WriteLine($"{missing:R} of {exact.HotIneffectiveness:R}");
        Assert.Equal(1, missing / exact.HotIneffectiveness, 2e-3);
    }

    [Fact]
    public void TheMeanIsTheLogarithmicOneAndItsSlopesAreItsOwn()
    {
        Assert.Equal(10 / Math.Log(2), ExchangeSolver.Mean(20, 10, out _, out _), 1e-12);
        Assert.Equal(7, ExchangeSolver.Mean(7, 7, out double a, out double b), 1e-12);
        Assert.Equal(0.5, a, 1e-12);
        Assert.Equal(0.5, b, 1e-12);
        foreach ((double x, double y) in new[] { (20.0, 10.0), (10, 20), (5, 5.001), (30, 0.5), (0.2, 30), (10, -1), (-3, 12), (-4, -9) })
        {
            double mean = ExchangeSolver.Mean(x, y, out double byX, out double byY);
            const double Step = 1e-5;
            Assert.Equal((ExchangeSolver.Mean(x + Step, y, out _, out _) - ExchangeSolver.Mean(x - Step, y, out _, out _)) / (2 * Step), byX, 1e-6);
            Assert.Equal((ExchangeSolver.Mean(x, y + Step, out _, out _) - ExchangeSolver.Mean(x, y - Step, out _, out _)) / (2 * Step), byY, 1e-6);
            Assert.True(double.IsFinite(mean));
        }
    }

    private static ExchangeProfile Solve(double conductance, double length, double hotRate, double coldRate, ExchangeWall wall)
    {
        // Films of equal conductance make up the whole.
        ExchangeStream.Place film = new(2 * conductance / length, 0, 0, 1, FilmRegime.Turbulent);
        ExchangeStream hot = new(Line(Warm, Cold - 20, 1e6), hotRate / HeatCapacity, film);
        ExchangeStream cold = new(Line(Cold, Warm + 20, 1e5), coldRate / HeatCapacity, film);
        return new ExchangeSolver(hot, cold, wall, 200).Solve(length);
    }

    private static StateLine Line(double from, double to, double pressure) =>
        new([.. Enumerable.Range(0, 11).Select(i => from + ((to - from) * i / 10)).Select((t, i) =>
            new StateNode(0.2 * i, pressure, HeatCapacity * t, t, 0.01, 0, 0, 0, 1 / HeatCapacity, 1e-5, 1, null))]);

    private sealed class Plain : ExchangeWall
    {
        public double Axial { get; init; }

        public override (double ToHot, double ToCold) Resistances(double temperature, double hotFilm, double coldFilm) => (1 / hotFilm, 1 / coldFilm);

        public override double AxialConductance(double temperature) => Axial;
    }
}
