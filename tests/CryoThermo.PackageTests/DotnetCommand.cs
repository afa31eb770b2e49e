using System.Diagnostics;

namespace CryoThermo.PackageTests;

/// <summary>Runs the SDK's command as a user would, and fails with all that it printed.</summary>
internal static class DotnetCommand
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(3);

    public static string Run(string workingFolder, params string[] arguments)
    {
        var start = new ProcessStartInfo(Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet", arguments)
        {
            WorkingDirectory = workingFolder,
            UseShellExecute = false,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };

        // The test runner's own build settings must not reach a stranger's build.
        foreach (string name in start.Environment.Keys.Where(static n => n.StartsWith("MSBUILD", StringComparison.OrdinalIgnoreCase)).ToArray())
        {
            start.Environment.Remove(name);
        }

        start.Environment["MSBUILDDISABLENODEREUSE"] = "1";
        start.Environment["DOTNET_CLI_TELEMETRY_OPTOUT"] = "1";
        start.Environment["DOTNET_NOLOGO"] = "1";

        using Process process = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start.");
        process.StandardInput.Close();
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> errors = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(Limit))
        {
            process.Kill(entireProcessTree: true);
            throw new TimeoutException($"dotnet {string.Join(' ', arguments)} did not end within {Limit.TotalMinutes} minutes.");
        }

        Task.WaitAll(output, errors);
        return process.ExitCode == 0
            ? output.Result
            : throw new InvalidOperationException($"dotnet {string.Join(' ', arguments)} ended with {process.ExitCode}:\n{output.Result}\n{errors.Result}");
    }
}
