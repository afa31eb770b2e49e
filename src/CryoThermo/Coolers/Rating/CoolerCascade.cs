using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// Two throttle coolers in cascade: the cold head of the upper one cools the compressed stream of the lower one before it enters its cold box. Immutable and thread-safe.
/// </summary>
public sealed class CoolerCascade
{
    private const double TemperatureTolerance = 0.01;
    private const int MostSteps = 40;

    /// <summary>Joins two coolers.</summary>
    /// <param name="upper">The warmer one; its cold head carries the pre-cooling and nothing else.</param>
    /// <param name="upperCharge">Its charge.</param>
    /// <param name="lower">The colder one, without a pre-cooler of its own.</param>
    /// <param name="lowerCharge">Its charge.</param>
    /// <param name="approach">The lower stream leaves the upper cold head warmer than that by this, 0.1 to 50 K.</param>
    /// <exception cref="ArgumentException">The lower cooler has a pre-cooler.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The approach is out of its range.</exception>
    public CoolerCascade(Cooler upper, CoolerCharge upperCharge, Cooler lower, CoolerCharge lowerCharge, TemperatureDelta approach)
    {
        ArgumentNullException.ThrowIfNull(upper);
        ArgumentNullException.ThrowIfNull(upperCharge);
        ArgumentNullException.ThrowIfNull(lower);
        ArgumentNullException.ThrowIfNull(lowerCharge);
        Guard.InRange(approach.Kelvins, 0.1, 50, "K", nameof(approach));
        if (lower.PreCooling is not null)
        {
            throw new ArgumentException("lower has a pre-cooler; in a cascade the upper cooler is that.", nameof(lower));
        }

        Upper = upper;
        UpperCharge = upperCharge;
        Lower = lower;
        LowerCharge = lowerCharge;
        Approach = approach;
    }

    /// <summary>The warmer cooler.</summary>
    public Cooler Upper { get; }

    /// <summary>Its charge.</summary>
    public CoolerCharge UpperCharge { get; }

    /// <summary>The colder cooler.</summary>
    public Cooler Lower { get; }

    /// <summary>Its charge.</summary>
    public CoolerCharge LowerCharge { get; }

    /// <summary>Of the lower stream to the upper cold head.</summary>
    public TemperatureDelta Approach { get; }

    /// <summary>What both do together.</summary>
    /// <param name="ambient">The room, 200 to 330 K.</param>
    /// <param name="load">Load on the lower cold head, zero or more.</param>
    /// <exception cref="ArgumentException">A charge is pure, or flammable beside an oxidiser.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="CoolerRefusedException">One of them does not run, or the load is carried with no pre-cooling that the upper one gives.</exception>
    /// <exception cref="ConvergenceException">No circulation was found.</exception>
    public CoolerCascadeRating Rate(Temperature ambient, Power load)
    {
        CoolerRating idle = Upper.Rate(UpperCharge, ambient, Power.Zero);
        double lowest = (idle.NoLoad?.ColdTemperature.Kelvins ?? idle.Curve[^1].ColdTemperature.Kelvins) + Approach.Kelvins;
        double highest = idle.Curve[0].ColdTemperature.Kelvins + Approach.Kelvins;
        CoolerCurvePoint[] curve = [.. idle.Curve.OrderBy(p => p.ColdTemperature.Kelvins)];
        CoolerRating? lower = null;

        // The warmer the pre-cooling, the more the upper cooler carries and the less the lower one asks for: one place where they meet.
        double warm = highest;
        double cold = lowest;
        double atWarm = Spare(warm) ?? throw Refused(CoolerObstacle.LoadTooLarge);
        if (atWarm < 0)
        {
            throw new CoolerRefusedException(
                CoolerObstacle.PreCooler, FormattableString.Invariant($"The upper cooler carries {-atWarm:F1} W too little to hold the lower stream at even {highest:F1} K: take a larger one."));
        }

        for (int step = 0; step < MostSteps && warm - cold > TemperatureTolerance; step++)
        {
            double middle = 0.5 * (warm + cold);
            double? spare = Spare(middle);
            (warm, cold) = spare is null or < 0 ? (warm, middle) : (middle, cold);
        }

        _ = Spare(warm) ?? throw Refused(CoolerObstacle.NotFound);
        CoolerState state = lower!.Reached!;
        CoolerRating upper = Upper.Rate(UpperCharge, ambient, state.PreCoolerHeat!.Value);

        // The pre-cooling asks for less the colder the upper head is, so that a state may hold which a constant load would leave.
        double wanted = warm - Approach.Kelvins;
        return upper.SteadyStates.MinBy(s => Math.Abs(s.ColdTemperature.Kelvins - wanted)) is { } held
            ? new(this, ambient, load, upper, held, lower, state, TemperatureDelta.FromKelvins(warm - held.ColdTemperature.Kelvins))
            : throw new CoolerRefusedException(
                CoolerObstacle.PreCooler,
                FormattableString.Invariant($"The upper cooler has no steady state near {wanted:F1} K with the {state.PreCoolerHeat!.Value.Watts:F1} W that the lower stream gives there. {string.Join(" ", upper.Remarks)}"));

        double? Spare(double preCooled)
        {
            CoolerRating rating;
            try
            {
                rating = (Lower with { PreCooling = PreCooling.To(Temperature.FromKelvins(preCooled)) }).Rate(LowerCharge, ambient, load);
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
            {
                return null;
            }

            lower = rating;
            return rating.Reached is { } reached ? NetOf(curve, preCooled - Approach.Kelvins) - (double)reached.PreCoolerHeat!.Value.Watts : null;
        }

        CoolerRefusedException Refused(CoolerObstacle obstacle) => new(
            obstacle, FormattableString.Invariant($"With pre-cooling to {warm:F1} K the lower cooler does not carry {load.Watts:G4} W: {string.Join(" ", lower?.Remarks ?? [])}"));
    }

    private static double NetOf(CoolerCurvePoint[] curve, double cold)
    {
        int i = Math.Clamp(Array.FindIndex(curve, p => p.ColdTemperature.Kelvins >= cold), 1, curve.Length - 1);
        double from = curve[i - 1].ColdTemperature.Kelvins;
        double share = (cold - from) / (curve[i].ColdTemperature.Kelvins - from);
        return (double)curve[i - 1].NetCooling.Watts + (share * (double)(curve[i].NetCooling - curve[i - 1].NetCooling).Watts);
    }
}
