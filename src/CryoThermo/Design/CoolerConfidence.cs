using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// How sure it is that a cooler carries its load at a target temperature, with what is not known about it. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The cooler is solved at the target temperature with each uncertainty at both of its bounds and all others nominal; between, the net cooling follows a parabola in each,
/// and the changes add up. The distribution is that of <see cref="Samples"/> draws from normal distributions whose bounds are two standard deviations. A few draws are solved
/// as they are: the largest difference is <see cref="LargestDifference"/>.
/// </remarks>
public sealed class CoolerConfidence
{
    /// <summary>Draws from the distributions.</summary>
    public const int Samples = ParabolaDraws.Samples;

    private const int Seed = 20260;
    private const double Tolerance = 2e-5;

    private CoolerConfidence(
        Temperature target, Power load, Power nominal, double probability, FigureBand<Power> netCooling, IReadOnlyList<UncertaintyContribution> contributions, Power? largestDifference, IReadOnlyList<string> remarks)
    {
        Target = target;
        Load = load;
        NominalNetCooling = nominal;
        ProbabilityPercent = probability;
        NetCooling = netCooling;
        Contributions = contributions;
        LargestDifference = largestDifference;
        Remarks = remarks;
    }

    /// <summary>Temperature that the cold head is to hold.</summary>
    public Temperature Target { get; }

    /// <summary>Load to carry there.</summary>
    public Power Load { get; }

    /// <summary>Net cooling there with everything nominal.</summary>
    public Power NominalNetCooling { get; }

    /// <summary>Probability that the cooling covers the load, percent.</summary>
    public double ProbabilityPercent { get; }

    /// <summary>Median of the net cooling; 5 of 100 lie below the least, 5 above the greatest.</summary>
    public FigureBand<Power> NetCooling { get; }

    /// <summary>What each uncertainty does, the largest first.</summary>
    public IReadOnlyList<UncertaintyContribution> Contributions { get; }

    /// <summary>Largest difference between the net cooling of a few draws solved as they are and by the parabolas; null where none could be solved.</summary>
    public Power? LargestDifference { get; }

    /// <summary>What the figures leave out.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>What to measure first: the largest contribution.</summary>
    public string MeasureFirst => Contributions.Count == 0
        ? "Nothing is uncertain here."
        : $"{Contributions[0].Uncertainty.Name}: {Contributions[0].Uncertainty.Advice}";

    /// <summary>The band of a cooler.</summary>
    /// <param name="cooler">The cooler.</param>
    /// <param name="charge">Its charge.</param>
    /// <param name="ambient">The room, 200 to 330 K.</param>
    /// <param name="target">Temperature that the cold head is to hold, 15 K to below the room.</param>
    /// <param name="load">Load to carry there, zero or more.</param>
    /// <param name="uncertainties">What is not known; see <see cref="CoolerUncertainty.Usual"/>.</param>
    /// <exception cref="ArgumentException">The charge is pure, flammable beside an oxidiser, or lacks a component named by an uncertainty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="CoolerRefusedException">The nominal cooler does not run at the target.</exception>
    /// <exception cref="ConvergenceException">No circulation was found for the nominal cooler.</exception>
    public static CoolerConfidence Of(
        Cooler cooler, CoolerCharge charge, Temperature ambient, Temperature target, Power load, IReadOnlyList<CoolerUncertainty> uncertainties)
    {
        ArgumentNullException.ThrowIfNull(cooler);
        ArgumentNullException.ThrowIfNull(charge);
        ArgumentNullException.ThrowIfNull(uncertainties);
        Guard.InRange(ambient.Kelvins, 200, 330, "K", nameof(ambient));
        double cold = Guard.InRange(target.Kelvins, 15, ambient.Kelvins - 1, "K", nameof(target));
        double wanted = Guard.InRange((double)load.Watts, 0, 1e9, "W", nameof(load));
        Cooler.CheckFluid(charge.Fluid, nameof(charge));
        CoolerCase nominalCase = new(cooler, charge, ambient);
        CoolerSolver solver = new(cooler, charge, ambient);
        CoolerPoint nominal = new CoolerRater(cooler, charge, ambient).PointAt(cold, Tolerance);
        double net = solver.Net(nominal);

        // The cases are independent of one another.
        int n = uncertainties.Count;
        double?[] bounds = new double?[2 * n];
        CoolerCase[] atBounds = [.. Enumerable.Range(0, 2 * n).Select(i => uncertainties[i / 2].Moved(nominalCase, i % 2 == 0 ? -1 : 1))];
        Parallel.For(0, 2 * n, i => bounds[i] = Net(atBounds[i], nominal));
        ParabolaDraws draws = new(net, bounds, Seed);
        List<string> remarks = [.. draws.OneSided(uncertainties, "the cooler does not run at the target")];
        double?[] differences = new double?[draws.Kept.Count];
        Parallel.For(0, differences.Length, k =>
        {
            CoolerCase moved = nominalCase;
            for (int i = 0; i < n; i++)
            {
                moved = uncertainties[i].Moved(moved, draws.Kept[k].Shares[i]);
            }

            differences[k] = Net(moved, nominal) is { } found ? Math.Abs(found - draws.Kept[k].Sum) : null;
        });
        if (differences.Any(d => d is null))
        {
            remarks.Add($"{differences.Count(d => d is null)} of {differences.Length} draws do not run at the target.");
        }

        UncertaintyContribution[] ranked =
        [
            .. draws.Ranked.Select((i, rank) => new UncertaintyContribution(
                rank + 1, uncertainties[i], Power.FromWatts(draws.AtLowerBound(i)), Power.FromWatts(draws.AtUpperBound(i)), draws.PercentOfVariance(i))),
        ];
        return new(
            target,
            load,
            Power.FromWatts(net),
            draws.PercentWithin(wanted, double.PositiveInfinity),
            new(Power.FromWatts(draws.Median), Power.FromWatts(draws.FifthOfHundred), Power.FromWatts(draws.NinetyFifthOfHundred)),
            ranked,
            differences.Max() is { } largest ? Power.FromWatts(largest) : null,
            remarks);

        double? Net(CoolerCase at, CoolerPoint near)
        {
            try
            {
                CoolerSolver own = new(at.Cooler, at.Charge, at.Ambient);
                return own.Net(own.SolveFrom(cold, near, Tolerance));
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException or ArgumentOutOfRangeException)
            {
                return null;
            }
        }
    }

    /// <summary>The band as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant($"Net cooling at {Target.Kelvins:F1} K ({Target.DegreesCelsius:F1} degC): {NetCooling.Least.Watts:F1} to {NetCooling.Greatest.Watts:F1} W in 90 of 100; the load of {Load.Watts:F1} W is carried in {ProbabilityPercent:F0} of 100"),
        ["rank", "uncertain", "net cooling at its lower bound, W", "at its upper bound, W", "of the variance, %"],
        [
            .. Contributions.Select(c => (IReadOnlyList<string>)
            [
                FormattableString.Invariant($"{c.Rank}"),
                c.Uncertainty.Name,
                FormattableString.Invariant($"{c.AtLowerBound.Watts:F2}"),
                FormattableString.Invariant($"{c.AtUpperBound.Watts:F2}"),
                FormattableString.Invariant($"{c.PercentOfVariance:F1}"),
            ]),
        ]);

    /// <inheritdoc/>
    public override string ToString() => ToTable().ToString();
}
