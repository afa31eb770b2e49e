using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Tests.Design;

internal static class BlendTestProblems
{
    /// <summary>J. H. Derking et al., Cryogenics 57 (2013) 26-30 (abstract): components and pressures; warm end assumed.</summary>
    public static BlendProblem Ternary => Of(["methane", "ethane", "isobutane"], 150, 295, 1.3, 9.4);

    public static BlendCandidate TernaryAsPublished => new([0.39, 0.20, 0.41], Pressure.FromBars(1.3), Pressure.FromBars(9.4));

    public static BlendSearchOptions Brief => new() { Starts = 2, Generations = 6, PopulationFactor = 3, Finalists = 4, RankingModel = FluidModel.PengRobinson };

    public static BlendProblem Of(
        string[] components,
        double cold,
        double warm,
        double low,
        double high,
        BlendLimits? limits = null,
        double approach = 0,
        BlendCompressor? compressor = null,
        MachineSpaces? spaces = null,
        double? load = null,
        params BlendGoal[] goals) => new()
        {
            Components = [.. components.Select(c => new BlendComponent(c, 0.999, 10))],
            ColdTemperature = Temperature.FromKelvins(cold),
            WarmEnd = Temperature.FromKelvins(warm),
            LeastLowPressure = Pressure.FromBars(low),
            GreatestLowPressure = Pressure.FromBars(low),
            LeastHighPressure = Pressure.FromBars(high),
            GreatestHighPressure = Pressure.FromBars(high),
            LeastApproach = TemperatureDelta.FromKelvins(approach),
            Limits = limits ?? BlendLimits.None,
            Compressor = compressor,
            Spaces = spaces,
            Load = load is { } watts ? Power.FromWatts(watts) : null,
            Goals = goals.Length > 0 ? goals : [new(BlendObjective.CapacityPerMole)],
        };
}
