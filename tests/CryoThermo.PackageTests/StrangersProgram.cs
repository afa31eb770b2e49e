using System.Globalization;

namespace CryoThermo.PackageTests;

/// <summary>
/// The program of someone who has only the package: the one place to change when the library's front door grows.
/// It prints one number, written so that reading it back gives the same double.
/// </summary>
internal static class StrangersProgram
{
    public const string Code = """
        using System.Globalization;
        using CryoThermo.Diagnostics;

        var source = new Source("a publication of twelve words or so", FromMemory: true);
        double number = source.Publication.Length + (source.FromMemory ? 0.5 : 0.0);
        Console.WriteLine(number.ToString("R", CultureInfo.InvariantCulture));
        """;

    public static void Check(string output) =>
        Assert.Equal(35.5, double.Parse(output.Trim(), CultureInfo.InvariantCulture), 1e-12);
}
