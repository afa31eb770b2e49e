using System.Diagnostics;
using System.Globalization;
using System.Runtime;
using CryoThermo;
using CryoThermo.Substances;
using UnitsNet;

// How long a process takes from its start to its first computed state.
//   (nothing)      one measurement in this process
//   repeat COUNT   starts that many processes one after the other and prints the median and the span of each figure
long main = Stopwatch.GetTimestamp();
return args switch
{
    [] => StartUp.Measure(main, null),
    ["measure", string started] => StartUp.Measure(main, long.Parse(started, CultureInfo.InvariantCulture)),
    ["repeat", string count] when int.TryParse(count, CultureInfo.InvariantCulture, out int runs) && runs > 0 => StartUp.Repeat(runs),
    _ => StartUp.Usage(),
};

/// <summary>Measures the start of a process.</summary>
internal static class StartUp
{
    private static readonly (string What, string Unit)[] Labels =
    [
        ("process start to Main", "ms"),
        ("Main to catalogue read", "ms"),
        ("catalogue read to fluid made", "ms"),
        ("fluid made to first state", "ms"),
        ("Main to first state", "ms"),
        ("  of it compiling", "ms"),
        ("  methods compiled", string.Empty),
        ("process start to first state", "ms"),
        ("a second state, 120 K", "ms"),
    ];

    /// <summary>Prints the milliseconds of one start, in the order of the labels.</summary>
    /// <param name="main">Time stamp at the first line of Main.</param>
    /// <param name="started">Time stamp taken before the process was started, or null to ask the operating system, which may count in steps of 10 ms.</param>
    public static int Measure(long main, long? started)
    {
        TimeSpan compiledBefore = JitInfo.GetCompilationTime(currentThread: true);
        long methodsBefore = JitInfo.GetCompiledMethodCount(currentThread: true);
        _ = SubstanceCatalog.Default;
        long catalog = Stopwatch.GetTimestamp();
        WorkingFluid fluid = WorkingFluid.Pure("nitrogen");
        long made = Stopwatch.GetTimestamp();
        State state = fluid.At(Temperature.FromKelvins(100), Pressure.FromBars(10));
        long first = Stopwatch.GetTimestamp();
        TimeSpan compiling = JitInfo.GetCompilationTime(currentThread: true) - compiledBefore;
        long methods = JitInfo.GetCompiledMethodCount(currentThread: true) - methodsBefore;
        State other = fluid.At(Temperature.FromKelvins(120), Pressure.FromBars(10));
        long second = Stopwatch.GetTimestamp();

        double toMain = started is long stamp
            ? Milliseconds(stamp, main)
            : (DateTime.Now - Process.GetCurrentProcess().StartTime).TotalMilliseconds - Milliseconds(main, Stopwatch.GetTimestamp());
        double[] figures =
        [
            toMain,
            Milliseconds(main, catalog),
            Milliseconds(catalog, made),
            Milliseconds(made, first),
            Milliseconds(main, first),
            compiling.TotalMilliseconds,
            methods,
            toMain + Milliseconds(main, first),
            Milliseconds(first, second),
        ];
        if (started is not null)
        {
            Console.WriteLine(string.Join(' ', figures.Select(f => f.ToString("R", CultureInfo.InvariantCulture))));
            return 0;
        }

        for (int i = 0; i < figures.Length; i++)
        {
            Console.WriteLine($"{Labels[i].What,-30} {figures[i],8:F1} {Labels[i].Unit}");
        }

        Console.WriteLine($"nitrogen at 10 bar: {state.MolarDensity.MolesPerCubicMeter:F2} mol/m3 at 100 K, {other.MolarDensity.MolesPerCubicMeter:F2} mol/m3 at 120 K");
        return 0;
    }

    /// <summary>Starts this program over and over and prints median, least and most of each figure.</summary>
    /// <param name="runs">How many times, after one start that does not count.</param>
    public static int Repeat(int runs)
    {
        double[][] figures = [.. Enumerable.Range(0, runs + 1).Select(_ => StartOnce()).Skip(1)];
        Console.WriteLine($"{$"{runs} starts",-30}   median    least     most");
        for (int i = 0; i < Labels.Length; i++)
        {
            double[] sorted = [.. figures.Select(f => f[i]).Order()];
            double median = (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
            Console.WriteLine($"{Labels[i].What,-30} {median,8:F1} {sorted[0],8:F1} {sorted[^1],8:F1} {Labels[i].Unit}");
        }

        return 0;
    }

    /// <summary>Tells how to call the program.</summary>
    public static int Usage()
    {
        Console.Error.WriteLine("usage: CryoThermo.StartUp [repeat COUNT]");
        return 2;
    }

    private static double[] StartOnce()
    {
        ProcessStartInfo start = new(Environment.ProcessPath!) { RedirectStandardOutput = true, UseShellExecute = false };

        // Started as `dotnet CryoThermo.StartUp.dll`, the process is that of the host, which needs the name of the library again.
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet")
        {
            start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "CryoThermo.StartUp.dll"));
        }

        start.ArgumentList.Add("measure");
        start.ArgumentList.Add(Stopwatch.GetTimestamp().ToString(CultureInfo.InvariantCulture));
        using Process process = Process.Start(start)!;
        string line = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? [.. line.Split(' ').Select(f => double.Parse(f, CultureInfo.InvariantCulture))]
            : throw new InvalidOperationException($"A start ended with code {process.ExitCode}.");
    }

    private static double Milliseconds(long from, long to) => Stopwatch.GetElapsedTime(from, to).TotalMilliseconds;
}
