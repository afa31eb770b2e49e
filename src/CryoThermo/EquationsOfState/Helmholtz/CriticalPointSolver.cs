using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// The critical point of a Helmholtz equation: the highest temperature at which dp/drho touches zero. The least dp/drho along an isotherm
/// is found first, then the temperature at which it vanishes; this needs no derivative beyond those the equation has anyway.
/// </summary>
internal static class CriticalPointSolver
{
    /// <summary>Finds it from a starting point within some percent.</summary>
    /// <exception cref="InvalidOperationException">There is no critical point within 10 % of the starting temperature.</exception>
    public static FluidPoint Find(HelmholtzFluid fluid, FluidPoint start)
    {
        double[] scratch = new double[fluid.ScratchLength];
        double low = start.Temperature;
        double high = start.Temperature;
        for (int k = 0; k < 40 && Least(low, out _) > 0; k++)
        {
            low *= 0.9975;
        }

        for (int k = 0; k < 40 && Least(high, out _) < 0; k++)
        {
            high *= 1.0025;
        }

        double atLow = Least(low, out _);
        double atHigh = Least(high, out double density);
        if (!(atLow <= 0 && atHigh >= 0))
        {
            throw new InvalidOperationException($"The equation has no critical point within 10 % of {start.Temperature:G6} K.");
        }

        for (int iteration = 0; iteration < 100 && high - low > 2e-15 * high; iteration++)
        {
            double next = low + ((high - low) * Math.Clamp(atLow / (atLow - atHigh), 0.01, 0.99));
            double value = Least(next, out density);
            if (value > 0)
            {
                high = next;
                atHigh = value;
                atLow *= 0.5;
            }
            else
            {
                low = next;
                atLow = value;
                atHigh *= 0.5;
            }
        }

        double temperature = 0.5 * (low + high);
        Least(temperature, out density);
        IsothermDerivatives at = fluid.AlongIsotherm(density, scratch);
        return new(temperature, density * fluid.GasConstant * temperature * at.Compressibility, density);

        // Least dp/drho/(RT) for densities within 30 % of the starting one.
        double Least(double t, out double where)
        {
            fluid.SetIsotherm(t, scratch);
            where = fluid.SoftestDensity(0.7 * start.MolarDensity, 1.3 * start.MolarDensity, 1e-10, scratch);
            return fluid.AlongIsotherm(where, scratch).Stiffness;
        }
    }
}
