using System.Diagnostics.CodeAnalysis;
using CryoThermo.Equilibrium;
using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

[Experimental("CRYO001")]
public sealed class BatchTests
{
    private static readonly (Temperature Temperature, Pressure Pressure)[] Points =
    [
        .. Enumerable.Range(0, 400).Select(k => (Temperature.FromKelvins(80 + (0.6 * k)), Pressure.FromBars(1 + (k % 7 * 3)))),
    ];

    [Fact]
    public void TheStatesAreThoseOfSingleCallsToTheLastDigit()
    {
        List<double> shares = [];
        IReadOnlyList<State> states = Blends.FiveParts.AtEach(Points, new Recorder(shares));
        Assert.Equal(Points.Length, states.Count);
        for (int i = 0; i < Points.Length; i++)
        {
            State single = Blends.FiveParts.At(Points[i].Temperature, Points[i].Pressure);
            Assert.Equal(single.MolarEnthalpy.JoulesPerMole, states[i].MolarEnthalpy.JoulesPerMole);
            Assert.Equal(single.MolarEntropy.JoulesPerMoleKelvin, states[i].MolarEntropy.JoulesPerMoleKelvin);
            Assert.Equal(single.PhaseDescription, states[i].PhaseDescription);
            Assert.Equal(single.Phases.SelectMany(p => p.Composition.MoleFractions), states[i].Phases.SelectMany(p => p.Composition.MoleFractions));
        }

        Assert.Contains(1.0, shares);
        Assert.True(shares.Count >= 100);
    }

    [Fact]
    public void ItCanBeEndedEarly()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => Blends.FiveParts.AtEach(Points, cancellation: source.Token));
    }

    [Fact]
    public void AFaultyPointIsNamed()
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(
            () => Blends.FiveParts.AtEach([Points[0], (Temperature.FromKelvins(5000), Pressure.FromBars(1))]));
        Assert.Equal("points[1].Temperature", error.ParamName);
        Assert.Empty(Blends.FiveParts.AtEach([]));
    }

    [Fact]
    public void TheFiguresOfTheKernelAreThoseOfSingleCallsToTheLastDigit()
    {
        FlashKernel kernel = Blends.FiveParts.FlashKernel;
        double[] z = Blends.FiveParts.Fractions();
        double[] t = [.. Points.Select(p => p.Temperature.Kelvins)];
        double[] bar = [.. Points.Select(p => p.Pressure.Pascals)];
        FlashFigures[] figures = new FlashFigures[t.Length];
        List<double> shares = [];
        kernel.SolveEach(t, bar, z, figures, new Recorder(shares));
        double[] light = new double[z.Length];
        double[] middle = new double[z.Length];
        double[] heavy = new double[z.Length];
        for (int i = 0; i < t.Length; i++)
        {
            Assert.Equal(kernel.Solve(t[i], bar[i], z, light, middle, heavy), figures[i]);
        }

        Assert.Contains(1.0, shares);
        kernel.SolveEach(default, default, z, default);
        Assert.Equal("figures", Assert.Throws<ArgumentException>(() => kernel.SolveEach(t, bar, z, new FlashFigures[1])).ParamName);
        t[7] = 5000;
        Assert.Throws<ArgumentOutOfRangeException>(() => kernel.SolveEach(t, bar, z, figures));
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => kernel.SolveEach(t, bar, z, figures, null, source.Token));
    }

    private sealed class Recorder(List<double> shares) : IProgress<double>
    {
        public void Report(double value)
        {
            lock (shares)
            {
                shares.Add(value);
            }
        }
    }
}
