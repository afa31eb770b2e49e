using CryoThermo.Substances;
using MathNet.Numerics.RootFinding;

namespace CryoThermo.Equilibrium;

/// <summary>
/// Bubble and dew line of a mixture of fixed composition that is described as if it were pure. Between them the equation of state has no
/// split into phases of different composition, so that no state there can be given. Immutable and thread-safe.
/// </summary>
internal sealed class PseudoPureLines
{
    private readonly SaturationCurve bubble;
    private readonly SaturationCurve dew;

    public PseudoPureLines(HelmholtzEquation equation)
    {
        bubble = equation.VaporPressure!;
        dew = equation.DewPressure!;
        LowestTemperature = Math.Max(bubble.LowestTemperature, dew.LowestTemperature);
        HighestTemperature = Math.Min(bubble.HighestTemperature, dew.HighestTemperature);
    }

    /// <summary>Lower end of both lines, K.</summary>
    public double LowestTemperature { get; }

    /// <summary>Upper end of both lines, K.</summary>
    public double HighestTemperature { get; }

    /// <summary>Pressure on one of the lines, Pa.</summary>
    public double Pressure(double temperature, bool isBubble) => (isBubble ? bubble : dew).At(Math.Clamp(temperature, LowestTemperature, HighestTemperature));

    /// <summary>Temperature on one of the lines, K; false where it does not reach the pressure.</summary>
    public bool TryTemperature(double pressure, bool isBubble, out double temperature)
    {
        temperature = 0;
        double target = Math.Log(pressure);
        return target >= Math.Log(Pressure(LowestTemperature, isBubble))
            && target <= Math.Log(Pressure(HighestTemperature, isBubble))
            && Brent.TryFindRoot(t => Math.Log(Pressure(t, isBubble)) - target, LowestTemperature, HighestTemperature, 1e-11, 200, out temperature);
    }

    /// <summary>Whether temperature (K) and pressure (Pa) lie between the lines.</summary>
    public bool IsBetween(double temperature, double pressure) =>
        temperature < HighestTemperature && pressure < Pressure(temperature, true) && pressure > Pressure(temperature, false);
}
