using System.Reflection;

namespace CryoThermo.Substances;

/// <summary>The data files embedded in the library.</summary>
internal static class DataFiles
{
    public const string Identities = "identities.json";
    public const string Pairs = "pairs.json";
    public const string FittedCubicPairs = "fitted-cubic-pairs.json";
    public const string MixtureStandard = "MultiFluid/iso-20765-2.json";
    public const string MultiFluidPairs = "MultiFluid/further-pairs.json";
    public const string SolidSystems = "Solids/solid-systems.json";

    private static readonly Assembly Library = typeof(DataFiles).Assembly;

    /// <summary>Names of all embedded files.</summary>
    public static string[] Names => Library.GetManifestResourceNames();

    /// <summary>Names of the embedded substance files, sorted.</summary>
    public static IEnumerable<string> Substances =>
        Names
            .Where(name => name.EndsWith(".json", StringComparison.Ordinal) && !name.Contains('/') && !name.Contains('\\')
                && name is not (Identities or Pairs or FittedCubicPairs))
            .Order(StringComparer.Ordinal);

    /// <summary>The name of the embedded file of a substance, made from its chemical name; the file need not exist.</summary>
    public static string FileOf(SubstanceIdentity identity) => identity.Name.Replace(' ', '-').Replace(',', '-') + ".json";

    /// <summary>The text of an embedded file.</summary>
    public static string ReadText(string name)
    {
        using Stream stream = Library.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The data file {name} is not embedded in the library.");
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
