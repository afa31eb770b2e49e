namespace CryoThermo.Charts;

/// <summary>
/// What a cooling-curve chart shows: the greatest cooling of a throttle cooler against its cold temperature. The lists
/// have one element a cold temperature and are joined by straight lines. Immutable when the lists are.
/// </summary>
/// <param name="ColdKelvins">Cold temperatures, K, strictly rising; at least two.</param>
/// <param name="IdealWatts">Greatest cooling with an ideal recuperator at each cold temperature, W; negative where there is none.</param>
public sealed record CoolingCurveData(IReadOnlyList<double> ColdKelvins, IReadOnlyList<double> IdealWatts)
{
    /// <summary>Greatest cooling with the recuperator's own conductance at each cold temperature, W; null to leave that curve out.</summary>
    public IReadOnlyList<double>? WithConductanceWatts { get; init; }

    /// <summary>The conductance that <see cref="WithConductanceWatts"/> belongs to, W/K; null when it is not to be told.</summary>
    public double? ConductanceWattsPerKelvin { get; init; }

    /// <summary>The cooling asked for; null for none.</summary>
    public CoolingDemand? Demand { get; init; }

    /// <summary>Lowest temperature with an ideal recuperator and no load, K; null when unknown.</summary>
    public double? LowestIdealKelvins { get; init; }

    /// <summary>Lowest temperature with the recuperator's own conductance and no load, K; null when unknown.</summary>
    public double? LowestWithConductanceKelvins { get; init; }

    /// <summary>A line above the chart; empty for none.</summary>
    public string Title { get; init; } = "";
}
