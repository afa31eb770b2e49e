using System.Globalization;
using CryoThermo.Diagnostics;
using CryoThermo.HeatTransfer;
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
        Length = Length.FromMeters(Guard.InRange(length.Meters, TubeExchange.LeastLength, TubeExchange.MostLength, "m", nameof(length)));
        HotPassage = hotPassage;
        ColdPassage = coldPassage;
        HotTubes = hotTubes;
        ColdTubes = coldTubes;
        Metal = metal;
        WallWith = wall;
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

    internal Func<RecuperatorSurroundings?, ExchangeWall> WallWith { get; }

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
            $"{tubeCount} {tube.Material} {(tubeCount == 1 ? "tube" : "tubes")} {tube.OuterDiameter.Millimeters:0.##} x {tube.Thickness.Millimeters:0.##} mm in {shell.Material} {shell.OuterDiameter.Millimeters:0.##} x {shell.Thickness.Millimeters:0.##} mm{Coil(coilDiameter)}, {(isHotInTubes ? "high" : "low")} pressure in the {(tubeCount == 1 ? "tube" : "tubes")}");
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
                $"{hotTube.Material} tube {hotTube.OuterDiameter.Millimeters:0.##} x {hotTube.Thickness.Millimeters:0.##} mm soldered to {coldTube.Material} tube {coldTube.OuterDiameter.Millimeters:0.##} x {coldTube.Thickness.Millimeters:0.##} mm{Coil(coilDiameter)}"))
        {
            OuterSurface = Math.PI * (hotTube.OuterDiameter + coldTube.OuterDiameter) * length,
        };
    }

    /// <summary>The same with another length.</summary>
    /// <param name="length">1 mm to 1 km.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is out of its range.</exception>
    public TubeRecuperator WithLength(Length length) =>
        new(length, HotPassage, HotTubes, ColdPassage, ColdTubes, Metal, WallWith, description) { OuterSurface = OuterSurface * (length / Length) };

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
        TubeExchange exchange = new(this, streams);
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
        TubeExchange exchange = new(this, streams);
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
        TubeExchange exchange = new(this, streams);
        ExchangeProfile even = exchange.Settle(() => Length.Meters);
        ExchangeProfile rich = exchange.Solver.Solve(Length.Meters, 1 + deviation);
        ExchangeProfile poor = exchange.Solver.Solve(Length.Meters, 1 - deviation);
        exchange.Check(rich);
        exchange.Check(poor);
        double flow = streams.HotFlow.KilogramsPerSecond;
        double uneven = 0.5 * flow * (((1 + deviation) * rich.HotFall) + ((1 - deviation) * poor.HotFall));
        return new(
            deviation,
            Power.FromWatts(flow * even.HotFall),
            Power.FromWatts(uneven),
            Temperature.FromKelvins(rich.HotTemperature[^1]),
            Temperature.FromKelvins(poor.HotTemperature[^1]));
    }

    /// <inheritdoc/>
    public override string ToString() => Text($"{Length.Meters:0.###} m of {description}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Coil(Length? diameter) => diameter is { } d ? Text($", coiled to {d.Millimeters:0.#} mm") : string.Empty;
}
