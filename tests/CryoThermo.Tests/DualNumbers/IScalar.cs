namespace CryoThermo.Tests.DualNumbers;

/// <summary>What a formula needs of its number type to be evaluated plainly or with derivatives.</summary>
internal interface IScalar<T>
    where T : struct, IScalar<T>
{
    static abstract T operator +(T a, T b);

    static abstract T operator -(T a, T b);

    static abstract T operator *(T a, T b);

    static abstract T operator /(T a, T b);

    /// <summary>A constant.</summary>
    static abstract T Of(double value);

    static abstract T Log(T a);

    static abstract T Exp(T a);

    static abstract T Sqrt(T a);
}
