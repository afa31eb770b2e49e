using System.Reflection;

namespace CryoThermo.PackageTests;

/// <summary>
/// The library packed once for all tests from its finished build, under a version that no cache can hold, into the
/// folder feed. Disposing takes the package out of the feed and of the machine's package cache again.
/// </summary>
public sealed class PackedLibrary : IDisposable
{
    public PackedLibrary()
    {
        RepositoryFolder = FindRepository();
        FeedFolder = Path.Combine(RepositoryFolder, "tests", "feed");
        Suffix = $"packagetest.{Guid.NewGuid():N}";
        string configuration = typeof(PackedLibrary).Assembly.GetCustomAttribute<AssemblyConfigurationAttribute>()!.Configuration;

        // Without a build: this runs while other test projects may be using the same output.
        DotnetCommand.Run(
            RepositoryFolder, "pack", "src/CryoThermo/CryoThermo.csproj", "-c", configuration, "--no-build", "-o", FeedFolder, $"-p:VersionSuffix={Suffix}");
        File = Directory.GetFiles(FeedFolder, $"CryoThermo.*-{Suffix}.nupkg").Single();
        Content = new PackageContent(File);
    }

    public string RepositoryFolder { get; }

    public string FeedFolder { get; }

    public string Suffix { get; }

    public string File { get; }

    public PackageContent Content { get; }

    /// <summary>Where restoring unpacked the package; set by the test that restores.</summary>
    public string? UnpackedFolder { get; set; }

    public void Dispose()
    {
        foreach (string file in Directory.GetFiles(FeedFolder, $"*-{Suffix}.*nupkg"))
        {
            System.IO.File.Delete(file);
        }

        if (UnpackedFolder is not null)
        {
            Directory.Delete(UnpackedFolder, recursive: true);
        }
    }

    private static string FindRepository()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (System.IO.File.Exists(Path.Combine(folder.FullName, "CryoThermo.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"No folder above {AppContext.BaseDirectory} holds CryoThermo.sln.");
    }
}
