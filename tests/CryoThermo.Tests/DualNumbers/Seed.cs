namespace CryoThermo.Tests.DualNumbers;

/// <summary>Independent variables for first and second derivatives.</summary>
internal static class Seed
{
    /// <summary>A variable of which derivatives up to the second are wanted: value, slope and slope of the slope.</summary>
    public static Dual<Dual<Real>> Twice(double value) => Mixed(value, true, true);

    /// <summary>A variable that is the first, the second, both or neither of the two variables of a mixed derivative.</summary>
    public static Dual<Dual<Real>> Mixed(double value, bool first, bool second) =>
        new(new(new(value), new(second ? 1 : 0)), new(new(first ? 1 : 0), new(0)));

    public static Dual<Real> Once(double value, bool isVariable = true) => new(new(value), new(isVariable ? 1 : 0));

    public static double First(this Dual<Dual<Real>> a) => a.Slope.Value.Value;

    public static double Second(this Dual<Dual<Real>> a) => a.Slope.Slope.Value;
}
