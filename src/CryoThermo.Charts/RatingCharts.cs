using CryoThermo.Coolers.Rating;
using CryoThermo.Design;

namespace CryoThermo.Charts;

/// <summary>Charts of a rated cooler.</summary>
public static class RatingCharts
{
    /// <summary>Cooling left against cold temperature, with the load and the steady states.</summary>
    /// <param name="rating">The rating.</param>
    public static CoolerRatingChart CoolingCurve(this CoolerRating rating)
    {
        ArgumentNullException.ThrowIfNull(rating);
        return new(rating);
    }

    /// <summary>What each uncertainty does to where the cooler comes to rest, the largest on top.</summary>
    /// <param name="confidence">The band.</param>
    public static RestConfidenceChart Contributions(this RestConfidence confidence)
    {
        ArgumentNullException.ThrowIfNull(confidence);
        return new(confidence);
    }
}
