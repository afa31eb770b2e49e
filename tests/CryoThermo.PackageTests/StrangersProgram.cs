using System.Globalization;

namespace CryoThermo.PackageTests;

/// <summary>
/// The program of someone who has only the package: the one place to change when the library's front door grows.
/// It prints two numbers, written so that reading them back gives the same doubles.
/// </summary>
internal static class StrangersProgram
{
    public const string Code = """
        using System.Globalization;
        using CryoThermo;
        using UnitsNet;

        Saturation boiling = WorkingFluid.Pure("methane").Saturation(Temperature.FromKelvins(120.15));
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.3), ("ethane", 0.2), ("propane", 0.2)).WithModel(FluidModel.PengRobinson);
        State state = blend.At(Temperature.FromKelvins(200), Pressure.FromBars(20));
        Console.WriteLine(boiling.Pressure.Bars.ToString("R", CultureInfo.InvariantCulture));
        Console.WriteLine(state.VaporFraction.ToString("R", CultureInfo.InvariantCulture));
        """;

    public static void Check(string output)
    {
        double[] numbers = [.. output.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(line => double.Parse(line, CultureInfo.InvariantCulture))];
        Assert.Equal(2, numbers.Length);

        // Methane at 120.15 K: 1.9 bar, common practice, no source, rounded; 3 % is what Peng-Robinson is held to.
        Assert.InRange(numbers[0], 1.9 * 0.97, 1.9 * 1.03);

        // Vapour fraction 0.56043903: computed with Peng-Robinson by another implementation, a regression.
        Assert.Equal(0.56043903, numbers[1], 1e-7);
    }
}
