using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>What a pair file holds for the multi-fluid model.</summary>
/// <param name="Equations">Equations of the components of a mixture standard, by substance key; empty in files of users.</param>
/// <param name="Departures">Departure functions, by name.</param>
/// <param name="Pairs">Pairs.</param>
internal sealed record MultiFluidFile(
    ImmutableDictionary<string, HelmholtzEquation> Equations,
    ImmutableDictionary<string, DepartureFunction> Departures,
    IReadOnlyList<MultiFluidPair> Pairs);
