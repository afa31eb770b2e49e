using BenchCooler;
using CryoThermo.Charts;
using CryoThermo.Coolers;
using CryoThermo.Diagnostics;
using CryoThermo.Liquefaction;

// dotnet run -c Release --project docs/examples/BenchCooler [cooler file] [folder for the charts]
string file = args.Length > 0 ? args[0] : Path.Combine(AppContext.BaseDirectory, "bench-cooler.json");
string charts = args.Length > 1 ? args[1] : Path.Combine("artifacts", "bench-cooler");
CoolerDescription cooler;
try
{
    cooler = CoolerDescriptionReader.Read(file);
}
catch (CoolerDescriptionException error)
{
    foreach (DescriptionFault fault in error.Faults)
    {
        Console.Error.WriteLine(fault);
    }

    return 2;
}

try
{
    CoolerDesign design = CoolerDesign.Evaluate(cooler);
    DesignReport.Write(Console.Out, design, FeedCondensation.OnColdEnd(cooler));
    Directory.CreateDirectory(charts);
    design.TemperatureDuty().SaveSvg(Path.Combine(charts, "recuperator.svg"));
    design.TemperatureDuty().SavePng(Path.Combine(charts, "recuperator.png"));
    design.CoolingCurve().SaveSvg(Path.Combine(charts, "cooling.svg"));
    design.CoolingCurve().SavePng(Path.Combine(charts, "cooling.png"));
    Console.WriteLine($"Charts: {Path.Combine(charts, "recuperator.svg")}, {Path.Combine(charts, "cooling.svg")} (and .png)");
    return 0;
}
catch (Exception error) when (error is ConvergenceException or ArgumentException or IOException or UnauthorizedAccessException)
{
    Console.Error.WriteLine($"The design could not be computed: {error.Message}");
    return 3;
}
