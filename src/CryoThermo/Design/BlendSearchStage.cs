namespace CryoThermo.Design;

/// <summary>What a search is at.</summary>
public enum BlendSearchStage
{
    /// <summary>Random starts evolve by the exploration model.</summary>
    Exploring,

    /// <summary>The best distinct blends are improved one by one by the ranking model.</summary>
    Refining,

    /// <summary>Nothing keeps all limits: the search looks for the limit to relax.</summary>
    ExplainingInfeasibility,
}
