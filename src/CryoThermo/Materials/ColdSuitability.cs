namespace CryoThermo.Materials;

/// <summary>Whether something keeps its toughness or its tightness in the cold.</summary>
public enum ColdSuitability
{
    /// <summary>Commonly used down to the lowest temperatures of this library.</summary>
    Suited,

    /// <summary>Down to a lowest temperature.</summary>
    SuitedToLimit,

    /// <summary>Not to be used cold.</summary>
    NotSuited,

    /// <summary>No statement is held here.</summary>
    NotKnown,
}
