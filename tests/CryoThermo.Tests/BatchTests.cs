using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests;

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
