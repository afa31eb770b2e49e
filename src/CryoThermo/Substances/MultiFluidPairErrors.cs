namespace CryoThermo.Substances;

/// <summary>Standard errors of the fitted parameters of a multi-fluid pair, dimensionless; 0 for a parameter that was held. Immutable.</summary>
/// <param name="VolumeBeta">Of beta of the reducing volume.</param>
/// <param name="VolumeGamma">Of gamma of the reducing volume.</param>
/// <param name="TemperatureBeta">Of beta of the reducing temperature.</param>
/// <param name="TemperatureGamma">Of gamma of the reducing temperature.</param>
/// <param name="DepartureWeight">Of the factor of the departure function.</param>
public sealed record MultiFluidPairErrors(
    double VolumeBeta, double VolumeGamma, double TemperatureBeta, double TemperatureGamma, double DepartureWeight)
{
    /// <summary>The errors with the components exchanged, which takes the reciprocal of each beta.</summary>
    internal MultiFluidPairErrors Exchange(double volumeBeta, double temperatureBeta) => this with
    {
        VolumeBeta = VolumeBeta / (volumeBeta * volumeBeta),
        TemperatureBeta = TemperatureBeta / (temperatureBeta * temperatureBeta),
    };
}
