using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using CryoThermo.Diagnostics;

namespace CryoThermo.Safety;

/// <summary>The embedded hazard records, found by name, formula or ISO 817 designation, whatever the case.</summary>
internal static class HazardTable
{
    private const string ResourceName = "Safety/flammability.json";

    private static readonly Lazy<Dictionary<string, SubstanceHazard>> ByAnyName = new(Load);

    /// <summary>All records.</summary>
    public static IEnumerable<SubstanceHazard> All => ByAnyName.Value.Values.Distinct();

    /// <summary>Finds the record of a substance.</summary>
    public static bool TryFind(string substance, [NotNullWhen(true)] out SubstanceHazard? hazard) =>
        ByAnyName.Value.TryGetValue(substance.Trim(), out hazard);

    private static Dictionary<string, SubstanceHazard> Load()
    {
        using Stream stream = typeof(HazardTable).Assembly.GetManifestResourceStream(ResourceName)
            ?? throw new SubstanceDataException(ResourceName, "(file)", "the embedded resource is missing.");
        SubstanceHazardFile file = JsonSerializer.Deserialize(stream, HazardJsonContext.Default.SubstanceHazardFile)
            ?? throw new SubstanceDataException(ResourceName, "(file)", "the file holds null.");

        Dictionary<string, SubstanceHazard> byAnyName = new(StringComparer.OrdinalIgnoreCase);
        foreach (SubstanceHazard hazard in file.Substances)
        {
            Check(hazard);
            foreach (string name in hazard.AlsoKnownAs.Prepend(hazard.Name))
            {
                if (!byAnyName.TryAdd(name, hazard))
                {
                    throw new SubstanceDataException(ResourceName, $"{hazard.Name}.alsoKnownAs", $"'{name}' is given twice.");
                }
            }
        }

        return byAnyName;
    }

    private static void Check(SubstanceHazard hazard)
    {
        bool flammable = hazard.Behaviour == FireBehaviour.Flammable;
        if (flammable != (hazard.LowerFlammabilityLimitPercent is not null)
            || flammable != (hazard.AutoignitionDegreesCelsius is not null))
        {
            throw new SubstanceDataException(
                ResourceName, hazard.Name, "a flammable substance, and only that, needs a lower limit and an autoignition temperature.");
        }

        if (flammable != (hazard.NetHeatOfCombustionKilojoulesPerMole > 0) || flammable != (hazard.MolarMassGramsPerMole > 0) || hazard.LimitingOxygenInNitrogenPercent is <= 0 or >= 21)
        {
            throw new SubstanceDataException(
                ResourceName, hazard.Name, "a flammable substance, and only that, needs a heat of combustion and a molar mass; its limiting oxygen lies between 0 and 21 %.");
        }

        Ordered(hazard.LowerFlammabilityLimitPercent, 0, 100, "lowerFlammabilityLimitPercent");
        Ordered(hazard.UpperFlammabilityLimitPercent, hazard.LowerFlammabilityLimitPercent?.Most ?? 0, 100, "upperFlammabilityLimitPercent");
        Ordered(hazard.AutoignitionDegreesCelsius, 100, 1000, "autoignitionDegreesCelsius");

        void Ordered(PublishedSpread? spread, double low, double high, string field)
        {
            if (spread is not null && !(spread.Least > low && spread.Most >= spread.Least && spread.Most < high))
            {
                throw new SubstanceDataException(
                    ResourceName,
                    $"{hazard.Name}.{field}",
                    $"{spread.Least:G6} to {spread.Most:G6} is not a rising range between {low:G6} and {high:G6}.");
            }
        }
    }
}
