using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// First rules of caution over a <see cref="Circuit"/>: flammable charge and feeds, low side below the atmosphere, shut-in cold liquid,
/// oxygen-rich condensate, hydrogen, opening a charged circuit, discharge temperature, high-side relief. They are estimates that point at a hazard; they never
/// prove a machine safe. Local codes and licensed practice decide. Stateless and thread-safe.
/// </summary>
public static class CautionRules
{
    /// <summary>Triple point of nitrogen, K; air begins to freeze a little below 60 K.</summary>
    private const double NitrogenFreezesKelvins = 63.15;

    /// <summary>Above this mole fraction of oxygen a gas counts as oxygen-enriched.</summary>
    private const double EnrichedOxygenFraction = 0.235;

    /// <summary>Oxygen in the first liquid of air over oxygen in air, as odds: 0.518/0.482 over 0.2096/0.7904.</summary>
    private const double OxygenOddsGain = 0.518 / 0.482 / (0.2096 / 0.7904);

    private const double OxygenInAir = 0.2096;

    private const double DefaultDischargeLimitCelsius = 110;

    /// <summary>A hot surface stays this far below autoignition, K.</summary>
    private const double AutoignitionMarginKelvins = 100;

    private static readonly Source FlammabilitySource = new(
        "Le Chatelier's rule: Coward and Jones, US Bureau of Mines Bulletin 503 (1952); burning in air at all: ISO 10156; groups: ISO 817; limits: IEC 60079-20-1, ISO 10156, Zabetakis, Bulletin 627 (1965)",
        FromMemory: true,
        Verified: "natural gas example of Bulletin 503, 4.3 %, reproduced as 4.26 %");

    private static readonly Source AirDewPointSource = new(
        "dew point and first liquid of dry air by the recommended model of this library; enriched above 23.5 %: OSHA 29 CFR 1910.146, CGA and EIGA leaflets (from memory)",
        FromMemory: false,
        Verified: "dew point 81.7 K at 1 atm: Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331");

    private static readonly Source FirstLiquidSource = new(
        "oxygen in the first liquid of air 51.8 %: estimated from vapour pressures with activity and second-virial corrections, often quoted 47 to 52 %; enriched above 23.5 %: OSHA 29 CFR 1910.146, CGA and EIGA leaflets",
        FromMemory: true);

    /// <summary>Applies all rules to a circuit.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <returns>The cautions that apply, the gravest first; empty when no rule fires, which does not mean that the machine is safe.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="circuit"/> is null.</exception>
    /// <exception cref="ArgumentException">The high pressure is not above the low pressure.</exception>
    public static IReadOnlyList<Caution> Assess(Circuit circuit)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        if (circuit.HighPressure.Pascals <= circuit.LowPressure.Pascals)
        {
            throw new ArgumentException(
                $"HighPressure is {Text(circuit.HighPressure)}; it must be above LowPressure, {Text(circuit.LowPressure)}.",
                nameof(circuit));
        }

        Flammability charge = Flammability.Of(circuit.Contents);
        List<Caution> cautions = [];
        FlammableCharge(charge, cautions);
        FlammableFeeds(circuit, cautions);
        Hydrogen(circuit, cautions);
        OpeningTheCircuit(circuit, charge, cautions);
        LowSideBelowAtmosphere(circuit, charge, cautions);
        FeedsBelowAtmosphere(circuit, cautions);
        ShutInLiquid(circuit, cautions);
        ExposedSurfaces(circuit, charge, cautions);
        OxygenFeeds(circuit, charge, cautions);
        Parts(circuit, cautions);
        DischargeTemperature(circuit, charge, cautions);
        HighSideRelief(circuit, cautions);
        return [.. cautions.OrderByDescending(caution => caution.Severity)];
    }

    private static void FlammableCharge(Flammability charge, List<Caution> cautions)
    {
        if (charge.Unknown.Count > 0)
        {
            cautions.Add(new Caution(
                CautionSeverity.Warning,
                "Flammability not known",
                $"no record for {string.Join(", ", charge.Unknown)}",
                "a substance without a record is treated as flammable by the other rules (threshold: any share above 0 %)",
                $"Find its safety group and limits in ISO 817 or its safety data sheet before charging. {Caution.Deference}",
                Source.CommonPractice));
        }

        if (charge is { LowerLimitPercent: { } lowerLimit, Index: { } index })
        {
            string limit = lowerLimit < 100
                ? $"lower flammability limit of the charge in air {lowerLimit:F2} % by volume"
                : "diluted so far that Le Chatelier's rule gives no lower flammability limit below 100 %";
            string figure = $"{100 * charge.FuelFraction:F1} % mol flammable, {limit}, sum of ISO 10156 {index:F2}, worst safety group {charge.WorstGroup}";
            const string Rule = "ISO 10156: a mixture whose sum of 100 A/T exceeds 1 burns in some proportion with air; any flammable component at all gives a warning";
            cautions.Add(charge.Burns
                ? new Caution(
                    CautionSeverity.Danger,
                    "Flammable charge",
                    figure,
                    Rule,
                    $"No ignition source where a leak can collect: relays, motor starters, heaters, hot surfaces, static charge. Leak-test with nitrogen or helium, never with air or oxygen; ventilate at floor and ceiling; fit a gas detector. Charge limit and room size: IEC 60335-2-40, ISO 5149, EN 378 as they apply. {Caution.Deference}",
                    FlammabilitySource)
                : new Caution(
                    CautionSeverity.Warning,
                    "Charge with flammable components",
                    figure,
                    Rule,
                    $"The charge as a whole is too diluted to burn in air, but it separates when it condenses or leaks: the liquid left in the cold parts can be far richer in fuel. Classify it by its worst case of fractionation (ISO 817) and ventilate. Charge limit: IEC 60335-2-40, ISO 5149, EN 378 as they apply. {Caution.Deference}",
                    FlammabilitySource));
        }

        if (charge is { OxidiserFraction: > 0, MustBeTreatedAsFuel: true })
        {
            cautions.Add(new Caution(
                CautionSeverity.Danger,
                "Fuel and oxidiser in one charge",
                $"{100 * charge.OxidiserFraction:G3} % mol {string.Join(", ", charge.Oxidisers)} beside {100 * charge.FuelFraction:F1} % mol known fuel",
                "an oxidiser in a charge that holds fuel can explode without any air (threshold: any share above 0 %)",
                $"Do not make or run this charge; evacuate air fully before charging. {Caution.Deference}",
                Source.CommonPractice));
        }
    }

    private static void FlammableFeeds(Circuit circuit, List<Caution> cautions)
    {
        foreach (FeedGas feed in circuit.Feeds)
        {
            if (Flammability.Of(feed.Composition) is { Burns: true, LowerLimitPercent: { } lowerLimit, Index: { } index } gas)
            {
                cautions.Add(new Caution(
                    CautionSeverity.Danger,
                    "Flammable feed",
                    $"feed {feed.Name} at {Text(feed.FeedPressure)}: {100 * gas.FuelFraction:F1} % mol flammable, lower flammability limit in air {lowerLimit:F2} % by volume, sum of ISO 10156 {index:F2}, worst safety group {gas.WorstGroup}",
                    "ISO 10156: a gas whose sum of 100 A/T exceeds 1 burns in some proportion with air",
                    $"Lead boil-off, vents and reliefs outdoors away from ignition sources; purge lines and vessels with nitrogen before and after; its cold vapour is heavier than room air. {Caution.Deference}",
                    FlammabilitySource));
            }
        }
    }

    private static void Hydrogen(Circuit circuit, List<Caution> cautions)
    {
        double inCharge = circuit.Contents.Where(IsHydrogen).Sum(s => s.MoleFraction);
        List<string> feeds = [.. circuit.Feeds.Where(f => f.Composition.Any(s => IsHydrogen(s) && s.MoleFraction > 0)).Select(f => f.Name)];
        if (!(inCharge > 0) && feeds.Count == 0)
        {
            return;
        }

        string where = inCharge > 0 ? $"{100 * inCharge:F1} % mol hydrogen in the charge" : $"hydrogen in feed {string.Join(", ", feeds)}";
        string frozen = circuit.ColdestSurface.Kelvins < NitrogenFreezesKelvins
            ? $" Below {NitrogenFreezesKelvins:F1} K air and nitrogen freeze into it, and solid oxygen in liquid hydrogen is set off by a shock: purge with helium, never with nitrogen alone, and keep it above the atmosphere."
            : string.Empty;
        cautions.Add(new Caution(
            CautionSeverity.Danger,
            "Hydrogen",
            $"{where}, coldest surface {Text(circuit.ColdestSurface)}",
            "hydrogen burns from 4 to 75 % by volume in air and ignites from 0.017 mJ, a fifteenth of what propane asks for (threshold: any share above 0 %)",
            $"Its flame cannot be seen; it gathers under the ceiling: vent at the highest point. Electrical equipment of group IIC, bonding against static charge. {Materials.ColdService.HydrogenRule}{frozen} {Caution.Deference}",
            new Source("ISO/TR 15916, IEC 60079-20-1, NASA NSS 1740.16", FromMemory: true)));

        static bool IsHydrogen(SubstanceShare share) =>
            HazardTable.TryFind(share.Substance, out SubstanceHazard? hazard) && hazard.Name is "hydrogen" or "parahydrogen" or "orthohydrogen";
    }

    private static void OpeningTheCircuit(Circuit circuit, Flammability charge, List<Caution> cautions)
    {
        List<string> fluorinated = [.. circuit.Contents
            .Where(s => s.MoleFraction > 0 && HazardTable.TryFind(s.Substance, out SubstanceHazard? hazard) && hazard.Name.Contains("fluor", StringComparison.OrdinalIgnoreCase))
            .Select(s => s.Substance)];
        if (!charge.HasFuel && fluorinated.Count == 0)
        {
            return;
        }

        string fluorine = fluorinated.Count > 0
            ? "A flame makes hydrogen fluoride of fluorinated gas, and venting it is forbidden in many countries: recover it. "
            : string.Empty;
        string fuel = charge.HasFuel ? "A flame on a joint burns what is inside and what comes out. " : string.Empty;
        cautions.Add(new Caution(
            CautionSeverity.Warning,
            "Opening or brazing a charged circuit",
            fluorinated.Count > 0 ? $"{string.Join(", ", fluorinated)} in the charge" : $"{100 * charge.FuelFraction:F1} % mol flammable",
            "a circuit that holds fuel or fluorinated gas (threshold: any share above 0 %) is recovered, evacuated and filled with nitrogen before it meets a flame",
            $"{fuel}{fluorine}Braze with nitrogen flowing and a vent open. Recovering, brazing and charging are licensed work in many countries. {Caution.Deference}",
            new Source("Regulation (EU) 2024/573 on fluorinated greenhouse gases; US Clean Air Act, section 608; ISO 5149-4", FromMemory: true)));
    }

    private static void LowSideBelowAtmosphere(Circuit circuit, Flammability charge, List<Caution> cautions)
    {
        if (circuit.LowPressure.Pascals >= circuit.LocalAtmosphere.Pascals)
        {
            return;
        }

        double gaugeBars = circuit.LowPressure.Bars - circuit.LocalAtmosphere.Bars;
        string heat = charge.MustBeTreatedAsFuel
            ? "Air drawn into this charge can make an explosive mixture that the compressor itself ignites by compression heat. Stop the compressor below the atmosphere by a low-pressure switch, and look for the leak before running again."
            : "Fit a low-pressure switch, keep joints of the low side brazed or welded, and dry the circuit.";
        cautions.Add(new Caution(
            charge.MustBeTreatedAsFuel ? CautionSeverity.Danger : CautionSeverity.Warning,
            "Low side below the atmosphere",
            $"low side {Text(circuit.LowPressure)} ({gaugeBars:F3} bar gauge), local atmosphere {Text(circuit.LocalAtmosphere)}",
            "below the local atmosphere (0 bar gauge) a leak draws air and moisture in instead of letting the charge out",
            $"{heat} Moisture freezes in the throttle, air raises the high pressure. {Caution.Deference}",
            Source.CommonPractice));
    }

    private static void FeedsBelowAtmosphere(Circuit circuit, List<Caution> cautions)
    {
        foreach (FeedGas feed in circuit.Feeds)
        {
            if (!feed.CondensesOnColdEnd || feed.FeedPressure.Pascals >= circuit.LocalAtmosphere.Pascals)
            {
                continue;
            }

            bool fuel = Flammability.Of(feed.Composition).MustBeTreatedAsFuel;
            double gaugeBars = feed.FeedPressure.Bars - circuit.LocalAtmosphere.Bars;
            cautions.Add(new Caution(
                fuel ? CautionSeverity.Danger : CautionSeverity.Warning,
                "Feed condenses below the atmosphere",
                $"feed {feed.Name} condenses from {Text(feed.FeedPressure)} ({gaugeBars:F3} bar gauge), local atmosphere {Text(circuit.LocalAtmosphere)}",
                "a closed vessel whose content condenses below the local atmosphere (0 bar gauge) falls to that pressure, and a leak draws air and moisture in",
                (fuel ? "Air drawn into this feed can make an explosive mixture, and its oxygen condenses into the liquid. " : "Air drawn in condenses or freezes in the vessel. ")
                + $"Keep the feed above the atmosphere by its supply regulator, or by a warmer condenser. {Caution.Deference}",
                Source.CommonPractice));
        }
    }

    private static void ShutInLiquid(Circuit circuit, List<Caution> cautions)
    {
        if (!circuit.ColdLiquidCanBeShutIn)
        {
            return;
        }

        string relief = circuit.HighPressureReliefSetting is { } setting
            ? $"The relief of the high side, set at {Text(setting)}, does not protect a section that is shut off from it."
            : "No relief setting is stated for the high side either.";
        cautions.Add(new Caution(
            CautionSeverity.Danger,
            "Cold liquid can be shut in",
            $"coldest surface {Text(circuit.ColdestSurface)}; a space full of liquid rises by roughly 8 to 18 bar for each kelvin of warming, to hundreds of bar at room temperature",
            "any space that can hold cold liquid and be closed on all sides needs its own relief (threshold: a single such space)",
            $"Fit a relief device between any two shut-off points and on every closed vessel, cold trap and adsorber that liquid can reach, vented to a safe place; sizing and setting are licensed work. {relief} {Caution.Deference}",
            new Source(
                "pressure rise from expansion over compressibility of liquid propane (293 K), methane (112 K) and nitrogen (77 K); about 2900 bar for liquid nitrogen warmed to 294 K is quoted in safety manuals; own relief for each closed space: common practice, no source",
                FromMemory: true)));
    }

    private static void ExposedSurfaces(Circuit circuit, Flammability charge, List<Caution> cautions)
    {
        if (circuit.SurfacesOpenToRoomAir.Count == 0)
        {
            return;
        }

        CondensedAir first = AirCondensate.First(Pressure.FromBars(Math.Clamp(circuit.LocalAtmosphere.Bars, 0.3, 1.2)));
        foreach (ExposedSurface surface in circuit.SurfacesOpenToRoomAir)
        {
            if (surface.Temperature.Kelvins >= first.DewPoint.Kelvins)
            {
                continue;
            }

            string behind = charge.MustBeTreatedAsFuel
                ? "The charge behind the wall is flammable: a leak there meets nearly half-and-half liquid oxygen and can detonate. Do not run before the surface is closed off from air."
                : "Keep oil, grease, foam, wood and asphalt away from where it drips.";
            cautions.Add(new Caution(
                charge.MustBeTreatedAsFuel ? CautionSeverity.Danger : CautionSeverity.Warning,
                "Air condenses on an open surface",
                FormattableString.Invariant($"{surface.Name} open to room air at {Text(surface.Temperature)}: what condenses first is {100 * first.OxygenFraction:F0} % oxygen, {100 * first.ArgonFraction:F0} % argon, the rest nitrogen"),
                FormattableString.Invariant($"below the dew point of air, {first.DewPoint.Kelvins:F1} K at {Text(circuit.LocalAtmosphere)}, a surface in open air drips liquid of about half oxygen, which grows richer as it boils off (above 23.5 % a gas counts as enriched)"),
                $"{behind} Insulate vapour-tight or by vacuum; drain pans of clean metal. {Caution.Deference}",
                AirDewPointSource));
        }
    }

    private static void OxygenFeeds(Circuit circuit, Flammability charge, List<Caution> cautions)
    {
        List<string> fuelFeeds = [.. circuit.Feeds
            .Where(feed => Flammability.Of(feed.Composition).MustBeTreatedAsFuel)
            .Select(feed => feed.Name)];
        foreach (FeedGas feed in circuit.Feeds)
        {
            double gas = feed.Composition.Sum(OxygenOf);
            double liquid = gas < 1 ? OxygenOddsGain * gas / (1 - gas + (OxygenOddsGain * gas)) : 1;
            double oxygen = feed.CondensesOnColdEnd ? liquid : gas;
            if (oxygen <= EnrichedOxygenFraction)
            {
                continue;
            }

            bool fuelNear = charge.MustBeTreatedAsFuel || fuelFeeds.Count > 0;
            string where = feed.CondensesOnColdEnd
                ? $", about {100 * liquid:F1} % in the first liquid it forms"
                : string.Empty;
            string neighbours = (charge.MustBeTreatedAsFuel, fuelFeeds.Count > 0) switch
            {
                (true, _) => $"Only a wall parts it from a flammable charge: {Across(circuit, feed)} Use a sealed secondary surface with an inert space between, tested for leaks, and no oil or organic material on the oxygen side.",
                (false, true) => "A fuel is led to the same cold end.",
                _ => "Keep the wetted parts oxygen-clean: no oil, grease or organic material.",
            };
            string sharing = fuelFeeds.Count > 0
                ? $" Never share passages or vessels between this feed and {string.Join(", ", fuelFeeds)}: residues of fuel in liquid oxygen detonate."
                : string.Empty;
            cautions.Add(new Caution(
                fuelNear ? CautionSeverity.Danger : CautionSeverity.Warning,
                "Oxygen-rich feed at the cold end",
                $"feed {feed.Name} at {Text(feed.FeedPressure)}: {100 * gas:F1} % mol oxygen{where}",
                "above 23.5 % oxygen, in the gas or in the first liquid when the feed condenses, hydrocarbons, oil and most organic matter burn violently",
                $"{neighbours}{sharing} The liquid enriches further as it boils away. {Caution.Deference}",
                FirstLiquidSource));
        }

        static double OxygenOf(SubstanceShare share) => HazardTable.TryFind(share.Substance, out SubstanceHazard? hazard)
            ? share.MoleFraction * hazard.Name switch
            {
                "air" => OxygenInAir,
                "oxygen" => 1,
                "nitrous oxide" => 1, // counts in full: it feeds a fire as oxygen does once it decomposes
                _ => 0,
            }
            : 0;
    }

    // Which way a leak of the wall goes: the cold end is at the low pressure of the circuit while it runs, and near its standing pressure after it stops.
    private static string Across(Circuit circuit, FeedGas feed)
    {
        double difference = feed.FeedPressure.Bars - circuit.LowPressure.Bars;
        string running = difference > 0
            ? "while it runs a leak carries oxygen into the charge and to the compressor, which ignites it"
            : "while it runs a leak carries fuel into the oxygen, where it freezes and can detonate";
        string stopped = difference > 0 && feed.FeedPressure < circuit.HighPressure
            ? "; stopped and warm, the charge stands higher and the leak turns round"
            : string.Empty;
        return FormattableString.Invariant($"the feed stands {Math.Abs(difference):G3} bar {(difference > 0 ? "above" : "below")} the low side; {running}{stopped}.");
    }

    private static void DischargeTemperature(Circuit circuit, Flammability charge, List<Caution> cautions)
    {
        if (circuit.DischargeTemperature is not { } discharge)
        {
            return;
        }

        bool limitStated = circuit.DischargeTemperatureLimit is not null;
        Temperature limit = circuit.DischargeTemperatureLimit ?? Temperature.FromDegreesCelsius(DefaultDischargeLimitCelsius);
        if (discharge.Kelvins > limit.Kelvins)
        {
            cautions.Add(new Caution(
                CautionSeverity.Warning,
                "Discharge too hot",
                $"discharge {Text(discharge)}",
                limitStated
                    ? $"above the stated limit of {Text(limit)} oil and valves suffer"
                    : $"above {Text(limit)} (110 to 120 degC at the shell outlet, with mineral or polyol ester oil) oil breaks down and valves suffer",
                $"Lower the pressure ratio, cool the shell, or take a charge with less argon or nitrogen; ask the compressor's maker. {Caution.Deference}",
                limitStated ? new Source("limit as stated for the compressor", FromMemory: false) : Source.CommonPractice));
        }

        if (charge is not { LowestAutoignitionCelsius: { } autoignition, FirstToIgnite: { } fuel }
            || discharge.DegreesCelsius <= autoignition - AutoignitionMarginKelvins)
        {
            return;
        }

        string air = circuit.LowPressure.Pascals < circuit.LocalAtmosphere.Pascals
            ? "The low side is below the atmosphere, so air can enter in service."
            : "It matters as soon as air enters, by a leak or after service.";
        cautions.Add(new Caution(
            discharge.DegreesCelsius >= autoignition ? CautionSeverity.Danger : CautionSeverity.Warning,
            "Discharge near autoignition",
            $"discharge {Text(discharge)}, autoignition of {fuel} from {autoignition:F0} degC",
            $"a surface in contact with a fuel stays 100 K below its autoignition temperature: here {autoignition - AutoignitionMarginKelvins:F0} degC",
            $"{air} Lower the discharge temperature, and keep air out. {Caution.Deference}",
            new Source(
                "margin of 100 K: practice of IEC 60335-2-24 and 60335-2-89; autoignition: IEC 60079-20-1, NFPA 497, least of the published values",
                FromMemory: true)));
    }

    private static void Parts(Circuit circuit, List<Caution> cautions)
    {
        bool hasOxygen = circuit.Contents.Any(s => s.MoleFraction > EnrichedOxygenFraction && HazardTable.TryFind(s.Substance, out SubstanceHazard? hazard) && hazard.Behaviour == FireBehaviour.Oxidiser);
        foreach (CircuitPart part in circuit.Parts)
        {
            if (part.Material?.CautionAt(part.Coldest) is { } cold)
            {
                cautions.Add(cold with { Figure = $"{part.Name}: {cold.Figure}" });
            }

            if (hasOxygen && part.Material?.OxygenNote is { } note)
            {
                cautions.Add(new Caution(
                    CautionSeverity.Danger,
                    "Material in oxygen",
                    $"{part.Name} of {part.Material.Name} in a charge rich in oxygen",
                    "above 23.5 % oxygen most organic matter burns violently, and some metals do",
                    $"{note} {Materials.ColdService.OxygenRule} {Caution.Deference}",
                    part.Material.Source));
            }

            if (part.Rating is { } rating && part.Highest > rating)
            {
                cautions.Add(new Caution(
                    CautionSeverity.Danger,
                    "Pressure above a rating",
                    $"{part.Name}: {Text(part.Highest)}, rated {Text(rating)}",
                    "no part sees more than the pressure it is rated for (threshold: its rating), and a warm start and standstill count",
                    $"Take a part rated for it, or a relief device and a pressure switch below its rating; a rating given cold is not one for room temperature. {Caution.Deference}",
                    Source.CommonPractice));
            }
        }
    }

    private static void HighSideRelief(Circuit circuit, List<Caution> cautions)
    {
        if (circuit.HighPressureReliefSetting is { } setting && setting.Pascals > circuit.HighPressure.Pascals)
        {
            return;
        }

        bool stated = circuit.HighPressureReliefSetting is not null;
        string relief = circuit.HighPressureReliefSetting is { } given
            ? $"relief set at {Text(given)}"
            : "no relief setting stated";
        cautions.Add(new Caution(
            stated ? CautionSeverity.Warning : CautionSeverity.Notice,
            "High-side relief",
            $"high side {Text(circuit.HighPressure)}, {relief}",
            "the high side needs a relief device that opens above the highest pressure in service (threshold: the high pressure) and below the rating of the weakest part",
            $"A clogged throttle or a warm start drives the high side up; fit a pressure switch and a relief device, vented to a safe place. Setting and sizing are licensed work (ISO 5149, EN 378). {Caution.Deference}",
            Source.CommonPractice));
    }

    private static string Text(Pressure pressure) => $"{pressure.Bars:G4} bar absolute";

    private static string Text(Temperature temperature) => $"{temperature.Kelvins:F1} K ({temperature.DegreesCelsius:F1} degC)";
}
