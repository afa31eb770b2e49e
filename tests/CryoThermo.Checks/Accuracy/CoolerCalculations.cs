using System.Collections.Concurrent;
using CryoThermo.Checks.Values;
using CryoThermo.Coolers;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>Computes the figures of published cooler mixtures; each cycle is built once.</summary>
internal static class CoolerCalculations
{
    private const double PureGasKelvins = 300;

    private static readonly ConcurrentDictionary<(string Mixture, CoolerModel Model, double Low, double High, double Warm), Lazy<ThrottleCycle>> Cycles = [];
    private static readonly ConcurrentDictionary<(string Mixture, CoolerModel Model), Lazy<FreezingPoint?>> Solids = [];

    /// <summary>A figure by a model, in the unit of its quantity.</summary>
    public static double Compute(CoolerMixture mixture, CoolerFigure figure, CoolerModel model)
    {
        double low = figure.LowPressure ?? mixture.LowPressure;
        double high = figure.HighPressure ?? mixture.HighPressure ?? double.NaN;
        return figure.Quantity switch
        {
            CoolerQuantity.LowestTemperature => LowestOf(mixture, model, low, high, figure.Warm!.Value).Temperature.Kelvins,
            CoolerQuantity.GreatestCooling => Limit().GreatestCooling.JoulesPerMole,
            CoolerQuantity.PinchTemperature => Limit().PinchTemperature.Kelvins,
            CoolerQuantity.ShareOfGreatest => figure.Measured!.Value / Limit().GreatestCooling.JoulesPerMole,
            CoolerQuantity.GainOverPureGas => Limit().GreatestCooling.JoulesPerMole / PureGas(PureGasKelvins),
            CoolerQuantity.DifferenceOverPureGas => Difference(mixture.MoleFractions, figure.Cold!.Value) / PureGas(figure.Cold!.Value),
            CoolerQuantity.DensityRatio => Density(figure.Cold!.Value) / Density(figure.Warm!.Value),
            CoolerQuantity.BubbleTemperature => Boiling(mixture, model, low, isBubble: true),
            CoolerQuantity.DewTemperature => Boiling(mixture, model, low, isBubble: false),
            CoolerQuantity.Glide => Boiling(mixture, model, low, isBubble: false) - Boiling(mixture, model, low, isBubble: true),
            CoolerQuantity.BubblePressure => model.FluidOf(mixture.MoleFractions).BubblePoint(Temperature.FromKelvins(figure.Cold!.Value)).Pressure.Pascals,
            CoolerQuantity.FirstSolid => SolidOf(mixture, model)?.Temperature.Kelvins ?? mixture.Lowest,
            _ => throw new InvalidOperationException($"{figure.Quantity} is not computed."),
        };

        CycleLimit Limit() => LimitOf(mixture, model, low, high, figure.Cold!.Value, figure.Warm!.Value);

        double PureGas(double kelvins) => Difference(new Dictionary<string, double> { [figure.PureGas!] = 1 }, kelvins);

        double Difference(IReadOnlyDictionary<string, double> moleFractions, double kelvins)
        {
            WorkingFluid fluid = model.FluidOf(moleFractions);
            Temperature t = Temperature.FromKelvins(kelvins);
            return (fluid.At(t, Pressure.FromPascals(low)).MolarEnthalpy - fluid.At(t, Pressure.FromPascals(high)).MolarEnthalpy).JoulesPerMole;
        }

        double Density(double kelvins) => model.FluidOf(mixture.MoleFractions).At(Temperature.FromKelvins(kelvins), Pressure.FromPascals(high)).Density.KilogramsPerCubicMeter;
    }

    /// <summary>The greatest cooling and its pinch.</summary>
    public static CycleLimit LimitOf(CoolerMixture mixture, CoolerModel model, double low, double high, double cold, double warm) =>
        CycleOf(mixture, model, low, high, warm).GreatestCooling(Temperature.FromKelvins(cold));

    /// <summary>The lowest temperature without a leak.</summary>
    public static LowestTemperature LowestOf(CoolerMixture mixture, CoolerModel model, double low, double high, double warm) =>
        CycleOf(mixture, model, low, high, warm).LowestTemperature() ?? new(Temperature.FromKelvins(warm), EndOfSearch: false);

    /// <summary>The first solid on cooling at the low pressure; null for none down to the lowest temperature of the model.</summary>
    public static FreezingPoint? SolidOf(CoolerMixture mixture, CoolerModel model) => Solids.GetOrAdd(
        (mixture.Name, model),
        _ => new(() => model.FluidOf(mixture.MoleFractions).FreezeOut.FirstSolid(Pressure.FromPascals(mixture.LowPressure)))).Value;

    /// <summary>Bubble or dew temperature, K.</summary>
    public static double Boiling(CoolerMixture mixture, CoolerModel model, double pressure, bool isBubble)
    {
        WorkingFluid fluid = model.FluidOf(mixture.MoleFractions);
        Pressure p = Pressure.FromPascals(pressure);
        return (isBubble ? fluid.BubblePoint(p) : fluid.DewPoint(p)).Temperature.Kelvins;
    }

    private static ThrottleCycle CycleOf(CoolerMixture mixture, CoolerModel model, double low, double high, double warm) => Cycles.GetOrAdd(
        (mixture.Name, model, low, high, warm),
        _ => new(() => new(
            model.FluidOf(mixture.MoleFractions),
            Pressure.FromPascals(low),
            Pressure.FromPascals(high),
            Temperature.FromKelvins(warm),
            Temperature.FromKelvins(mixture.Lowest)))).Value;
}
