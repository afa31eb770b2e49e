using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>A gas led to the cold end of a circuit to be cooled or condensed there. Immutable and thread-safe.</summary>
/// <param name="Name">What the feed is called, for the text of a caution, for example "argon" or "air".</param>
/// <param name="Composition">Its substances and their mole fractions; a substance "air" stands for dry air.</param>
/// <param name="FeedPressure">The absolute pressure of the feed at the cold end.</param>
/// <param name="CondensesOnColdEnd">Whether it becomes liquid on the cold end.</param>
public sealed record FeedGas(
    string Name,
    IReadOnlyList<SubstanceShare> Composition,
    Pressure FeedPressure,
    bool CondensesOnColdEnd);
