using System.Collections.ObjectModel;
using System.Text.Json;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// One object of a data file. Its members are asked for by name; unknown and repeated ones, and values of another kind, are refused with file
/// and field. Reads the document tree directly: building readers by reflection or generated metadata costs more than the whole file at the
/// start of a process.
/// </summary>
internal sealed class JsonBlock
{
    private readonly JsonElement element;
    private readonly string path;

    private JsonBlock(JsonElement element, string file, string path)
    {
        this.element = element;
        this.path = path;
        Check = new FieldCheck(file, path);
        if (element.ValueKind != JsonValueKind.Object)
        {
            throw new SubstanceDataException(file, path.Length == 0 ? "(whole file)" : path, $"must be an object, found {KindOf(element)}");
        }
    }

    /// <summary>Checks fields of this block.</summary>
    public FieldCheck Check { get; }

    /// <summary>Reads a whole file; comments and trailing commas are allowed.</summary>
    public static T ReadFile<T>(string text, string file, Func<JsonBlock, T> read)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(
                text, new JsonDocumentOptions { AllowTrailingCommas = true, CommentHandling = JsonCommentHandling.Skip });
            return read(new JsonBlock(document.RootElement, file, string.Empty));
        }
        catch (JsonException error)
        {
            string where = error.LineNumber is long line ? $" (line {line + 1})" : string.Empty;
            throw new SubstanceDataException(file, "(whole file)", error.Message.Split(" LineNumber:")[0] + where, error);
        }
    }

    /// <summary>Refuses members other than these, and repeated ones.</summary>
    public void RequireOnly(params string[] fields)
    {
        RequireUnique();
        foreach (JsonProperty member in element.EnumerateObject())
        {
            if (!fields.Contains(member.Name))
            {
                throw Check.Broken(member.Name, "is not a field of the format");
            }
        }
    }

    /// <summary>Whether a field is there and not null.</summary>
    public bool Holds(string field) => TryGet(field, out _);

    /// <summary>Refuses members other than these, those that tell where a number comes from, and repeated ones.</summary>
    public void RequireMarked(params string[] fields) => RequireOnly([.. fields, "source", "uncertainty", "note"]);

    public double? Number(string field)
    {
        if (!TryGet(field, out JsonElement value))
        {
            return null;
        }

        return value.ValueKind == JsonValueKind.Number ? value.GetDouble() : throw Unconvertible(field, "a number", value);
    }

    public double RequiredNumber(string field) => Check.Number(Number(field), field);

    public double Positive(string field, string unit) => Check.Positive(Number(field), field, unit);

    public double InRange(string field, double low, double high, string unit) => Check.InRange(Number(field), field, low, high, unit);

    public string RequiredText(string field) => Check.Text(Text(field), field);

    public string? OptionalText(string field) => Text(field) is null ? null : RequiredText(field);

    public JsonBlock RequiredBlock(string field) => Check.Required(OptionalBlock(field), field);

    public JsonBlock? OptionalBlock(string field) => Block(field, block => block);

    public string? Text(string field) => TryGet(field, out JsonElement value) ? TextOf(value, field) : null;

    public bool? Flag(string field)
    {
        if (!TryGet(field, out JsonElement value))
        {
            return null;
        }

        return value.ValueKind is JsonValueKind.True or JsonValueKind.False
            ? value.GetBoolean()
            : throw Unconvertible(field, "true or false", value);
    }

    public T? Block<T>(string field, Func<JsonBlock, T> read)
        where T : class => TryGet(field, out JsonElement value) ? read(new JsonBlock(value, Check.File, PathOf(field))) : null;

    public IReadOnlyList<T?>? Blocks<T>(string field, Func<JsonBlock, T> read)
        where T : class
    {
        if (!TryGetList(field, out JsonElement list))
        {
            return null;
        }

        List<T?> blocks = new(list.GetArrayLength());
        foreach (JsonElement item in list.EnumerateArray())
        {
            blocks.Add(item.ValueKind == JsonValueKind.Null ? null : read(new JsonBlock(item, Check.File, PathOf($"{field}[{blocks.Count}]"))));
        }

        return blocks;
    }

    /// <summary>A list of objects; empty when it is not given.</summary>
    public ReadOnlyCollection<T> List<T>(string field, Func<JsonBlock, T> read)
        where T : class => OptionalList(field, read) ?? ReadOnlyCollection<T>.Empty;

    /// <summary>A list of objects; null when it is not given.</summary>
    public ReadOnlyCollection<T>? OptionalList<T>(string field, Func<JsonBlock, T> read)
        where T : class
    {
        if (!TryGetList(field, out JsonElement list))
        {
            return null;
        }

        List<T> items = new(list.GetArrayLength());
        foreach (JsonElement item in list.EnumerateArray())
        {
            items.Add(read(new JsonBlock(item, Check.File, PathOf($"{field}[{items.Count}]"))));
        }

        return items.AsReadOnly();
    }

    public IReadOnlyList<string?>? Texts(string field)
    {
        if (!TryGetList(field, out JsonElement list))
        {
            return null;
        }

        List<string?> texts = new(list.GetArrayLength());
        foreach (JsonElement item in list.EnumerateArray())
        {
            texts.Add(item.ValueKind == JsonValueKind.Null ? null : TextOf(item, $"{field}[{texts.Count}]"));
        }

        return texts;
    }

    /// <summary>A list of texts, none of them empty; empty when it is not given.</summary>
    public ReadOnlyCollection<string> RequiredTexts(string field)
    {
        if (Texts(field) is not { } given)
        {
            return ReadOnlyCollection<string>.Empty;
        }

        List<string> texts = new(given.Count);
        for (int i = 0; i < given.Count; i++)
        {
            texts.Add(Check.Text(given[i], $"{field}[{i}]"));
        }

        return texts.AsReadOnly();
    }

    /// <summary>A list of a fixed count of finite numbers.</summary>
    public double[] RequiredNumbers(string field, int count)
    {
        if (!TryGetList(field, out JsonElement list))
        {
            throw Check.Broken(field, "is missing");
        }

        if (list.GetArrayLength() != count)
        {
            throw Check.Broken(field, $"must hold {count} numbers, found {list.GetArrayLength()}");
        }

        double[] numbers = new double[count];
        for (int i = 0; i < count; i++)
        {
            string place = $"{field}[{i}]";
            numbers[i] = list[i].ValueKind == JsonValueKind.Number
                ? Check.Number(list[i].GetDouble(), place)
                : throw Unconvertible(place, "a number", list[i]);
        }

        return numbers;
    }

    /// <summary>An object whose member names are labels of the writer's own choice, in their order.</summary>
    public IReadOnlyList<KeyValuePair<string, T?>>? Labelled<T>(string field, Func<JsonBlock, T> read)
        where T : class
    {
        if (!TryGet(field, out JsonElement value))
        {
            return null;
        }

        JsonBlock table = new(value, Check.File, PathOf(field));
        table.RequireUnique();
        List<KeyValuePair<string, T?>> entries = [];
        foreach (JsonProperty member in value.EnumerateObject())
        {
            entries.Add(new KeyValuePair<string, T?>(member.Name, table.Block(member.Name, read)));
        }

        return entries;
    }

    private static string KindOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => $"the text '{value.GetString()}'",
        JsonValueKind.Number => value.GetRawText(),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => "null",
    };

    private void RequireUnique()
    {
        int members = 0;
        foreach (JsonProperty member in element.EnumerateObject())
        {
            int earlier = 0;
            foreach (JsonProperty other in element.EnumerateObject())
            {
                if (earlier++ == members)
                {
                    break;
                }

                if (other.NameEquals(member.Name))
                {
                    throw Check.Broken(member.Name, "Duplicate field; it may stand only once");
                }
            }

            members++;
        }
    }

    private bool TryGet(string field, out JsonElement value) =>
        element.TryGetProperty(field, out value) && value.ValueKind != JsonValueKind.Null;

    private bool TryGetList(string field, out JsonElement list)
    {
        if (!TryGet(field, out list))
        {
            return false;
        }

        return list.ValueKind == JsonValueKind.Array ? true : throw Unconvertible(field, "a list", list);
    }

    private string TextOf(JsonElement value, string field) =>
        value.ValueKind == JsonValueKind.String ? value.GetString()! : throw Unconvertible(field, "a text", value);

    private SubstanceDataException Unconvertible(string field, string wanted, JsonElement found) =>
        Check.Broken(field, $"could not be converted: must be {wanted}, found {KindOf(found)}");

    private string PathOf(string field) => path.Length == 0 ? field : $"{path}.{field}";
}
