namespace CryoThermo.Checks.Valves;

/// <summary>What is wrong with the valve or the bench of a made-up test.</summary>
public enum BenchFault
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>The needle stays where it is from some opening on, or all the time.</summary>
    Stuck,

    /// <summary>Air passes beside the seat at every opening, more than the compressor needs to stay below its limit.</summary>
    SeatLeak,

    /// <summary>A hole before the valve; the flow behind it is measured.</summary>
    HoseLeak,

    /// <summary>The compressor loses delivery with pressure; the flow behind the valve is measured.</summary>
    WornCompressor,
}
