using UnitsNet;

namespace CryoThermo;

/// <summary>Coefficients of p v/(R T) = 1 + B/v + C/v^2 + ... of a fluid at one temperature. Immutable and thread-safe.</summary>
/// <param name="Temperature">Temperature.</param>
/// <param name="SecondCubicCentimetersPerMole">B, cm3/mol.</param>
/// <param name="SecondSlopeCubicCentimetersPerMoleKelvin">dB/dT, cm3/(mol K).</param>
/// <param name="ThirdCentimeters6PerSquareMole">C, cm6/mol2.</param>
public sealed record VirialCoefficients(
    Temperature Temperature,
    double SecondCubicCentimetersPerMole,
    double SecondSlopeCubicCentimetersPerMoleKelvin,
    double ThirdCentimeters6PerSquareMole)
{
    /// <summary>dh/dp at constant temperature in the limit of zero pressure, B - T dB/dT, cm3/mol; negative where throttling cools.</summary>
    public double ZeroPressureThrottlingCubicCentimetersPerMole =>
        SecondCubicCentimetersPerMole - (Temperature.Kelvins * SecondSlopeCubicCentimetersPerMoleKelvin);
}
