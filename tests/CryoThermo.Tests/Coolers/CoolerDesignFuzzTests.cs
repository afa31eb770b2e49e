using System.Collections.Concurrent;
using BenchCooler;
using CryoThermo.Charts;
using CryoThermo.Coolers;
using CryoThermo.Liquefaction;

namespace CryoThermo.Tests.Coolers;

public sealed class CoolerDesignFuzzTests
{
    private const int Count = 200;

    // What the program answers with one line; everything else is a bug.
    private static readonly string[] Answers =
    [
        "it must be below",
        "discharge hotter than ",
        "boiling at one temperature",
    ];

    [Fact]
    public void WildCoolersGiveAReportOrAnErrorForTheBuilder()
    {
        ConcurrentBag<string> findings = [];
        int reported = 0;
        int refused = 0;
        int first = int.TryParse(Environment.GetEnvironmentVariable("CRYOTHERMO_FUZZ_SEED"), out int given) ? given : 1;
        Parallel.For(first, first + Count, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            try
            {
                CoolerDescription cooler = BenchCoolerFile.Describe(RandomCooler.Wild(seed));
                CoolerDesign design = CoolerDesign.Evaluate(cooler);
                StringWriter text = new();
                DesignReport.Write(text, design, null, FeedCondensation.OnColdEnd(cooler));
                string report = text.ToString();
                foreach (string bad in (string[])["NaN", "Infinity", "\u221e"])
                {
                    if (report.Contains(bad, StringComparison.Ordinal))
                    {
                        findings.Add($"seed {seed}: {bad} in the report: {report.Split('\n').First(l => l.Contains(bad, StringComparison.Ordinal))}");
                    }
                }

                // Charts of one in eight: they take longer than the design.
                if (seed % 8 == 0)
                {
                    _ = design.TemperatureDuty()?.ToSvg();
                    _ = design.CoolingCurve().ToSvg();
                }

                Interlocked.Increment(ref reported);
            }
            catch (ArgumentException error) when (error.Message.Contains("can explode without any air", StringComparison.Ordinal))
            {
                // An oxidiser beside a fuel is refused whatever the rest.
                Interlocked.Increment(ref refused);
            }
            catch (ArgumentException error) when (Answers.Any(a => error.Message.Contains(a, StringComparison.Ordinal)))
            {
                // An answer, not a failure.
            }
            catch (Exception error)
            {
                findings.Add($"seed {seed}: {error.GetType().Name}: {error.Message} {error.StackTrace?.Split('\n').Skip(0).FirstOrDefault(l => l.Contains("CryoThermo", StringComparison.Ordinal))?.Trim()}");
            }
        });

        Assert.True(findings.IsEmpty, string.Join("\n", findings.Order(StringComparer.Ordinal)));
        Assert.InRange(refused, 1, Count / 2);
        Assert.True(reported >= (Count - refused) * 8 / 10, $"only {reported} of {Count}, {refused} refused, gave a report");
    }
}
