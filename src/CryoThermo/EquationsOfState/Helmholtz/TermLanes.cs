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

    /// <summary>Those of eight values that eight indices name. Halves are looked up apart where the processor has no eight lanes: an index outside a half gives zero.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Pick(Vector512<double> values, Vector512<long> indices)
    {
        if (Vector512.IsHardwareAccelerated)
        {
            return Vector512.Shuffle(values, indices);
        }

        Vector256<double> low = values.GetLower();
        Vector256<double> high = values.GetUpper();
        Vector256<long> four = Vector256.Create(4L);
        Vector256<long> first = indices.GetLower();
        Vector256<long> second = indices.GetUpper();
        return Vector512.Create(
            Vector256.Shuffle(low, first) + Vector256.Shuffle(high, first - four),
            Vector256.Shuffle(low, second) + Vector256.Shuffle(high, second - four));
    }

    /// <summary>e^x, the halves by themselves where the processor has no eight lanes.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector512<double> Exp(Vector512<double> x) => Vector512.IsHardwareAccelerated
        ? Vector512.Exp(x)
        : Vector512.Create(Vector256.Exp(x.GetLower()), Vector256.Exp(x.GetUpper()));
}
