namespace CryoThermo.HeatTransfer;

/// <summary>What a film coefficient needs of one phase. SI.</summary>
/// <param name="Density">kg/m3.</param>
/// <param name="Viscosity">Pa s.</param>
/// <param name="Conductivity">W/(m K).</param>
/// <param name="HeatCapacity">J/(kg K).</param>
internal readonly record struct PhaseProperties(double Density, double Viscosity, double Conductivity, double HeatCapacity)
{
    /// <summary>Heat capacity times viscosity over conductivity.</summary>
    public double Prandtl => HeatCapacity * Viscosity / Conductivity;
}
