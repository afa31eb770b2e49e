namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>Natural logarithms of the limits of metastability and of saturation at one temperature (mol/m3, Pa).</summary>
/// <param name="VaporLimit">ln of the density where a supersaturated vapour ceases to exist.</param>
/// <param name="LiquidLimit">ln of the density where a superheated liquid ceases to exist.</param>
/// <param name="VaporDensity">ln of the density of the saturated vapour.</param>
/// <param name="LiquidDensity">ln of the density of the saturated liquid.</param>
/// <param name="Pressure">ln of the vapour pressure.</param>
internal readonly record struct CoexistencePoint(
    double VaporLimit, double LiquidLimit, double VaporDensity, double LiquidDensity, double Pressure);
