using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>A compressor about to start. Immutable and thread-safe.</summary>
/// <param name="HighSide">Absolute pressure behind it.</param>
/// <param name="LowSide">Absolute pressure before it.</param>
/// <param name="DifferenceTorque">Torque that the difference of pressure asks of the shaft, averaged over a revolution; zero when equalised.</param>
/// <param name="StandingPressure">The higher pressure against the limit of starting; null where none was set.</param>
/// <param name="Cautions">What to do when the start is doubtful.</param>
public sealed record CompressorStart(Pressure HighSide, Pressure LowSide, Torque DifferenceTorque, LimitCheck? StandingPressure, IReadOnlyList<Caution> Cautions)
{
    /// <summary>Whether the sides have come to one pressure.</summary>
    public bool IsEqualised => HighSide.Pascals - LowSide.Pascals <= 1e-3 * HighSide.Pascals;

    /// <summary>Whether the standing pressure is within what motors start against; true where no limit was set.</summary>
    public bool IsExpected => StandingPressure is null || StandingPressure.Verdict == LimitVerdict.Kept;
}
