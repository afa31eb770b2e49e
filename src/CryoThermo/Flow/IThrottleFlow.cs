using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A flow through part of a throttle. Immutable and thread-safe.</summary>
public interface IThrottleFlow
{
    /// <summary>The fluid at rest before it.</summary>
    State Inlet { get; }

    /// <summary>Absolute pressure behind it.</summary>
    Pressure OutletPressure { get; }

    /// <summary>Mass flow.</summary>
    MassFlow MassFlow { get; }

    /// <summary>Whether a lower outlet pressure would bring no more flow.</summary>
    bool IsChoked { get; }
}
