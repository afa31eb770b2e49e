using CryoThermo.IdealGas;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>The share of the second spin form as its ideal gas has it: the shift by intermolecular forces is below the accuracy of the equations.</summary>
internal sealed class SpinShare(SpinIdealGas gas) : FluidShare
{
    /// <inheritdoc/>
    public override double At(double temperature, out double byTemperature) => gas.SecondShare(temperature, out byTemperature);
}
