using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a compressor known by its rating does elsewhere, with the spread of what the rating leaves open. Immutable and thread-safe.</summary>
/// <param name="Nominal">With the nominal figures of its class.</param>
/// <param name="MassFlow">Mass flow.</param>
/// <param name="Power">Electrical power.</param>
/// <param name="DischargeTemperature">Temperature at the discharge.</param>
/// <param name="Remarks">What makes it less sure.</param>
public sealed record CompressorEstimate(
    CompressorResult Nominal,
    FigureBand<MassFlow> MassFlow,
    FigureBand<Power> Power,
    FigureBand<Temperature> DischargeTemperature,
    IReadOnlyList<string> Remarks);
