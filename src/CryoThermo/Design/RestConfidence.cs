using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// How sure it is where a rated cooler comes to rest with its load, with what is not known about it. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The cold temperature at the load is solved with each uncertainty at both of its bounds and all others nominal; between, it follows a parabola in each, and the changes add up. The
/// distribution is that of <see cref="Samples"/> draws from normal distributions whose bounds are two standard deviations. A few draws are solved as they are: the largest difference
/// is <see cref="LargestDifference"/>. Differences may be computed with a faster model than the rating's own.
/// </remarks>
public sealed class RestConfidence
{
    /// <summary>Draws from the distributions.</summary>
    public const int Samples = ParabolaDraws.Samples;

    private const int Seed = 20261;
    private const double Tolerance = 2e-5;

    /// <summary>How near a cold temperature is come before the rest is taken off by the slope, K, and the longest step to it.</summary>
    private const double Closeness = 0.03;
    private const double LongestStep = 12;
    private const int MostSteps = 25;
    private const double SlopeStep = 1;
    private const double WarmestBelowRoom = 5;

    /// <summary>Draws solved as they are.</summary>
    private const int Solved = 3;

    private RestConfidence(
        CoolerRating rating,
        Temperature wanted,
        FluidModel differencesBy,
        double probability,
        FigureBand<Temperature> coldTemperature,
        IReadOnlyList<RestContribution> contributions,
        TemperatureDelta? largestDifference,
        IReadOnlyList<string> remarks)
    {
        Rating = rating;
        Wanted = wanted;
        DifferencesBy = differencesBy;
        ProbabilityPercent = probability;
        ColdTemperature = coldTemperature;
        Contributions = contributions;
        LargestDifference = largestDifference;
        Remarks = remarks;
    }

    /// <summary>The rating.</summary>
    public CoolerRating Rating { get; }

    /// <summary>Temperature wanted with the load on.</summary>
    public Temperature Wanted { get; }

    /// <summary>Model that the differences are computed with.</summary>
    public FluidModel DifferencesBy { get; }

    /// <summary>Where it rests with everything nominal: the rating's own.</summary>
    public Temperature NominalColdTemperature => Rating.Reached!.ColdTemperature;

    /// <summary>Probability that it rests at the temperature wanted or colder, percent.</summary>
    public double ProbabilityPercent { get; }

    /// <summary>Median of where it rests; 5 of 100 lie below the least, 5 above the greatest.</summary>
    public FigureBand<Temperature> ColdTemperature { get; }

    /// <summary>What each uncertainty does, the largest first.</summary>
    public IReadOnlyList<RestContribution> Contributions { get; }

    /// <summary>Largest difference between where a few draws rest, solved as they are, and the parabolas; null where none could be solved.</summary>
    public TemperatureDelta? LargestDifference { get; }

    /// <summary>What the figures leave out.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>What to measure first: the largest contribution.</summary>
    public string MeasureFirst => Contributions.Count == 0
        ? "Nothing is uncertain here."
        : $"{Contributions[0].Uncertainty.Name}: {Contributions[0].Uncertainty.Advice}";

    /// <summary>The band of a rated cooler.</summary>
    /// <param name="rating">The rating; with its load the cooler must come to rest.</param>
    /// <param name="wanted">Temperature wanted with the load on, 15 K to below the room.</param>
    /// <param name="uncertainties">What is not known; see <see cref="CoolerUncertainty.Usual"/>.</param>
    /// <param name="differencesBy">Model that the differences are computed with, for speed; null for that of the rating, which with a multi-fluid model takes a minute.</param>
    /// <exception cref="ArgumentException">The rating has no state reached with its load, or the charge lacks what an uncertainty names.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="CoolerRefusedException">Under the model of the differences the nominal cooler does not run.</exception>
    /// <exception cref="ConvergenceException">Under it no state with the load was found.</exception>
    public static RestConfidence Of(CoolerRating rating, Temperature wanted, IReadOnlyList<CoolerUncertainty> uncertainties, FluidModel? differencesBy = null)
    {
        ArgumentNullException.ThrowIfNull(rating);
        ArgumentNullException.ThrowIfNull(uncertainties);
        Guard.InRange(wanted.Kelvins, 15, rating.AmbientTemperature.Kelvins - 1, "K", nameof(wanted));
        if (rating.Reached is not { } reached)
        {
            throw new ArgumentException(FormattableString.Invariant($"rating has no state that is reached with {rating.Load.Watts:G4} W; the band is about one."), nameof(rating));
        }

        WorkingFluid fluid = rating.Charge.Fluid;
        FluidModel model = differencesBy ?? fluid.Model;
        CoolerCharge charge = differencesBy is null ? rating.Charge : new(fluid.WithModel(differencesBy), rating.Charge.Amount);
        CoolerCase nominalCase = new(rating.Cooler, charge, rating.AmbientTemperature);
        int n = uncertainties.Count;
        CoolerCase[] atBounds = [.. Enumerable.Range(0, 2 * n).Select(i => uncertainties[i / 2].Moved(nominalCase, i % 2 == 0 ? -1 : 1))];

        // The nominal cooler under the model of the differences, beside where the rating has it.
        double load = (double)rating.Load.Watts;
        CoolerSolver solver = new(rating.Cooler, charge, rating.AmbientTemperature);
        CoolerPoint near = new CoolerRater(rating.Cooler, charge, rating.AmbientTemperature).PointAt(reached.ColdTemperature.Kelvins, Tolerance);
        double slope = (solver.Net(solver.SolveFrom(near.Cold + SlopeStep, near, Tolerance)) - solver.Net(near)) / SlopeStep;
        if (!(slope > 0))
        {
            throw new ConvergenceException(
                "slope of the cooling", FormattableString.Invariant($"{near.Cold:F2} K by {model.Name}"), slope, "The cooling does not grow with the cold temperature there; take the model of the rating.");
        }

        double own = Rest(solver, near);
        double?[] bounds = new double?[2 * n];
        Parallel.For(0, 2 * n, i => bounds[i] = Warmer(atBounds[i]));
        ParabolaDraws draws = new(0, bounds, Seed);
        List<string> remarks = [.. draws.OneSided(uncertainties, "no state with the load was found")];
        double?[] differences = new double?[Solved];
        Parallel.For(0, differences.Length, k =>
        {
            CoolerCase moved = nominalCase;
            for (int i = 0; i < n; i++)
            {
                moved = uncertainties[i].Moved(moved, draws.Kept[k].Shares[i]);
            }

            differences[k] = Warmer(moved) is { } found ? Math.Abs(found - draws.Kept[k].Sum) : null;
        });
        if (differences.Any(d => d is null))
        {
            remarks.Add($"With {differences.Count(d => d is null)} of {differences.Length} draws no state with the load was found.");
        }

        if (differencesBy is not null)
        {
            remarks.Add(FormattableString.Invariant(
                $"Differences are by {differencesBy.Name}, under which the nominal cooler rests at {own:F1} K; they are put upon the rating's own {reached.ColdTemperature.Kelvins:F1} K ({fluid.Model.Name})."));
        }

        int pairs = charge.Fluid.Pedigree.Pairs.Count;
        int bare = pairs - CoolerUncertainty.Pairs(charge.Fluid).Count;
        if (bare > 0)
        {
            remarks.Add($"Of the {pairs} pairs of substances {bare} have no error of their own on record under {model.Name}: they are not moved, and the error of the model stands for them.");
        }

        double middle = reached.ColdTemperature.Kelvins;
        RestContribution[] ranked =
        [
            .. draws.Ranked.Select((i, rank) => new RestContribution(
                rank + 1, uncertainties[i], TemperatureDelta.FromKelvins(draws.AtLowerBound(i)), TemperatureDelta.FromKelvins(draws.AtUpperBound(i)), draws.PercentOfVariance(i))),
        ];
        return new(
            rating,
            wanted,
            model,
            draws.PercentWithin(double.NegativeInfinity, wanted.Kelvins - middle),
            new(Temperature.FromKelvins(middle + draws.Median), Temperature.FromKelvins(middle + draws.FifthOfHundred), Temperature.FromKelvins(middle + draws.NinetyFifthOfHundred)),
            ranked,
            differences.Max() is { } largest ? TemperatureDelta.FromKelvins(largest) : null,
            remarks);

        double? Warmer(CoolerCase at)
        {
            try
            {
                return Rest(new(at.Cooler, at.Charge, at.Ambient), near) - own;
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException or ArgumentOutOfRangeException)
            {
                return null;
            }
        }

        double Rest(CoolerSolver at, CoolerPoint from) =>
            RestFrom(at, from, new(load, slope), charge.Fluid.Kernel.LowestTemperature + 5, rating.AmbientTemperature.Kelvins - WarmestBelowRoom);
    }

    /// <summary>The band as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        FormattableString.Invariant(
            $"Rests with {Rating.Load.Watts:F1} W at {ColdTemperature.Least.Kelvins:F1} to {ColdTemperature.Greatest.Kelvins:F1} K ({ColdTemperature.Least.DegreesCelsius:F1} to {ColdTemperature.Greatest.DegreesCelsius:F1} degC) in 90 of 100; at {Wanted.Kelvins:F1} K or colder in {ProbabilityPercent:F0} of 100"),
        ["rank", "uncertain", "at its lower bound, K", "at its upper bound, K", "of the variance, %"],
        [
            .. Contributions.Select(c => (IReadOnlyList<string>)
            [
                FormattableString.Invariant($"{c.Rank}"),
                c.Uncertainty.Name,
                FormattableString.Invariant($"{c.AtLowerBound.Kelvins:+0.00;-0.00;0.00}"),
                FormattableString.Invariant($"{c.AtUpperBound.Kelvins:+0.00;-0.00;0.00}"),
                FormattableString.Invariant($"{c.PercentOfVariance:F1}"),
            ]),
        ]);

    /// <inheritdoc/>
    public override string ToString() => ToTable().ToString();

    // A circulation at each of several cold temperatures, which also holds where the throttle's flow has a kink: by secants, inside a bracket as soon as there is one.
    private static double RestFrom(CoolerSolver solver, CoolerPoint from, LoadTarget target, double coldest, double warmest)
    {
        double slope = target.WattsPerKelvin;
        CoolerPoint point = from;
        double at = from.Cold;
        (double At, double Miss)? tooCold = null;
        (double At, double Miss)? tooWarm = null;
        for (int i = 0; i < MostSteps; i++)
        {
            point = solver.SolveFrom(at, point, Tolerance);
            double miss = solver.Net(point) - target.Load;
            if (Math.Abs(miss) < Closeness * slope)
            {
                return at - (miss / slope);
            }

            // Stable states only: cooling grows with the cold temperature.
            tooCold = miss < 0 ? (at, miss) : tooCold;
            tooWarm = miss < 0 ? tooWarm : (at, miss);
            if (tooCold is { } low && tooWarm is { } high)
            {
                if (low.At >= high.At)
                {
                    break;
                }

                if (high.At - low.At < Closeness)
                {
                    // The cooling jumps there; where it does is where the cooler rests.
                    return at;
                }

                slope = (high.Miss - low.Miss) / (high.At - low.At);
                double t = low.At - (low.Miss / slope);
                double edge = (i % 3 == 2 ? 0.4 : 0.02) * (high.At - low.At);
                at = Math.Clamp(t, low.At + edge, high.At - edge);
            }
            else
            {
                double next = Math.Clamp(at - Math.Clamp(miss / slope, -LongestStep, LongestStep), coldest, warmest);
                if (next.Equals(at))
                {
                    break;
                }

                at = next;
            }
        }

        throw new ConvergenceException(
            "steady state of the cooler", FormattableString.Invariant($"load {target.Load:G5} W, looked at from {from.Cold:F1} to {at:F1} K"), Math.Abs(solver.Net(point) - target.Load), "No cold temperature with the load was found.");
    }
}
