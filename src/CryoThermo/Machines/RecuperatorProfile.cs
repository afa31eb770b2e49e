namespace CryoThermo.Machines;

/// <summary>
/// Temperatures along a recuperator from its cold to its warm end; the points include every node of both isobars.
/// </summary>
/// <param name="Duty">Heat exchanged between the cold end and each point, W, rising from 0.</param>
/// <param name="HotTemperature">Temperature of the hot stream, K.</param>
/// <param name="ColdTemperature">Temperature of the cold stream, K.</param>
internal sealed record RecuperatorProfile(double[] Duty, double[] HotTemperature, double[] ColdTemperature);
