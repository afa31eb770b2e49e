using CryoThermo.Checks.Soak;

namespace CryoThermo.Checks;

/// <summary>The commands: accuracy (writes docs/accuracy.md) and soak (random cases against the rules an answer must keep).</summary>
internal static class Program
{
    private const string Usage = """
        accuracy [FILE]                      compare with measurements and published figures; writes docs/accuracy.md, or FILE
        accuracy differences                 print how each set compares with its noted deviation
        soak slice                           2 000 flashes, 200 enthalpy and entropy solves, 20 dense searches
        soak flashes|enthalpy|boundaries|scan [--count N] [--seed N] [--case N]
        """;

    public static int Main(string[] arguments)
    {
        switch (arguments)
        {
            case ["soak", var kind, .. var options]:
                return SoakCommand.Run(kind, options, Console.Out, Console.Error);
            default:
                Console.Error.WriteLine(Usage);
                return 2;
        }
    }
}
