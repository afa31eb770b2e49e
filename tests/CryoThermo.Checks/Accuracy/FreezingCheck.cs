using CryoThermo.Checks.Values;
using UnitsNet;

namespace CryoThermo.Checks.Accuracy;

/// <summary>A figure about freezing that is to keep a limit. The limits are set for this library: common practice, no source.</summary>
/// <param name="Subject">Set or pair, and model.</param>
/// <param name="Value">The value reached.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Unit">Its unit.</param>
public sealed record FreezingCheck(string Subject, double Value, double Limit, string Unit)
{
    private const double LnLimit = 0.12;
    private const double LnLimitOfFreezing = 0.25;
    private const double EutecticLimit = 1.5;

    // Sublimation pressures in high vacuum: published equations differ among themselves by up to a factor of two.
    private static readonly double LnLimitOfSublimation = Math.Log(2);

    private static readonly Lazy<IReadOnlyList<FreezingCheck>> Everything = new(() =>
    [
        .. from c in SolidComparison.All
           select new FreezingCheck(
               $"{c.Set.Name}, {ComparedModels.NameOf(c.Model)}, mean absolute ln of fluid over solid fugacity",
               c.MeanAbsolute,
               c.Set.Kind switch
               {
                   SolidKind.Sublimation => LnLimitOfSublimation,
                   SolidKind.Freezing or SolidKind.Liquidus => LnLimitOfFreezing,
                   _ => LnLimit,
               },
               string.Empty),
        .. from e in CheckValues.Eutectics
           from model in SolidComparison.Models
           select new FreezingCheck(
               $"eutectic of {e.First} and {e.Second}, {ComparedModels.NameOf(model)}",
               Math.Abs(EutecticOf(e, model).Temperature - e.Temperature),
               EutecticLimit,
               "K"),
    ]);

    /// <summary>All of them.</summary>
    public static IReadOnlyList<FreezingCheck> All => Everything.Value;

    /// <summary>Whether the limit is kept.</summary>
    public bool IsMet => Value <= Limit;

    /// <summary>Temperature (K) and mole fraction of the first component at which both pure solids form from the liquid at once, 1 bar absolute.</summary>
    public static (double Temperature, double MoleFraction) EutecticOf(EutecticPoint point, FluidModel model)
    {
        ArgumentNullException.ThrowIfNull(point);
        double low = 0.05;
        double high = 0.95;
        double temperature = 0;
        while (high - low > 1e-5)
        {
            double x = 0.5 * (low + high);
            WorkingFluid fluid = WorkingFluid.Mixture((point.First, x), (point.Second, 1 - x)).WithModel(model);
            FreezingPoint first = fluid.FreezeOut.FirstSolid(Pressure.FromBars(1)) ?? throw new InvalidOperationException($"{fluid} does not freeze.");
            temperature = first.Temperature.Kelvins;
            if (first.Component.Name == point.First)
            {
                high = x;
            }
            else
            {
                low = x;
            }
        }

        return (temperature, 0.5 * (low + high));
    }
}
