using System.Diagnostics;
using System.Text.Json.Nodes;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers;

/// <summary>The built example as a user starts it: broken files, files that cannot work, and the shipped one.</summary>
public sealed class BenchCoolerProgramTests(ITestOutputHelper output) : IDisposable
{
    private static readonly string Configuration = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;

    private static readonly string Program = RepositoryFiles.PathOf("docs", "examples", "BenchCooler", "bin", Configuration, "net10.0", "BenchCooler.dll");

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("bench-cooler-");

    /// <summary>What is wrong, the content, what the error must say.</summary>
    private static IEnumerable<(string Name, string Content, string Says)> Broken()
    {
        yield return ("empty", string.Empty, "is not valid JSON");
        yield return ("not JSON", "title: bench cooler", "is not valid JSON");
        yield return ("cut off", File.ReadAllText(BenchCoolerFile.Path)[..900], "is not valid JSON");
        yield return ("a list", "[1, 2]", "(file)");
        yield return ("nothing in it", "{}", "title");
        yield return ("five megabytes", Long(), "zeroes");
        yield return ("misspelt field", With(c => c["compresor"] = 1), "compressor");
        yield return ("newline in a name", With(c => c["a\nb\tc"] = 1), "not a field");
        yield return ("pressures exchanged", With(c => (c["lowPressure"]!["value"], c["highPressure"]!["value"]) = (16, 0.5)), "highPressure");
        yield return ("no reference", With(c => c["lowPressure"]!.AsObject().Remove("reference")), "lowPressure.reference");
        yield return ("unit of another kind", With(c => c["heatLeak"]!["unit"] = "K"), "heatLeak");
        yield return ("unknown substance", With(c => c["charge"]!["components"]!["unobtainium"] = 0.0), "unobtainium");
        yield return ("sum of 0.99", With(c => c["charge"]!["components"]!["isobutane"] = 0.17), "charge.components");
        yield return ("the same substance twice", With(c => c["charge"]!["components"]!["R-290"] = 0.0), "same substance");
        yield return ("load warmer than the warm end", With(c => c.SetValue("load", "temperature", 400)), "load.temperature");
        yield return ("colder than the model goes", With(c => c.SetValue("load", "temperature", 4)), "load.temperature");
        yield return ("efficiency of 60", With(c => c["compressor"]!["isentropicEfficiency"] = 60), "isentropicEfficiency");
        yield return ("drops larger than the pressures", With(c => c["recuperator"]!["highSidePressureDrop"]!["value"] = 30), "highSidePressureDrop");
        yield return ("two faults", With(c => (c["ambientTemperature"]!["value"], c["heatLeak"]!["value"]) = (-300, -1)), "ambientTemperature");
        yield return ("machine without spaces", With(c => c["machine"]!.AsObject().Remove("spaces")), "machine.spaces: is missing");
        yield return ("discharge too hot to compute", With(c => c["compressor"]!["isentropicEfficiency"] = 0.01), "isentropicEfficiency");
        yield return ("warm end lost in the drop", With(c =>
        {
            c.SetValue("load", "temperature", 294);
            c.Remove("coolingCurve");
            c["recuperator"]!["highSidePressureDrop"]!["value"] = 14;
        }), "load.temperature");
    }

    [Fact]
    public void BrokenFilesGiveOneLineAFaultAndNothingElse()
    {
        (string Name, string Content, string Says)[] cases = [.. Broken()];
        Assert.True(cases.Length >= 15);
        List<string> findings = [];
        Parallel.ForEach(cases, new ParallelOptions { MaxDegreeOfParallelism = 2 }, one =>
        {
            string file = Write(one.Name + ".json", one.Content);
            Expect(one.Name, Run(file), one.Says, findings);
        });
        Expect("missing file", Run(Path.Combine(folder.FullName, "none.json")), "cannot be read", findings);
        Expect("a folder", Run(folder.FullName), "cannot be read", findings);
        Assert.True(findings.Count == 0, string.Join("\n", findings));
    }

    [Fact]
    public void FilesThatCannotWorkAreReportedWithTheReason()
    {
        (string Name, string Content, string[] Says)[] cases =
        [
            ("far too cold", Held(c => c.SetValue("load", "temperature", 62)), ["NOT met", "cannot even hold", "What limits it: An inner pinch"]),
            ("tiny recuperator", Held(c => c.SetValue("recuperator", "conductance", 0.01)), ["NOT met: liquid comes back to the compressor", "The recuperator is too small", "Liquid reaches the compressor"]),
            (
                "pressures almost equal",
                Held(c => (c["highPressure"]!["value"], c["recuperator"]!["highSidePressureDrop"]!["value"], c["recuperator"]!["lowSidePressureDrop"]!["value"]) = (0.51, 0, 0)),
                ["NOT met", "No recuperator is large enough", "What limits it:"]),
            ("enormous demand", Held(c => (c["load"]!["power"]!["value"], c["load"]!["power"]!["unit"]) = (1000, "kW")), ["NOT met", "No recuperator is large enough"]),
        ];
        foreach ((string name, string content, string[] says) in cases)
        {
            (int code, string text, string error) = Run(Write(name + ".json", content));
            output.WriteLine($"{name}: {text.Split('\n')[3]}");
            Assert.True(code == 0 && error.Length == 0, $"{name}: exit code {code}, {error}");
            Assert.All(says, part => Assert.Contains(part, Unwrapped(text), StringComparison.Ordinal));
            Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
            Assert.DoesNotContain("is met", text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("throttle closed", "flowCoefficientKv", 1e-6, "or open the throttle")]
    [InlineData("throttle wide open", "flowCoefficientKv", 10, "The throttle is too large")]
    [InlineData("hardly charged", "mass", 0.01, "charge more, make the buffer smaller")]
    public void AMachineThatDoesNotRunIsReportedWithTheReason(string name, string field, double value, string says)
    {
        (int code, string text, string error) = Run(Write(name + ".json", With(c =>
        {
            c["model"] = "peng-robinson";
            if (field == "mass")
            {
                c["machine"]!["charge"] = new JsonObject { [field] = new JsonObject { ["value"] = value, ["unit"] = "g" } };
            }
            else
            {
                c["machine"]!["throttle"]!["valve"]![field] = value;
            }
        })));
        Assert.True(code == 0 && error.Length == 0, $"exit code {code}, {error}");
        Assert.Contains("The machine does not run as built and filled", Unwrapped(text), StringComparison.Ordinal);
        Assert.Contains(says, Unwrapped(text), StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(folder.FullName, "charts", "machine.svg")));
    }

    [Fact]
    public void TheShippedFileGivesReportAndCharts()
    {
        (int code, string text, string error) = Run(BenchCoolerFile.Path);
        Assert.Equal(0, code);
        Assert.Empty(error);
        Assert.Contains("is met", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 132, $"{line.Length} characters: {line}"));
        string told = Unwrapped(text);
        Assert.Contains("The machine as built", told, StringComparison.Ordinal);
        Assert.Contains("Started warm with the load of 10.0 W on, it comes to rest at", told, StringComparison.Ordinal);
        Assert.Contains("Without a load it reaches", told, StringComparison.Ordinal);
        Assert.Contains("Of 100 machines described like it 90 rest between", told, StringComparison.Ordinal);
        Assert.Contains("Measure first: ", told, StringComparison.Ordinal);
        Assert.Contains("Bounds from common practice, no source", told, StringComparison.Ordinal);
        Assert.DoesNotContain("no relief setting stated", told, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        foreach (string chart in (string[])["recuperator.svg", "recuperator.png", "cooling.svg", "cooling.png", "machine.svg", "machine.png", "confidence.svg", "confidence.png"])
        {
            Assert.True(new FileInfo(Path.Combine(folder.FullName, "charts", chart)).Length > 1000, chart);
        }
    }

    public void Dispose() => folder.Delete(recursive: true);

    private static string With(Action<JsonObject> change) => BenchCoolerFile.With(change).ToJsonString();

    /// <summary>A file without machine, so that only its pressures as held are computed.</summary>
    private static string Held(Action<JsonObject> change) => With(c =>
    {
        c.Remove("machine");
        change(c);
    });

    private static string Long() => With(c => c["zeroes"] = new string('0', 5_000_000));

    private static string Unwrapped(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));

    private static void Expect(string name, (int Code, string Output, string Error) run, string says, List<string> findings)
    {
        string[] lines = run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        List<string> wrong = [];
        if (run.Code is not (2 or 3))
        {
            wrong.Add($"exit code {run.Code}");
        }

        if (run.Output.Length > 0)
        {
            wrong.Add($"output: {run.Output}");
        }

        if (lines.Length == 0 || lines.Any(static l => l.StartsWith("   at ", StringComparison.Ordinal) || l.Contains("Unhandled", StringComparison.Ordinal) || l.Length > 600))
        {
            wrong.Add("errors are not one readable line each");
        }

        if (!lines.Any(l => l.Contains(says, StringComparison.Ordinal)))
        {
            wrong.Add($"no line says '{says}'");
        }

        // A line for a fault: each begins with a field, in whatever follows no line may be a continuation.
        if (run.Code == 2 && lines.Any(static l => l.StartsWith(' ') || !l.Contains(' ')))
        {
            wrong.Add("a fault is broken over lines");
        }

        if (wrong.Count > 0)
        {
            lock (findings)
            {
                findings.Add($"{name}: {string.Join("; ", wrong)}: {(run.Error.Length > 1000 ? run.Error[..1000] : run.Error)}");
            }
        }
    }

    private string Write(string name, string content)
    {
        string path = Path.Combine(folder.FullName, name);
        File.WriteAllText(path, content);
        return path;
    }

    private (int Code, string Output, string Error) Run(string file)
    {
        ProcessStartInfo start = new("dotnet", [Program, file, Path.Combine(folder.FullName, "charts")])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> text = process.StandardOutput.ReadToEndAsync();
        string error = process.StandardError.ReadToEnd();
        Assert.True(process.WaitForExit(120_000));
        return (process.ExitCode, text.Result, error);
    }
}
