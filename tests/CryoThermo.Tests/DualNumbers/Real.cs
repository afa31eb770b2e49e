namespace CryoThermo.Tests.DualNumbers;

/// <summary>A plain number.</summary>
internal readonly record struct Real(double Value) : IScalar<Real>
{
    public static Real operator +(Real a, Real b) => new(a.Value + b.Value);

    public static Real operator -(Real a, Real b) => new(a.Value - b.Value);

    public static Real operator *(Real a, Real b) => new(a.Value * b.Value);

    public static Real operator /(Real a, Real b) => new(a.Value / b.Value);

    public static Real Of(double value) => new(value);

    public static Real Log(Real a) => new(Math.Log(a.Value));

    public static Real Exp(Real a) => new(Math.Exp(a.Value));

    public static Real Sqrt(Real a) => new(Math.Sqrt(a.Value));
}
