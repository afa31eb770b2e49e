using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Cooling left at the cold head of an upper cooler over its cold temperature, reached from warm: interpolated between circulations, exact where asked. Thread-safe.</summary>
internal sealed class UpperCurve
{
    private readonly CoolerRater rater;
    private readonly double[] colds;
    private readonly MonotoneCubic net;

    public UpperCurve(UpperCooler upper, double room)
    {
        rater = new(upper.Cooler, upper.Charge, Temperature.FromKelvins(room));
        CoolerPoint[] points = [.. rater.Walked().OrderBy(p => p.Cold)];
        double[] left = [.. points.Select(rater.Net)];
        int best = Array.IndexOf(left, left.Max());
        double extra = (double)upper.ExtraLoad.Watts;
        if (points.Length < 2 || left[best] <= extra)
        {
            throw new CoolerRefusedException(
                CoolerObstacle.LoadTooLarge, FormattableString.Invariant($"at {points[best].Cold:F1} K, its best, {left[best]:F2} W are left, and its own load is {extra:G4} W, before the stream gives any heat."));
        }

        colds = [.. points.Select(p => p.Cold)];
        net = new(colds, left);
        Most = left[best];
    }

    /// <summary>Cold temperatures of the circulations, K, rising.</summary>
    public ReadOnlySpan<double> Colds => colds;

    /// <summary>The most left at any of them, W.</summary>
    public double Most { get; }

    /// <summary>Cooling left, W, at a cold temperature between the coldest and the warmest.</summary>
    public double NetAt(double cold) => net.At(cold);

    /// <summary>The circulation at a cold temperature to the last digits.</summary>
    /// <param name="cold">K, between the coldest and the warmest.</param>
    /// <param name="near">One found before; null for none.</param>
    public CoolerPoint Exact(double cold, CoolerPoint? near) => rater.Exact(cold, near);

    /// <summary>Cooling left, W.</summary>
    public double Net(CoolerPoint point) => rater.Net(point);

    /// <summary>The state of a circulation.</summary>
    public CoolerState StateOf(CoolerPoint point) => rater.StateOf(point);
}
