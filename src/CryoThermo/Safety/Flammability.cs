namespace CryoThermo.Safety;

/// <summary>Fire behaviour of a mixture, from the records of its substances; the unfavourable end of every published spread.</summary>
/// <remarks>
/// Lower limit: Le Chatelier's rule, 1/L = sum x_i/L_i over the flammable part of the whole mixture, so that inert gas only dilutes
/// (Coward and Jones, US Bureau of Mines Bulletin 503, 1952). Whether the mixture burns in any proportion with air: ISO 10156,
/// sum 100 A_i/T_i > 1 with A_i = x_i/(sum of flammable + sum of K_k inert_k), T_i the greatest share of the fuel in nitrogen that does
/// not burn in air. Where no T_i is at hand the substance's own lower limit stands for it: a fuel diluted below that by nitrogen cannot
/// burn, so this errs on the cautious side.
/// </remarks>
internal sealed class Flammability
{
    private const double DefaultNitrogenEquivalence = 1;

    private Flammability(IReadOnlyList<SubstanceShare> contents, Func<SubstanceHazard, double> lowerLimitPercent)
    {
        double weightedReciprocal = 0, denominator = 0;
        List<(SubstanceHazard Hazard, double Share)> fuels = [];
        List<string> unknown = [];
        List<string> oxidisers = [];
        foreach (SubstanceShare share in contents)
        {
            if (share.MoleFraction <= 0)
            {
                continue;
            }

            if (!HazardTable.TryFind(share.Substance, out SubstanceHazard? hazard))
            {
                unknown.Add(share.Substance);
                continue;
            }

            switch (hazard.Behaviour)
            {
                case FireBehaviour.Flammable:
                    fuels.Add((hazard, share.MoleFraction));
                    FuelFraction += share.MoleFraction;
                    weightedReciprocal += share.MoleFraction / lowerLimitPercent(hazard);
                    denominator += share.MoleFraction;
                    break;
                case FireBehaviour.Oxidiser:
                    oxidisers.Add(hazard.Name);
                    OxidiserFraction += share.MoleFraction;
                    break;
                default:
                    denominator += (hazard.NitrogenEquivalence ?? DefaultNitrogenEquivalence) * share.MoleFraction;
                    break;
            }
        }

        Unknown = unknown;
        Oxidisers = oxidisers;
        if (fuels.Count == 0)
        {
            return;
        }

        LowerLimitPercent = 1 / weightedReciprocal;
        Index = fuels.Sum(fuel => 100 * fuel.Share / denominator
            / (fuel.Hazard.GreatestNonFlammableShareInNitrogenPercent ?? lowerLimitPercent(fuel.Hazard)));
        (SubstanceHazard Hazard, double Share) firstToIgnite = fuels.MinBy(fuel => fuel.Hazard.AutoignitionDegreesCelsius!.Least);
        LowestAutoignitionCelsius = firstToIgnite.Hazard.AutoignitionDegreesCelsius!.Least;
        FirstToIgnite = firstToIgnite.Hazard.Name;
        (SubstanceHazard worst, _) = fuels
            .OrderByDescending(fuel => GroupRank(fuel.Hazard.SafetyGroup))
            .ThenByDescending(fuel => fuel.Share)
            .First();
        WorstGroup = worst.SafetyGroup is null
            ? $"{worst.Name}, flammable, no safety group recalled"
            : $"{worst.SafetyGroup} ({worst.Name})";
    }

    /// <summary>Mole fraction of flammable substances.</summary>
    public double FuelFraction { get; }

    /// <summary>Mole fraction of oxidisers.</summary>
    public double OxidiserFraction { get; }

    /// <summary>Lower flammability limit of the whole mixture in air, volume per cent; above 100 when it cannot be reached; null without fuel.</summary>
    public double? LowerLimitPercent { get; }

    /// <summary>The sum of ISO 10156; above 1 the mixture burns in some proportion with air; null without fuel.</summary>
    public double? Index { get; }

    /// <summary>The lowest autoignition temperature among the fuels, degC; null without fuel.</summary>
    public double? LowestAutoignitionCelsius { get; }

    /// <summary>The fuel that has the lowest autoignition temperature; null without fuel.</summary>
    public string? FirstToIgnite { get; }

    /// <summary>ISO 817 safety group of the worst flammable component; null without fuel.</summary>
    public string? WorstGroup { get; }

    /// <summary>Substances without a record.</summary>
    public IReadOnlyList<string> Unknown { get; }

    /// <summary>Oxidisers in the mixture.</summary>
    public IReadOnlyList<string> Oxidisers { get; }

    /// <summary>Whether the mixture contains a substance that burns.</summary>
    public bool HasFuel => FuelFraction > 0;

    /// <summary>Whether the mixture as charged burns in some proportion with air; an oxidiser beside any fuel counts as that too.</summary>
    public bool Burns => Index > 1 || (HasFuel && OxidiserFraction > 0);

    /// <summary>Whether the mixture must be treated as fuel by its neighbours: it holds one, or a substance nothing is known of.</summary>
    public bool MustBeTreatedAsFuel => HasFuel || Unknown.Count > 0;

    /// <summary>
    /// Oxidiser below this share is not one in a charge: a fiftieth of the least limiting oxygen of any fuel, 5 % (hydrogen in nitrogen, NFPA 69, from memory).
    /// </summary>
    public const double LeastOxidiser = 0.001;

    /// <summary>Refuses to compute a machine or vessel for a blend that can explode by itself.</summary>
    /// <param name="contents">The blend.</param>
    /// <param name="what">What holds it, to begin the message.</param>
    /// <param name="parameter">Parameter it came by.</param>
    /// <exception cref="ArgumentException">It holds an oxidiser beside a fuel, or beside a substance of which nothing is known.</exception>
    public static void RefuseFuelBesideOxidiser(IReadOnlyList<SubstanceShare> contents, string what, string parameter)
    {
        Flammability found = Of(contents);
        if (found is { OxidiserFraction: >= LeastOxidiser, MustBeTreatedAsFuel: true })
        {
            throw new ArgumentException(
                FormattableString.Invariant($"{what} holds {100 * found.OxidiserFraction:G3} % mol {string.Join(", ", found.Oxidisers)} beside fuel or a substance of unknown fire behaviour: it can explode without any air, and no machine is computed for it. Properties of such a blend may be asked of WorkingFluid. {Diagnostics.Caution.Deference}"),
                parameter);
        }
    }

    /// <summary>Assesses a mixture with the least published lower limit of each fuel.</summary>
    public static Flammability Of(IReadOnlyList<SubstanceShare> contents) =>
        new(contents, hazard => hazard.LowerFlammabilityLimitPercent!.Least);

    /// <summary>Assesses a mixture with the greatest published lower limit of each fuel, to compare with compilations that use those.</summary>
    public static Flammability WithGreatestLimits(IReadOnlyList<SubstanceShare> contents) =>
        new(contents, hazard => hazard.LowerFlammabilityLimitPercent!.Most);

    // Flammability class first (3 worst), toxicity second; a flammable substance without a group counts as class 3.
    private static int GroupRank(string? group) => group switch
    {
        "B3" => 8,
        "A3" => 7,
        null => 6,
        "B2" => 5,
        "A2" => 4,
        "B2L" => 3,
        "A2L" => 2,
        _ => 1,
    };
}
