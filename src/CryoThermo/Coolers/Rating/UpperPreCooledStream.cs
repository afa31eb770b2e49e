using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A stream behind the cold head of an upper cooler: where what is left there is the heat of the stream and the extra load, the warmest such place. The upper cooler is
/// taken by its curve, moved by as much as it was wrong where it was computed last, and tilted as from there to where it was computed before.
/// </summary>
internal sealed class UpperPreCooledStream : PreCooledStream
{
    private const double OutletTolerance = 1e-7;

    /// <summary>Cold temperatures, K, from whose difference the tilt is told, and how far from the last computed it is believed.</summary>
    private const double LeastMove = 1e-3;
    private const double MostMove = 4;

    private readonly UpperCooler upper;
    private readonly double room;
    private readonly UpperCurve curve;
    private readonly Correction correction;

    private UpperPreCooledStream(UpperCooler upper, double room, UpperCurve curve, Correction correction, CoolerPoint? computed, bool isExact, double outlet)
        : base(outlet)
    {
        this.upper = upper;
        this.room = room;
        this.curve = curve;
        this.correction = correction;
        Computed = computed;
        IsExact = isExact;
    }

    /// <inheritdoc/>
    public override bool IsExact { get; }

    /// <summary>The circulation of the upper cooler computed last; null for none.</summary>
    public CoolerPoint? Computed { get; }

    /// <summary>What the upper cooler makes of a stream.</summary>
    /// <param name="upper">The upper cooler.</param>
    /// <param name="stream">Before its cold head.</param>
    /// <param name="flow">mol/s.</param>
    /// <param name="room">K.</param>
    /// <param name="near">Of a stream before; null for none.</param>
    public static UpperPreCooledStream Of(UpperCooler upper, State stream, double flow, double room, PreCooledStream? near)
    {
        UpperPreCooledStream? before = near is UpperPreCooledStream found && ReferenceEquals(found.upper, upper) ? found : null;

        // In a room hardly different the curve is wrong by about as much.
        Correction known = before?.correction ?? default;
        UpperCurve here = before is not null && before.room.Equals(room) ? before.curve : upper.CurveIn(room);
        return new(upper, room, here, known, before?.Computed, isExact: false, OutletOf(upper, here, known, stream, flow));
    }

    /// <inheritdoc/>
    public override PreCooledStream Exactly(State stream, double flow, double outlet)
    {
        double cold = outlet - upper.Approach.Kelvins;
        double heat = flow * (stream.MolarEnthalpy - stream.Fluid.At(Temperature.FromKelvins(outlet), stream.Pressure).MolarEnthalpy).JoulesPerMole;
        double extra = (double)upper.ExtraLoad.Watts;
        if (outlet >= stream.Temperature.Kelvins)
        {
            throw new CoolerRefusedException(
                CoolerObstacle.PreCooler, FormattableString.Invariant($"The upper cooler with its own load of {extra:G4} W is not cold enough to cool a stream of {stream.Temperature.Kelvins:F1} K."));
        }

        if (cold > curve.Colds[^1])
        {
            throw Overloaded(stream, flow);
        }

        if (cold < curve.Colds[0])
        {
            throw new CoolerRefusedException(
                CoolerObstacle.PreCooler,
                FormattableString.Invariant($"The upper cooler carries more than the {heat:F1} W of the lower stream and its own load of {extra:G4} W down to {curve.Colds[0]:F1} K, below which none of its circulations is known."));
        }

        CoolerPoint point = curve.Exact(cold, Computed);
        double now = curve.Net(point) - curve.NetAt(cold);
        double move = cold - correction.Cold;
        double tilt = Computed is not null && Math.Abs(move) is >= LeastMove and <= MostMove ? (now - correction.Shift) / move : correction.Tilt;
        Correction next = new(cold, now, tilt);
        return new UpperPreCooledStream(upper, room, curve, next, point, isExact: true, OutletOf(upper, curve, next, stream, flow));
    }

    /// <inheritdoc/>
    public override CoolerRefusedException? Overload(State stream, double flow) =>
        Outlet - upper.Approach.Kelvins > curve.Colds[^1] && Outlet < stream.Temperature.Kelvins ? Overloaded(stream, flow) : null;

    /// <summary>The state of the upper cooler as computed last; null where it was not.</summary>
    public CoolerState? State() => Computed is { } point ? curve.StateOf(point) : null;

    private CoolerRefusedException Overloaded(State stream, double flow)
    {
        double extra = (double)upper.ExtraLoad.Watts;
        return new(
            CoolerObstacle.PreCooler,
            FormattableString.Invariant($"The upper cooler is overloaded: the lower stream of {1000 * flow:F2} mmol/s and {stream.Temperature.Kelvins:F1} K gives more than the {curve.Most - extra:F1} W that it carries besides its own load of {extra:G4} W. Take a larger one, or a smaller lower one."));
    }

    // From warm to cold: the first place at which the cooling left no longer covers stream and load.
    private static double OutletOf(UpperCooler upper, UpperCurve curve, Correction correction, State stream, double flow)
    {
        double approach = upper.Approach.Kelvins;
        double extra = (double)upper.ExtraLoad.Watts;
        double enthalpy = stream.MolarEnthalpy.JoulesPerMole;
        double inlet = stream.Temperature.Kelvins;
        ReadOnlySpan<double> colds = curve.Colds;
        double warm = Math.Min(inlet, colds[^1] + approach);
        if (warm <= colds[0] + approach)
        {
            return inlet;
        }

        double atWarm = Spare(warm);
        if (!(atWarm > 0))
        {
            // Beyond its warmest circulation the upper cooler is taken to carry as much as there.
            double most = Math.Max(0, curve.NetAt(colds[^1]) + correction.At(colds[^1]) - extra);
            return warm >= inlet ? inlet : stream.Fluid.AtEnthalpy(stream.Pressure, MolarEnergy.FromJoulesPerMole(enthalpy - (most / flow))).Temperature.Kelvins;
        }

        for (int i = colds.Length - 1; i >= 0; i--)
        {
            double cold = colds[i] + approach;
            if (cold >= warm)
            {
                continue;
            }

            double atCold = Spare(cold);
            if (!(atCold > 0))
            {
                (double a, double b) = BracketedRoot.Narrow(Spare, cold, atCold, warm, atWarm, (x, y) => Math.Abs(y - x) <= OutletTolerance);
                return 0.5 * (a + b);
            }

            (warm, atWarm) = (cold, atCold);
        }

        return warm;

        double Spare(double outlet) =>
            curve.NetAt(outlet - approach) + correction.At(outlet - approach) - extra
            - (flow * (enthalpy - (outlet < inlet ? stream.Fluid.At(Temperature.FromKelvins(outlet), stream.Pressure).MolarEnthalpy.JoulesPerMole : enthalpy)));
    }

    /// <summary>What the curve is wrong by.</summary>
    /// <param name="Cold">Cold temperature computed last, K.</param>
    /// <param name="Shift">W there.</param>
    /// <param name="Tilt">W/K about it.</param>
    private readonly record struct Correction(double Cold, double Shift, double Tilt)
    {
        public double At(double cold) => Shift + (Tilt * Math.Clamp(cold - Cold, -MostMove, MostMove));
    }
}
