using CryoThermo.Checks.Values;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>The part of the accuracy page about helium, neon and hydrogen: Peng-Robinson without and with quantum corrections.</summary>
internal sealed class QuantumGasSection(AccuracyPage page, Func<MeasuredQuantity, string?, string> words)
{
    private const int Temperatures = 20;
    private const double NearestToCritical = 0.95;

    private static readonly FluidModel[] Models = [FluidModel.PengRobinson, FluidModel.PengRobinsonQuantumCorrected, FluidModel.PengRobinsonQuantumCorrected.WithVolumeTranslation()];

    private static readonly string[] Gases = ["helium", "neon", "hydrogen", "parahydrogen", "orthohydrogen"];

    private static readonly (double Reduced, double[] Bars)[] GasStates = [(1.2, [1, 5, 20, 50]), (2, [1, 20, 50, 100]), (4, [1, 20, 50, 100]), (8, [1, 20, 50, 100])];

    public void Write()
    {
        page.Line();
        page.Line("## Helium, neon and hydrogen with and without quantum corrections");
        page.Line();
        page.Line($"`FluidModel.PengRobinsonQuantumCorrected` ({page.Cite(FluidModel.PengRobinsonQuantumCorrected.Source.Publication + " (from memory)")}) lets the covolume of these gases grow as they get colder and gives each a temperature function of its own. For the spin forms of hydrogen nothing is published; they take the parameters of normal hydrogen with their own critical points. Compared with the reference equations of state.");
        page.Line();
        page.Line("### Saturation of the pure fluids");
        page.Line();
        page.Line($"Mean absolute / bias / largest deviation in percent at {Temperatures} temperatures from the lowest of the reference equation to {NearestToCritical} of its critical temperature.");
        page.Head("fluid", "K", "model", "vapour pressure", "liquid density", "vapour density", "enthalpy of vaporization");
        foreach (string gas in Gases)
        {
            SaturationRows(gas);
        }

        page.Line();
        page.Line("### Gas and compressed fluid");
        page.Line();
        page.Line("Deviation of the density at 1.2, 2, 4 and 8 times the critical temperature (helium not below 10 K), 1 to 50 or 100 bar (mean absolute / bias / largest, percent), the enthalpy at 1 bar less that at 100 bar at 4 and 8 times the critical temperature, and the temperature above which no throttling cools.");
        page.Head("fluid", "model", "density", "enthalpy difference at 4 Tc (reference), J/mol", "at 8 Tc", "highest inversion temperature, K");
        foreach (string gas in Gases)
        {
            GasRows(gas);
        }

        page.Line();
        page.Line("### Measured mixtures with these gases");
        page.Line();
        page.Line("Mean absolute / bias / largest deviation in percent. With quantum corrections the pairs of hydrogen, helium or neon with another gas are estimated as zero; beside it plain Peng-Robinson with its own parameters and with zero for the same pairs.");
        page.Head("set", "quantity", "points", "Peng-Robinson", "the same, these pairs zero", "quantum-corrected", "not solved");
        foreach (MeasuredSet set in CheckValues.Measured.Where(s => s.Components.Count > 1 && s.Components.Any(IsQuantumGas)))
        {
            MixtureRows(set);
        }
    }

    /// <summary>Vapour pressure, saturated densities and enthalpy of vaporization of a model against the reference equation, percent at each temperature.</summary>
    internal static (double Lowest, double Highest, IReadOnlyList<double>[] Percent) SaturationOf(string gas, FluidModel model)
    {
        HelmholtzEquation equation = SubstanceCatalog.Default.Find(gas).Equations[0];
        double low = equation.Range.LowestTemperature;
        double high = NearestToCritical * equation.CriticalPoint.Temperature;
        FluidKernel reference = WorkingFluid.Pure(gas).WithModel(FluidModel.ReferenceEquation).Kernel;
        FluidKernel cubic = WorkingFluid.Pure(gas).WithModel(model).Kernel;
        List<double>[] percent = [[], [], [], []];
        for (int i = 0; i < Temperatures; i++)
        {
            double t = low + ((high - low) * i / (Temperatures - 1));
            double[] there = Saturated(reference, t);
            double[] here = Saturated(cubic, t);
            for (int k = 0; k < percent.Length; k++)
            {
                percent[k].Add(100 * ((here[k] / there[k]) - 1));
            }
        }

        return (low, high, percent);
    }

    // From the kernels: plain Peng-Robinson is not offered below 10 K, where helium is a liquid.
    private static double[] Saturated(FluidKernel fluid, double temperature)
    {
        double[] scratch = new double[fluid.Equation.ScratchLength];
        if (!PureSaturation.TryPressure(fluid.Equation, 0, temperature, scratch, out double pressure, out double liquid, out double vapor))
        {
            throw new InvalidOperationException($"No saturation at {temperature} K.");
        }

        ResidualProperties ofLiquid = fluid.Equation.Residual(temperature, pressure, [1], DensityRoot.Liquid, scratch, out _);
        ResidualProperties ofVapor = fluid.Equation.Residual(temperature, pressure, [1], DensityRoot.Vapor, scratch, out _);
        return [pressure, liquid, vapor, ofVapor.Enthalpy - ofLiquid.Enthalpy];
    }

    private void SaturationRows(string gas)
    {
        foreach (FluidModel model in ModelsOf(gas))
        {
            (double low, double high, IReadOnlyList<double>[] percent) = SaturationOf(gas, model);
            page.Row([gas, $"{low:F1} to {high:F1}", NameOf(model), .. percent.Select(Show)]);
        }
    }

    private void GasRows(string gas)
    {
        WorkingFluid reference = WorkingFluid.Pure(gas).WithModel(FluidModel.ReferenceEquation);
        double tc = SubstanceCatalog.Default.Find(gas).CriticalTemperature;
        foreach (FluidModel model in ModelsOf(gas))
        {
            WorkingFluid fluid = WorkingFluid.Pure(gas).WithModel(model);
            List<double> densities = [];
            List<string> enthalpies = [];
            foreach ((double reduced, double[] bars) in GasStates)
            {
                // Helium: plain Peng-Robinson begins at 10 K.
                double t = Math.Max(reduced * tc, 10);
                foreach (double bar in bars)
                {
                    densities.Add(100 * ((Density(fluid, t, bar) / Density(reference, t, bar)) - 1));
                }

                if (reduced >= 4)
                {
                    double there = Enthalpy(reference, t, bars[0]) - Enthalpy(reference, t, bars[^1]);
                    double here = Enthalpy(fluid, t, bars[0]) - Enthalpy(fluid, t, bars[^1]);
                    enthalpies.Add($"{AccuracyPage.Signed(Math.Round(here))} ({AccuracyPage.Signed(Math.Round(there))})");
                }
            }

            page.Row([
                gas,
                NameOf(model),
                Show(densities),
                .. enthalpies,
                $"{Inversion(fluid)} (reference {Inversion(reference)})",
            ]);
        }
    }

    private static string Inversion(WorkingFluid fluid) => fluid.JouleThomsonInversion.HighestTemperature?.Kelvins.ToString("F1") ?? "-";

    private static double Density(WorkingFluid fluid, double t, double bar) => At(fluid, t, bar).MolarDensity.MolesPerCubicMeter;

    private static double Enthalpy(WorkingFluid fluid, double t, double bar) => At(fluid, t, bar).MolarEnthalpy.JoulesPerMole;

    private static State At(WorkingFluid fluid, double t, double bar) => fluid.At(Temperature.FromKelvins(t), Pressure.FromBars(bar));

    private void MixtureRows(MeasuredSet set)
    {
        List<PairInteraction> zeros =
        [
            .. from first in set.Components.Where(IsQuantumGas)
               from second in set.Components.Where(c => c != first)
               select new PairInteraction(first, second, 0),
        ];
        SetComparison[] all =
        [
            SetComparison.Create(set, FluidModel.PengRobinson, SubstanceCatalog.Default, SetComparison.Inner(set)),
            SetComparison.Create(set, FluidModel.PengRobinson, PairCatalog.With(zeros), SetComparison.Inner(set)),
            SetComparison.Create(set, FluidModel.PengRobinsonQuantumCorrected, SubstanceCatalog.Default, SetComparison.Inner(set)),
        ];
        foreach (MeasuredQuantity quantity in all.SelectMany(c => c.Figures).Select(f => f.Quantity).Distinct())
        {
            string? of = quantity == MeasuredQuantity.VaporFraction ? set.Columns.First(c => c.Quantity == quantity).Of : null;
            page.Row([
                $"{set.Name} {page.Cite(set.Source + (set.Doi is { } doi ? ", doi:" + doi : string.Empty))}",
                words(quantity, of),
                all[0].Points.ToString(),
                .. all.Select(c => c.Of(quantity, of) is { Count: > 0 } d ? Show(d.Values) : "-"),
                string.Join(", ", all.Select(c => c.NotSolved)),
            ]);
        }
    }

    // Orthohydrogen has no measured liquid density to shift to.
    private static IEnumerable<FluidModel> ModelsOf(string gas) =>
        Models.Where(m => !m.IsVolumeTranslated || SubstanceCatalog.Default.Find(gas).VolumeTranslation is not null);

    private static bool IsQuantumGas(string name) => Gases.Contains(name);

    private static string NameOf(FluidModel model) => model == FluidModel.PengRobinson ? "Peng-Robinson" : model.IsVolumeTranslated ? "quantum-corrected, translated" : "quantum-corrected";

    private static string Show(IReadOnlyList<double> values) =>
        $"{AccuracyPage.Number(values.Average(Math.Abs))} / {AccuracyPage.Signed(values.Average())} / {AccuracyPage.Signed(values.MaxBy(Math.Abs))}";
}
