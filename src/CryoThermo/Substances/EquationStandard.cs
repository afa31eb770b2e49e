namespace CryoThermo.Substances;

/// <summary>What an equation of state was made for.</summary>
public enum EquationStandard
{
    /// <summary>To represent the best measurements within their uncertainty.</summary>
    Reference,

    /// <summary>For engineering work: a short form with somewhat larger errors, largest near the critical point.</summary>
    Technical,

    /// <summary>As part of a mixture standard, whose pairs were fitted with it: not better for the pure fluid than its other equations.</summary>
    MixtureStandard,
}
