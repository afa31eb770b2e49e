using System.Globalization;
using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Numerics;

namespace CryoThermo.Machines;

/// <summary>Two streams in the tubes, with the states they were last found to have.</summary>
internal sealed class TubeExchange
{
    /// <summary>Number of segments of equal length.</summary>
    public const int Segments = 200;

    /// <summary>Least length, m.</summary>
    public const double LeastLength = 1e-3;

    /// <summary>Greatest length, m.</summary>
    public const double MostLength = 1000;

    private const int MostRounds = 20;
    private const int PatientRounds = 12;
    private const int SwingingRounds = 4;
    private const double LeastShare = 0.25;

    /// <summary>How far the pressures may lie from those the states were taken at, relative: what is left is of second order.</summary>
    private const double CourseTolerance = 1e-3;

    /// <summary>Change of duty and pressures from round to round that is left, relative.</summary>
    private const double RoundTolerance = 1e-4;

    /// <summary>Below this share of the inlet pressure the flow is refused: it would choke, or the model of friction fail.</summary>
    private const double LeastPressureShare = 0.2;

    private const double LengthTolerance = 1e-7;

    /// <summary>Closer than this, K, the temperatures limit a duty and not the pressures.</summary>
    private const double Pinched = 0.5;

    // Of the public methods that come here.
    private static readonly string StreamsParameter = "streams";

    private readonly RecuperatorStreams streams;
    private readonly ExchangeStream hot;
    private readonly ExchangeStream cold;

    public TubeExchange(TubeRecuperator tubes, RecuperatorStreams streams)
    {
        this.streams = streams;
        double hotInlet = streams.HotInlet.Temperature.Kelvins;
        double coldInlet = streams.ColdInlet.Temperature.Kelvins;
        double warmest = Math.Max(hotInlet, streams.Surroundings?.Temperature.Kelvins ?? 0);
        hot = new(streams.HotInlet, streams.HotFlow.KilogramsPerSecond, tubes.HotPassage.Kernel, tubes.HotTubes, HeatDirection.Cooled, coldInlet, warmest);
        cold = new(streams.ColdInlet, streams.ColdFlow.KilogramsPerSecond, tubes.ColdPassage.Kernel, tubes.ColdTubes, HeatDirection.Heated, warmest, coldInlet);
        Solver = new(hot, cold, tubes.WallWith(streams.Surroundings), Segments);
    }

    public ExchangeSolver Solver { get; }

    /// <summary>Solves until the states are those at the pressures found.</summary>
    public ExchangeProfile Settle(Func<double> length)
    {
        ExchangeProfile? profile = null;
        for (int round = 1; ; round++)
        {
            ExchangeProfile? last = profile;
            double meters = length();
            try
            {
                profile = Solver.Solve(meters, start: profile);
            }
            catch (ConvergenceException) when (round == 1)
            {
                // Far from the pressures the states were taken at, these are poor: first a course as it follows from the flow at the pressures of the inlets.
                profile = Solver.SolveWithoutPressureDrop(meters);
                Rebuild(hot, profile.HotEnthalpy, profile.HotPressure);
                Rebuild(cold, profile.ColdEnthalpy, profile.ColdPressure);
                continue;
            }

            Check(profile);
            double off = Math.Max(Off(hot, profile.HotEnthalpy, profile.HotPressure), Off(cold, profile.ColdEnthalpy, profile.ColdPressure));
            double change = last is null
                ? double.PositiveInfinity
                : Math.Max(Math.Abs((profile.HotFall / last.HotFall) - 1), Math.Max(Change(profile.HotPressure, last.HotPressure), Change(profile.ColdPressure, last.ColdPressure)));
            double share = round < SwingingRounds ? 1 : Math.Max(LeastShare, 2.0 / round);
            if (off <= CourseTolerance || change <= (round < PatientRounds ? RoundTolerance : 10 * RoundTolerance))
            {
                return profile;
            }

            if (round == MostRounds)
            {
                throw new ConvergenceException(
                    "Exchanger of tubes", $"{streams.HotInlet} and {streams.ColdInlet}", change, "The pressures do not settle: they fall far. Take wider passages or less flow.");
            }

            // Where pressures swing from round to round, less and less of the change.
            Rebuild(hot, profile.HotEnthalpy, profile.HotPressure, share);
            Rebuild(cold, profile.ColdEnthalpy, profile.ColdPressure, share);
        }
    }

    public TubeRecuperatorRating Rating(TubeRecuperator tubes, ExchangeProfile profile)
    {
        double length = tubes.Length.Meters;
        ExchangeProfile low = Solver.Solve(length, 1, -1, 1, profile);
        Check(low, "With friction at the high end of its uncertainty ");
        ExchangeProfile high = Solver.Solve(length, 1, 1, -1, profile);
        return new(tubes, streams, profile, low, high);
    }

    /// <summary>The length for a duty on the states as they are.</summary>
    public double LengthFor(double duty, double guess, int side)
    {
        ExchangeProfile? last = null;
        double low = guess;
        double high = guess;
        double atLow = Miss(low);
        double atHigh = atLow;
        double factor = 1.5;
        while (atLow > 0)
        {
            (high, atHigh) = (low, atLow);
            low = Math.Max(LeastLength, low / factor);
            atLow = Miss(low);
            factor *= factor;
            if (atLow > 0 && low <= LeastLength)
            {
                throw new ArgumentOutOfRangeException(nameof(duty), duty, $"duty is {duty:G6} W; {LeastLength * 1e3:G3} mm exchange more.");
            }
        }

        factor = 1.5;
        while (atHigh < 0)
        {
            double before = atHigh;
            (low, atLow) = (high, atHigh);
            high = Math.Min(MostLength, high * factor);
            atHigh = Miss(high);
            factor = Math.Min(4, factor * factor);
            if (atHigh < 0 && (high >= MostLength || atHigh < before + 1e-9))
            {
                throw Unreachable(last, null);
            }
        }

        return Math.Exp(BracketedRoot.Narrow(
            y => Miss(Math.Exp(y)), Math.Log(low), atLow, Math.Log(high), atHigh, (x, y) => y - x <= LengthTolerance).High);

        double Miss(double length)
        {
            ExchangeProfile found = Solver.Solve(length, 1, side, -side, last);
            if (Thin(found) is { } thin)
            {
                throw Unreachable(last, thin);
            }

            last = found;
            return (streams.HotFlow.KilogramsPerSecond * last.HotFall / duty) - 1;
        }

        ArgumentOutOfRangeException Unreachable(ExchangeProfile? best, string? thin)
        {
            double most = best is null ? 0 : streams.HotFlow.KilogramsPerSecond * best.HotFall;
            int closest = best is null ? 0 : Enumerable.Range(0, Segments + 1).MinBy(i => best.HotTemperature[i] - best.ColdTemperature[i]);
            double approach = best is null ? double.PositiveInfinity : best.HotTemperature[closest] - best.ColdTemperature[closest];
            string reason = thin is not null && approach > Pinched
                ? thin
                : Text($"the streams come together {(closest == 0 ? "at the warm end" : closest == Segments ? "at the cold end" : "inside")}, at {best!.HotTemperature[closest]:0.0} K within {approach:0.000} K");
            return new(nameof(duty), duty, $"duty is {duty:G6} W; no length exchanges that, {most:G6} W is the most found: {reason}.");
        }
    }

    /// <summary>Refuses what lost its pressure or left the states known.</summary>
    public void Check(ExchangeProfile profile, string when = "")
    {
        if (Thin(profile) is { } thin)
        {
            string text = when + thin;
            throw new ArgumentOutOfRangeException(StreamsParameter, $"{char.ToUpperInvariant(text[0])}{text[1..]}. Take wider passages, fewer metres or less flow.");
        }

        foreach ((ExchangeStream stream, double last, string name) in new[] { (hot, profile.HotEnthalpy[^1], "cooled"), (cold, profile.ColdEnthalpy[0], "warmed") })
        {
            bool isBeyond = Math.Abs(last - stream.InletEnthalpy) > Math.Abs(stream.ReachedEnthalpy - stream.InletEnthalpy) * (1 + 1e-9);
            if (isBeyond && stream.Obstacle is { } obstacle)
            {
                throw new ArgumentOutOfRangeException(StreamsParameter, $"The stream that is {name} leaves the range of the model: {obstacle}.");
            }
        }
    }

    private string? Thin(ExchangeProfile profile)
    {
        foreach ((double inlet, double outlet, string name) in new[] { (hot.InletPressure, profile.HotPressure.Min(), "cooled"), (cold.InletPressure, profile.ColdPressure.Min(), "warmed") })
        {
            if (outlet < LeastPressureShare * inlet)
            {
                return Text($"the pressure of the stream that is {name} falls from {inlet / 1e5:0.###} bar absolute to below {100 * LeastPressureShare:0} % of that");
            }
        }

        return null;
    }

    private static double Change(double[] pressure, double[] last) => pressure.Zip(last).Max(p => Math.Abs((p.First / p.Second) - 1));

    private static double Off(ExchangeStream stream, double[] enthalpy, double[] pressure)
    {
        double most = 0;
        for (int i = 0; i < enthalpy.Length; i++)
        {
            most = Math.Max(most, Math.Abs((pressure[i] / stream.CoursePressure(enthalpy[i])) - 1));
        }

        return most;
    }

    private static void Rebuild(ExchangeStream stream, double[] enthalpy, double[] pressure, double share = 1)
    {
        double[] h = [.. enthalpy];
        double[] p = [.. pressure.Select((to, i) => stream.CoursePressure(enthalpy[i]) + (share * (to - stream.CoursePressure(enthalpy[i]))))];
        Array.Sort(h, p);
        stream.Rebuild(at =>
        {
            int i = Array.BinarySearch(h, at);
            i = i >= 0 ? i : ~i;
            return i == 0 ? p[0]
                : i == h.Length ? p[^1]
                : h[i] > h[i - 1] ? p[i - 1] + ((p[i] - p[i - 1]) * (at - h[i - 1]) / (h[i] - h[i - 1]))
                : p[i];
        });
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
