namespace CryoThermo.Substances;

/// <summary>The cubic equations of state for which pair parameters are kept.</summary>
public enum CubicModelKind
{
    /// <summary>Peng, Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59.</summary>
    PengRobinson,

    /// <summary>Soave, Chem. Eng. Sci. 27 (1972) 1197.</summary>
    SoaveRedlichKwong,

    /// <summary>
    /// Peng-Robinson with a temperature-dependent covolume for helium, neon and hydrogen: Aasen, Hammer, Lasala, Jaubert, Wilhelmsen,
    /// Fluid Phase Equilib. 524 (2020) 112790. Pairs without these gases are those of Peng-Robinson.
    /// </summary>
    PengRobinsonQuantumCorrected,
}
