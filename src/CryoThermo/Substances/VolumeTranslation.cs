namespace CryoThermo.Substances;

/// <summary>
/// Constant shifts of the molar volume of cubic equations: true volume = volume of the cubic - shift. They leave fugacity ratios as they are.
/// Immutable and thread-safe. Method: Peneloux, Rauzy, Freze, Fluid Phase Equilib. 8 (1982) 7.
/// </summary>
/// <param name="PengRobinson">Shift for the Peng-Robinson equation, m3/mol.</param>
/// <param name="SoaveRedlichKwong">Shift for the Soave-Redlich-Kwong equation, m3/mol.</param>
/// <param name="FittedTemperature">Temperature of the saturated liquid the shifts reproduce, K.</param>
/// <param name="FittedMolarDensity">Molar density of that liquid, mol/m3.</param>
/// <param name="LiquidDensityProvenance">Source and marks of that density.</param>
/// <param name="Provenance">Source and marks of the shifts.</param>
public sealed record VolumeTranslation(
    double PengRobinson,
    double SoaveRedlichKwong,
    double FittedTemperature,
    double FittedMolarDensity,
    Provenance LiquidDensityProvenance,
    Provenance Provenance);
