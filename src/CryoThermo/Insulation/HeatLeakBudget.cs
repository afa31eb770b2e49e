using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// The heat that a cold box takes from its room, item by item, ranked by the work it costs. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Items act side by side: what one does to the temperature of another is left out, but where an item is tied to an intercept its heat counts there. Tubes
/// cooled by returning gas are not in it.
/// </remarks>
public sealed class HeatLeakBudget
{
    private HeatLeakBudget(Temperature cold, Temperature room, Ratio carnotShare, IReadOnlyList<HeatLeak> items, IReadOnlyList<HeatLeakLevel> levels)
    {
        Cold = cold;
        Room = room;
        CarnotShare = carnotShare;
        Items = items;
        Levels = levels;
        Total = levels[0].Heat;
        IdealWork = Power.FromWatts(items.Sum(i => (double)i.IdealWork.Watts));
        Work = Power.FromWatts(items.Sum(i => (double)i.Work.Watts));
        Cautions = [.. items.SelectMany(i => i.Cautions).Distinct()];
    }

    /// <summary>Temperature of the cold.</summary>
    public Temperature Cold { get; }

    /// <summary>Temperature of the room.</summary>
    public Temperature Room { get; }

    /// <summary>What the refrigerator reaches of Carnot's efficiency.</summary>
    public Ratio CarnotShare { get; }

    /// <summary>By rank.</summary>
    public IReadOnlyList<HeatLeak> Items { get; }

    /// <summary>The cold first, then the intercepts from the coldest on.</summary>
    public IReadOnlyList<HeatLeakLevel> Levels { get; }

    /// <summary>Heat into the cold; least and greatest with every item at that end at once.</summary>
    public FigureBand<Power> Total { get; }

    /// <summary>Work that a perfect refrigerator needs for all of it, intercepts included.</summary>
    public Power IdealWork { get; }

    /// <summary>The same by the share of Carnot given.</summary>
    public Power Work { get; }

    /// <summary>Hazards that items carry.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Makes the budget.</summary>
    /// <param name="cold">Temperature of the cold, 4 K to below the room.</param>
    /// <param name="room">Temperature of the room, 200 to 330 K.</param>
    /// <param name="items">One or more.</param>
    /// <param name="carnotShare">What the refrigerator reaches of Carnot's efficiency, 0.1 to 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or an item has none between its temperatures.</exception>
    /// <exception cref="ArgumentException">There is no item, two have one name, or an item does not run from warm to cold between room and cold.</exception>
    public static HeatLeakBudget Of(Temperature cold, Temperature room, IReadOnlyList<HeatLeakItem> items, Ratio carnotShare)
    {
        ArgumentNullException.ThrowIfNull(items);
        double warm = Guard.InRange(room.Kelvins, 200, 330, "K", nameof(room));
        double low = Guard.InRange(cold.Kelvins, 4, warm * (1 - 1e-9), "K", nameof(cold));
        double efficiency = Guard.InRange(carnotShare.Percent, 0.1, 100, "%", nameof(carnotShare)) / 100;
        if (items.Count == 0)
        {
            throw new ArgumentException("items is empty; at least one is needed.", nameof(items));
        }

        if (items.GroupBy(i => i.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"items holds '{twice.Key}' {twice.Count()} times; each needs a name of its own.", nameof(items));
        }

        List<(HeatLeakItem Item, double From, double To, HeatLeakFigure Figure, double Ideal)> found = [];
        foreach (HeatLeakItem item in items)
        {
            double to = item.ColdEnd?.Kelvins ?? low;
            double from = item.WarmEnd?.Kelvins ?? warm;
            if (!(to >= low && from <= warm && to < from))
            {
                throw new ArgumentException(
                    $"'{item.Name}' runs from {from:G5} to {to:G5} K; an item runs from warm to cold between {warm:G5} K of the room and {low:G5} K of the cold.", nameof(items));
            }

            HeatLeakFigure figure = item.Between(Temperature.FromKelvins(to), Temperature.FromKelvins(from));
            found.Add((item, from, to, figure, figure.Nominal * (Cost(to) - Cost(from))));
        }

        double all = found.Sum(f => f.Ideal);
        HeatLeak[] ranked =
        [
            .. found.OrderByDescending(f => f.Ideal).Select((f, i) => new HeatLeak(
                i + 1,
                f.Item.Name,
                Temperature.FromKelvins(f.To),
                Temperature.FromKelvins(f.From),
                Watts(f.Figure.Nominal, f.Figure.Least, f.Figure.Greatest),
                Ratio.FromDecimalFractions(all > 0 ? f.Ideal / all : 0),
                Power.FromWatts(f.Ideal),
                Power.FromWatts(f.Ideal / efficiency),
                f.Figure.Sources,
                f.Figure.Notes,
                f.Figure.Cautions)),
        ];
        double[] places = [low, .. found.SelectMany(f => new[] { f.From, f.To }).Where(t => t > low && t < warm).Distinct().Order()];
        HeatLeakLevel[] levels =
        [
            .. places.Select(t =>
            {
                double Sum(Func<HeatLeakFigure, double> arriving, Func<HeatLeakFigure, double> leaving) =>
                    found.Where(f => f.To.Equals(t)).Sum(f => arriving(f.Figure)) - found.Where(f => f.From.Equals(t)).Sum(f => leaving(f.Figure));
                double nominal = Sum(f => f.Nominal, f => f.Nominal);
                return new HeatLeakLevel(
                    Temperature.FromKelvins(t),
                    Watts(nominal, Sum(f => f.Least, f => f.Greatest), Sum(f => f.Greatest, f => f.Least)),
                    Power.FromWatts(nominal * Cost(t)));
            }),
        ];
        return new(cold, room, carnotShare, ranked, levels);

        double Cost(double t) => (warm / t) - 1;
    }

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable()
    {
        List<IReadOnlyList<string>> rows =
        [
            .. Items.Select(i => (IReadOnlyList<string>)
            [
                i.Name, $"{i.WarmEnd.Kelvins:F1}", $"{i.ColdEnd.Kelvins:F1}", Text(i.Heat.Nominal), Text(i.Heat.Least), Text(i.Heat.Greatest), $"{i.Share.Percent:F1}", Text(i.IdealWork), Text(i.Work),
                i.FromMemory.Count == 0 ? "no" : i.FromMemory.Count == i.Sources.Count ? "yes" : "in part",
            ]),
            .. Levels.Select((l, n) => (IReadOnlyList<string>)
            [
                n == 0 ? "all into the cold" : "all into the intercept", string.Empty, $"{l.Temperature.Kelvins:F1}", Text(l.Heat.Nominal), Text(l.Heat.Least), Text(l.Heat.Greatest), string.Empty, Text(l.IdealWork),
                Text(Power.FromWatts((double)l.IdealWork.Watts / CarnotShare.DecimalFractions)), string.Empty,
            ]),
        ];
        return new(
            $"Heat into {Cold.Kelvins:F1} K ({Cold.DegreesCelsius:F1} degC) from a room of {Room.Kelvins:F1} K ({Room.DegreesCelsius:F1} degC); work at {CarnotShare.Percent:G3} % of Carnot",
            ["item", "from, K", "to, K", "heat, W", "least, W", "greatest, W", "share, %", "ideal work, W", "work, W", "from memory"],
            rows);
    }

    /// <inheritdoc/>
    public override string ToString() => ToTable().ToString();

    private static FigureBand<Power> Watts(double nominal, double least, double greatest) => new(Power.FromWatts(nominal), Power.FromWatts(least), Power.FromWatts(greatest));

    private static string Text(Power power) => $"{(double)power.Watts:G3}";
}
