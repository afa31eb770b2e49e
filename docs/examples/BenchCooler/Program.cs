using System.Text.Json;
using System.Text.Json.Nodes;
using BenchCooler;
using CryoThermo;
using CryoThermo.Charts;
using CryoThermo.Coolers;
using CryoThermo.Diagnostics;
using CryoThermo.Liquefaction;

// dotnet run -c Release --project docs/examples/BenchCooler [cooler file] [folder for the charts]
// Ends with 0 when the design was computed (met or not), 2 when the cooler file has faults, 3 when the design or its charts fail.
string file = args.Length > 0 ? args[0] : Path.Combine(AppContext.BaseDirectory, "bench-cooler.json");
string charts = args.Length > 1 ? args[1] : Path.Combine("artifacts", Path.GetFileNameWithoutExtension(file));
if (string.IsNullOrWhiteSpace(file))
{
    Console.Error.WriteLine("The name of the cooler file is blank.");
    return 2;
}

CoolerDescription cooler;
try
{
    cooler = CoolerDescriptionReader.Read(file);
}
catch (CoolerDescriptionException error)
{
    foreach (DescriptionFault fault in error.Faults)
    {
        Console.Error.WriteLine(DesignReport.OneLine(fault.ToString()));
    }

    return 2;
}

try
{
    CoolerDesign design = CoolerDesign.Evaluate(cooler);
    IReadOnlyList<FeedCondensationResult> feeds = FeedCondensation.OnColdEnd(cooler);
    CoolerDesign? cubic = cooler.Model == FluidModel.Recommended && design.Fluid.Model != FluidModel.PengRobinson ? UnderPengRobinson(file) : null;

    // What a charge may still hold behind a fresh molecular sieve; common practice, no source. Measure your own.
    FreezingRisk freezing = design.AssessFreezing(new TraceImpurity("water", 0.1), new TraceImpurity("carbon dioxide", 1));
    MachineRating? machine = MachineRating.Of(cooler);
    DesignReport.Write(Console.Out, design, cubic, feeds, freezing, machine);
    Directory.CreateDirectory(charts);
    List<string> written = [];
    Save("recuperator.svg", design.TemperatureDuty());
    Save("cooling.svg", design.CoolingCurve());
    Save("machine.svg", machine?.Rating?.CoolingCurve());
    Save("confidence.svg", machine?.Confidence?.Contributions());
    Console.WriteLine($"Charts in {charts}: {string.Join(", ", written)} (and .png)");
    return 0;

    void Save(string name, Chart? chart)
    {
        if (chart is not null)
        {
            written.Add(name);
            chart.SaveSvg(Path.Combine(charts, name));
            chart.SavePng(Path.Combine(charts, Path.ChangeExtension(name, "png")));
        }
    }
}
catch (Exception error) when (error is ConvergenceException or ArgumentException)
{
    Console.Error.WriteLine($"The design could not be computed: {DesignReport.OneLine(error.Message)}");
    return 3;
}
catch (Exception error) when (error is IOException or UnauthorizedAccessException)
{
    Console.Error.WriteLine($"The charts could not be written: {DesignReport.OneLine(error.Message)}");
    return 3;
}

// The same cooler under the cubic equation that mixed-gas coolers are commonly designed with: the file with its model replaced.
static CoolerDesign? UnderPengRobinson(string file)
{
    JsonDocumentOptions options = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };
    JsonObject description = JsonNode.Parse(File.ReadAllText(file), documentOptions: options)!.AsObject();
    description["model"] = "peng-robinson";
    try
    {
        return CoolerDesign.Evaluate(CoolerDescriptionReader.Parse(description.ToJsonString(), file));
    }
    catch (ConvergenceException error)
    {
        Console.Error.WriteLine($"The comparison with Peng-Robinson is left out: {DesignReport.OneLine(error.Message)}");
        return null;
    }
}
