namespace CryoThermo.Safety;

/// <summary>How a substance takes part in a fire.</summary>
internal enum FireBehaviour
{
    /// <summary>Does not burn and does not feed a fire.</summary>
    Inert,

    /// <summary>Burns in air.</summary>
    Flammable,

    /// <summary>Feeds a fire as oxygen does.</summary>
    Oxidiser,
}

/// <summary>The spread of a figure between published compilations.</summary>
internal sealed record PublishedSpread(double Least, double Most);

/// <summary>One record of Safety/Data/flammability.json: fire behaviour, limits and safety group of a substance.</summary>
internal sealed record SubstanceHazard(
    string Name,
    IReadOnlyList<string> AlsoKnownAs,
    FireBehaviour Behaviour,
    string? SafetyGroup,
    string Source,
    bool FromMemory,
    PublishedSpread? LowerFlammabilityLimitPercent = null,
    PublishedSpread? UpperFlammabilityLimitPercent = null,
    PublishedSpread? AutoignitionDegreesCelsius = null,
    double? GreatestNonFlammableShareInNitrogenPercent = null,
    double? NitrogenEquivalence = null,
    double? LimitingOxygenInNitrogenPercent = null,
    double? NetHeatOfCombustionKilojoulesPerMole = null,
    double? MolarMassGramsPerMole = null,
    string? Confidence = null);

/// <summary>Safety/Data/flammability.json as a whole.</summary>
internal sealed record SubstanceHazardFile(string Title, string Caution, string Units, IReadOnlyList<SubstanceHazard> Substances);
