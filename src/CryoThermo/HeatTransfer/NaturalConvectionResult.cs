using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Natural convection at a surface. Immutable and thread-safe.</summary>
/// <param name="Coefficient">Mean over the surface.</param>
/// <param name="Flux">From the surface to the medium; negative where the medium is the warmer.</param>
/// <param name="RayleighNumber">On the length that the correlation takes.</param>
/// <param name="NusseltNumber">On the same length.</param>
/// <param name="UncertaintyPercent">How far the coefficient may be off in still air, percent; judged from the scatter that textbooks quote, from memory. A draught doubles it easily.</param>
/// <param name="Source">The correlation.</param>
/// <param name="Notes">What lies outside the range of the correlation; empty when nothing does.</param>
public sealed record NaturalConvectionResult(
    HeatTransferCoefficient Coefficient,
    HeatFlux Flux,
    double RayleighNumber,
    double NusseltNumber,
    double UncertaintyPercent,
    Source Source,
    IReadOnlyList<string> Notes);
