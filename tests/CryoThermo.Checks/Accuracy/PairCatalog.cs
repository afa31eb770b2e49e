using System.Text.Json;
using CryoThermo.Substances;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The shipped catalogue with other interaction parameters, for numbers that were computed with those.</summary>
public static class PairCatalog
{
    /// <summary>A catalogue whose Peng-Robinson parameters are those given for the pairs given.</summary>
    public static SubstanceCatalog With(IEnumerable<Values.PairInteraction> interactions)
    {
        var pairs = interactions.Select(i => new
        {
            first = i.First,
            second = i.Second,
            tier = "published",
            source = "check value",
            pengRobinson = new { interaction = i.Interaction, confidence = "good" },
        }).ToArray();
        if (pairs.Length == 0)
        {
            return SubstanceCatalog.Default;
        }

        Dictionary<string, object> sources = new() { ["check value"] = new { publication = "parameters a check value was computed with", fromMemory = false } };
        return SubstanceCatalog.Default.WithPairs(JsonSerializer.Serialize(new { sources, pairs }), "check-values.json");
    }
}
