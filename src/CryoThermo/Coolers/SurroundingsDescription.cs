namespace CryoThermo.Coolers;

/// <summary>What a cooler file says of relief and surroundings, for the safety rules. Immutable and thread-safe.</summary>
/// <param name="ColdEndOpenToRoomAir">Whether room air can reach the cold end; true when not given.</param>
/// <param name="FeedLinesOpenToRoomAir">Whether room air can reach the cold lines and vessels of the feeds; true when not given.</param>
/// <param name="ColdLiquidCanBeShutIn">Whether cold liquid can be shut in between two shut-off points or in a closed vessel; true when not given.</param>
/// <param name="HighPressureRelief">The setting of the high-side relief device; null when not given.</param>
public sealed record SurroundingsDescription(
    bool ColdEndOpenToRoomAir,
    bool FeedLinesOpenToRoomAir,
    bool ColdLiquidCanBeShutIn,
    GaugePressure? HighPressureRelief);
