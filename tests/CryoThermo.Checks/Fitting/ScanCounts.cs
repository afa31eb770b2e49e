using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Checks.Fitting;

/// <summary>What flashes over a wide range of temperature, pressure and composition of a pair find.</summary>
/// <param name="States">States tried.</param>
/// <param name="Failed">States without an answer.</param>
/// <param name="Unresolved">States at which the answer misses a further phase.</param>
/// <param name="Splits">States with two liquids.</param>
/// <param name="WarmestSplit">The warmest of them, K; zero when there are none.</param>
/// <param name="Failures">What the states without an answer were.</param>
/// <param name="Densities">Molar densities where one phase stands at 10 MPa, by composition and temperature.</param>
public sealed record ScanCounts(int States, int Failed, int Unresolved, int Splits, double WarmestSplit, IReadOnlyList<string> Failures, IReadOnlyDictionary<(double, double), double> Densities)
{
    /// <summary>Distance of the temperatures, K.</summary>
    public const double Step = 10;

    /// <summary>Lowest temperature, K.</summary>
    public const double Coldest = 60;

    /// <summary>Highest temperature, K.</summary>
    public const double Warmest = 400;

    private static readonly double[] Fractions = [0.1, 0.35, 0.65, 0.9];
    private static readonly double[] Bars = [1, 10, 40, 100];

    /// <summary>Flashes.</summary>
    public static ScanCounts Of(string first, string second, SubstanceCatalog catalog, FluidModel? model = null)
    {
        int states = 0;
        int failed = 0;
        int unresolved = 0;
        int splits = 0;
        double warmest = 0;
        List<string> failures = [];
        Dictionary<(double, double), double> densities = [];
        foreach (double fraction in Fractions)
        {
            WorkingFluid fluid = catalog.Mixture((first, fraction), (second, 1 - fraction));
            fluid = model is null ? fluid : fluid.WithModel(model);
            for (double kelvins = Coldest; kelvins <= Warmest; kelvins += Step)
            {
                foreach (double bar in Bars)
                {
                    states++;
                    try
                    {
                        State state = fluid.At(Temperature.FromKelvins(kelvins), Pressure.FromBars(bar));
                        if (state.Phases.Count == 1 && bar >= 100)
                        {
                            densities[(fraction, kelvins)] = state.Phases[0].MolarDensity.MolesPerCubicMeter;
                        }

                        unresolved += state.HasUnresolvedPhase ? 1 : 0;
                        if (state.Phases.Count > 1 && state.Phases.All(p => p.Kind != PhaseKind.Vapor))
                        {
                            splits++;
                            warmest = Math.Max(warmest, kelvins);
                        }
                    }
                    catch (Exception exception) when (exception is ArgumentException or ConvergenceException or InvalidOperationException)
                    {
                        failed++;
                        failures.Add($"{fraction} {first}, {kelvins} K, {bar} bar: {exception.Message.Split('\n')[0]}");
                    }
                }
            }
        }

        return new(states, failed, unresolved, splits, warmest, failures, densities);
    }

    /// <summary>Mean relative change of density against another scan, over states that have one phase in both.</summary>
    public double DensityChangeFrom(ScanCounts other) =>
        Densities.Where(d => other.Densities.ContainsKey(d.Key)).Select(d => Math.Abs((d.Value / other.Densities[d.Key]) - 1)).DefaultIfEmpty(0).Average();
}
