namespace CryoThermo.Coolers;

/// <summary>A lowest temperature of a throttle cycle.</summary>
/// <param name="Temperature">Temperature, K.</param>
/// <param name="AtEndOfIsobars">
/// True when nothing but the lower end of the isobars stopped the search: the cycle may reach lower than this.
/// </param>
internal readonly record struct ColdLimit(double Temperature, bool AtEndOfIsobars);
