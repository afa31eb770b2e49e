using CryoThermo.Equilibrium;
using CryoThermo.Machines;

namespace CryoThermo.Coolers;

/// <summary>Puts <see cref="PinchFacts"/> into one sentence for a builder.</summary>
internal static class PinchExplanation
{
    /// <summary>A boundary this near to the limit is named as its place, K.</summary>
    private const double Near = 2;

    /// <summary>The sentence.</summary>
    public static string Describe(PinchFacts facts) => facts.Location switch
    {
        PinchLocation.WarmEnd => WarmEnd(facts),
        PinchLocation.ColdEnd => ColdEnd(facts),
        _ => Inside(facts),
    };

    private static string WarmEnd(PinchFacts facts)
    {
        string state = !facts.HighGasAtWarmEnd
            ? "the high-pressure stream is partly liquid there already"
            : facts.HighDewPoint is { } dew
                ? $"the high-pressure stream is still all gas there, {facts.WarmEndTemperature - dew:F1} K above its dew point of {dew:F1} K"
                : "the high-pressure stream is gas there and condenses nowhere on its way";
        string gain = facts.GainFromColderWarmEnd is { } rise
            ? $"; a warm end {PinchFacts.WarmEndStep:F0} K colder would add {rise:F0} J/mol"
            : string.Empty;
        return $"The warm end ({facts.WarmEndTemperature:F1} K) {Effect(facts)}: {state}{gain}.";
    }

    private static string ColdEnd(PinchFacts facts)
    {
        string bubble = facts.LowBubblePoint switch
        {
            null => "the low-pressure stream has no bubble point on its isobar",
            { } t when t > facts.Temperature
                => $"the low-pressure stream is all liquid there, {t - facts.Temperature:F1} K below its bubble point of {t:F1} K",
            { } t => $"it lies {facts.Temperature - t:F1} K above the low-pressure bubble point of {t:F1} K",
        };
        string remedy = facts.LowBubblePoint is { } b && facts.Temperature - b < 2 * PinchFacts.WarmEndStep
            ? "; lower suction pressure or more of the most volatile component moves it down"
            : string.Empty;
        return $"The cold end ({facts.Temperature:F1} K) {Effect(facts)}: {bubble}{remedy}.";
    }

    private static string Inside(PinchFacts facts)
    {
        string place = (facts.NearestHighBoundary, facts.NearestLowBoundary) switch
        {
            ({ } h, var l) when Math.Abs(h.Distance) <= Near && (l is null || Math.Abs(h.Distance) <= Math.Abs(l.Value.Distance))
                => $"where the high-pressure stream {(h.Kind == PhaseBoundaryKind.Dew ? "begins to condense" : "is just all liquid")} ({h.Temperature:F1} K)",
            (_, { } l) when Math.Abs(l.Distance) <= Near
                => $"where the low-pressure stream {(l.Kind == PhaseBoundaryKind.Dew ? "has just evaporated" : "begins to boil")} ({l.Temperature:F1} K)",
            _ => "where the heat capacities of the two streams become equal",
        };
        string regions = $"low pressure {Name(facts.LowRegionAbove)}, high pressure {Name(facts.HighRegionAbove)}";
        string ratios = facts.CapacityRatioBelow is { } below && facts.CapacityRatioAbove is { } above
            ? $"; heat capacity low to high {below:F2} just below and {above:F2} just above"
            : string.Empty;
        return $"An inner pinch at {facts.Temperature:F1} K {Effect(facts)}, {place}: {regions}{ratios}.";
    }

    private static string Effect(PinchFacts facts) => facts.Cooling > 0
        ? $"limits the cooling to {facts.Cooling:F0} J/mol"
        : $"leaves no cooling at all ({-facts.Cooling:F0} J/mol are missing)";

    private static string Name(PhaseRegion? region) => region switch
    {
        PhaseRegion.Liquid => "liquid",
        PhaseRegion.Vapor => "gas",
        PhaseRegion.LiquidVapor => "liquid and gas",
        PhaseRegion.TwoLiquids => "two liquids",
        PhaseRegion.ConstantTemperatureBoiling => "boiling at one temperature",
        PhaseRegion.TwoLiquidsVapor => "two liquids and gas",
        PhaseRegion.ThreeLiquids => "three liquids",
        PhaseRegion.ConstantTemperatureThreePhases => "three phases at one temperature",
        PhaseRegion.UnresolvedPhases => "four phases",
        _ => "at the end",
    };
}
