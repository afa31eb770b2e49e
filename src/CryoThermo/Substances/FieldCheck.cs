using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Checks fields of one block of a data file; a broken rule is thrown with the file and the field's path.</summary>
/// <param name="file">The file's name.</param>
/// <param name="block">The path of the block, empty for the whole file.</param>
internal readonly struct FieldCheck(string file, string block)
{
    public string File => file;

    public FieldCheck Within(string field) => new(file, PathOf(field));

    public SubstanceDataException Broken(string field, string rule) => new(file, PathOf(field), rule);

    public T Required<T>([NotNull] T? value, string field)
        where T : class => value ?? throw Missing(field);

    public double Required(double? value, string field) => value ?? throw Missing(field);

    public string Text([NotNull] string? value, string field)
    {
        string text = Required(value, field);
        return string.IsNullOrWhiteSpace(text) ? throw Broken(field, "must not be empty") : text;
    }

    public double Number(double? value, string field)
    {
        double number = Required(value, field);
        return double.IsFinite(number) ? number : throw Broken(field, $"must be a finite number, found {number}");
    }

    public double InRange(double? value, string field, double low, double high, string unit)
    {
        double number = Number(value, field);
        return number >= low && number <= high
            ? number
            : throw Broken(field, $"must lie from {low:G6} to {high:G6} {unit}, found {number:G9}".Replace("  ", " ", StringComparison.Ordinal));
    }

    public double Positive(double? value, string field, string unit)
    {
        double number = Number(value, field);
        return number > 0 ? number : throw Broken(field, $"must be greater than zero {unit}, found {number:G9}");
    }

    private string PathOf(string field) => block.Length == 0 ? field : $"{block}.{field}";

    private SubstanceDataException Missing(string field) => Broken(field, "is missing");
}
