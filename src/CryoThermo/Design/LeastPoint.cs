namespace CryoThermo.Design;

/// <summary>A local minimum of the enthalpy difference of the streams.</summary>
/// <param name="Temperature">On the low-pressure stream, K.</param>
/// <param name="Difference">J/mol.</param>
internal readonly record struct LeastPoint(double Temperature, double Difference);
