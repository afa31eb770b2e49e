using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>Whether a motor can start against the standing pressure. Immutable and thread-safe.</summary>
/// <param name="Standing">The machine at rest.</param>
/// <param name="Limit">Highest absolute pressure the motor starts against, as stated.</param>
/// <param name="CanStart">Whether the standing pressure is not above the limit.</param>
/// <param name="Margin">Limit less standing pressure; negative when it cannot start.</param>
/// <param name="Cautions">What to do when it cannot, and what liquid in a resting machine does.</param>
public sealed record StartCheck(StandingState Standing, Pressure Limit, bool CanStart, Pressure Margin, IReadOnlyList<Caution> Cautions);
