namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>How far a multi-fluid mixture is followed.</summary>
/// <param name="LowestTemperature">K.</param>
/// <param name="HighestTemperature">K.</param>
/// <param name="HighestPressure">Pa.</param>
/// <param name="HighestTau">The tau above which departure functions are continued linearly in tau.</param>
/// <param name="SafeTau">The highest critical temperature over this is where liquids begin to be in danger of vanishing from the equations.</param>
internal readonly record struct MultiFluidRange(double LowestTemperature, double HighestTemperature, double HighestPressure, double HighestTau, double SafeTau);
