using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>Heat through a multilayer blanket for each area. Immutable and thread-safe.</summary>
/// <param name="Flux">Solid and radiation with the degradation of the wrapping, and gas.</param>
/// <param name="SolidFlux">Through the spacers, as in a calorimeter.</param>
/// <param name="RadiationFlux">From layer to layer, as in a calorimeter.</param>
/// <param name="GasFlux">By the gas left between the layers, kinetic theory.</param>
/// <param name="Sources">Where formulae come from.</param>
/// <param name="Notes">What to know; empty for nothing.</param>
public sealed record MultilayerResult(
    FigureBand<HeatFlux> Flux,
    HeatFlux SolidFlux,
    HeatFlux RadiationFlux,
    HeatFlux GasFlux,
    IReadOnlyList<Source> Sources,
    IReadOnlyList<string> Notes)
{
    /// <summary>Solid, radiation and gas without degradation: a blanket in a calorimeter.</summary>
    public HeatFlux CalorimeterFlux => SolidFlux + RadiationFlux + GasFlux;
}
