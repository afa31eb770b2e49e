namespace CryoThermo.Design;

/// <summary>The enthalpy difference of the streams at a temperature, with its slope, solved anew.</summary>
/// <param name="Temperature">On the low-pressure stream, K.</param>
/// <param name="Difference">J/mol.</param>
/// <param name="Slope">J/(mol K).</param>
/// <param name="HasTwoLiquids">Whether either stream has more than one liquid there, or phases that are not resolved.</param>
internal readonly record struct DifferenceAt(double Temperature, double Difference, double Slope, bool HasTwoLiquids);
