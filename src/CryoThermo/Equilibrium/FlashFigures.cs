using System.Diagnostics.CodeAnalysis;

namespace CryoThermo.Equilibrium;

/// <summary>Figures of a solved isothermal flash, per mole of the whole. SI, molar.</summary>
/// <param name="PhaseCount">1, 2 or 3.</param>
/// <param name="LightFraction">Moles of the less dense phase over the whole; 1 or 0 for a single vapour-like or liquid-like phase.</param>
/// <param name="MiddleFraction">Moles of the third phase over the whole, a liquid between the two others in density; zero without it.</param>
/// <param name="HeavyFraction">Moles of the denser phase over the whole, with its own digits when small.</param>
/// <param name="LightIsVapor">Whether the less dense phase is a vapour (a single phase: whether it is vapour-like).</param>
/// <param name="LightMolarDensity">mol/m3.</param>
/// <param name="MiddleMolarDensity">mol/m3; zero without a third phase.</param>
/// <param name="HeavyMolarDensity">mol/m3.</param>
/// <param name="MolarEnthalpy">J/mol, from the fluid's reference state.</param>
/// <param name="MolarEntropy">J/(mol K), from the fluid's reference state.</param>
/// <param name="MolarVolume">m3/mol.</param>
/// <param name="HasUnresolvedPhase">True when a further phase exists that the answer does not hold.</param>
[Experimental("CRYO001")]
public readonly record struct FlashFigures(
    int PhaseCount,
    double LightFraction,
    double MiddleFraction,
    double HeavyFraction,
    bool LightIsVapor,
    double LightMolarDensity,
    double MiddleMolarDensity,
    double HeavyMolarDensity,
    double MolarEnthalpy,
    double MolarEntropy,
    double MolarVolume,
    bool HasUnresolvedPhase);
