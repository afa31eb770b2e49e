namespace CryoThermo.Flow;

/// <summary>What a bench test can find wrong.</summary>
public enum BenchFindingKind
{
    /// <summary>The flow coefficient does not follow the steps over a large part of the travel.</summary>
    StuckValve,

    /// <summary>Air passes where the valve must be shut: through the seat, round it, or out of the bench before the valve.</summary>
    ClosedEndLeak,

    /// <summary>Less arrives behind the valve than the compressor is said to deliver, at low pressure already.</summary>
    KnownFlowNotArriving,

    /// <summary>What arrives falls as the pressure rises: a compressor that loses delivery, or a leak before the valve.</summary>
    FlowFallsWithPressure,
}
