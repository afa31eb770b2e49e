using CryoThermo.Transport;
using UnitsNet;

namespace CryoThermo;

/// <summary>Liquid and vapour of a pure fluid in equilibrium. Immutable and thread-safe.</summary>
/// <param name="Temperature">Boiling temperature.</param>
/// <param name="Pressure">Vapour pressure, absolute.</param>
/// <param name="Liquid">The saturated liquid.</param>
/// <param name="Vapor">The saturated vapour.</param>
public sealed record Saturation(Temperature Temperature, Pressure Pressure, State Liquid, State Vapor)
{
    /// <summary>Molar enthalpy of vaporisation.</summary>
    public MolarEnergy EnthalpyOfVaporization => Vapor.MolarEnthalpy - Liquid.MolarEnthalpy;

    /// <summary>Surface tension between both phases.</summary>
    public SurfaceTension SurfaceTension
    {
        get
        {
            (double value, TransportMethod method) = SurfaceTensions.Pure(
                Liquid.Fluid.Composition.Components[TransportKernel.Only(Liquid.Fluid.Composition.Fractions)], Temperature.Kelvins);
            return new(ForcePerLength.FromNewtonsPerMeter(value), method);
        }
    }
}
