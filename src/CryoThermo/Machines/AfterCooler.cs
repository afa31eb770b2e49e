using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>An after-cooler that brings the compressed gas to a given outlet temperature. Immutable and thread-safe.</summary>
public sealed class AfterCooler
{
    /// <summary>Creates an after-cooler.</summary>
    /// <param name="outlet">Temperature of the refrigerant at its outlet.</param>
    /// <param name="pressureDrop">Pressure lost by the refrigerant, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure drop is negative.</exception>
    public AfterCooler(Temperature outlet, Pressure pressureDrop = default)
    {
        Guard.InRange(pressureDrop.Pascals, 0, 1e9, "Pa", nameof(pressureDrop));
        Outlet = outlet;
        PressureDrop = pressureDrop;
    }

    /// <summary>Temperature of the refrigerant at the outlet.</summary>
    public Temperature Outlet { get; }

    /// <summary>Pressure lost by the refrigerant.</summary>
    public Pressure PressureDrop { get; }

    /// <summary>State at the outlet; partly condensed where the dew point lies above the outlet temperature.</summary>
    /// <param name="inlet">State at the inlet.</param>
    public State Cool(State inlet)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        return inlet.Fluid.At(Outlet, inlet.Pressure - PressureDrop);
    }
}
