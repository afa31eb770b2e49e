using BenchmarkDotNet.Attributes;

namespace CryoThermo.Benchmarks;

/// <summary>Whole phase envelopes, critical points and states of given vapour fraction of a five-component blend, with both models.</summary>
[MemoryDiagnoser]
public class EnvelopeBenchmarks
{
    private WorkingFluid fluid = null!;

    /// <summary>Which model.</summary>
    [Params("cubic", "multi-fluid")]
    public string Model { get; set; } = "cubic";

    /// <summary>Builds the fluid.</summary>
    [GlobalSetup]
    public void Setup()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.05), ("methane", 0.30), ("ethane", 0.25), ("propane", 0.20), ("isobutane", 0.20));
        fluid = Model == "cubic" ? blend.WithModel(FluidModel.PengRobinson) : blend;
    }

    /// <summary>Dew line, critical point and bubble line with extrema, every point tested for stability.</summary>
    [Benchmark]
    public int Envelope() => fluid.PhaseEnvelope().Points.Count;

    /// <summary>All critical points by their conditions.</summary>
    [Benchmark]
    public int CriticalPoints() => fluid.CriticalPoints().Count;

    /// <summary>The state of vapour fraction 0.4 at 3 bar.</summary>
    [Benchmark]
    public double VaporFraction() => fluid.AtVaporFraction(UnitsNet.Pressure.FromBars(3), 0.4).Temperature.Kelvins;
}
