using CryoThermo.Checks.Values;
using CryoThermo.Coolers;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about cooling capacity: isothermal enthalpy differences of gases and blends, and the bench cooler.</summary>
internal sealed class CapacitySection(AccuracyPage page)
{
    private static readonly FluidModel[] BlendModels = [FluidModel.PengRobinson, FluidModel.MultiFluid, FluidModel.Recommended];

    public void Write()
    {
        Gases();
        Blends();
        Cooler();
    }

    /// <summary>Isothermal enthalpy difference of a blend of the tables at a temperature, J/mol.</summary>
    internal static double DifferenceOf(EnthalpyDifferenceTable table, FluidModel model, double temperature) => DifferenceOf(table, FluidOf(table, model), temperature);

    /// <summary>The same by a model of the cooler mixtures.</summary>
    internal static double DifferenceOf(EnthalpyDifferenceTable table, CoolerModel model, double temperature) => DifferenceOf(table, model.FluidOf(table.MoleFractions), temperature);

    private static double DifferenceOf(EnthalpyDifferenceTable table, WorkingFluid fluid, double temperature)
    {
        Temperature t = Temperature.FromKelvins(temperature);
        return (fluid.At(t, Pressure.FromPascals(table.LowPressure)).MolarEnthalpy - fluid.At(t, Pressure.FromPascals(table.HighPressure!.Value)).MolarEnthalpy).JoulesPerMole;
    }

    /// <summary>The design of the bench cooler of the examples under a model of the cooler file.</summary>
    internal static CoolerDesign DesignOf(string model)
    {
        using Stream stream = typeof(CapacitySection).Assembly.GetManifestResourceStream("bench-cooler.json")!;
        using StreamReader reader = new(stream);
        const string Asked = "\"model\": \"recommended\"";
        string text = reader.ReadToEnd();
        return text.Contains(Asked, StringComparison.Ordinal)
            ? CoolerDesign.Evaluate(CoolerDescriptionReader.Parse(text.Replace(Asked, $"\"model\": \"{model}\"", StringComparison.Ordinal), "bench-cooler.json"))
            : throw new InvalidOperationException($"The bench cooler does not ask for {Asked}.");
    }

    private static WorkingFluid FluidOf(EnthalpyDifferenceTable table, FluidModel model) =>
        WorkingFluid.Mixture([.. table.MoleFractions.Select(p => (p.Key, p.Value / table.MoleFractions.Values.Sum()))]).WithModel(model);

    private static string Percent(double value) => $"{AccuracyPage.Signed(Math.Round(value, 1))} %";

    private void Gases()
    {
        page.Line();
        page.Line("## Cooling capacity: isothermal enthalpy differences at 300 K");
        page.Line();
        page.Line("h(300 K, 1.01325 bar) - h(300 K, high pressure) of the pure gas, J/mol, and the temperature after throttling between the same pressures. Reference: long equations of state, computed here, not published, good to 1 % and 1 K. Errors in percent and K; MultiFluid is the short equation the standard has of the gas, Recommended the equation the library takes for it, mostly the reference itself.");
        page.Head(["gas", "high pressure, bar", "reference, J/mol", .. ComparedModels.All.Select(ComparedModels.NameOf), "after throttling, K", .. ComparedModels.All.Select(ComparedModels.NameOf)]);
        foreach (ReferenceDifference reference in CheckValues.ReferenceDifferences)
        {
            (double Difference, double After)?[] here =
            [
                .. ComparedModels.All.Select(m => ComparedModels.Holds(m, [reference.Fluid]) ? AccuracyDocument.DifferenceOf(reference, m) : ((double, double)?)null),
            ];
            page.Row([
                reference.Fluid,
                (reference.HighPressure / 1e5).ToString("G4"),
                reference.Difference.ToString("F1"),
                .. here.Select(v => v is { } d ? $"{AccuracyPage.Signed(Math.Round(100 * ((d.Difference / reference.Difference) - 1), 2))} %" : "-"),
                reference.TemperatureAfterThrottle.ToString("F1"),
                .. here.Select(v => v is { } d ? $"{AccuracyPage.Signed(Math.Round(d.After - reference.TemperatureAfterThrottle, 1))} K" : "-"),
            ]);
        }
    }

    private void Blends()
    {
        page.Line();
        page.Line("### Benchmark blends");
        page.Line();
        page.Line("h(T, low) - h(T, high) of blends, J/mol, with the pairs the library ships, and how far Peng-Robinson is from Recommended. Nobody measured these; where Recommended has estimated pairs (named above each table) its own figure is no reference.");
        foreach (EnthalpyDifferenceTable table in CheckValues.Tables.Where(t => t.Differences is { Count: > 0 }))
        {
            WorkingFluid fluid = FluidOf(table, FluidModel.Recommended);
            string[] estimated = [.. fluid.Pedigree.EstimatedPairs.Select(p => $"{p.First.Name} + {p.Second.Name}")];
            page.Line();
            page.Line($"**{table.Name}**: {string.Join(", ", table.MoleFractions.Select(p => $"{p.Key} {p.Value:0.####}"))}; {table.LowPressure / 1e5:G4} and {table.HighPressure / 1e5:G4} bar {page.Cite(table.Source)}. Recommended is the {fluid.Model.Name}; {(estimated.Length == 0 ? "no pair is estimated" : $"estimated pairs: {string.Join(", ", estimated)}")}.");
            page.Head(["K", .. BlendModels.Select(ComparedModels.NameOf), "Peng-Robinson off by"]);
            foreach (double temperature in table.Differences!.Select(row => row[0]))
            {
                double?[] here = [.. BlendModels.Select(m => ComparedModels.Holds(m, table.MoleFractions.Keys) ? DifferenceOf(table, m, temperature) : (double?)null)];
                page.Row([
                    temperature.ToString(),
                    .. here.Select(v => v is { } d ? d.ToString("F0") : "-"),
                    Math.Abs(here[2]!.Value) < 50 ? $"{AccuracyPage.Signed(Math.Round(here[0]!.Value - here[2]!.Value))} J/mol" : Percent(100 * ((here[0]!.Value / here[2]!.Value) - 1)),
                ]);
            }
        }
    }

    private void Cooler()
    {
        CoolerDesign cubic = DesignOf("peng-robinson");
        CoolerDesign recommended = DesignOf("recommended");
        page.Line();
        page.Line("### The bench cooler of the examples");
        page.Line();
        page.Line($"docs/examples/BenchCooler at its load temperature of {recommended.ColdTemperature.Kelvins:F1} K. The flow belongs to the suction gas and moves little; the capacity moves with the enthalpy differences.");
        page.Head("figure", "Peng-Robinson", "Recommended", "Peng-Robinson off by");
        Figure("greatest cooling (perfect recuperator), W", d => (double)d.GreatestCooling.Watts, "F1");
        Figure("gross cooling with its recuperator, W", d => (double)d.GrossCooling.Watts, "F1");
        Figure("net cooling, W", d => (double)d.NetCooling.Watts, "F1");
        Figure("greatest cooling, J/mol", d => d.Limit.GreatestCooling.JoulesPerMole, "F0");
        Figure("flow, mol/s", d => d.Compression.MolarFlow.MolesPerSecond, "F4");

        void Figure(string what, Func<CoolerDesign, double> of, string format) => page.Row(
            what, of(cubic).ToString(format), of(recommended).ToString(format), Percent(100 * ((of(cubic) / of(recommended)) - 1)));
    }
}
