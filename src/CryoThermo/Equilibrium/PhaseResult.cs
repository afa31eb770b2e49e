namespace CryoThermo.Equilibrium;

/// <summary>One phase of a solved equilibrium.</summary>
/// <param name="Fraction">Moles of the phase over moles of the whole.</param>
/// <param name="IsVapor">True for a vapour (or a vapour-like single phase).</param>
/// <param name="MoleFractions">Mole fractions in component order.</param>
/// <param name="Figures">Thermodynamic figures.</param>
internal sealed record PhaseResult(double Fraction, bool IsVapor, double[] MoleFractions, PhaseFigures Figures);
