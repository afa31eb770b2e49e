namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// The temperature function alpha = a(T)/a(Tc) of one component. The kernels need its square root, since
/// a_ij = sqrt(a_i a_j)(1 - k_ij).
/// </summary>
internal abstract class AlphaFunction
{
    /// <summary>Square root of alpha with its first and second derivative by temperature.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="first">First derivative, 1/K.</param>
    /// <param name="second">Second derivative, 1/K2.</param>
    public abstract double SquareRoot(double temperature, out double first, out double second);
}
