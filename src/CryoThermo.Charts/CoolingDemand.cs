namespace CryoThermo.Charts;

/// <summary>The cooling that is asked for, and at which temperature.</summary>
/// <param name="ColdKelvins">Temperature at which the load is taken up, K.</param>
/// <param name="LoadWatts">Load, W.</param>
public sealed record CoolingDemand(double ColdKelvins, double LoadWatts);
