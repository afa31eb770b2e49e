namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>How far a multi-fluid mixture is followed.</summary>
/// <param name="LowestTemperature">K.</param>
/// <param name="HighestTemperature">K.</param>
/// <param name="HighestPressure">Pa.</param>
internal readonly record struct MultiFluidRange(double LowestTemperature, double HighestTemperature, double HighestPressure);
