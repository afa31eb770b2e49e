using CryoThermo.Coolers;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Liquefaction;

/// <summary>
/// Condensing a feed gas on a cold end and letting the liquid down: which pressure the gas needs, how much stays liquid,
/// how much heat a kilogram takes. Condenser temperature is the cold end plus the approach; film and contact resistance
/// belong into the approach.
/// </summary>
public static class FeedCondensation
{
    /// <summary>Every feed of a described cooler, condensed at its demanded cold temperature plus the feed's approach.</summary>
    /// <param name="cooler">The cooler.</param>
    public static IReadOnlyList<FeedCondensationResult> OnColdEnd(CoolerDescription cooler)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        return
        [
            .. cooler.Feeds.Select(feed => Condense(
                WorkingFluid.Mixture(feed.Composition.ToComposition()),
                cooler.Load.ColdTemperature + feed.CondensingApproach,
                feed.LetDownPressure.Absolute,
                cooler.AmbientTemperature)),
        ];
    }

    /// <summary>Computes the condensation of a feed.</summary>
    /// <param name="feed">The gas.</param>
    /// <param name="condensing">Temperature at which it condenses: the cold end plus the approach.</param>
    /// <param name="letDown">Absolute pressure the liquid is let down to.</param>
    /// <param name="supplyTemperature">Temperature the gas is supplied at, for the heat per kilogram.</param>
    public static FeedCondensationResult Condense(WorkingFluid feed, Temperature condensing, Pressure letDown, Temperature supplyTemperature)
    {
        ArgumentNullException.ThrowIfNull(feed);
        double highestCritical = feed.Composition.Components.Max(c => c.CriticalTemperature);
        if (!feed.TryBubblePoint(condensing, out State? liquid))
        {
            return new(
                feed, condensing, null, null, null, null, null,
                $"does not condense at {condensing.Kelvins:0.#} K at any pressure: that is above its critical region (critical temperature of its heaviest part {highestCritical:0.#} K)");
        }

        Pressure firstDrop = feed.TryDewPoint(condensing, out State? dew) ? dew.Pressure : liquid.Pressure;

        Composition composition = feed.Composition;
        State saturated = liquid;
        State after = letDown.Pascals < saturated.Pressure.Pascals ? Throttle.Expand(saturated, letDown) : saturated;
        double liquidMole = 1 - after.VaporFraction;
        double liquidMass = 1 - after.VaporMassFraction;
        double heat = (feed.At(supplyTemperature, saturated.Pressure).MolarEnthalpy.JoulesPerMole - saturated.MolarEnthalpy.JoulesPerMole)
            / composition.MolarMass.KilogramsPerMole;
        string? remark = Remark(feed, condensing, letDown, saturated, after);
        return new(
            feed, condensing, firstDrop, saturated.Pressure, after, (liquidMole, liquidMass), SpecificEnergy.FromJoulesPerKilogram(heat), remark);
    }

    private static string? Remark(WorkingFluid feed, Temperature condensing, Pressure letDown, State saturated, State after)
    {
        List<string> remarks = [];
        if (saturated.Pressure.Pascals <= letDown.Pascals)
        {
            remarks.Add("condenses below the let-down pressure: the liquid is subcooled there and nothing flashes off");
        }

        if (feed.Composition.Components.Count == 1
            && feed.Composition.Components[0] is { TripleTemperature: { } triple } substance)
        {
            if (condensing.Kelvins < triple)
            {
                remarks.Add($"freezes: {substance.Name} is solid below {triple:0.0} K");
            }
            else if (after.Temperature.Kelvins < triple)
            {
                remarks.Add($"freezes on let-down: {substance.Name} is solid below {triple:0.0} K");
            }
        }

        return remarks.Count == 0 ? null : string.Join("; ", remarks);
    }
}
