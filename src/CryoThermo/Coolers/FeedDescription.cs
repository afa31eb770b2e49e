using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>A gas that a cooler file wants condensed on the cold end. Immutable and thread-safe.</summary>
/// <param name="Name">What the feed is called; unique within the file.</param>
/// <param name="Composition">Its composition; the pure substance of that name, or "air", when the file gives none.</param>
/// <param name="LetDownPressure">The pressure to which the condensed feed is let down, that of the receiving vessel.</param>
/// <param name="CondensingApproach">How much warmer than the cold end the feed condenses, above 0 K.</param>
public sealed record FeedDescription(
    string Name,
    MixtureDescription Composition,
    GaugePressure LetDownPressure,
    TemperatureDelta CondensingApproach);
