namespace CryoThermo.Machines;

/// <summary>The point of least temperature difference in a recuperator.</summary>
/// <param name="HotTemperature">Temperature of the hot stream there, K.</param>
/// <param name="ColdTemperature">Temperature of the cold stream there, K.</param>
/// <param name="DutyBelow">Heat exchanged between the cold end and this point, W.</param>
/// <param name="Location">Whether it lies at an end or inside.</param>
internal readonly record struct RecuperatorPinch(
    double HotTemperature, double ColdTemperature, double DutyBelow, PinchLocation Location)
{
    /// <summary>Least temperature difference, K.</summary>
    public double Approach => HotTemperature - ColdTemperature;
}
