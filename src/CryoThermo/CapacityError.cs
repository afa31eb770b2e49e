using System.Globalization;
using CryoThermo.Diagnostics;

namespace CryoThermo;

/// <summary>How far a cooling capacity computed with a model is known to be off, as a range over the blend's components.</summary>
/// <param name="LowPercent">Most negative known error, percent; zero when none is negative.</param>
/// <param name="HighPercent">Most positive known error, percent; zero when none is positive.</param>
/// <param name="Explanation">Which component is off by how much, and where.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record CapacityError(double LowPercent, double HighPercent, string Explanation, Source Source)
{
    /// <summary>The range and its explanation.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{LowPercent:+0;-0;0} to {HighPercent:+0;-0;0} %: {Explanation}");
}
