using System.IO.Compression;
using System.Xml.Linq;

namespace CryoThermo.PackageTests;

/// <summary>What stands inside a package file: its entries and the parts of its manifest that a user meets.</summary>
public sealed class PackageContent
{
    private readonly Dictionary<string, string> texts = new(StringComparer.Ordinal);

    public PackageContent(string file)
    {
        using ZipArchive archive = ZipFile.OpenRead(file);
        foreach (ZipArchiveEntry entry in archive.Entries)
        {
            bool isText = Path.GetExtension(entry.FullName) is ".md" or ".xml" or ".nuspec";
            using var reader = new StreamReader(entry.Open());
            texts.Add(entry.FullName, isText ? reader.ReadToEnd() : "");
        }

        XElement metadata = Only(XDocument.Parse(Text("CryoThermo.nuspec")).Root!, "metadata");
        Version = Only(metadata, "version").Value;
        XElement license = Only(metadata, "license");
        LicenseExpression = license.Attribute("type")?.Value == "expression" ? license.Value : "";
        ReadmeEntry = Only(metadata, "readme").Value;
        Dependencies = [.. metadata.Descendants().Where(e => e.Name.LocalName == "dependency").Select(e => e.Attribute("id")!.Value).Order()];
    }

    public IReadOnlyCollection<string> Entries => texts.Keys;

    public string Version { get; }

    public string LicenseExpression { get; }

    public string ReadmeEntry { get; }

    public IReadOnlyList<string> Dependencies { get; }

    public string Text(string entry) => texts[entry];

    private static XElement Only(XElement parent, string name) => parent.Elements().Single(e => e.Name.LocalName == name);
}
