using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>Terms of Helmholtz equations taken eight at a time.</summary>
internal static class TermLanes
{
    /// <summary>Terms a vector holds.</summary>
    public const int Count = 8;

    /// <summary>Eight values of an array.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Load(double[] values, int start) => Vector512.Create(values.AsSpan(start, Count));

    /// <summary>0, delta, delta^2 ... delta^7: what is subtracted in the exponent for c = 0 to 7.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> DecayPowers(double delta)
    {
        double square = delta * delta;
        double fourth = square * square;
        return Vector512.Create(0, delta, square, square * delta, fourth, fourth * delta, fourth * square, fourth * square * delta);
    }
}
