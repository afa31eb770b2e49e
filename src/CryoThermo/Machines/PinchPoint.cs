using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>The place in a recuperator where both streams are closest in temperature.</summary>
/// <param name="Hot">Temperature of the stream that is cooled.</param>
/// <param name="Cold">Temperature of the stream that is warmed.</param>
/// <param name="DutyFromColdEnd">Heat exchanged between the cold end and this place.</param>
/// <param name="Location">At an end, or inside.</param>
public sealed record PinchPoint(Temperature Hot, Temperature Cold, Power DutyFromColdEnd, PinchLocation Location)
{
    /// <summary>Least temperature difference.</summary>
    public TemperatureDelta Approach => TemperatureDelta.FromKelvins(Hot.Kelvins - Cold.Kelvins);
}
