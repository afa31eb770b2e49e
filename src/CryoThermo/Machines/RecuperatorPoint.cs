using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>One place along a recuperator.</summary>
/// <param name="DutyFromColdEnd">Heat exchanged between the cold end and this place.</param>
/// <param name="Hot">Temperature of the stream that is cooled.</param>
/// <param name="Cold">Temperature of the stream that is warmed.</param>
public sealed record RecuperatorPoint(Power DutyFromColdEnd, Temperature Hot, Temperature Cold);
