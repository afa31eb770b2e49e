using CryoThermo.EquationsOfState;
using CryoThermo.Substances;

namespace CryoThermo.Transport;

/// <summary>
/// What the neighbourhood of the critical point adds to the thermal conductivity: the simplified crossover equation of G. A. Olchowy, J. V. Sengers,
/// Int. J. Thermophys. 10 (1989) 417, as used by E. W. Lemmon, R. T Jacobsen (2004). Without allocation per call.
/// </summary>
internal static class CriticalConductivity
{
    /// <summary>Exponent of the correlation length.</summary>
    private const double LengthExponent = 0.63;

    /// <summary>As in the publication of Lemmon and Jacobsen, whose check values show the difference to today's, J/K.</summary>
    private const double Boltzmann = 1.380658e-23;

    /// <summary>The enhancement, W/(m K); zero far from the critical point.</summary>
    /// <param name="c">The constants.</param>
    /// <param name="equation">The equation of state, asked at the reference temperature.</param>
    /// <param name="x">Mole fractions, one of them 1.</param>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3.</param>
    /// <param name="viscosity">Pa s.</param>
    /// <param name="isobaric">Isobaric heat capacity, J/(mol K).</param>
    /// <param name="isochoric">Isochoric heat capacity, J/(mol K).</param>
    /// <param name="densityByPressure">d(density)/dp at constant temperature, mol/(m3 Pa).</param>
    public static double At(
        CriticalEnhancement c,
        MixtureKernel equation,
        ReadOnlySpan<double> x,
        double temperature,
        double molarDensity,
        double viscosity,
        double isobaric,
        double isochoric,
        double densityByPressure)
    {
        if (temperature >= c.ReferenceTemperature)
        {
            return 0;
        }

        Span<double> scratch = stackalloc double[equation.ScratchLength];
        equation.SetTemperature(c.ReferenceTemperature, scratch);
        equation.Pressure(c.ReferenceTemperature, molarDensity, x, scratch, out double byVolume);
        double slope = densityByPressure + (molarDensity * molarDensity / byVolume * c.ReferenceTemperature / temperature);
        double susceptibility = c.CriticalPressure * molarDensity / (c.CriticalMolarDensity * c.CriticalMolarDensity) * slope;
        if (!(susceptibility > 0 && isobaric > isochoric && double.IsFinite(isobaric)))
        {
            return 0;
        }

        double length = c.CorrelationLength * Math.Pow(susceptibility / c.SusceptibilityAmplitude, LengthExponent / c.SusceptibilityExponent);
        double y = length / c.CutoffLength;
        double density = c.CriticalMolarDensity / molarDensity;
        double ratio = isochoric / isobaric;
        double omega = ((1 - ratio) * Math.Atan(y)) + (ratio * y);
        double background = 1 - Math.Exp(-1 / ((1 / y) + (y * y * density * density / 3)));
        double enhancement = molarDensity * isobaric * Boltzmann * c.Amplitude * temperature / (6 * Math.PI * length * viscosity)
            * 2 / Math.PI * (omega - background);
        return enhancement > 0 && double.IsFinite(enhancement) ? enhancement : 0;
    }
}
