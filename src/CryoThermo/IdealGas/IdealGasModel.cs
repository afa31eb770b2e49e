using CryoThermo.Diagnostics;

namespace CryoThermo.IdealGas;

/// <summary>Molar heat capacity, enthalpy and entropy of a component as ideal gas at 101325 Pa. Immutable and thread-safe.</summary>
internal abstract class IdealGasModel
{
    /// <summary>Heat capacity at fixed share of the forms of a substance, J/(mol K), enthalpy, J/mol, and entropy at 101325 Pa, J/(mol K).</summary>
    /// <param name="temperature">K.</param>
    /// <param name="heatCapacity">Isobaric molar heat capacity, J/(mol K).</param>
    /// <param name="enthalpy">Molar enthalpy, J/mol.</param>
    /// <param name="entropy">Molar entropy at 101325 Pa, J/(mol K).</param>
    public abstract void Evaluate(double temperature, out double heatCapacity, out double enthalpy, out double entropy);

    /// <summary>What a reaction between forms of the substance adds to dh/dT, J/(mol K); zero where there is none.</summary>
    /// <param name="temperature">K.</param>
    public virtual double ConversionHeatCapacity(double temperature) => 0;

    /// <summary>The note a result carries when its temperature lies outside the stated range; null inside.</summary>
    /// <param name="temperature">K.</param>
    public abstract RangeNote? NoteFor(double temperature);
}
