using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using MathNet.Numerics.RootFinding;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// Where throttling neither cools nor warms a fluid: inside the curve it cools. Immutable and thread-safe.
/// </summary>
public sealed class JouleThomsonInversion
{
    private const int Steps = 240;
    private readonly WorkingFluid fluid;

    internal JouleThomsonInversion(WorkingFluid fluid)
    {
        this.fluid = fluid;
    }

    /// <summary>
    /// The inversion temperature in the limit of zero pressure, T dB/dT = B: no throttling cools above it. Null where it lies above the
    /// highest temperature of the model. It may lie outside the stated range of the equation: see <see cref="IsInsideStatedRange"/>.
    /// </summary>
    public Temperature? HighestTemperature
    {
        get
        {
            double high = fluid.Kernel.HighestTemperature;
            double low = fluid.Kernel.LowestTemperature;
            return Cooling(high) <= 0 || Cooling(low) >= 0
                ? null
                : Temperature.FromKelvins(Brent.FindRoot(Cooling, low, high, 1e-9, 200));
        }
    }

    /// <summary>Whether <see cref="HighestTemperature"/> exists and lies inside the stated range of the equation of state of a pure fluid.</summary>
    public bool IsInsideStatedRange => HighestTemperature is { } t
        && (fluid.Pedigree.Equation is not { } equation || t.Kelvins <= equation.Range.HighestTemperature);

    /// <summary>The pressure at which throttling stops cooling at a temperature; null where it never cools, or cools up to the highest pressure of the model.</summary>
    /// <param name="temperature">Within the range of <see cref="WorkingFluid.At"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public Pressure? PressureAt(Temperature temperature)
    {
        FluidKernel kernel = fluid.Kernel;
        double t = Guard.InRange(temperature.Kelvins, kernel.LowestTemperature, kernel.HighestTemperature, "K", nameof(temperature));
        double[] x = [.. fluid.Composition.MoleFractions];
        double[] scratch = new double[kernel.Equation.ScratchLength];
        kernel.Equation.SetTemperature(t, scratch);

        // Downward from the highest pressure, where throttling warms, to the first pressure at which it cools. Dense fluid has one such crossing.
        double top = Math.Log(kernel.HighestPressure);
        double bottom = Math.Log(Math.Max(kernel.LowestPressure, 1));
        double above = top;
        if (JouleThomson(top) > 0)
        {
            return null;
        }

        for (int i = 1; i <= Steps; i++)
        {
            double below = top + ((bottom - top) * i / Steps);
            if (JouleThomson(below) > 0)
            {
                return Pressure.FromPascals(Math.Exp(Brent.FindRoot(JouleThomson, below, above, 1e-12, 200)));
            }

            above = below;
        }

        return null;

        double JouleThomson(double lnPressure) => kernel.Phase(t, Math.Exp(lnPressure), x, DensityRoot.Stable, scratch).JouleThomson;
    }

    /// <summary>
    /// The whole curve of temperature and pressure at which the coefficient of one phase vanishes, of pure fluids and mixtures, followed from the
    /// hot end to where the fluid boils or splits.
    /// </summary>
    public InversionCurve Curve() => new(fluid, HighestTemperature);

    // B - T dB/dT, the throttling coefficient at zero pressure: negative where throttling cools.
    private double Cooling(double temperature) =>
        fluid.VirialCoefficientsAt(Temperature.FromKelvins(temperature)).ZeroPressureThrottlingCubicCentimetersPerMole;
}
