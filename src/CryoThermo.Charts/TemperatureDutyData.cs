namespace CryoThermo.Charts;

/// <summary>
/// What a temperature-duty chart of a recuperator shows. The lists have one element a station, in the order of the duty,
/// and are joined by straight lines. Immutable when the lists are.
/// </summary>
/// <param name="DutyWatts">Duty exchanged between the first station and each station, W, strictly rising; at least two.</param>
/// <param name="HotKelvins">Temperature of the stream being cooled at each station, K.</param>
/// <param name="ColdKelvins">Temperature of the stream being warmed at each station, K.</param>
public sealed record TemperatureDutyData(
    IReadOnlyList<double> DutyWatts,
    IReadOnlyList<double> HotKelvins,
    IReadOnlyList<double> ColdKelvins)
{
    /// <summary>Where the stream being cooled holds two phases or more; empty when it nowhere does, or when that is not to be shown.</summary>
    public IReadOnlyList<DutySpan> HotTwoPhase { get; init; } = [];

    /// <summary>Where the stream being warmed holds two phases or more; empty when it nowhere does, or when that is not to be shown.</summary>
    public IReadOnlyList<DutySpan> ColdTwoPhase { get; init; } = [];

    /// <summary>A line above the chart; empty for none.</summary>
    public string Title { get; init; } = "";
}
