namespace CryoThermo.Checks.Values;

/// <summary>What a transport check compares.</summary>
public enum TransportQuantity
{
    /// <summary>Dynamic viscosity, microPa s in the files.</summary>
    Viscosity,

    /// <summary>Thermal conductivity, mW/(m K) in the files.</summary>
    Conductivity,
}
