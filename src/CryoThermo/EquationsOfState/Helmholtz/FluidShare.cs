namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// The share of the second of two forms of one substance (ortho in hydrogen) over temperature: constant when frozen, in equilibrium
/// otherwise. Immutable and thread-safe.
/// </summary>
internal abstract class FluidShare
{
    /// <summary>Mole fraction of the second form and its temperature derivative, 1/K.</summary>
    public abstract double At(double temperature, out double byTemperature);
}
