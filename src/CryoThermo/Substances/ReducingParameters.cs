namespace CryoThermo.Substances;

/// <summary>
/// The two parameters of a pair in a reducing function of the multi-fluid model,
/// Y = sum xi xj beta gamma (xi + xj)/(beta^2 xi + xj) Yij, where i is the first component. Immutable.
/// </summary>
/// <param name="Beta">beta, dimensionless: asymmetry; the reciprocal when the components are exchanged.</param>
/// <param name="Gamma">gamma, dimensionless: strength; the same either way.</param>
public readonly record struct ReducingParameters(double Beta, double Gamma)
{
    /// <summary>The parameters with the components exchanged.</summary>
    public ReducingParameters Exchange() => new(1 / Beta, Gamma);
}
