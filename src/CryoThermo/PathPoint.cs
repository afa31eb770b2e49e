using UnitsNet;

namespace CryoThermo;

/// <summary>A named place on the path of a fluid.</summary>
/// <param name="Place">For example "throttle inlet".</param>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
public sealed record PathPoint(string Place, Temperature Temperature, Pressure Pressure);
