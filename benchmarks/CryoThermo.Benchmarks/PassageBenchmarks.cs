using BenchmarkDotNet.Attributes;
using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>Film coefficient and friction of a blend of five components in a coiled annulus.</summary>
[MemoryDiagnoser]
public class PassageBenchmarks
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(
        ("nitrogen", 0.1), ("methane", 0.3), ("ethane", 0.3), ("propane", 0.15), ("isobutane", 0.15));

    private readonly FlowPassage passage = FlowPassage.Annulus(Length.FromMillimeters(6), Length.FromMillimeters(10), coilDiameter: Length.FromMillimeters(150));
    private readonly State state = Blend.At(Temperature.FromKelvins(180), Pressure.FromBars(2));
    private readonly StreamProperties stream = PassageStream.StreamPropertiesOf(Blend.At(Temperature.FromKelvins(180), Pressure.FromBars(2)));

    /// <summary>Film coefficient from figures of the phases.</summary>
    [Benchmark]
    public double Film() => passage.Kernel.Film(stream, 24, HeatDirection.Heated, double.PositiveInfinity, 0).Coefficient;

    /// <summary>Friction from figures of the phases.</summary>
    [Benchmark]
    public double Friction() => passage.Kernel.FrictionGradient(stream, 24);

    /// <summary>Figures of the phases from a state.</summary>
    [Benchmark]
    public double Figures() => PassageStream.StreamPropertiesOf(state).SensibleShare;
}
