using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>The limit that stops a charge, with its figures. Immutable and thread-safe.</summary>
/// <param name="Limit">Which limit.</param>
/// <param name="Component">The component being filled when it is met; the one that is too much for <see cref="ChargeLimit.NegativeAmount"/>.</param>
/// <param name="Place">The volume where it condenses; null for other limits.</param>
/// <param name="Reached">Absolute pressure the step would reach; null when no pressure is the matter.</param>
/// <param name="Allowed">Absolute pressure the step must stay below; null when it is not known or no pressure is the matter.</param>
/// <param name="Message">The limit and its figures in words.</param>
public sealed record ChargeRefusal(ChargeLimit Limit, Substance Component, string? Place, Pressure? Reached, Pressure? Allowed, string Message);
