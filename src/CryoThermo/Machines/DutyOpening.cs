using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>The opening one duty of a throttle needs. Immutable and thread-safe.</summary>
/// <param name="Duty">The duty.</param>
/// <param name="Flow">What passes, with the valve at that opening.</param>
/// <param name="Opening">Steps and Kv; flagged where the curve does not reach that far.</param>
/// <param name="PressureAtLeastOpening">Absolute pressure before the valve that this duty would need through the least opening of all duties; null where it is above the highest looked at.</param>
public sealed record DutyOpening(ThrottleDuty Duty, ValveFlow Flow, OpeningPoint Opening, Pressure? PressureAtLeastOpening);
