using System.Text.Json;
using System.Xml.Linq;

namespace CryoThermo.PackageTests;

/// <summary>The packed library as a stranger meets it: what the package holds, and a new program that uses it.</summary>
public sealed class PackedLibraryTests(PackedLibrary library) : IClassFixture<PackedLibrary>
{
    private const string Framework = "net10.0";

    [Fact]
    public void DependsOnTheTwoNamedPackagesOnly() =>
        Assert.Equal(["MathNet.Numerics", "UnitsNet"], library.Content.Dependencies);

    [Fact]
    public void CarriesTheLicenseAsAnExpression() => Assert.Equal("MIT", library.Content.LicenseExpression);

    [Fact]
    public void CarriesTheReadmeOfTheRepository() =>
        Assert.Equal(
            File.ReadAllText(Path.Combine(library.RepositoryFolder, "README.md")), library.Content.Text(library.Content.ReadmeEntry));

    [Fact]
    public void CarriesDocumentationOfItsMembers()
    {
        XDocument documentation = XDocument.Parse(library.Content.Text($"lib/{Framework}/CryoThermo.xml"));

        Assert.Contains(documentation.Descendants("member"), m => m.Attribute("name")?.Value == "T:CryoThermo.Diagnostics.Source");
    }

    [Fact]
    public void CarriesOneAssemblyAndNothingElse()
    {
        string[] files = [.. library.Content.Entries.Where(static e => !e.StartsWith("_rels/", StringComparison.Ordinal)
            && !e.StartsWith("package/", StringComparison.Ordinal)).Order(StringComparer.Ordinal)];

        Assert.Equal(
            ["CryoThermo.nuspec", "README.md", "[Content_Types].xml", $"lib/{Framework}/CryoThermo.dll", $"lib/{Framework}/CryoThermo.xml"], files);
    }

    [Fact]
    public void SymbolsAreBeside() => Assert.True(File.Exists(Path.ChangeExtension(library.File, ".snupkg")));

    [Fact]
    public void ANewProgramRestoresBuildsAndRunsWithIt()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("stranger-");
        try
        {
            WriteProgram(folder.FullName);
            DotnetCommand.Run(folder.FullName, "restore");
            library.UnpackedFolder = UnpackedFolder(folder.FullName);
            DotnetCommand.Run(folder.FullName, "build", "-c", "Release", "--no-restore");
            StrangersProgram.Check(DotnetCommand.Run(folder.FullName, Path.Combine("bin", "Release", Framework, "Stranger.dll")));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private void WriteProgram(string folder)
    {
        new XDocument(new XElement("configuration", new XElement("packageSources", new XElement(
            "add", new XAttribute("key", "feed"), new XAttribute("value", library.FeedFolder))))).Save(Path.Combine(folder, "nuget.config"));
        File.WriteAllText(Path.Combine(folder, "Program.cs"), StrangersProgram.Code);
        File.WriteAllText(Path.Combine(folder, "Stranger.csproj"), $"""
            <Project Sdk="Microsoft.NET.Sdk">
              <PropertyGroup>
                <OutputType>Exe</OutputType>
                <TargetFramework>{Framework}</TargetFramework>
                <ImplicitUsings>enable</ImplicitUsings>
                <Nullable>enable</Nullable>
                <TreatWarningsAsErrors>true</TreatWarningsAsErrors>
              </PropertyGroup>
              <ItemGroup>
                <PackageReference Include="CryoThermo" Version="[{library.Content.Version}]" />
              </ItemGroup>
            </Project>
            """);
    }

    /// <summary>The folder of the machine's package cache that holds this very version, for cleaning up.</summary>
    private string UnpackedFolder(string folder)
    {
        using JsonDocument assets = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, "obj", "project.assets.json")));
        string relative = assets.RootElement.GetProperty("libraries").GetProperty($"CryoThermo/{library.Content.Version}").GetProperty("path").GetString()!;
        return assets.RootElement.GetProperty("packageFolders").EnumerateObject()
            .Select(cache => Path.Combine(cache.Name, relative)).Single(Directory.Exists);
    }
}
