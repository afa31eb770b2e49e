using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// Water a drier takes up against the water there is to take. The capacity of the adsorbent is an input: it depends on kind, temperature and
/// the dryness wanted; take that of its maker at the dryness you need, not the one at saturation. Immutable and thread-safe.
/// </summary>
public sealed class DrierCapacity
{
    private DrierCapacity(double capacity, (string Source, double Kilograms)[] loads)
    {
        Capacity = Mass.FromKilograms(capacity);
        Loads = [.. loads.Select(l => (l.Source, Mass.FromKilograms(l.Kilograms)))];
        Load = Mass.FromKilograms(loads.Sum(l => l.Kilograms));
        Margin = Capacity - Load;
        Cautions =
        [
            new(
                CautionSeverity.Notice,
                "Adsorbent and charge compete",
                $"{Capacity.Grams:G3} g of water by the stated capacity",
                "a sieve of wide pores (4 A and above) takes up carbon dioxide, ethane and heavier components beside water; 3 A excludes hydrocarbons",
                $"Count with less than the stated capacity where the charge is taken up too, and with the part of the charge it holds; regenerate or change a drier that was open to air. {Caution.Deference}",
                Source.CommonPractice),
        ];
    }

    /// <summary>Water the drier takes up.</summary>
    public Mass Capacity { get; }

    /// <summary>Water there is to take up, by where it is.</summary>
    public IReadOnlyList<(string Source, Mass Water)> Loads { get; }

    /// <summary>All of that water.</summary>
    public Mass Load { get; }

    /// <summary>Capacity less load; negative when the drier is too small.</summary>
    public Mass Margin { get; }

    /// <summary>Whether the drier takes all of it.</summary>
    public bool Suffices => Margin.Kilograms >= 0;

    /// <summary>What to mind.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Compares capacity and load.</summary>
    /// <param name="adsorbent">Mass of dry adsorbent, above zero.</param>
    /// <param name="usableCapacityGramsPerGram">Water it takes up at the dryness wanted, g a g of adsorbent, above 0 to 1.</param>
    /// <param name="oil">Mass of oil in the machine.</param>
    /// <param name="oilWaterPartsPerMillion">Water in the oil, ppm (mass), 0 to 100 000.</param>
    /// <param name="charge">Mass of the charge.</param>
    /// <param name="chargeWaterPartsPerMillion">Water in the charge, ppm (mass), 0 to 100 000.</param>
    /// <param name="walls">Water on walls, in insulation of the motor and in hoses: your own estimate.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static DrierCapacity Of(
        Mass adsorbent,
        double usableCapacityGramsPerGram,
        Mass oil,
        double oilWaterPartsPerMillion,
        Mass charge,
        double chargeWaterPartsPerMillion,
        Mass walls)
    {
        double bed = Guard.Positive(adsorbent.Kilograms, "kg", nameof(adsorbent));
        Guard.InRange(usableCapacityGramsPerGram, double.Epsilon, 1, "g/g");
        Guard.InRange(oil.Kilograms, 0, 1e6, "kg", nameof(oil));
        Guard.InRange(oilWaterPartsPerMillion, 0, 1e5, "ppm (mass)");
        Guard.InRange(charge.Kilograms, 0, 1e6, "kg", nameof(charge));
        Guard.InRange(chargeWaterPartsPerMillion, 0, 1e5, "ppm (mass)");
        Guard.InRange(walls.Kilograms, 0, 1e6, "kg", nameof(walls));
        return new(
            bed * usableCapacityGramsPerGram,
            [
                ("oil", oil.Kilograms * 1e-6 * oilWaterPartsPerMillion),
                ("charge", charge.Kilograms * 1e-6 * chargeWaterPartsPerMillion),
                ("walls", walls.Kilograms),
            ]);
    }

    /// <summary>The account as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        Suffices ? "The drier takes all of the water" : "The drier is too small",
        ["", "water, g"],
        [
            .. Loads.Select(l => (IReadOnlyList<string>)[l.Source, $"{l.Water.Grams:F3}"]),
            ["all of it", $"{Load.Grams:F3}"],
            ["capacity", $"{Capacity.Grams:F3}"],
        ]);
}
