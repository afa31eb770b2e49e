using CryoThermo.Coolers;
using CryoThermo.Equilibrium;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Charts;

/// <summary>Charts of a cooler design.</summary>
public static class DesignCharts
{
    /// <summary>Both streams' temperature against duty in the described recuperator, pinch marked.</summary>
    /// <param name="design">The design.</param>
    /// <returns>The chart; null when the recuperator exchanges no heat at this cold temperature.</returns>
    public static TemperatureDutyChart? TemperatureDuty(this CoolerDesign design)
    {
        ArgumentNullException.ThrowIfNull(design);
        IReadOnlyList<RecuperatorPoint> profile = design.Recuperator.Profile;
        if (profile.Count < 2)
        {
            return null;
        }

        return new(new(
            [.. profile.Select(p => (double)p.DutyFromColdEnd.Watts)],
            [.. profile.Select(p => p.Hot.Kelvins)],
            [.. profile.Select(p => p.Cold.Kelvins)])
        {
            HotTwoPhase = Spans(design.Cycle.HighPressureIsobar, profile, p => p.Hot),
            ColdTwoPhase = Spans(design.Cycle.LowPressureIsobar, profile, p => p.Cold),
            Title = $"Recuperator at {design.ColdTemperature.Kelvins:0.#} K cold end",
        });
    }

    /// <summary>Cooling against cold temperature: perfect recuperator, described recuperator, demanded load.</summary>
    /// <param name="design">The design.</param>
    public static CoolingCurveChart CoolingCurve(this CoolerDesign design)
    {
        ArgumentNullException.ThrowIfNull(design);
        return new(new(
            [.. design.Curve.Select(p => p.ColdTemperature.Kelvins)],
            [.. design.Curve.Select(p => (double)p.GreatestCooling.Watts)])
        {
            WithConductanceWatts = [.. design.Curve.Select(p => (double)p.NetCooling.Watts)],
            ConductanceWattsPerKelvin = design.Description.Recuperator.ConductanceWattsPerKelvin,
            Demand = new(design.ColdTemperature.Kelvins, (double)design.Description.Load.Demanded.Watts),
            LowestIdealKelvins = Within(design, design.IdealLowestTemperature),
            LowestWithConductanceKelvins = Within(design, design.LowestTemperatureWithConductance),
            Title = "Cooling against cold temperature"
                + ((double)design.Description.HeatLeak.Watts > 0
                    ? $", {(double)design.Description.HeatLeak.Watts:0.###} W leak taken off the described curve"
                    : string.Empty)
                + (design.CapacityError is { } error ? $"\nmodel error {error.LowPercent:+0;-0;0} to {error.HighPercent:+0;-0;0} %" : string.Empty),
        });
    }

    private static double? Within(CoolerDesign design, LowestTemperature? lowest) =>
        lowest is { EndOfSearch: false } found && found.Temperature.Kelvins > design.Curve[0].ColdTemperature.Kelvins - 10
            ? found.Temperature.Kelvins
            : null;

    // Stretches of duty over which a stream holds two phases or more; profile points include every phase boundary.
    private static List<DutySpan> Spans(Isobar isobar, IReadOnlyList<RecuperatorPoint> profile, Func<RecuperatorPoint, Temperature> stream)
    {
        List<DutySpan> spans = [];
        foreach (IsobarStretch stretch in isobar.Stretches)
        {
            if (stretch.Region is PhaseRegion.Liquid or PhaseRegion.Vapor)
            {
                continue;
            }

            double[] inside =
            [
                .. profile
                    .Where(p => stream(p).Kelvins >= stretch.From.Kelvins - 1e-6 && stream(p).Kelvins <= stretch.To.Kelvins + 1e-6)
                    .Select(p => (double)p.DutyFromColdEnd.Watts),
            ];
            if (inside.Length > 1 && inside.Max() > inside.Min())
            {
                spans.Add(new(inside.Min(), inside.Max()));
            }
        }

        return spans;
    }
}
