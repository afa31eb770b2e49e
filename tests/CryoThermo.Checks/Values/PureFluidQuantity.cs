namespace CryoThermo.Checks.Values;

/// <summary>What a published figure of a pure fluid is.</summary>
public enum PureFluidQuantity
{
    /// <summary>Reversible work from a gas to saturated liquid at the same pressure, kJ/kg.</summary>
    IdealWorkOfLiquefaction,

    /// <summary>dT/dp at constant enthalpy, K/atm.</summary>
    JouleThomsonCoefficient,
}
