using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>Surface tension between a liquid and a vapour, with its method and stated uncertainty. Immutable and thread-safe.</summary>
/// <param name="Value">The surface tension; zero where both phases become alike.</param>
/// <param name="Method">How it was computed and how sure it is.</param>
public sealed record SurfaceTension(ForcePerLength Value, TransportMethod Method);
