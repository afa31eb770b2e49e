using CryoThermo.Checks.Values;
using CryoThermo.Substances;
using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Transport properties and surface tension against published, handbook and measured values.</summary>
internal static class TransportComparison
{
    private const double NormalPressure = 101325;

    // Shares of the first component tried until a temperature and pressure split: both phases of two components follow from these alone.
    private static readonly double[] Shares = [0.5, 0.2, 0.8, 0.35, 0.65, 0.1, 0.9, 0.05, 0.95, 0.02, 0.98, 0.01, 0.99, 0.003, 0.997];

    private static readonly (string Substance, double MoleFraction)[] AirFractions = [("nitrogen", 0.7812), ("oxygen", 0.2096), ("argon", 0.0092)];

    private static readonly Lazy<IReadOnlyList<LimitCheck>> Checks = new(() => [.. HandbookLimits(), .. TensionLimits(), .. SetLimits()]);

    /// <summary>Handbook figures, boiling surface tensions and measured sets against their limits.</summary>
    public static IReadOnlyList<LimitCheck> All => Checks.Value;

    /// <summary>A published value computed here, in its unit.</summary>
    public static double Of(TransportCheck check)
    {
        double density = check.MolarDensity ?? check.MassDensity!.Value / SubstanceCatalog.Default.Find(check.Fluid).MolarMass;
        WorkingFluid fluid = WorkingFluid.Pure(check.Fluid);
        if (density == 0)
        {
            TransportKernel kernel = fluid.TransportKernel;
            return check.Quantity == TransportQuantity.Viscosity
                ? 1e6 * kernel.Viscosity(check.Temperature, 0, [1])
                : 1e3 * kernel.BackgroundConductivity(check.Temperature, 0, [1]);
        }

        return In(check.Quantity, fluid.AtDensity(Temperature.FromKelvins(check.Temperature), Molarity.FromMolesPerCubicMeter(density)).Transport);
    }

    /// <summary>Whether a published value is met to its last printed digit.</summary>
    public static bool IsMet(TransportCheck check) => Math.Abs(Of(check) - check.Value) <= 0.5001 * check.Resolution;

    /// <summary>A handbook figure computed here, in its unit.</summary>
    public static double Of(TransportHandbookFigure figure)
    {
        WorkingFluid fluid = WorkingFluid.Pure(figure.Fluid);
        Temperature t = Temperature.FromKelvins(figure.Temperature);
        if (figure.Phase == HandbookPhase.BoilingLiquid)
        {
            return In(figure.Quantity, fluid.Saturation(t).Liquid.Transport);
        }

        // Isopentane boils at 301 K: the figure of its gas at 300 K belongs to an undercooled vapour.
        Pressure p = Pressure.FromPascals(NormalPressure);
        State state = fluid.At(t, p);
        return In(figure.Quantity, (state.Phases[0].Kind == PhaseKind.Liquid ? fluid.MetastableAt(t, p, PhaseKind.Vapor) : state).Transport);
    }

    /// <summary>A handbook surface tension computed here, mN/m.</summary>
    public static double Of(SurfaceTensionFigure figure) =>
        1e3 * WorkingFluid.Pure(figure.Fluid).Saturation(Temperature.FromKelvins(figure.Temperature)).SurfaceTension.Value.NewtonsPerMeter;

    /// <summary>A measured mixture computed here, in its unit.</summary>
    public static double Of(TransportMixturePoint point) => In(
        point.Quantity,
        WorkingFluid.Mixture([.. point.MoleFractions.Select(x => (x.Key, x.Value))])
            .At(Temperature.FromKelvins(point.Temperature), Pressure.FromPascals(point.Pressure)).Transport);

    /// <summary>The deviations of a measured set in percent, the mean of the stated uncertainties, and how many points have no such phase here.</summary>
    public static (IReadOnlyList<double> Percent, double Stated, int NotFound) Of(MeasuredSet set)
    {
        List<double> percent = [];
        double stated = 0;
        int missing = 0;
        for (int i = 0; i < set.Points.Count; i++)
        {
            if (Point(set, i) is { } found)
            {
                percent.Add(100 * ((found.Value / set.ValueOf(i, QuantityOf(set))!.Value) - 1));
                stated += found.Percent;
            }
            else
            {
                missing++;
            }
        }

        return (percent, percent.Count == 0 ? double.NaN : stated / percent.Count, missing);
    }

    /// <summary>The quantity a set measured.</summary>
    public static MeasuredQuantity QuantityOf(MeasuredSet set) => set.Kind switch
    {
        MeasuredKind.Viscosity => MeasuredQuantity.Viscosity,
        MeasuredKind.ThermalConductivity => MeasuredQuantity.ThermalConductivity,
        _ => MeasuredQuantity.SurfaceTension,
    };

    /// <summary>Percent by which corresponding states differ from the own correlation of a fluid: gas, boiling liquid, supercritical.</summary>
    public static IReadOnlyList<double>[] StatesAgainstReference(string name, TransportQuantity quantity)
    {
        WorkingFluid fluid = WorkingFluid.Pure(name);
        TransportComponent component = fluid.TransportKernel.Components[0];
        Substance substance = fluid.Composition.Components[0];
        double tc = substance.CriticalTemperature;
        double rc = substance.CriticalMolarDensity;
        List<double>[] percent = [[], [], []];
        TransportCorrelation range = (quantity == TransportQuantity.Viscosity ? component.DenseViscosity : component.DenseConductivity)!;
        double coldest = Math.Max(range.LowestTemperature, 1.02 * (substance.TripleTemperature ?? 0));
        foreach (double share in new[] { 0.4, 0.5, 0.6, 0.7, 0.8, 0.9 })
        {
            double t = Math.Max(share * tc, coldest);
            Saturation boiling = fluid.Saturation(Temperature.FromKelvins(t));
            Add(1, t, boiling.Liquid.MolarDensity.MolesPerCubicMeter);
            Add(0, t, boiling.Vapor.MolarDensity.MolesPerCubicMeter);
        }

        double warmest = Math.Min(2 * tc, TransportMethods.HighestFittedTemperature);
        foreach (double t in new[] { 1.1 * tc, 1.4 * tc, warmest }.Where(t => t >= 1.05 * tc && t <= warmest).Distinct())
        {
            foreach (double reduced in new[] { 0.05, 0.1, 0.3 })
            {
                Add(0, t, reduced * rc);
            }

            foreach (double reduced in new[] { 0.7, 1, 1.5 })
            {
                Add(2, t, reduced * rc);
            }
        }

        return percent;

        void Add(int where, double t, double density) => percent[where].Add(100 * (quantity == TransportQuantity.Viscosity
            ? (component.ViscosityByStates(t, density) / component.Viscosity(t, density)) - 1
            : (component.ConductivityByStates(t, density) / component.Conductivity(t, density)) - 1));
    }

    /// <summary>Percent by which air as a mixture of nitrogen, oxygen and argon differs from the correlation of air: viscosity, conductivity without enhancement.</summary>
    public static (double Viscosity, double Conductivity) AirAsMixture(double temperature, double molarDensity)
    {
        TransportKernel mixture = WorkingFluid.Mixture(AirFractions).TransportKernel;
        TransportKernel air = WorkingFluid.Pure("air").TransportKernel;
        double[] x = [.. AirFractions.Select(c => c.MoleFraction)];
        return (
            100 * ((mixture.Viscosity(temperature, molarDensity, x) / air.Viscosity(temperature, molarDensity, [1])) - 1),
            100 * ((mixture.BackgroundConductivity(temperature, molarDensity, x) / air.BackgroundConductivity(temperature, molarDensity, [1])) - 1));
    }

    private static double In(TransportQuantity quantity, TransportProperties transport) => quantity == TransportQuantity.Viscosity
        ? transport.Viscosity.PascalSeconds * 1e6
        : transport.ThermalConductivity.WattsPerMeterKelvin * 1e3;

    private static (double Value, double Percent)? Point(MeasuredSet set, int point)
    {
        Temperature t = Temperature.FromKelvins(set.ValueOf(point, MeasuredQuantity.Temperature)!.Value);
        if (set.Kind == MeasuredKind.SurfaceTension)
        {
            return TensionAt(set, point, t) is { } tension ? (tension.Value.NewtonsPerMeter, tension.Method.UncertaintyPercent) : null;
        }

        double[] x = set.Components.Count == 1 ? [1] : set.FractionsOf(point, MeasuredQuantity.OverallFraction)!;
        State state = FluidOf(set, x).At(t, Pressure.FromPascals(set.ValueOf(point, MeasuredQuantity.Pressure)!.Value));
        if (state.Phases.Count > 1)
        {
            return null;
        }

        TransportProperties transport = state.Transport;
        return set.Kind == MeasuredKind.Viscosity
            ? (transport.Viscosity.PascalSeconds, transport.ViscosityMethod.UncertaintyPercent)
            : (transport.ThermalConductivity.WattsPerMeterKelvin, transport.ConductivityMethod.UncertaintyPercent);
    }

    private static SurfaceTension? TensionAt(MeasuredSet set, int point, Temperature t)
    {
        if (set.ColumnOf(MeasuredQuantity.LiquidFraction) is not null)
        {
            double[] x = set.FractionsOf(point, MeasuredQuantity.LiquidFraction)!;
            return x.Contains(1) ? WorkingFluid.Pure(set.Components[Array.IndexOf(x, 1)]).Saturation(t).SurfaceTension : FluidOf(set, x).BubblePoint(t).SurfaceTension;
        }

        Pressure p = Pressure.FromPascals(set.ValueOf(point, MeasuredQuantity.Pressure)!.Value);
        foreach (double share in Shares)
        {
            State state = FluidOf(set, [share, 1 - share]).At(t, p);
            if (state.Phases.Count == 2 && state.Phases[0].Kind == PhaseKind.Vapor)
            {
                return state.SurfaceTension;
            }
        }

        return null;
    }

    private static WorkingFluid FluidOf(MeasuredSet set, double[] x) => x.Length == 1
        ? WorkingFluid.Pure(set.Components[0])
        : WorkingFluid.Mixture([.. set.Components.Select((name, i) => (name, x[i]))]);

    private static IEnumerable<LimitCheck> HandbookLimits()
    {
        foreach (TransportHandbookFigure figure in CheckValues.Transport.Handbook)
        {
            double value = Of(figure);
            double outside = 100 * Math.Max(0, Math.Max((value / figure.Highest) - 1, 1 - (value / figure.Lowest)));
            yield return new($"{figure.Fluid}, {(figure.Phase == HandbookPhase.Gas ? "gas" : "boiling liquid")}, {figure.Quantity.ToString().ToLowerInvariant()}", outside, 0);
        }
    }

    private static IEnumerable<LimitCheck> TensionLimits() => CheckValues.Transport.SurfaceTension.Select(figure => new LimitCheck(
        $"{figure.Fluid}, surface tension",
        100 * Math.Abs((Of(figure) / figure.Value) - 1),
        SubstanceCatalog.Default.Find(figure.Fluid).Transport!.SurfaceTension!.UncertaintyPercent));

    private static IEnumerable<LimitCheck> SetLimits()
    {
        foreach (MeasuredSet set in CheckValues.MeasuredTransport)
        {
            (IReadOnlyList<double> percent, double stated, _) = Of(set);
            yield return new($"{set.Name}, mean", percent.Average(Math.Abs), Math.Round(stated, 2));
        }
    }
}
