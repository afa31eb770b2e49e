using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>Two compressors in series. Immutable and thread-safe.</summary>
/// <param name="First">The first stage.</param>
/// <param name="Second">The second stage.</param>
/// <param name="IntermediatePressure">Absolute, behind the first stage.</param>
/// <param name="IntercoolerDuty">Heat given off between the stages.</param>
/// <param name="Power">Both stages together.</param>
public sealed record TwoStageResult(CompressorResult First, CompressorResult Second, Pressure IntermediatePressure, Power IntercoolerDuty, Power Power)
{
    /// <summary>Mass flow of the second over that of the first stage, less 1.</summary>
    public double FlowMismatch => (Second.MolarFlow.MolesPerSecond / First.MolarFlow.MolesPerSecond) - 1;

    /// <summary>Each limit of each stage.</summary>
    /// <param name="first">Limits of the first stage.</param>
    /// <param name="second">Limits of the second stage.</param>
    public (LimitReport First, LimitReport Second) Assess(CompressorLimits first, CompressorLimits second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        return (first.Assess(First), second.Assess(Second));
    }
}
