using BenchmarkDotNet.Attributes;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Benchmarks;

/// <summary>A flow through a capillary of 0.7 mm and 1.5 m, methane, ethane and propane from 20 to 2 bar: gas, two phases and liquid at the inlet.</summary>
public class CapillaryBenchmarks
{
    private static readonly Capillary Tube = new(Length.FromMillimeters(0.7), Length.FromMeters(1.5));
    private static readonly Pressure Outlet = Pressure.FromBars(2);

    private State inlet = null!;

    /// <summary>Inlet temperature, K.</summary>
    [Params(300, 220, 150)]
    public double Kelvins { get; set; }

    /// <summary>Whether the recommended model is taken, else Peng-Robinson.</summary>
    [Params(false, true)]
    public bool IsRecommended { get; set; }

    [GlobalSetup]
    public void Setup() => inlet = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.3), ("propane", 0.3))
        .WithModel(IsRecommended ? FluidModel.Recommended : FluidModel.PengRobinson).At(Temperature.FromKelvins(Kelvins), Pressure.FromBars(20));

    [Benchmark]
    public double Flow() => Tube.FlowTo(inlet, Outlet).MassFlow.KilogramsPerSecond;
}
