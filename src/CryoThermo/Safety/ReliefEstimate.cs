using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// What a relief device must pass and how large it is, by the published formulae. Estimates to see whether a device is of the right order; choosing, sizing
/// and setting one is licensed work. Stateless and thread-safe.
/// </summary>
public static class ReliefEstimate
{
    /// <summary>Discharge coefficient taken for a first estimate with gas: API 520-I, preliminary (from memory).</summary>
    public const double PreliminaryDischargeCoefficient = 0.975;

    /// <summary>Gas through a valve at critical flow: A = W/(C Kd p) sqrt(T Z/M), C = sqrt(k (2/(k+1))^((k+1)/(k-1))/R), as API 520-I and ISO 4126 write it in their units (from memory).</summary>
    /// <param name="flow">To be passed.</param>
    /// <param name="pressure">At the inlet while relieving, absolute.</param>
    /// <param name="temperature">At the inlet.</param>
    /// <param name="molarMass">Of the gas.</param>
    /// <param name="heatCapacityRatio">Ideal gas, above 1 to 2.</param>
    /// <param name="compressibilityFactor">At the inlet.</param>
    /// <param name="dischargeCoefficient">Above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static Area GasArea(
        MassFlow flow,
        Pressure pressure,
        Temperature temperature,
        MolarMass molarMass,
        double heatCapacityRatio,
        double compressibilityFactor = 1,
        double dischargeCoefficient = PreliminaryDischargeCoefficient)
    {
        double w = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double p = Guard.Positive(pressure.Pascals, "Pa", nameof(pressure));
        double t = Guard.Positive(temperature.Kelvins, "K", nameof(temperature));
        double m = Guard.Positive(molarMass.KilogramsPerMole, "kg/mol", nameof(molarMass));
        double k = heatCapacityRatio > 1 && heatCapacityRatio <= 2
            ? heatCapacityRatio
            : throw new ArgumentOutOfRangeException(nameof(heatCapacityRatio), heatCapacityRatio, $"heatCapacityRatio is {heatCapacityRatio:G6}; allowed is above 1 to 2.");
        double z = Guard.InRange(compressibilityFactor, 0.05, 3, "(ratio)");
        double kd = Guard.InRange(dischargeCoefficient, 0.01, 1, "(ratio)");
        double c = Math.Sqrt(k * Math.Pow(2 / (k + 1), (k + 1) / (k - 1)));
        return Area.FromSquareMeters(w / (c * kd * p) * Math.Sqrt(z * SubstanceReader.GasConstant * t / m));
    }

    /// <summary>Any state through a valve, choked or not: mass flux of a homogeneous nozzle of the real fluid, flashing liquid and two phases with it.</summary>
    /// <param name="flow">To be passed.</param>
    /// <param name="inlet">State at the inlet while relieving.</param>
    /// <param name="outlet">Pressure behind, absolute.</param>
    /// <param name="dischargeCoefficient">Above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static Area HomogeneousArea(MassFlow flow, State inlet, Pressure outlet, double dischargeCoefficient = PreliminaryDischargeCoefficient)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double w = Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        double kd = Guard.InRange(dischargeCoefficient, 0.01, 1, "(ratio)");
        return Area.FromSquareMeters(w / (kd * new HomogeneousNozzle(inlet).FlowTo(outlet).Flux.KilogramsPerSecondPerSquareMeter));
    }

    /// <summary>
    /// Heat into a cold vessel whose vacuum is lost, by its area: air condenses on walls below 75 K, so that helium without a blanket takes 38 kW/m2, with about ten layers
    /// 6 kW/m2 (G. Lehmann, H. Zahn, ICEC 7 (1978), from memory), hydrogen some 20 to 40 kW/m2; warmer walls 50 to 500 W/m2 behind a blanket full of air (common practice, from memory).
    /// </summary>
    /// <param name="area">Of the cold vessel.</param>
    /// <param name="wall">Temperature of its wall, 3 to 250 K.</param>
    /// <param name="hasBlanket">Whether layers of insulation lie on it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static FigureBand<Power> LossOfVacuumHeat(Area area, Temperature wall, bool hasBlanket)
    {
        double a = Guard.Positive(area.SquareMeters, "m2", nameof(area));
        double t = Guard.InRange(wall.Kelvins, 3, 250, "K", nameof(wall));
        (double least, double nominal, double most) = (t, hasBlanket) switch
        {
            ( >= 75, _) => (50.0, 200.0, 500.0),
            ( < 10, true) => (4e3, 6e3, 1e4),
            ( < 10, false) => (2e4, 3.8e4, 5e4),
            (_, true) => (3e3, 6e3, 1e4),
            _ => (2e4, 3e4, 4e4),
        };
        return new(Power.FromWatts(a * nominal), Power.FromWatts(a * least), Power.FromWatts(a * most));
    }

    /// <summary>
    /// What boils off, or is pushed out, when heat enters a vessel that relieves at a pressure: below the critical pressure Q (v_vapour - v_liquid)/(h_fg v_vapour) of
    /// boiling pure fluid, above it Q/(v (dh/dv) at the pressure) where sqrt(v)/(v dh/dv) is greatest (ISO 21013-3, from memory).
    /// </summary>
    /// <param name="fluid">A pure fluid.</param>
    /// <param name="pressure">While relieving, absolute.</param>
    /// <param name="heat">Into the contents.</param>
    /// <exception cref="ArgumentException">The fluid is a mixture.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not above zero, or the pressure lies below the triple point.</exception>
    public static ReliefFlow FlowFor(WorkingFluid fluid, Pressure pressure, Power heat)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        double q = Guard.Positive((double)heat.Watts, "W", nameof(heat));
        Guard.Positive(pressure.Pascals, "Pa", nameof(pressure));
        if (fluid.Composition.Components.Count != 1)
        {
            throw new ArgumentException($"fluid is {fluid.Composition}; this estimate is for pure fluids. Of a blend take its most volatile component, and its own vapour where no liquid is left.", nameof(fluid));
        }

        CriticalPoint critical = fluid.CriticalPoint();
        if (pressure.Pascals < 0.999 * critical.Pressure.Pascals)
        {
            Saturation boiling = fluid.Saturation(pressure);
            double liquid = 1 / boiling.Liquid.Density.KilogramsPerCubicMeter;
            double vapor = 1 / boiling.Vapor.Density.KilogramsPerCubicMeter;
            double heatOfBoiling = (boiling.Vapor.SpecificEnthalpy - boiling.Liquid.SpecificEnthalpy).JoulesPerKilogram;
            return new(MassFlow.FromKilogramsPerSecond(q / heatOfBoiling * (vapor - liquid) / vapor), boiling.Vapor);
        }

        // Along the isobar: v dh/dv by steps of 0.1 %.
        double lowest = critical.Temperature.Kelvins;
        State? worst = null;
        double most = 0;
        double flow = 0;
        for (double t = 0.9 * lowest; t < 2.5 * lowest; t *= 1.004)
        {
            State below = fluid.At(Temperature.FromKelvins(t * 0.9995), pressure);
            State above = fluid.At(Temperature.FromKelvins(t * 1.0005), pressure);
            double v1 = 1 / below.Density.KilogramsPerCubicMeter;
            double v2 = 1 / above.Density.KilogramsPerCubicMeter;
            double v = 0.5 * (v1 + v2);
            double slope = (above.SpecificEnthalpy - below.SpecificEnthalpy).JoulesPerKilogram / (v2 - v1);
            double measure = Math.Sqrt(v) / (v * slope);
            if (measure > most)
            {
                (most, worst, flow) = (measure, below, q / (v * slope));
            }
        }

        return new(MassFlow.FromKilogramsPerSecond(flow), worst!);
    }
}
