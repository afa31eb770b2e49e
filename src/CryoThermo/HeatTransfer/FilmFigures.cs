namespace CryoThermo.HeatTransfer;

/// <summary>A film coefficient. SI.</summary>
/// <param name="Coefficient">W/(m2 K), per wall through which the heat goes.</param>
/// <param name="RelativeUncertainty">Stated uncertainty over the value.</param>
/// <param name="Regime">How the stream flows.</param>
/// <param name="Reynolds">Reynolds number with the hydraulic diameter; with two phases that of the liquid flowing alone.</param>
internal readonly record struct FilmFigures(double Coefficient, double RelativeUncertainty, FilmRegime Regime, double Reynolds);
