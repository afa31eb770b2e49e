namespace CryoThermo.Checks.Values;

/// <summary>Isothermal enthalpy difference of a pure gas by a reference equation, J/mol: computed, not published.</summary>
public sealed record ReferenceDifference(
    string Fluid,
    double Temperature,
    double LowPressure,
    double HighPressure,
    double Difference,
    double TemperatureAfterThrottle,
    bool Published,
    string Equation);
