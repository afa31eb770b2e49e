using CryoThermo.Coolers;
using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using CryoThermo.Safety;
using CryoThermo.Substances;
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
                WorkingFluid.Mixture(feed.Composition.ToComposition()).WithModel(cooler.Model),
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
    /// <exception cref="ArgumentOutOfRangeException">A temperature or the pressure is outside the range of <see cref="WorkingFluid.At"/>.</exception>
    /// <exception cref="ArgumentException">The feed holds an oxidiser beside a fuel: it can explode by itself.</exception>
    /// <exception cref="ConvergenceException">The state after the let-down could not be solved.</exception>
    public static FeedCondensationResult Condense(WorkingFluid feed, Temperature condensing, Pressure letDown, Temperature supplyTemperature)
    {
        ArgumentNullException.ThrowIfNull(feed);
        Flammability.RefuseFuelBesideOxidiser([.. Present(feed).Select(c => new SubstanceShare(c.Name, feed.Composition[c.Name]))], "The feed", nameof(feed));
        if (FrozenSolid(feed, condensing) is { } solid)
        {
            return Nothing(feed, condensing, null, $"freezes instead: {solid} at {condensing.Kelvins:0.#} K is a solid, which blocks the line");
        }

        bool drops = feed.TryDewPoint(condensing, out State? dew);
        if (!feed.TryBubblePoint(condensing, out State? liquid))
        {
            double[] critical = [.. Present(feed).Select(c => c.CriticalTemperature)];
            return Nothing(
                feed,
                condensing,
                dew?.Pressure,
                drops ? $"condenses only in part at {condensing.Kelvins:0.#} K: no pressure was found at which all of it is liquid"
                : condensing.Kelvins >= critical.Max()
                    ? $"does not condense at {condensing.Kelvins:0.#} K at any pressure: its critical temperature is {critical.Max():0.#} K"
                    : $"no condensing pressure was found at {condensing.Kelvins:0.#} K (critical temperatures {critical.Min():0.#} to {critical.Max():0.#} K)");
        }

        Pressure firstDrop = drops ? dew!.Pressure : liquid.Pressure;
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

    private static FeedCondensationResult Nothing(WorkingFluid feed, Temperature condensing, Pressure? firstDrop, string remark) =>
        new(feed, condensing, firstDrop, null, null, null, null, remark);

    private static IEnumerable<Substance> Present(WorkingFluid feed) =>
        feed.Composition.Components.Where((_, i) => feed.Composition.MoleFractions[i] > 0);

    // Only a pure feed below its triple point is surely solid; in a mixture a little of it may stay dissolved.
    private static string? FrozenSolid(WorkingFluid feed, Temperature condensing) =>
        Present(feed).ToArray() is [{ TripleTemperature: { } triple } only] && condensing.Kelvins < triple
            ? $"{only.Name}, triple point {triple:0.0} K,"
            : null;

    private static string? Remark(WorkingFluid feed, Temperature condensing, Pressure letDown, State saturated, State after)
    {
        List<string> remarks = [];
        if (saturated.Phases.Count(phase => phase.Kind == PhaseKind.Liquid) > 1)
        {
            remarks.Add("a second liquid forms before all of it is condensed: at the condensing pressure the last vapor vanishes beside both");
        }
        else if (saturated.HasUnresolvedPhase)
        {
            remarks.Add("a second liquid forms before all of it is condensed: the condensing pressure is that of a liquid that would stay one, and not to be relied on");
        }

        if (saturated.Pressure.Pascals <= letDown.Pascals)
        {
            remarks.Add("condenses already below the let-down pressure: supplied at that, it is subcooled liquid and nothing flashes off");
        }

        Substance[] present = [.. Present(feed)];
        if (present is [{ TripleTemperature: { } triple } only])
        {
            if (after.Temperature.Kelvins < triple)
            {
                remarks.Add($"freezes on let-down at {after.Temperature.Kelvins:0.0} K: {only.Name} is solid below {triple:0.0} K");
            }
        }
        else
        {
            string[] solid = [.. present.Where(c => c.TripleTemperature > condensing.Kelvins).Select(c => $"{c.Name} ({c.TripleTemperature:0.0} K)")];
            if (solid.Length > 0)
            {
                remarks.Add($"freezing of mixtures is not computed; pure, these would be solid here: {string.Join(", ", solid)}");
            }
        }

        return remarks.Count == 0 ? null : string.Join("; ", remarks);
    }
}
