using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Reads a data file; every error becomes a <see cref="SubstanceDataException"/> that names the field.</summary>
internal static class DataJson
{
    public static T Read<T>(string text, string file, JsonTypeInfo<T> type)
    {
        try
        {
            return JsonSerializer.Deserialize(text, type)
                ?? throw new SubstanceDataException(file, "(whole file)", "must be an object, found null");
        }
        catch (JsonException error)
        {
            string where = error.LineNumber is long line ? $" (line {line + 1})" : string.Empty;
            throw new SubstanceDataException(file, FieldOf(error.Path), Rule(error.Message) + where, error);
        }
    }

    private static string FieldOf(string? path)
    {
        string field = (path ?? "$").TrimStart('$').TrimStart('.');
        return field.Length == 0 ? "(whole file)" : field.Replace("['", ".", StringComparison.Ordinal).Replace("']", string.Empty, StringComparison.Ordinal).TrimStart('.');
    }

    private static string Rule(string message)
    {
        if (message.Contains("could not be mapped to any .NET member", StringComparison.Ordinal))
        {
            return "is not a field of the format";
        }

        int path = message.IndexOf(" Path: ", StringComparison.Ordinal);
        return path < 0 ? message : message[..path];
    }
}
