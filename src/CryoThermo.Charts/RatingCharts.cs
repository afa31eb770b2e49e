using CryoThermo.Coolers.Rating;

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
}
