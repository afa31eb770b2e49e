namespace CryoThermo.Tests.DualNumbers;

/// <summary>
/// A number with its derivative by one variable (forward automatic differentiation); nested once more it carries second
/// derivatives: Slope.Slope of a dual of duals.
/// </summary>
internal readonly record struct Dual<T>(T Value, T Slope) : IScalar<Dual<T>>
    where T : struct, IScalar<T>
{
    public static Dual<T> operator +(Dual<T> a, Dual<T> b) => new(a.Value + b.Value, a.Slope + b.Slope);

    public static Dual<T> operator -(Dual<T> a, Dual<T> b) => new(a.Value - b.Value, a.Slope - b.Slope);

    public static Dual<T> operator *(Dual<T> a, Dual<T> b) => new(a.Value * b.Value, (a.Slope * b.Value) + (a.Value * b.Slope));

    public static Dual<T> operator /(Dual<T> a, Dual<T> b)
    {
        T quotient = a.Value / b.Value;
        return new(quotient, (a.Slope - (quotient * b.Slope)) / b.Value);
    }

    public static Dual<T> Of(double value) => new(T.Of(value), T.Of(0));

    public static Dual<T> Log(Dual<T> a) => new(T.Log(a.Value), a.Slope / a.Value);

    public static Dual<T> Exp(Dual<T> a)
    {
        T value = T.Exp(a.Value);
        return new(value, value * a.Slope);
    }

    public static Dual<T> Sqrt(Dual<T> a)
    {
        T value = T.Sqrt(a.Value);
        return new(value, a.Slope / (value + value));
    }
}
