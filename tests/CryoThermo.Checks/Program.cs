using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Blends;
using CryoThermo.Checks.Fitting;
using CryoThermo.Checks.Soak;
using CryoThermo.Checks.Values;
using CryoThermo.Checks.Valves;

namespace CryoThermo.Checks;

/// <summary>The commands: accuracy (writes docs/accuracy.md), fit-pairs (writes the pairs fitted to measured sets) and soak (random cases against the rules an answer must keep).</summary>
internal static class Program
{
    private const string Usage = """
        accuracy [FILE]                      compare with measurements and published figures; writes docs/accuracy.md, or FILE
        accuracy differences                 print how each set compares with its noted deviation
        fit-pairs                            fit the further pairs of the multi-fluid model and the pairs of the cubics; writes their files
        fit-pairs SUBSTANCE                  fit the multi-fluid pairs of one substance; prints only
        fit-pairs cubic [SUBSTANCE]          fit the pairs of the cubics; without SUBSTANCE writes their file
        blends published [FILE]              search against published compositions; writes docs/concepts/blend-comparison.md, or FILE
        blends grid                          ten problems of two and three components, five seeds each, against dense grids
        valves bench [COUNT]                 made-up bench tests of valves: how far the curves are off, how often faults are found; COUNT tests each (1 000), three seeds
        soak slice                           2 000 flashes, 200 enthalpy and entropy solves, 20 dense searches
        soak flashes|enthalpy|boundaries|scan|pure|recipes|blends|transport|valves|capillaries [--count N] [--seed N] [--case N]
        soak quantum-flashes|quantum-enthalpy|quantum-boundaries [--count N] [--seed N] [--case N]
                                             the same with hydrogen, helium or neon, Peng-Robinson with quantum corrections
        """;

    public static int Main(string[] arguments)
    {
        switch (arguments)
        {
            case ["soak", var kind, .. var options]:
                return SoakCommand.Run(kind, options, Console.Out, Console.Error);
            case ["blends", "published"]:
                File.WriteAllText(Path.Combine(Root(), "docs", "concepts", "blend-comparison.md"), BlendCommands.PublishedPage(Console.Error));
                return 0;
            case ["blends", "published", var file]:
                File.WriteAllText(file, BlendCommands.PublishedPage(Console.Error));
                return 0;
            case ["blends", "grid"]:
                const double Allowed = 0.2;
                return BlendCommands.AgainstGrid(10, 5, Console.Out) <= Allowed ? 0 : 1;
            case ["valves", "bench"]:
                return BenchRates.Write(1000, 3, Console.Out);
            case ["valves", "bench", var count] when int.TryParse(count, out int tests) && tests >= 10:
                return BenchRates.Write(tests, 3, Console.Out);
            case ["accuracy"]:
                File.WriteAllText(Path.Combine(Root(), "docs", "accuracy.md"), AccuracyDocument.Write());
                return 0;
            case ["accuracy", "differences"]:
                Differences();
                return 0;
            case ["accuracy", var file]:
                File.WriteAllText(file, AccuracyDocument.Write());
                return 0;
            case ["fit-pairs"]:
                File.WriteAllText(
                    Path.Combine(Root(), "src", "CryoThermo", "Substances", "Data", "MultiFluid", "further-pairs.json"), FitCommand.Run(Console.Out));
                WriteCubicPairs();
                return 0;
            case ["fit-pairs", "cubic"]:
                WriteCubicPairs();
                return 0;
            case ["fit-pairs", "cubic", var substance]:
                Console.Write(CubicFitCommand.Run(Console.Out, substance));
                return 0;
            case ["fit-pairs", var substance]:
                Console.Write(FitCommand.Run(Console.Out, substance));
                return 0;
            default:
                Console.Error.WriteLine(Usage);
                return 2;
        }
    }

    private static void WriteCubicPairs() =>
        File.WriteAllText(Path.Combine(Root(), "src", "CryoThermo", "Substances", "Data", "fitted-cubic-pairs.json"), CubicFitCommand.Run(Console.Out));

    private static string Root()
    {
        DirectoryInfo? folder = new(Environment.CurrentDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "CryoThermo.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("Run inside the repository, or name the file to write.");
    }

    private static void Differences()
    {
        foreach (NotedComparison c in CheckValues.Measured.SelectMany(NotedComparison.Of))
        {
            string with = c.Noted.FittedInteraction is { } k ? $" k={k}" : "";
            string here = c.Here is { } h ? $"{h.MeanAbsolute:G3} {h.Bias:G3} {h.Largest:G3} n={h.Count} not solved {c.NotSolvedHere}" : "none";
            Console.WriteLine(
                $"{(c.IsMet ? "as noted" : "DIFFERS ")} {c.Set.Name} {c.Figure.Quantity} {c.Figure.Of}{with}: noted {c.Figure.MeanAbsolute} {c.Figure.Bias} {c.Figure.Largest} n={c.Figure.Points} not solved {c.Noted.NotSolved}; here {here}{(c.OnAllPoints ? " on all points" : "")}");
        }
    }
}
