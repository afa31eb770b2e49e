using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Heat through a gas or liquid shut in between two walls, radiation left out. Immutable and thread-safe.</summary>
/// <param name="RayleighNumber">On the length that the correlation takes.</param>
/// <param name="NusseltNumber">Heat over that of conduction alone, 1 or more.</param>
/// <param name="Coefficient">Heat for each area of the wall (the inner one of cylinders) and kelvin.</param>
/// <param name="Flux">For each area of the wall (the inner one of cylinders), from warm to cold.</param>
/// <param name="UncertaintyPercent">How far it may be off, percent; judged from the scatter that textbooks quote, from memory.</param>
/// <param name="Source">The correlation.</param>
/// <param name="Notes">What lies outside the range of the correlation; empty when nothing does.</param>
public sealed record GapConvectionResult(
    double RayleighNumber,
    double NusseltNumber,
    HeatTransferCoefficient Coefficient,
    HeatFlux Flux,
    double UncertaintyPercent,
    Source Source,
    IReadOnlyList<string> Notes);
