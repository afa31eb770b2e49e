using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Materials;

/// <summary>The example of docs/concepts/materials.md, run as it stands there.</summary>
public sealed class MaterialsPageTests(ITestOutputHelper output)
{
    [Fact]
    public void TheExampleGivesWhatThePageTells()
    {
        // Page:
        Temperature cold = Temperature.FromKelvins(77);
        Temperature room = Temperature.FromKelvins(293);
        SolidMaterial steel = SolidMaterial.Named("stainless steel 304");
        SolidMaterial copper = SolidMaterial.Named("copper");
        SolidMaterial epoxy = SolidMaterial.Named("G-10");

        double throughSteel = steel.ConductivityIntegralWattsPerMeter(cold, room);
        double throughEpoxy = epoxy.ConductivityIntegralWattsPerMeter(cold, room);
        double toCool = copper.EnthalpyJoulesPerKilogram(cold, room);
        Ratio shrinks = steel.Contraction!.At(cold);
        EmissivityRange bright = SurfaceFinish.Named("copper, polished").EmissivityAt(cold);
        string? seal = ColdService.Named("NBR seal").CautionAt(cold)?.Advice;
        // End.
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", "materials.md")));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Materials", "MaterialsPageTests.cs"));
        string told = $"A rod of 1 cm2 and 10 cm carries {throughSteel * 1e-4 / 0.1:F2} W from 293 to 77 K in steel and {throughEpoxy * 1e-4 / 0.1:F3} W in glass-epoxy. "
            + $"A kilogram of copper gives off {toCool / 1e3:F1} kJ on its way down. A neck of 300 mm of steel gets {300 * shrinks.DecimalFractions:F2} mm shorter. "
            + $"Polished copper at 77 K has an emissivity of {bright.Least:0.###} to {bright.Greatest:0.###}.";
        output.WriteLine(told);
        output.WriteLine(seal);
        Assert.Contains(Joined(own.Split("// Page" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);
        Assert.Contains(told, page, StringComparison.Ordinal);
        Assert.Contains("licensed practice", seal!, StringComparison.Ordinal);

        // The table of the page is that of the library.
        foreach (SolidMaterial material in SolidMaterial.All)
        {
            Assert.Contains($"| {material.Name} | {Range(material)} | {(material.HeatCapacity is { } c ? $"{c.Lowest.Kelvins:G4} to {c.Highest.Kelvins:G4}" : "-")} | {Shrinks(material)} |", page, StringComparison.Ordinal);
        }

        static string Range(SolidMaterial m) => m.HasConductivity ? $"{m.Lowest.Kelvins:G4} to {m.Highest.Kelvins:G4}, {100 * m.UncertaintyShare:F0} %" : "-";
        static string Shrinks(SolidMaterial m) => m.Contraction is { } c ? $"{c.At(Temperature.FromKelvins(77)).Percent:F3}" : "-";
        static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
    }
}
