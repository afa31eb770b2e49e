namespace CryoThermo.Substances;

/// <summary>The cubic equations of state for which pair parameters are kept.</summary>
public enum CubicModelKind
{
    /// <summary>Peng, Robinson, Ind. Eng. Chem. Fundam. 15 (1976) 59.</summary>
    PengRobinson,

    /// <summary>Soave, Chem. Eng. Sci. 27 (1972) 1197.</summary>
    SoaveRedlichKwong,
}
