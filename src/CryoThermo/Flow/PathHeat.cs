using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>Heat through one path. Immutable and thread-safe.</summary>
/// <param name="Path">The path.</param>
/// <param name="WarmEnd">Temperature of its warm end.</param>
/// <param name="Heat">Heat through it, positive towards the outlet.</param>
/// <param name="UncertaintyShare">Greatest of the uncertainties of its metals, as a share.</param>
public sealed record PathHeat(ConductionPath Path, Temperature WarmEnd, Power Heat, double UncertaintyShare);
