using System.Globalization;
using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A counter-flow recuperator of tubes: one or several tubes in another, or two tubes soldered side by side; straight or coiled. Film coefficients and friction of both
/// streams are taken place by place, with falling pressures, conduction along the metal and heat from outside. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Kinetic energy is left out of the balance (1 J/g at 45 m/s), and so is nucleate boiling, which blends hardly have. All metal conducts along its length at the temperature
/// of the wall between the streams. In tubes of one stream side by side the flow is taken as equal: see <see cref="Maldistribution"/>.
/// </remarks>
public sealed class TubeRecuperator
{
    private const double LeastLength = 1e-3;
    private const double MostLength = 1000;
    private const int Segments = 200;
    private const int MostRounds = 12;
    private const int PatientRounds = 8;

    /// <summary>How far the pressures may lie from those the states were taken at, relative: what is left is of second order.</summary>
    private const double CourseTolerance = 1e-3;

    /// <summary>Change of duty and pressures from round to round that is left, relative.</summary>
    private const double RoundTolerance = 1e-4;

    /// <summary>Below this share of the inlet pressure the flow is refused: it would choke, or the model of friction fail.</summary>
    private const double LeastPressureShare = 0.2;

    private const double LengthTolerance = 1e-7;

    /// <summary>Closer than this, K, the temperatures limit a duty and not the pressures.</summary>
    private const double Pinched = 0.5;

    private readonly Func<RecuperatorSurroundings?, ExchangeWall> wall;
    private readonly string description;

    private TubeRecuperator(
        Length length,
        FlowPassage hotPassage,
        int hotTubes,
        FlowPassage coldPassage,
        int coldTubes,
        IReadOnlyList<(TubeWall Tube, int Count)> metal,
        Func<RecuperatorSurroundings?, ExchangeWall> wall,
        string description)
    {
        Length = Length.FromMeters(Guard.InRange(length.Meters, LeastLength, MostLength, "m", nameof(length)));
        HotPassage = hotPassage;
        ColdPassage = coldPassage;
        HotTubes = hotTubes;
        ColdTubes = coldTubes;
        Metal = metal;
        this.wall = wall;
        this.description = description;
    }

    /// <summary>Length along the streams.</summary>
    public Length Length { get; }

    /// <summary>Passage of the stream that is cooled.</summary>
    public FlowPassage HotPassage { get; }

    /// <summary>How many of them lie side by side.</summary>
    public int HotTubes { get; }

    /// <summary>Passage of the stream that is warmed.</summary>
    public FlowPassage ColdPassage { get; }

    /// <summary>How many of them lie side by side.</summary>
    public int ColdTubes { get; }

    /// <summary>Mass of the metal.</summary>
    /// <exception cref="InvalidOperationException">The density of a metal is not known.</exception>
    public Mass MetalMass => Mass.FromKilograms(Metal.Sum(m => m.Count * m.Tube.MassPerLength.KilogramsPerMeter) * Length.Meters);

    /// <summary>Outer surface, through which heat comes from outside.</summary>
    public Area OuterSurface { get; private init; }

    internal double HotPerimeter => HotTubes * HotPassage.Kernel.HeatedPerimeter;

    internal double ColdPerimeter => ColdTubes * ColdPassage.Kernel.HeatedPerimeter;

    private IReadOnlyList<(TubeWall Tube, int Count)> Metal { get; }

    /// <summary>One or several tubes inside another.</summary>
    /// <param name="length">1 mm to 1 km.</param>
    /// <param name="tube">One of the inner tubes.</param>
    /// <param name="shell">The tube around them; they must fit.</param>
    /// <param name="tubeCount">Number of inner tubes, 1 to 1000; a single one is taken as lying in the middle.</param>
    /// <param name="coilDiameter">Mean diameter of the coil; null for straight tubes.</param>
    /// <param name="isHotInTubes">Whether the stream that is cooled, at the higher pressure, flows in the inner tubes.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the tubes do not fit.</exception>
    public static TubeRecuperator TubesInTube(Length length, TubeWall tube, TubeWall shell, int tubeCount = 1, Length? coilDiameter = null, bool isHotInTubes = true)
    {
        ArgumentNullException.ThrowIfNull(tube);
        ArgumentNullException.ThrowIfNull(shell);
        FlowPassage inner = FlowPassage.RoundTube(tube.InnerDiameter, coilDiameter);
        FlowPassage outer = tubeCount == 1
            ? FlowPassage.Annulus(tube.OuterDiameter, shell.InnerDiameter, PassageWall.Inner, coilDiameter)
            : FlowPassage.AroundTubes(tubeCount, tube.OuterDiameter, shell.InnerDiameter, coilDiameter);
        string text = Text(
            $"{tubeCount} {tube.Metal} {(tubeCount == 1 ? "tube" : "tubes")} {tube.OuterDiameter.Millimeters:0.##} x {tube.Thickness.Millimeters:0.##} mm in {shell.Metal} {shell.OuterDiameter.Millimeters:0.##} x {shell.Thickness.Millimeters:0.##} mm{Coil(coilDiameter)}, {(isHotInTubes ? "high" : "low")} pressure in the {(tubeCount == 1 ? "tube" : "tubes")}");
        return new(
            length,
            isHotInTubes ? inner : outer,
            isHotInTubes ? tubeCount : 1,
            isHotInTubes ? outer : inner,
            isHotInTubes ? 1 : tubeCount,
            [(tube, tubeCount), (shell, 1)],
            around => new CoaxialWall(tube, tubeCount, shell)
            {
                AmbientConductance = around?.ConductanceWattsPerMeterKelvin ?? 0,
                AmbientTemperature = around?.Temperature.Kelvins ?? 0,
                AmbientShareToHot = isHotInTubes ? 0 : 1,
            },
            text)
        {
            OuterSurface = Math.PI * shell.OuterDiameter * length,
        };
    }

    /// <summary>Two tubes side by side, soldered or brazed along their length.</summary>
    /// <param name="length">1 mm to 1 km.</param>
    /// <param name="hotTube">The tube of the stream that is cooled.</param>
    /// <param name="coldTube">The tube of the stream that is warmed.</param>
    /// <param name="jointWidth">Width of the fillet along the circumference, above zero, at most half of the smaller circumference outside.</param>
    /// <param name="jointThickness">Mean thickness of solder between the tubes, 1 micrometre to 20 mm.</param>
    /// <param name="solderConductivity">1 to 450 W/(m K); see <see cref="TubeJoint"/>.</param>
    /// <param name="coilDiameter">Mean diameter of the coil; null for straight tubes.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static TubeRecuperator SideBySide(
        Length length, TubeWall hotTube, TubeWall coldTube, Length jointWidth, Length jointThickness, ThermalConductivity solderConductivity, Length? coilDiameter = null)
    {
        ArgumentNullException.ThrowIfNull(hotTube);
        ArgumentNullException.ThrowIfNull(coldTube);
        double joint = TubeJoint.CheckedResistance(hotTube, coldTube, jointWidth, jointThickness, solderConductivity);
        double hotSurface = hotTube.OuterDiameter.Meters;
        double coldSurface = coldTube.OuterDiameter.Meters;
        return new(
            length,
            FlowPassage.RoundTube(hotTube.InnerDiameter, coilDiameter),
            1,
            FlowPassage.RoundTube(coldTube.InnerDiameter, coilDiameter),
            1,
            [(hotTube, 1), (coldTube, 1)],
            around => new JoinedWall(hotTube, coldTube, jointWidth.Meters, joint)
            {
                AmbientConductance = around?.ConductanceWattsPerMeterKelvin ?? 0,
                AmbientTemperature = around?.Temperature.Kelvins ?? 0,
                AmbientShareToHot = hotSurface / (hotSurface + coldSurface),
            },
            Text(
                $"{hotTube.Metal} tube {hotTube.OuterDiameter.Millimeters:0.##} x {hotTube.Thickness.Millimeters:0.##} mm soldered to {coldTube.Metal} tube {coldTube.OuterDiameter.Millimeters:0.##} x {coldTube.Thickness.Millimeters:0.##} mm{Coil(coilDiameter)}"))
        {
            OuterSurface = Math.PI * (hotTube.OuterDiameter + coldTube.OuterDiameter) * length,
        };
    }

    /// <summary>The same with another length.</summary>
    /// <param name="length">1 mm to 1 km.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is out of its range.</exception>
    public TubeRecuperator WithLength(Length length) =>
        new(length, HotPassage, HotTubes, ColdPassage, ColdTubes, Metal, wall, description) { OuterSurface = OuterSurface * (length / Length) };

    /// <summary>Heat that warms the metal from one temperature to another; negative where the first is the warmer.</summary>
    /// <param name="from">Within the range of the metals.</param>
    /// <param name="to">Within the range of the metals.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is out of the range of a metal.</exception>
    /// <exception cref="InvalidOperationException">The heat capacity of a metal is not known.</exception>
    public Energy MetalEnthalpy(Temperature from, Temperature to) =>
        Energy.FromJoules(Metal.Sum(m => m.Count * m.Tube.EnthalpyJoulesPerMeter(from, to)) * Length.Meters);

    /// <summary>Heat capacity of the metal at a temperature, J/K.</summary>
    /// <param name="temperature">Within the range of the metals.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is out of the range of a metal.</exception>
    /// <exception cref="InvalidOperationException">The heat capacity of a metal is not known.</exception>
    public double MetalHeatCapacityJoulesPerKelvin(Temperature temperature) =>
        Metal.Sum(m => m.Count * m.Tube.HeatCapacityJoulesPerMeterKelvin(temperature)) * Length.Meters;

    /// <summary>What it does with two streams.</summary>
    /// <param name="streams">The streams.</param>
    /// <exception cref="ArgumentOutOfRangeException">A stream loses most of its pressure, or its states leave the range of the model.</exception>
    /// <exception cref="ConvergenceException">A state or the exchanger did not converge.</exception>
    public TubeRecuperatorRating Rate(RecuperatorStreams streams)
    {
        ArgumentNullException.ThrowIfNull(streams);
        Exchange exchange = new(this, streams);
        ExchangeProfile profile = exchange.Settle(() => Length.Meters);
        return exchange.Rating(this, profile);
    }

    /// <summary>The length that exchanges a heat.</summary>
    /// <param name="duty">Heat that the stream which is cooled gives, above zero.</param>
    /// <param name="streams">The streams.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No length from 1 mm to 1 km exchanges that: the message tells the most and where the streams come together, or which pressure runs out.
    /// </exception>
    /// <exception cref="ConvergenceException">A state or the exchanger did not converge.</exception>
    public TubeRecuperatorSizing LengthFor(Power duty, RecuperatorStreams streams)
    {
        ArgumentNullException.ThrowIfNull(streams);
        double wanted = Guard.Positive((double)duty.Watts, "W", nameof(duty));
        Exchange exchange = new(this, streams);
        double length = Length.Meters;
        _ = exchange.Settle(() => length = exchange.LengthFor(wanted, length, 0));
        TubeRecuperator sized = WithLength(Length.FromMeters(length));
        TubeRecuperatorRating rating = exchange.Rating(sized, exchange.Solver.Solve(length));
        return new(new(sized.Length, AtSide(1), AtSide(-1)), rating);

        Length? AtSide(int side)
        {
            try
            {
                return Length.FromMeters(exchange.LengthFor(wanted, length, side));
            }
            catch (ArgumentOutOfRangeException)
            {
                return null;
            }
        }
    }

    /// <summary>What unequal flow of the stream that is cooled in parallel tubes, or of both streams against one another, costs.</summary>
    /// <param name="streams">The streams.</param>
    /// <param name="deviation">How far the flow in half of the tubes is above, and in the other half below the mean, as a share of it: 0 to 0.9.</param>
    /// <remarks>Each half exchanges heat with half of the other stream only, which does not mix: the worst case.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The deviation is out of its range, or as in <see cref="Rate"/>.</exception>
    /// <exception cref="ConvergenceException">A state or the exchanger did not converge.</exception>
    public FlowMaldistribution Maldistribution(RecuperatorStreams streams, double deviation)
    {
        ArgumentNullException.ThrowIfNull(streams);
        Guard.InRange(deviation, 0, 0.9, "of the mean flow");
        Exchange exchange = new(this, streams);
        ExchangeProfile even = exchange.Settle(() => Length.Meters);
        ExchangeProfile rich = exchange.Solver.Solve(Length.Meters, 1 + deviation);
        ExchangeProfile poor = exchange.Solver.Solve(Length.Meters, 1 - deviation);
        exchange.Check(rich);
        exchange.Check(poor);
        double flow = streams.HotFlow.KilogramsPerSecond;
        double uneven = 0.5 * flow * (((1 + deviation) * Fall(rich)) + ((1 - deviation) * Fall(poor)));
        return new(
            deviation,
            Power.FromWatts(flow * Fall(even)),
            Power.FromWatts(uneven),
            Temperature.FromKelvins(rich.HotTemperature[^1]),
            Temperature.FromKelvins(poor.HotTemperature[^1]));
    }

    /// <inheritdoc/>
    public override string ToString() => Text($"{Length.Meters:0.###} m of {description}");

    private static double Fall(ExchangeProfile p) => p.HotEnthalpy[0] - p.HotEnthalpy[^1];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Coil(Length? diameter) => diameter is { } d ? Text($", coiled to {d.Millimeters:0.#} mm") : string.Empty;

    /// <summary>Two streams in the tubes, with the states they were last found to have.</summary>
    private sealed class Exchange
    {
        private readonly RecuperatorStreams streams;
        private readonly ExchangeStream hot;
        private readonly ExchangeStream cold;

        public Exchange(TubeRecuperator tubes, RecuperatorStreams streams)
        {
            this.streams = streams;
            double hotInlet = streams.HotInlet.Temperature.Kelvins;
            double coldInlet = streams.ColdInlet.Temperature.Kelvins;
            double warmest = Math.Max(hotInlet, streams.Surroundings?.Temperature.Kelvins ?? 0);
            hot = new(streams.HotInlet, streams.HotFlow.KilogramsPerSecond, tubes.HotPassage.Kernel, tubes.HotTubes, HeatDirection.Cooled, coldInlet, warmest);
            cold = new(streams.ColdInlet, streams.ColdFlow.KilogramsPerSecond, tubes.ColdPassage.Kernel, tubes.ColdTubes, HeatDirection.Heated, warmest, coldInlet);
            Solver = new(hot, cold, tubes.wall(streams.Surroundings), Segments);
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
                    : Math.Max(Math.Abs((Fall(profile) / Fall(last)) - 1), Math.Max(Change(profile.HotPressure, last.HotPressure), Change(profile.ColdPressure, last.ColdPressure)));
                if (off <= CourseTolerance || change <= (round < PatientRounds ? RoundTolerance : 10 * RoundTolerance))
                {
                    return profile;
                }

                if (round == MostRounds)
                {
                    throw new ConvergenceException(
                        "Exchanger of tubes", $"{streams.HotInlet} and {streams.ColdInlet}", change, "The pressures do not settle: they fall far. Take wider passages or less flow.");
                }

                Rebuild(hot, profile.HotEnthalpy, profile.HotPressure);
                Rebuild(cold, profile.ColdEnthalpy, profile.ColdPressure);
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
        public double LengthFor(double wanted, double guess, int side)
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
                    throw new ArgumentOutOfRangeException("duty", wanted, $"duty is {wanted:G6} W; {LeastLength * 1e3:G3} mm exchange more.");
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
                return (streams.HotFlow.KilogramsPerSecond * Fall(last) / wanted) - 1;
            }

            ArgumentOutOfRangeException Unreachable(ExchangeProfile? best, string? thin)
            {
                double most = best is null ? 0 : streams.HotFlow.KilogramsPerSecond * Fall(best);
                int closest = best is null ? 0 : Enumerable.Range(0, Segments + 1).MinBy(i => best.HotTemperature[i] - best.ColdTemperature[i]);
                double approach = best is null ? double.PositiveInfinity : best.HotTemperature[closest] - best.ColdTemperature[closest];
                string reason = thin is not null && approach > Pinched
                    ? thin
                    : Text($"the streams come together {(closest == 0 ? "at the warm end" : closest == Segments ? "at the cold end" : "inside")}, at {best!.HotTemperature[closest]:0.0} K within {approach:0.000} K");
                return new("duty", wanted, $"duty is {wanted:G6} W; no length exchanges that, {most:G6} W is the most found: {reason}.");
            }
        }

        /// <summary>Refuses what lost its pressure or left the states known.</summary>
        public void Check(ExchangeProfile profile, string when = "")
        {
            if (Thin(profile) is { } thin)
            {
                string text = when + thin;
                throw new ArgumentOutOfRangeException(nameof(streams), $"{char.ToUpperInvariant(text[0])}{text[1..]}. Take wider passages, fewer metres or less flow.");
            }

            foreach ((ExchangeStream stream, double last, string name) in new[] { (hot, profile.HotEnthalpy[^1], "cooled"), (cold, profile.ColdEnthalpy[0], "warmed") })
            {
                bool isBeyond = Math.Abs(last - stream.InletEnthalpy) > Math.Abs(stream.ReachedEnthalpy - stream.InletEnthalpy) * (1 + 1e-9);
                if (isBeyond && stream.Obstacle is { } obstacle)
                {
                    throw new ArgumentOutOfRangeException(nameof(streams), $"The stream that is {name} leaves the range of the model: {obstacle}.");
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

        private static void Rebuild(ExchangeStream stream, double[] enthalpy, double[] pressure)
        {
            double[] h = [.. enthalpy];
            double[] p = [.. pressure];
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
    }
}
