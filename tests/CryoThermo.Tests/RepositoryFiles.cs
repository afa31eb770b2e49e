namespace CryoThermo.Tests;

/// <summary>Finds files of the repository from a test run.</summary>
internal static class RepositoryFiles
{
    public static string PathOf(params string[] parts)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CryoThermo.sln")))
        {
            folder = folder.Parent;
        }

        Assert.NotNull(folder);
        return Path.Combine([folder.FullName, .. parts]);
    }
}
