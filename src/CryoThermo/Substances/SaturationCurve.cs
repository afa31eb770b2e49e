using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>
/// A published curve over temperature along which two phases of a pure fluid are in equilibrium: vapour pressure, density of a
/// saturated phase, melting or sublimation pressure. Immutable and thread-safe.
/// </summary>
/// <param name="Form">The form.</param>
/// <param name="ReducingTemperature">T_red, K.</param>
/// <param name="ReducingValue">y_red, Pa or mol/m3.</param>
/// <param name="Terms">The terms.</param>
/// <param name="ShiftedTerms">Terms in (T/T_red - 1)^k of a melting curve; empty for the others.</param>
/// <param name="LogarithmicCoefficient">Coefficient of ln(T/T_red) of a ratio; 0 where none is given.</param>
/// <param name="LowestTemperature">Lower end, K.</param>
/// <param name="HighestTemperature">Upper end, K.</param>
/// <param name="Provenance">Source and marks.</param>
public sealed record SaturationCurve(
    CurveForm Form,
    double ReducingTemperature,
    double ReducingValue,
    IReadOnlyList<CurveTerm> Terms,
    IReadOnlyList<CurveTerm> ShiftedTerms,
    double LogarithmicCoefficient,
    double LowestTemperature,
    double HighestTemperature,
    Provenance Provenance)
{
    /// <summary>The value at a temperature, Pa or mol/m3.</summary>
    /// <param name="temperature">K, within <see cref="LowestTemperature"/> and <see cref="HighestTemperature"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the curve's ends.</exception>
    public double At(double temperature)
    {
        Guard.InRange(temperature, LowestTemperature, HighestTemperature, "K");
        double ratio = temperature / ReducingTemperature;
        double sum = 0;
        if (Form == CurveForm.Melting)
        {
            foreach (CurveTerm term in Terms)
            {
                sum += term.Coefficient * (Math.Pow(ratio, term.Exponent) - 1);
            }

            foreach (CurveTerm term in ShiftedTerms)
            {
                sum += term.Coefficient * Math.Pow(Math.Max(0, ratio - 1), term.Exponent);
            }

            return ReducingValue * (1 + sum);
        }

        if (Form == CurveForm.InverseTemperature)
        {
            foreach (CurveTerm term in Terms)
            {
                sum += term.Coefficient * Math.Pow(1 / ratio, term.Exponent);
            }

            return ReducingValue * Math.Exp(sum);
        }

        double theta = Math.Max(0, 1 - ratio);
        foreach (CurveTerm term in Terms)
        {
            sum += term.Coefficient * Math.Pow(theta, term.Exponent);
        }

        return Form switch
        {
            CurveForm.LogarithmTimesTemperature => ReducingValue * Math.Exp(sum / ratio),
            CurveForm.Logarithm => ReducingValue * Math.Exp(sum),
            _ => ReducingValue * (1 + sum + (LogarithmicCoefficient == 0 ? 0 : LogarithmicCoefficient * Math.Log(ratio))),
        };
    }
}
