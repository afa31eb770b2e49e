namespace CryoThermo.Substances;

/// <summary>A power of temperature in cp0/R: coefficient times T to the exponent, T in K.</summary>
/// <param name="Coefficient">Coefficient, K to the minus exponent.</param>
/// <param name="Exponent">Exponent; may be negative or fractional.</param>
public sealed record PowerTerm(double Coefficient, double Exponent) : HeatCapacityTerm
{
    /// <inheritdoc/>
    public override double At(double temperature) => Coefficient * Math.Pow(temperature, Exponent);
}
