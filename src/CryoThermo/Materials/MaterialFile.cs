using System.Text.Json;
using CryoThermo.Diagnostics;

namespace CryoThermo.Materials;

/// <summary>Reads embedded files of materials and insulations; a field that is missing throws.</summary>
internal static class MaterialFile
{
    /// <summary>The records of a list in an embedded file.</summary>
    /// <param name="resource">Name of the file among the resources.</param>
    /// <param name="list">Name of the list.</param>
    /// <param name="read">Makes one record.</param>
    public static T[] Read<T>(string resource, string list, Func<JsonElement, T> read)
    {
        using Stream stream = typeof(MaterialFile).Assembly.GetManifestResourceStream(resource)
            ?? throw new SubstanceDataException(resource, "(file)", "the embedded resource is missing.");
        using JsonDocument document = JsonDocument.Parse(stream);
        return [.. document.RootElement.GetProperty(list).EnumerateArray().Select(read)];
    }

    /// <summary>The publication of a record, with its marks.</summary>
    public static Source Source(JsonElement record, string field = "source")
    {
        JsonElement source = record.GetProperty(field);
        return new(source.GetProperty("publication").GetString()!, source.GetProperty("fromMemory").GetBoolean(), source.GetProperty("verified").GetString());
    }

    /// <summary>A text that may be missing.</summary>
    public static string? Text(JsonElement record, string field) => record.TryGetProperty(field, out JsonElement text) ? text.GetString() : null;

    /// <summary>A number that may be missing.</summary>
    public static double? Number(JsonElement record, string field) => record.TryGetProperty(field, out JsonElement number) ? number.GetDouble() : null;

    /// <summary>A list of texts.</summary>
    public static string[] Texts(JsonElement record, string field) => [.. record.GetProperty(field).EnumerateArray().Select(e => e.GetString()!)];

    /// <summary>A list of numbers.</summary>
    public static double[] Numbers(JsonElement array) => [.. array.EnumerateArray().Select(e => e.GetDouble())];

    /// <summary>A list of numbers that may be missing.</summary>
    public static double[]? Numbers(JsonElement record, string field) => record.TryGetProperty(field, out JsonElement array) ? Numbers(array) : null;

    /// <summary>Rows of numbers that may be missing.</summary>
    public static double[][]? Rows(JsonElement record, string field) =>
        record.TryGetProperty(field, out JsonElement rows) ? [.. rows.EnumerateArray().Select(Numbers)] : null;
}
