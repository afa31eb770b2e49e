using CryoThermo.Fitting;
using CryoThermo.Numerics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Fitting;

/// <summary>Points made with known pair parameters, with scatter from a fixed seed.</summary>
internal static class SyntheticPoints
{
    public const double Scatter = 0.004;

    public static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    /// <summary>The pair of krypton and methane with other parameters.</summary>
    public static MultiFluidPair Truth { get; } = Catalog.MultiFluidPairOf(Catalog.Find("krypton"), Catalog.Find("methane")) with
    {
        Temperature = new(1.012, 0.962),
        Volume = new(1, 1.03),
    };

    /// <summary>Bubble points with vapour compositions.</summary>
    public static MeasurementSet BubblePoints(int seed, double scatter = Scatter, SubstanceCatalog? with = null, FluidModel? model = null)
    {
        SubstanceCatalog catalog = with ?? Catalog.With(Truth);
        Random random = new(seed);
        List<Measurement> points = [];
        foreach (double kelvins in new[] { 125.0, 140, 155 })
        {
            foreach (double x in new[] { 0.1, 0.3, 0.5, 0.7, 0.9 })
            {
                WorkingFluid fluid = catalog.Mixture(("krypton", x), ("methane", 1 - x));
                State bubble = (model is null ? fluid : fluid.WithModel(model)).BubblePoint(Temperature.FromKelvins(kelvins));
                double y = bubble.Phases[0].Composition["krypton"] + (0.5 * scatter * NormalDeviate.Next(random));
                points.Add(Measurement.OfBubblePressure(
                    Temperature.FromKelvins(kelvins),
                    bubble.Pressure * (1 + (scatter * NormalDeviate.Next(random))),
                    [x, 1 - x],
                    [y, 1 - y],
                    null,
                    new() { PressureRelative = 2 * Math.Max(scatter, 1e-4), VaporFraction = Math.Max(scatter, 1e-4) }));
            }
        }

        return new("made bubble points", new("computed here with known parameters", false), [catalog.Find("krypton"), catalog.Find("methane")], points);
    }

    /// <summary>Liquid and gas densities.</summary>
    public static MeasurementSet Densities(int seed)
    {
        SubstanceCatalog catalog = Catalog.With(Truth);
        Random random = new(seed);
        List<Measurement> points = [];
        foreach (double kelvins in new[] { 120.0, 150, 300 })
        {
            foreach (double x in new[] { 0.3, 0.6 })
            {
                State state = catalog.Mixture(("krypton", x), ("methane", 1 - x)).At(Temperature.FromKelvins(kelvins), Pressure.FromBars(60));
                points.Add(Measurement.OfDensity(
                    state.Temperature, state.Pressure, [x, 1 - x], state.Density * (1 + (0.001 * NormalDeviate.Next(random))), new() { DensityRelative = 0.002 }));
            }
        }

        return new("made densities", new("computed here with known parameters", false), [catalog.Find("krypton"), catalog.Find("methane")], points);
    }
}
