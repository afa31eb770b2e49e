namespace CryoThermo.HeatTransfer;

/// <summary>How the two streams of an exchanger pass each other.</summary>
public enum FlowArrangement
{
    /// <summary>Against each other.</summary>
    CounterFlow,

    /// <summary>Side by side in the same direction.</summary>
    ParallelFlow,

    /// <summary>Across each other, neither mixing along its width: a finned coil of many tubes side by side.</summary>
    CrossFlowBothUnmixed,

    /// <summary>Across each other; the stream with the lesser capacity rate mixes along its width, the other does not.</summary>
    CrossFlowLesserMixed,

    /// <summary>Across each other; the stream with the greater capacity rate mixes along its width, the other does not.</summary>
    CrossFlowGreaterMixed,

    /// <summary>One stream keeps one temperature, as a pure fluid that condenses or boils: the capacity ratio is not read.</summary>
    OneTemperature,
}
