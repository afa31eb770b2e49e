using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>Expansion at constant enthalpy, whatever the hardware: valve, capillary or orifice.</summary>
public static class Throttle
{
    /// <summary>State after expansion to a lower pressure.</summary>
    /// <param name="inlet">State before the throttle.</param>
    /// <param name="outletPressure">Absolute, not above the inlet pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">The outlet pressure is above the inlet pressure.</exception>
    public static State Expand(State inlet, Pressure outletPressure)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        if (!(outletPressure.Pascals <= inlet.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(outletPressure),
                outletPressure,
                $"outletPressure is {outletPressure.Bars:G6} bar; it must not be above the inlet pressure of {inlet.Pressure.Bars:G6} bar.");
        }

        return inlet.Fluid.AtEnthalpy(outletPressure, inlet.MolarEnthalpy);
    }
}
