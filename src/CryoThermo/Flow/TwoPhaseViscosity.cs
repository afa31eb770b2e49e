namespace CryoThermo.Flow;

/// <summary>Viscosity of a mist or froth of one velocity, from those of its phases and its vapour mass fraction x. No rule is right everywhere: their spread is part of the uncertainty.</summary>
public enum TwoPhaseViscosity
{
    /// <summary>1/mu = x/mu_g + (1 - x)/mu_l. W. H. McAdams and others, Trans. ASME 64 (1942) 193.</summary>
    McAdams,

    /// <summary>mu = x mu_g + (1 - x) mu_l. A. Cicchitti and others, Energia Nucleare 7 (1960) 407.</summary>
    Cicchitti,

    /// <summary>mu = rho (x mu_g/rho_g + (1 - x) mu_l/rho_l). A. E. Dukler and others, AIChE J. 10 (1964) 38.</summary>
    Dukler,
}
