using System.Text.Json;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The allowed range of a number, in the base unit of its kind.</summary>
internal readonly record struct AllowedRange(double Low, double High, bool LowExcluded = false)
{
    /// <summary>Tells whether a value lies in the range.</summary>
    public bool Holds(double value) => (LowExcluded ? value > Low : value >= Low) && value <= High;

    /// <summary>The range in words.</summary>
    public string Text(string unit)
    {
        string low = LowExcluded ? $"above {Low:G6}" : $"{Low:G6}";
        string suffix = unit.Length == 0 ? string.Empty : " " + unit;
        return $"{low} to {High:G6}{suffix}";
    }
}

/// <summary>A pressure as written in the file, before the local atmosphere is applied.</summary>
internal readonly record struct WrittenPressure(Pressure Value, bool IsGauge)
{
    /// <summary>The value with its unit and reference.</summary>
    public string Text => $"{Value.Value:G6} {Pressure.GetAbbreviation(Value.Unit)} {(IsGauge ? "gauge" : "absolute")}";
}

/// <summary>
/// Reads the members of one JSON object and adds a fault for each thing that is wrong, so that all faults of a file are found in
/// one pass. A member that is missing or wrong comes back as null.
/// </summary>
internal sealed class FieldReader
{
    private const double GreatestMagnitude = 1e15;
    private static readonly AllowedRange AnyAbsolutePressure = new(0, 1e8, LowExcluded: true);

    private readonly Dictionary<string, JsonElement> members = new(StringComparer.Ordinal);
    private readonly HashSet<string> asked = new(StringComparer.Ordinal);
    private readonly string path;
    private readonly List<DescriptionFault> faults;

    private FieldReader(string path, List<DescriptionFault> faults)
    {
        this.path = path;
        this.faults = faults;
    }

    /// <summary>The members in the file's order.</summary>
    public IEnumerable<(string Name, JsonElement Value)> Members => members.Select(member => (member.Key, member.Value));

    /// <summary>Opens an object; null and a fault when the element is not one.</summary>
    public static FieldReader? Open(JsonElement element, string path, List<DescriptionFault> faults)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            faults.Add(new DescriptionFault(
                path.Length == 0 ? "(file)" : path, $"is {Describe(element)}; expected is an object in braces."));
            return null;
        }

        FieldReader reader = new(path, faults);
        foreach (JsonProperty member in element.EnumerateObject())
        {
            string? name = NameOf(member);
            if (name is null)
            {
                reader.FaultOfWhole("has a member whose name holds characters that are not valid text.");
            }
            else if (!reader.members.TryAdd(name, member.Value))
            {
                reader.Fault(name, "is given twice; give it once.");
            }
        }

        return reader;
    }

    /// <summary>The full path of a member.</summary>
    public string PathOf(string name)
    {
        string shown = name.Length == 0 ? "\"\"" : name;
        return path.Length == 0 ? shown : $"{path}.{shown}";
    }

    /// <summary>Adds a fault to a member.</summary>
    public void Fault(string name, string message) => faults.Add(new DescriptionFault(PathOf(name), message));

    /// <summary>Adds a fault to the object as a whole.</summary>
    public void FaultOfWhole(string message) => faults.Add(new DescriptionFault(path.Length == 0 ? "(file)" : path, message));

    /// <summary>Tells whether the object has a member, whatever its value.</summary>
    public bool Has(string name)
    {
        asked.Add(name);
        return members.ContainsKey(name);
    }

    /// <summary>Adds a fault for every member that nobody asked for, with the nearest name that was asked for.</summary>
    public void RejectUnknownMembers()
    {
        foreach (string name in members.Keys.Where(name => !asked.Contains(name)))
        {
            string? nearest = NearestName.Of(name, asked);
            Fault(name, $"is not a field of the format; the nearest one is \"{nearest}\". Allowed here: {string.Join(", ", asked)}.");
        }
    }

    /// <summary>Reads a member of any kind.</summary>
    public JsonElement? Element(string name, bool required, string expected)
    {
        asked.Add(name);
        if (!members.TryGetValue(name, out JsonElement element))
        {
            if (required)
            {
                Fault(name, $"is missing; expected is {expected}.");
            }

            return null;
        }

        if (element.ValueKind == JsonValueKind.Null)
        {
            Fault(name, required ? $"is null; expected is {expected}." : "is null; leave the field out instead.");
            return null;
        }

        return element;
    }

    /// <summary>Reads an object.</summary>
    public FieldReader? Object(string name, bool required) =>
        Element(name, required, "an object in braces") is { } element ? Open(element, PathOf(name), faults) : null;

    /// <summary>Reads a text that is not blank.</summary>
    public string? Text(string name, bool required, string expected = "a text")
    {
        if (Element(name, required, expected) is not { } element)
        {
            return null;
        }

        if (element.ValueKind != JsonValueKind.String)
        {
            Fault(name, $"is {Describe(element)}; expected is {expected}, in quotation marks.");
            return null;
        }

        string? text = TextOf(element);
        if (string.IsNullOrWhiteSpace(text))
        {
            Fault(name, text is null ? "holds characters that are not valid text." : $"is blank; expected is {expected}.");
            return null;
        }

        return text;
    }

    /// <summary>Reads one of a list of words.</summary>
    public string? Word(string name, bool required, IReadOnlyList<string> words)
    {
        string expected = $"one of {string.Join(", ", words.Select(word => $"\"{word}\""))}";
        string? text = Text(name, required, expected);
        if (text is null || words.Contains(text))
        {
            return text;
        }

        Fault(name, $"is \"{Shorten(text)}\"; expected is {expected}.");
        return null;
    }

    /// <summary>Reads a truth value.</summary>
    public bool? Boolean(string name)
    {
        if (Element(name, required: false, "true or false") is not { } element)
        {
            return null;
        }

        if (element.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return element.GetBoolean();
        }

        Fault(name, $"is {Describe(element)}; expected is true or false, without quotation marks.");
        return null;
    }

    /// <summary>Reads a plain number.</summary>
    public double? Number(string name, bool required, AllowedRange range)
    {
        if (Element(name, required, $"a number, {range.Text(string.Empty)}") is not { } element
            || FiniteNumber(name, element) is not { } value)
        {
            return null;
        }

        if (range.Holds(value))
        {
            return value;
        }

        Fault(name, $"is {value:G9}; allowed is {range.Text(string.Empty)}.");
        return null;
    }

    /// <summary>Reads a plain number without decimals.</summary>
    public int? WholeNumber(string name, AllowedRange range)
    {
        if (Number(name, required: true, range) is not { } value)
        {
            return null;
        }

        if (double.IsInteger(value))
        {
            return (int)value;
        }

        Fault(name, $"is {value:G9}; expected is a whole number.");
        return null;
    }

    /// <summary>Reads a number of a quantity or mixture; a fault when it is not finite.</summary>
    public double? FiniteNumber(string name, JsonElement element)
    {
        if (element.ValueKind != JsonValueKind.Number)
        {
            Fault(name, $"is {Describe(element)}; expected is a number, without quotation marks.");
            return null;
        }

        if (element.TryGetDouble(out double value) && Math.Abs(value) <= GreatestMagnitude)
        {
            return value;
        }

        Fault(name, $"is {Shorten(element.GetRawText())}; expected is a finite number of at most {GreatestMagnitude:G1} in size.");
        return null;
    }

    /// <summary>Reads a quantity written as { value, unit }.</summary>
    public T? Quantity<T>(string name, bool required, UnitNames<T> units, AllowedRange range)
        where T : struct
    {
        if (Element(name, required, $"{units.Kind}, as {{ \"value\": ..., \"unit\": ... }}") is not { } element
            || Open(element, PathOf(name), faults) is not { } reader)
        {
            return null;
        }

        (T Quantity, double Value, string Unit)? read = reader.ValueAndUnit(units);
        reader.RejectUnknownMembers();
        if (read is not { } written)
        {
            return null;
        }

        double inBase = units.ToBase(written.Quantity);
        if (range.Holds(inBase))
        {
            return written.Quantity;
        }

        string converted = string.Equals(written.Unit, units.BaseUnit, StringComparison.Ordinal)
            ? string.Empty
            : $" ({inBase:G6} {units.BaseUnit})";
        Fault(name, $"is {written.Value:G9} {written.Unit}{converted}; allowed is {range.Text(units.BaseUnit)}.");
        return null;
    }

    /// <summary>Reads a pressure with its reference, gauge or absolute; null, without a fault of its own, where the local atmosphere is not known.</summary>
    public GaugePressure? GaugeOrAbsolute(string name, bool required, Pressure? atmosphere)
    {
        if (PressureWith(name, required, "gauge", "absolute") is not { } pressure || atmosphere is not { } local)
        {
            return null;
        }

        double pascals = pressure.Value.Pascals + (pressure.IsGauge ? local.Pascals : 0);
        if (!AnyAbsolutePressure.Holds(pascals))
        {
            string inAbsolute = pressure.IsGauge ? $" ({pascals:G6} Pa absolute at a local atmosphere of {local.Pascals:F0} Pa)" : string.Empty;
            string vacuum = pascals < 0 ? "below vacuum" : pascals == 0 ? "a perfect vacuum" : "too high";
            Fault(name, $"is {pressure.Text}{inAbsolute}, {vacuum}; allowed is {AnyAbsolutePressure.Text("Pa absolute")}.");
            return null;
        }

        return pressure.IsGauge
            ? new GaugePressure(pressure.Value, local)
            : GaugePressure.FromAbsolute(pressure.Value, local);
    }

    /// <summary>Reads the objects of an optional list that are sound; empty where it is left out.</summary>
    public List<T> Each<T>(string name, Func<FieldReader, T?> read)
        where T : class => Objects(name, required: false, read, out _);

    /// <summary>Reads every object of a list; null where it is left out or one is at fault.</summary>
    public List<T>? Every<T>(string name, bool required, Func<FieldReader, T?> read)
        where T : class
    {
        List<T> found = Objects(name, required, read, out int? count);
        return found.Count == count ? found : null;
    }

    private List<T> Objects<T>(string name, bool required, Func<FieldReader, T?> read, out int? count)
        where T : class
    {
        List<T> found = [];
        count = null;
        if (Element(name, required, "a list in brackets") is not { } list)
        {
            return found;
        }

        if (list.ValueKind != JsonValueKind.Array)
        {
            Fault(name, $"is {Describe(list)}; expected is a list in brackets.");
            return found;
        }

        count = 0;
        foreach (JsonElement element in list.EnumerateArray())
        {
            if (Open(element, $"{PathOf(name)}[{count}]", faults) is { } reader && read(reader) is { } one)
            {
                found.Add(one);
            }

            count++;
        }

        return found;
    }

    /// <summary>Reads an absolute pressure in a range.</summary>
    public Pressure? Absolute(string name, AllowedRange range) =>
        PressureWith(name, required: true, "absolute") is { } written ? InRange(written.Value, name, "absolute", range) : null;

    /// <summary>Reads a pressure difference in a range.</summary>
    public Pressure? Difference(string name, AllowedRange range) =>
        PressureWith(name, required: false, "difference") is { } written ? InRange(written.Value, name, "difference", range) : null;

    private WrittenPressure? PressureWith(string name, bool required, params string[] references)
    {
        const string Expected = "a pressure, as { \"value\": ..., \"unit\": ..., \"reference\": ... }";
        if (Element(name, required, Expected) is not { } element || Open(element, PathOf(name), faults) is not { } reader)
        {
            return null;
        }

        (Pressure Quantity, double Value, string Unit)? read = reader.ValueAndUnit(UnitNames.Pressures);
        string? reference = reader.Word("reference", required: true, references);
        reader.RejectUnknownMembers();
        return read is { } written && reference is not null
            ? new WrittenPressure(written.Quantity, reference == "gauge")
            : null;
    }

    private Pressure? InRange(Pressure pressure, string name, string reference, AllowedRange range)
    {
        if (range.Holds(pressure.Pascals))
        {
            return pressure;
        }

        string text = $"{pressure.Value:G9} {Pressure.GetAbbreviation(pressure.Unit)} {reference} ({pressure.Pascals:G6} Pa)";
        Fault(name, $"is {text}; allowed is {range.Text("Pa")}.");
        return null;
    }

    private (T Quantity, double Value, string Unit)? ValueAndUnit<T>(UnitNames<T> units)
        where T : struct
    {
        string expected = $"a unit of {units.Kind[2..]}: {string.Join(", ", units.Names)}";
        double? value = Element("value", required: true, "a number") is { } number ? FiniteNumber("value", number) : null;
        string? unit = Text("unit", required: true, expected);
        if (unit is null)
        {
            return null;
        }

        if (!units.Names.Contains(unit))
        {
            string found = UnitNames.KindOf(unit) is { } kind
                ? $"is \"{unit}\", the unit of {kind}"
                : $"is \"{Shorten(unit)}\", which is not known (nearest \"{NearestUnit(unit, units.Names)}\")";
            Fault("unit", $"{found}; expected is {expected}.");
            return null;
        }

        return value is { } finite && units.TryMake(finite, unit, out T quantity) ? (quantity, finite, unit) : null;
    }

    private static string? NameOf(JsonProperty member)
    {
        try
        {
            return member.Name;
        }
        catch (InvalidOperationException)
        {
            return null; // an escaped half of a surrogate pair
        }
    }

    /// <summary>The text of a string element; null when it holds an escaped half of a surrogate pair.</summary>
    public static string? TextOf(JsonElement element)
    {
        try
        {
            return element.GetString();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>A text cut to a length that fits a message.</summary>
    public static string Shorten(string text) => text.Length <= 40 ? text : string.Concat(text.AsSpan(0, 40), "...");

    /// <summary>What an element is, in words.</summary>
    public static string Describe(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => $"the text \"{Shorten(TextOf(element) ?? string.Empty)}\"",
        JsonValueKind.Number => $"the number {Shorten(element.GetRawText())}",
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => "null",
    };

    // "C" means "degC" though "K" is fewer letters away, and "barg" means "bar": a unit that holds the other goes first.
    private static string? NearestUnit(string unit, IReadOnlyCollection<string> names)
    {
        string bare = unit.Replace("\u00B0", string.Empty, StringComparison.Ordinal).Trim();
        string[] related = bare.Length == 0
            ? []
            : [.. names.Where(name => name.Contains(bare, StringComparison.OrdinalIgnoreCase) || bare.Contains(name, StringComparison.OrdinalIgnoreCase))];
        return NearestName.Of(bare, related.Length > 0 ? related : names);
    }
}
