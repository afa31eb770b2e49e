using UnitsNet;

namespace CryoThermo;

/// <summary>What is nearest to freezing at one place. Immutable and thread-safe.</summary>
/// <param name="Place">The place.</param>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="Margins">Margins of all that is judged, the nearest to freezing first.</param>
public sealed record FreezingRiskPoint(string Place, Temperature Temperature, Pressure Pressure, IReadOnlyList<FreezingMargin> Margins)
{
    /// <summary>The component nearest to freezing; null when none can be judged.</summary>
    public FreezingMargin? Nearest => Margins.Count > 0 ? Margins[0] : null;
}
