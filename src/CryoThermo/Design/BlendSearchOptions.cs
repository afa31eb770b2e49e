using CryoThermo.Diagnostics;

namespace CryoThermo.Design;

/// <summary>How a search is run. The same seed gives the same answer on any number of cores. Immutable and thread-safe.</summary>
public sealed record BlendSearchOptions
{
    /// <summary>Seed of the random numbers.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Independent starts, 1 to 32.</summary>
    public int Starts { get; init; } = 4;

    /// <summary>Most generations of each start, 1 to 10 000; a start that has settled ends earlier.</summary>
    public int Generations { get; init; } = 24;

    /// <summary>Blends of a generation for each quantity that is free, 2 to 100.</summary>
    public int PopulationFactor { get; init; } = 4;

    /// <summary>Distinct blends taken over to the ranking model, 1 to 1000.</summary>
    public int Finalists { get; init; } = 50;

    /// <summary>The model of the exploration; null for Peng-Robinson, with quantum corrections where helium, neon or hydrogen is at hand.</summary>
    public FluidModel? ExplorationModel { get; init; }

    /// <summary>The model that blends are ranked and reported with; null for the recommended one.</summary>
    public FluidModel? RankingModel { get; init; }

    /// <summary>Most threads; null for one a core.</summary>
    public int? MostThreads { get; init; }

    internal void Check()
    {
        Guard.InRange(Starts, 1, 32, "starts", nameof(Starts));
        Guard.InRange(Generations, 1, 10000, "generations", nameof(Generations));
        Guard.InRange(PopulationFactor, 2, 100, "blends", nameof(PopulationFactor));
        Guard.InRange(Finalists, 1, 1000, "blends", nameof(Finalists));
        if (MostThreads is { } threads)
        {
            Guard.InRange(threads, 1, 1024, "threads", nameof(MostThreads));
        }
    }
}
