namespace CryoThermo.Coolers.Rating;

/// <summary>How much of a cross-section the liquid of a two-phase stream takes: what the circulating gas lacks of the charge.</summary>
public enum HoldUpModel
{
    /// <summary>Vapour runs ahead of the liquid by the cube root of the density ratio: S. M. Zivi, J. Heat Transfer 86 (1964) 247, from memory.</summary>
    Slip,

    /// <summary>Both phases at one speed: the least liquid that can be held.</summary>
    Homogeneous,
}
