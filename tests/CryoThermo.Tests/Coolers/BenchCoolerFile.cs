using System.Text.Json;
using System.Text.Json.Nodes;
using CryoThermo.Coolers;

namespace CryoThermo.Tests.Coolers;

/// <summary>The cooler file of the example, with changes.</summary>
internal static class BenchCoolerFile
{
    public static readonly string Path = System.IO.Path.Combine(AppContext.BaseDirectory, "Coolers", "bench-cooler.json");

    private static readonly JsonDocumentOptions Comments = new() { CommentHandling = JsonCommentHandling.Skip };

    public static JsonObject Read() => JsonNode.Parse(File.ReadAllText(Path), documentOptions: Comments)!.AsObject();

    public static JsonObject With(Action<JsonObject> change)
    {
        JsonObject cooler = Read();
        change(cooler);
        return cooler;
    }

    public static CoolerDescription Describe(JsonObject cooler) => CoolerDescriptionReader.Parse(cooler.ToJsonString(), "test.json");

    public static CoolerDesign Design(JsonObject cooler) => CoolerDesign.Evaluate(Describe(cooler));

    public static CoolerDesign Design(Action<JsonObject> change) => Design(With(change));

    public static void SetValue(this JsonObject cooler, string part, string member, double value) => cooler[part]![member]!["value"] = value;
}
