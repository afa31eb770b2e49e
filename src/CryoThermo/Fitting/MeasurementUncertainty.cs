using CryoThermo.Diagnostics;

namespace CryoThermo.Fitting;

/// <summary>
/// Expanded uncertainties (two standard uncertainties, about 95 %) of the quantities of a measured point. They weigh the points of a fit
/// against one another. The defaults are common practice, no source. Immutable.
/// </summary>
public sealed record MeasurementUncertainty
{
    /// <summary>Used where nothing is stated.</summary>
    public static MeasurementUncertainty Default { get; } = new();

    /// <summary>Of a pressure, relative; above 0 to 1. Default 0.01.</summary>
    public double PressureRelative { get; init => field = Check(value, 1, "relative"); } = 0.01;

    /// <summary>Of a temperature, K; above 0 to 100. Counts where a boiling or dew temperature is compared. Default 0.1.</summary>
    public double TemperatureKelvins { get; init => field = Check(value, 100, "K"); } = 0.1;

    /// <summary>
    /// Of the mole fractions of the liquid; 0 to 1, 0 when the liquid was weighed in. Widens the uncertainty of the bubble pressure by its
    /// slope over composition. Default 0.
    /// </summary>
    public double LiquidFraction { get; init => field = Guard.InRange(value, 0, 1, "mole fraction"); }

    /// <summary>Of the mole fractions of the vapour; above 0 to 1. Default 0.01.</summary>
    public double VaporFraction { get; init => field = Check(value, 1, "mole fraction"); } = 0.01;

    /// <summary>Of a density, relative; above 0 to 1. Default 0.005.</summary>
    public double DensityRelative { get; init => field = Check(value, 1, "relative"); } = 0.005;

    /// <summary>Of a speed of sound, relative; above 0 to 1. Default 0.005.</summary>
    public double SpeedOfSoundRelative { get; init => field = Check(value, 1, "relative"); } = 0.005;

    /// <summary>Of an excess Gibbs energy, J/mol; above 0 to 1000. Default 5.</summary>
    public double ExcessGibbsEnergyJoulesPerMole { get; init => field = Check(value, 1000, "J/mol"); } = 5;

    /// <summary>The uncertainty that belongs to a kind of deviation, in the unit of <see cref="MeasurementKind"/>.</summary>
    /// <param name="kind">The kind.</param>
    public double Of(MeasurementKind kind) => kind switch
    {
        MeasurementKind.BubblePressure or MeasurementKind.DewPressure => PressureRelative,
        MeasurementKind.BubbleTemperature or MeasurementKind.DewTemperature => TemperatureKelvins,
        MeasurementKind.VaporComposition => VaporFraction,
        MeasurementKind.Density => DensityRelative,
        MeasurementKind.SpeedOfSound => SpeedOfSoundRelative,
        MeasurementKind.ExcessGibbsEnergy => ExcessGibbsEnergyJoulesPerMole,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, $"kind is {kind}; it must be a member of {nameof(MeasurementKind)}."),
    };

    private static double Check(double value, double highest, string unit) => Guard.InRange(value, 1e-6 * highest, highest, unit);
}
