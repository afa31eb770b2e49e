using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>A machine at rest with all its volumes at one temperature. Immutable and thread-safe.</summary>
/// <param name="Temperature">The temperature.</param>
/// <param name="AbsolutePressure">Absolute pressure.</param>
/// <param name="Gauge">The same as a gauge shows it.</param>
/// <param name="LiquidFraction">Share of the charge that is liquid, mol/mol; 0 when all of it is a gas.</param>
/// <param name="State">The equilibrium state of the charge.</param>
public sealed record StandingState(Temperature Temperature, Pressure AbsolutePressure, GaugePressure Gauge, double LiquidFraction, State State)
{
    /// <summary>Whether all of the charge is a gas.</summary>
    public bool IsGas => LiquidFraction == 0;
}
