using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>One phase of a <see cref="State"/>. Immutable and thread-safe.</summary>
public sealed class Phase
{
    private readonly PhaseResult result;

    internal Phase(WorkingFluid fluid, PhaseResult result)
    {
        this.result = result;
        Composition = fluid.Composition.WithFractions(result.MoleFractions);
    }

    /// <summary>Liquid or vapour.</summary>
    public PhaseKind Kind => result.IsVapor ? PhaseKind.Vapor : PhaseKind.Liquid;

    /// <summary>Moles of this phase over moles of the whole.</summary>
    public double Fraction => result.Fraction;

    /// <summary>Mole fractions of this phase.</summary>
    public Composition Composition { get; }

    /// <summary>Molar density.</summary>
    public Molarity MolarDensity => Molarity.FromMolesPerCubicMeter(result.Figures.MolarDensity);

    /// <summary>Mass density.</summary>
    public Density Density =>
        Density.FromKilogramsPerCubicMeter(result.Figures.MolarDensity * Composition.MolarMass.KilogramsPerMole);

    /// <summary>Molar enthalpy.</summary>
    public MolarEnergy MolarEnthalpy => MolarEnergy.FromJoulesPerMole(result.Figures.Enthalpy);

    /// <summary>Molar entropy.</summary>
    public MolarEntropy MolarEntropy => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.Entropy);

    /// <summary>Isobaric molar heat capacity.</summary>
    public MolarEntropy IsobaricHeatCapacity => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.IsobaricHeatCapacity);

    /// <summary>Isochoric molar heat capacity.</summary>
    public MolarEntropy IsochoricHeatCapacity => MolarEntropy.FromJoulesPerMoleKelvin(result.Figures.IsochoricHeatCapacity);

    /// <summary>Speed of sound within the phase.</summary>
    public Speed SpeedOfSound => Speed.FromMetersPerSecond(result.Figures.SpeedOfSound);

    /// <summary>dT/dp at constant enthalpy within the phase, K/bar.</summary>
    public double JouleThomsonCoefficientKelvinsPerBar => result.Figures.JouleThomson * 1e5;

    /// <inheritdoc/>
    public override string ToString() => $"{Kind} {Fraction:0.####}: {Composition}";
}
