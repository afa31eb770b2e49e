using System.Globalization;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a recuperator of tubes does with two streams. Immutable and thread-safe.</summary>
public sealed class TubeRecuperatorRating
{
    internal TubeRecuperatorRating(TubeRecuperator recuperator, RecuperatorStreams streams, ExchangeProfile profile, ExchangeProfile low, ExchangeProfile high)
    {
        Recuperator = recuperator;
        Streams = streams;
        HotOutlet = StateAt(streams.HotInlet, profile.HotEnthalpy[^1], profile.HotPressure[^1]);
        ColdOutlet = StateAt(streams.ColdInlet, profile.ColdEnthalpy[0], profile.ColdPressure[0]);
        Duty = new(DutyOf(profile), DutyOf(low), DutyOf(high));
        ConductanceWattsPerKelvin = new(profile.Conductance.Sum(), low.Conductance.Sum(), high.Conductance.Sum());
        HotPressureDrop = new(HotDrop(profile), HotDrop(high), HotDrop(low));
        ColdPressureDrop = new(ColdDrop(profile), ColdDrop(high), ColdDrop(low));
        HeatFromSurroundings = Power.FromWatts(profile.AmbientHeat);
        Points = [.. Enumerable.Range(0, profile.Segments + 1).Select(i => PointAt(profile, i))];
        int closest = Enumerable.Range(0, profile.Segments + 1).MinBy(i => profile.HotTemperature[i] - profile.ColdTemperature[i]);
        PinchPosition = Points[closest].Position;
        Pinch = new(
            Points[closest].HotTemperature,
            Points[closest].ColdTemperature,
            Points[closest].DutyFromColdEnd,
            closest == 0 ? PinchLocation.WarmEnd : closest == profile.Segments ? PinchLocation.ColdEnd : PinchLocation.Inside);
        (HotFilmShare, ColdFilmShare) = Shares(profile);
        double dz = recuperator.Length.Meters / profile.Segments;
        HotContent = Mass.FromKilograms(profile.Hot.Sum(p => p.Content) * dz);
        ColdContent = Mass.FromKilograms(profile.Cold.Sum(p => p.Content) * dz);
        Remarks = [.. RemarksOf(profile)];
    }

    /// <summary>The recuperator.</summary>
    public TubeRecuperator Recuperator { get; }

    /// <summary>The streams.</summary>
    public RecuperatorStreams Streams { get; }

    /// <summary>Heat that the stream which is cooled gives.</summary>
    public FigureBand<Power> Duty { get; }

    /// <summary>Conductance from stream to stream (U times A) over the whole length, W/K.</summary>
    public FigureBand<double> ConductanceWattsPerKelvin { get; }

    /// <summary>Pressure drop of the stream that is cooled; negative where condensing brings more pressure back than friction takes.</summary>
    public FigureBand<Pressure> HotPressureDrop { get; }

    /// <summary>Pressure drop of the stream that is warmed.</summary>
    public FigureBand<Pressure> ColdPressureDrop { get; }

    /// <summary>The stream that is cooled where it leaves.</summary>
    public State HotOutlet { get; }

    /// <summary>The stream that is warmed where it leaves.</summary>
    public State ColdOutlet { get; }

    /// <summary>Heat that came in from the surroundings.</summary>
    public Power HeatFromSurroundings { get; }

    /// <summary>Where both streams are closest in temperature.</summary>
    public PinchPoint Pinch { get; }

    /// <summary>Its place, from the warm end.</summary>
    public Length PinchPosition { get; }

    /// <summary>Both streams from the warm end to the cold end.</summary>
    public IReadOnlyList<TubeRecuperatorPoint> Points { get; }

    /// <summary>Share of the resistance that the film of the stream which is cooled has, by the heat it passes.</summary>
    public double HotFilmShare { get; }

    /// <summary>Share of the resistance that the film of the stream which is warmed has; what is left to 1 is the wall.</summary>
    public double ColdFilmShare { get; }

    /// <summary>Mass of the stream that is cooled inside, liquid by the void fraction: models differ in it by up to a factor of two.</summary>
    public Mass HotContent { get; }

    /// <summary>Mass of the stream that is warmed inside.</summary>
    public Mass ColdContent { get; }

    /// <summary>What to know about these figures.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        Recuperator.ToString(),
        ["figure", "value", "least", "greatest"],
        [
            Row("heat exchanged, W", Duty.Nominal.Watts, Duty.Least.Watts, Duty.Greatest.Watts, "0.0"),
            Row("conductance UA, W/K", (decimal)ConductanceWattsPerKelvin.Nominal, (decimal)ConductanceWattsPerKelvin.Least, (decimal)ConductanceWattsPerKelvin.Greatest, "0.00"),
            Row("pressure drop of the stream cooled, bar", (decimal)HotPressureDrop.Nominal.Bars, (decimal)HotPressureDrop.Least.Bars, (decimal)HotPressureDrop.Greatest.Bars, "0.000"),
            Row("pressure drop of the stream warmed, bar", (decimal)ColdPressureDrop.Nominal.Bars, (decimal)ColdPressureDrop.Least.Bars, (decimal)ColdPressureDrop.Greatest.Bars, "0.000"),
            ["stream cooled leaves at, K (degC)", Text($"{HotOutlet.Temperature.Kelvins:0.00} ({HotOutlet.Temperature.DegreesCelsius:0.00}), {HotOutlet.PhaseDescription}"), string.Empty, string.Empty],
            ["stream warmed leaves at, K (degC)", Text($"{ColdOutlet.Temperature.Kelvins:0.00} ({ColdOutlet.Temperature.DegreesCelsius:0.00}), {ColdOutlet.PhaseDescription}"), string.Empty, string.Empty],
            ["least difference, K", Text($"{Pinch.Approach.Kelvins:0.00} at {PinchPosition.Meters:0.00} m from the warm end"), string.Empty, string.Empty],
            ["resistance: film cooled / wall / film warmed, %", Text($"{100 * HotFilmShare:0} / {100 * (1 - HotFilmShare - ColdFilmShare):0} / {100 * ColdFilmShare:0}"), string.Empty, string.Empty],
            ["heat from the surroundings, W", Text($"{HeatFromSurroundings.Watts:0.00}"), string.Empty, string.Empty],
            ["content of both streams, g", Text($"{HotContent.Grams:0.0} + {ColdContent.Grams:0.0}"), string.Empty, string.Empty],
            .. Remarks.Select(r => (IReadOnlyList<string>)["note", r, string.Empty, string.Empty]),
        ]);

    private static IReadOnlyList<string> Row(string name, decimal nominal, decimal least, decimal greatest, string format) =>
        [name, .. new[] { nominal, least, greatest }.Select(x => x.ToString(format, CultureInfo.InvariantCulture))];

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static State StateAt(State inlet, double enthalpy, double pressure) => inlet.Fluid.AtEnthalpy(
        Pressure.FromPascals(pressure), MolarEnergy.FromJoulesPerMole(enthalpy * inlet.Fluid.Composition.MolarMass.KilogramsPerMole));

    private Power DutyOf(ExchangeProfile p) => Power.FromWatts(Streams.HotFlow.KilogramsPerSecond * p.HotFall);

    private static Pressure HotDrop(ExchangeProfile p) => Pressure.FromPascals(p.HotPressure[0] - p.HotPressure[^1]);

    private static Pressure ColdDrop(ExchangeProfile p) => Pressure.FromPascals(p.ColdPressure[^1] - p.ColdPressure[0]);

    private TubeRecuperatorPoint PointAt(ExchangeProfile p, int face)
    {
        ExchangeStream.Place hot = p.Hot[Math.Min(face, p.Segments - 1)];
        ExchangeStream.Place cold = p.Cold[Math.Min(face, p.Segments - 1)];
        return new(
            Recuperator.Length * face / p.Segments,
            Power.FromWatts(Streams.HotFlow.KilogramsPerSecond * (p.HotEnthalpy[face] - p.HotEnthalpy[^1])),
            Temperature.FromKelvins(p.HotTemperature[face]),
            Temperature.FromKelvins(p.ColdTemperature[face]),
            Pressure.FromPascals(p.HotPressure[face]),
            Pressure.FromPascals(p.ColdPressure[face]),
            hot.Quality,
            cold.Quality,
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(hot.Conductance / Recuperator.HotPerimeter),
            HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(cold.Conductance / Recuperator.ColdPerimeter),
            hot.Regime,
            cold.Regime);
    }

    private (double Hot, double Cold) Shares(ExchangeProfile p)
    {
        double dz = Recuperator.Length.Meters / p.Segments;
        double heat = 0;
        double hot = 0;
        double cold = 0;
        for (int i = 0; i < p.Segments; i++)
        {
            double q = Math.Abs(p.Heat[i]);
            heat += q;
            hot += q * p.Conductance[i] / (p.Hot[i].Conductance * dz);
            cold += q * p.Conductance[i] / (p.Cold[i].Conductance * dz);
        }

        return (hot / heat, cold / heat);
    }

    private IEnumerable<string> RemarksOf(ExchangeProfile p)
    {
        double hotDrop = (p.HotPressure[0] - p.HotPressure[^1]) / p.HotPressure[0];
        double coldDrop = (p.ColdPressure[^1] - p.ColdPressure[0]) / p.ColdPressure[^1];
        const double Budget = 0.1;
        if (coldDrop > Budget)
        {
            yield return Text($"The stream that is warmed loses {100 * coldDrop:0} % of its pressure: it boils the warmer at the cold end. A budget of 10 % is common practice, no source; take a wider passage or fewer metres.");
        }

        if (hotDrop > Budget)
        {
            yield return Text($"The stream that is cooled loses {100 * hotDrop:0} % of its pressure before the throttle.");
        }

        if (HotFilmShare > 0.7 || ColdFilmShare > 0.7)
        {
            yield return Text($"{100 * Math.Max(HotFilmShare, ColdFilmShare):0} % of the resistance is the film of the stream that is {(HotFilmShare > ColdFilmShare ? "cooled" : "warmed")}: a narrower passage there, or more surface, helps; anything elsewhere does not.");
        }

        if (p.IsWithoutAxialConduction)
        {
            yield return "Conduction along the metal is left out: the exchanger is much longer than the pinch leaves a use for, and no solution with it was found.";
        }

        yield return "Film coefficients of two phases are known within 30 to 50 % only; least and greatest take every film at one end of its stated uncertainty.";
    }
}
