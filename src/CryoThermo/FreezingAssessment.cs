using UnitsNet;

namespace CryoThermo;

/// <summary>How far each component of a fluid is from freezing at a temperature and pressure. Immutable and thread-safe.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="Pressure">Absolute pressure.</param>
/// <param name="Margins">One margin a component that is judged, the nearest to freezing (or most supersaturated) first.</param>
/// <param name="Basis">Model, notes and cautions.</param>
public sealed record FreezingAssessment(Temperature Temperature, Pressure Pressure, IReadOnlyList<FreezingMargin> Margins, FreezingBasis Basis)
{
    /// <summary>The component nearest to freezing; null when none can be judged.</summary>
    public FreezingMargin? Nearest => Margins.Count > 0 ? Margins[0] : null;

    /// <summary>Whether any solid forms.</summary>
    public bool Freezes => Margins.Any(m => m.Freezes);
}
