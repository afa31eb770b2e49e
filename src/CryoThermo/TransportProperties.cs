using CryoThermo.Diagnostics;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>Viscosity and thermal conductivity of one phase, each with its method and stated uncertainty. Immutable and thread-safe.</summary>
/// <param name="Viscosity">Dynamic viscosity.</param>
/// <param name="ViscosityMethod">How it was computed and how sure it is.</param>
/// <param name="ThermalConductivity">Thermal conductivity.</param>
/// <param name="ConductivityMethod">How it was computed and how sure it is.</param>
/// <param name="PrandtlNumber">Isobaric heat capacity over mass times viscosity over thermal conductivity, dimensionless.</param>
/// <param name="Notes">What lies outside the stated range of a correlation used; empty when nothing does.</param>
public sealed record TransportProperties(
    DynamicViscosity Viscosity,
    TransportMethod ViscosityMethod,
    ThermalConductivity ThermalConductivity,
    TransportMethod ConductivityMethod,
    double PrandtlNumber,
    IReadOnlyList<RangeNote> Notes);
