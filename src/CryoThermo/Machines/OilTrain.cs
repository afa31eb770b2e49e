using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// Oil that leaves a compressor and passes separators in series: mist behind each, the vapour that none holds back, how long the sump lasts, how often to return oil.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Mist multiplies from stage to stage. Vapour is at most saturated: its mole fraction is vapour pressure over total pressure. Only an adsorber (charcoal) takes it out.
/// For the line that brings the oil back see <see cref="Flow.OilReturn"/>.
/// </remarks>
public sealed class OilTrain
{
    private OilTrain(
        State gas, MassFlow flow, FigureBand<double> fromCompressor, IReadOnlyList<OilSeparatorStage> stages, IReadOnlyList<FigureBand<double>> mist, FigureBand<double> vapor)
    {
        Gas = gas;
        Flow = flow;
        FromCompressorPartsPerMillion = fromCompressor;
        Stages = stages;
        MistPartsPerMillion = mist;
        VaporPartsPerMillion = vapor;
        FigureBand<double> last = mist.Count > 0 ? mist[^1] : fromCompressor;
        ToColdEndPartsPerMillion = new(last.Nominal + vapor.Nominal, last.Least + vapor.Least, last.Greatest + vapor.Greatest);
        Cautions = CautionsOf(this);
    }

    /// <summary>Usual carry-over of a small hermetic machine without separator: 1000 to 15 000 ppm (mass) (class values, from memory).</summary>
    public static FigureBand<double> HermeticCarryOver { get; } = new(3900, 1000, 15_000);

    /// <summary>Usual vapour pressure of polyol ester or mineral oil of viscosity class 32 at 300 to 320 K, Pa: 1e-3 to 1e-1 (from memory).</summary>
    public static FigureBand<double> OilVaporPascals { get; } = new(1e-2, 1e-3, 1e-1);

    /// <summary>What a cold end at 110 K bears, ppm (mass): 0.01 to 1 (from memory).</summary>
    public static LimitBand ColdEndTarget { get; } = new(0.01, 1, new("practice of mixed-gas coolers", FromMemory: true));

    /// <summary>The gas at the last separator.</summary>
    public State Gas { get; }

    /// <summary>Flow of the gas.</summary>
    public MassFlow Flow { get; }

    /// <summary>Oil from the compressor, ppm (mass).</summary>
    public FigureBand<double> FromCompressorPartsPerMillion { get; }

    /// <summary>The separators.</summary>
    public IReadOnlyList<OilSeparatorStage> Stages { get; }

    /// <summary>Mist behind each separator, ppm (mass).</summary>
    public IReadOnlyList<FigureBand<double>> MistPartsPerMillion { get; }

    /// <summary>Oil vapour behind the last separator, ppm (mass), at most.</summary>
    public FigureBand<double> VaporPartsPerMillion { get; }

    /// <summary>Mist and vapour that go to the cold end, ppm (mass).</summary>
    public FigureBand<double> ToColdEndPartsPerMillion { get; }

    /// <summary>What to mind.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Oil that leaves the compressor for good: what goes to the cold end; what the separators catch comes back.</summary>
    public FigureBand<MassFlow> Loss => Band(ToColdEndPartsPerMillion);

    /// <summary>Oil that the separators catch together.</summary>
    public FigureBand<MassFlow> Caught
    {
        get
        {
            FigureBand<double> oil = FromCompressorPartsPerMillion;
            double nominal = oil.Nominal - Behind(Stages, oil.Nominal, b => b.Nominal);
            double[] corners =
            [
                oil.Least - Behind(Stages, oil.Least, b => b.Least),
                oil.Least - Behind(Stages, oil.Least, b => b.Greatest),
                oil.Greatest - Behind(Stages, oil.Greatest, b => b.Least),
                oil.Greatest - Behind(Stages, oil.Greatest, b => b.Greatest),
            ];
            return Band(new(nominal, Math.Min(nominal, corners.Min()), Math.Max(nominal, corners.Max())));
        }
    }

    /// <summary>Follows the oil.</summary>
    /// <param name="gas">The gas at the last separator: its pressure and temperature decide on the vapour.</param>
    /// <param name="flow">Flow of the gas, above zero.</param>
    /// <param name="fromCompressorPartsPerMillion">Oil from the compressor, ppm (mass), nominal, least and greatest, 0 to 1e6; <see cref="HermeticCarryOver"/> where nothing is known.</param>
    /// <param name="stages">The separators in the order of the flow; none is allowed.</param>
    /// <param name="oilMolarMass">Molar mass of the oil, 100 to 2000 g/mol: 300 to 600 for refrigeration oils of class 32 (common practice, no source).</param>
    /// <param name="oilVaporPascals">Vapour pressure of the oil at the last separator, Pa, 0 to 1e4; <see cref="OilVaporPascals"/> where nothing is known.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range or order.</exception>
    public static OilTrain Of(
        State gas,
        MassFlow flow,
        FigureBand<double> fromCompressorPartsPerMillion,
        IReadOnlyList<OilSeparatorStage> stages,
        MolarMass oilMolarMass,
        FigureBand<double> oilVaporPascals)
    {
        ArgumentNullException.ThrowIfNull(gas);
        ArgumentNullException.ThrowIfNull(stages);
        Guard.Positive(flow.KilogramsPerSecond, "kg/s", nameof(flow));
        OilSeparatorStage.Ordered(fromCompressorPartsPerMillion, 1e6, "ppm (mass)", nameof(fromCompressorPartsPerMillion));
        OilSeparatorStage.Ordered(oilVaporPascals, 1e4, "Pa", nameof(oilVaporPascals));
        double oil = Guard.InRange(oilMolarMass.KilogramsPerMole, 0.1, 2, "kg/mol", nameof(oilMolarMass));
        List<FigureBand<double>> mist = [];
        FigureBand<double> before = fromCompressorPartsPerMillion;
        foreach (OilSeparatorStage stage in stages)
        {
            ArgumentNullException.ThrowIfNull(stage, nameof(stages));
            before = new(stage.Behind(before.Nominal, b => b.Nominal), stage.Behind(before.Least, b => b.Least), stage.Behind(before.Greatest, b => b.Greatest));
            mist.Add(before);
        }

        double perPascal = 1e6 * oil / (gas.Pressure.Pascals * gas.Fluid.Composition.MolarMass.KilogramsPerMole);

        // No more vapour than there was oil.
        return new(
            gas,
            flow,
            fromCompressorPartsPerMillion,
            [.. stages],
            mist,
            new(
                Math.Min(perPascal * oilVaporPascals.Nominal, fromCompressorPartsPerMillion.Nominal),
                Math.Min(perPascal * oilVaporPascals.Least, fromCompressorPartsPerMillion.Least),
                Math.Min(perPascal * oilVaporPascals.Greatest, fromCompressorPartsPerMillion.Greatest)));
    }

    /// <summary>How long until the sump has lost what it may lose, when nothing is returned: least with the greatest carry-over.</summary>
    /// <param name="allowance">Mass of oil that may leave the sump before its level is low, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The allowance is not above zero, or no oil leaves.</exception>
    public FigureBand<Duration> UntilSumpIsLow(Mass allowance) => Times(allowance, Band(FromCompressorPartsPerMillion), nameof(allowance));

    /// <summary>How long until oil lost to the cold side brings the sump low, when the separators return what they catch.</summary>
    /// <param name="allowance">Mass of oil that may leave the sump before its level is low, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The allowance is not above zero, or no oil leaves.</exception>
    public FigureBand<Duration> UntilSumpIsLowWithReturn(Mass allowance) => Times(allowance, Loss, nameof(allowance));

    /// <summary>Longest time between two returns of oil: the smaller of what the separator's reservoir holds and what the sump may miss, over what is caught.</summary>
    /// <param name="reservoir">Mass of oil the separator holds before it lets mist through again, above zero.</param>
    /// <param name="allowance">Mass of oil that may leave the sump before its level is low, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A mass is not above zero, or nothing is caught.</exception>
    public FigureBand<Duration> ReturnInterval(Mass reservoir, Mass allowance)
    {
        Guard.Positive(reservoir.Kilograms, "kg", nameof(reservoir));
        Guard.Positive(allowance.Kilograms, "kg", nameof(allowance));
        return Times(reservoir < allowance ? reservoir : allowance, Caught, nameof(reservoir));
    }

    /// <summary>The train as a table for notebooks and reports.</summary>
    public ResultTable ToTable()
    {
        List<IReadOnlyList<string>> rows = [Row("from the compressor", FromCompressorPartsPerMillion)];
        rows.AddRange(Stages.Zip(MistPartsPerMillion, (s, m) => Row($"mist behind {s.Name}", m)));
        rows.Add(Row("oil vapour", VaporPartsPerMillion));
        rows.Add(Row("to the cold end", ToColdEndPartsPerMillion));
        return new("Oil, ppm (mass)", ["place", "nominal", "least", "greatest"], rows);

        static IReadOnlyList<string> Row(string place, FigureBand<double> band) => [place, $"{band.Nominal:G3}", $"{band.Least:G3}", $"{band.Greatest:G3}"];
    }

    private static double Behind(IReadOnlyList<OilSeparatorStage> stages, double oil, Func<FigureBand<double>, double> end) =>
        stages.Aggregate(oil, (before, stage) => stage.Behind(before, end));

    private FigureBand<MassFlow> Band(FigureBand<double> partsPerMillion) => new(
        MassFlow.FromKilogramsPerSecond(1e-6 * partsPerMillion.Nominal * Flow.KilogramsPerSecond),
        MassFlow.FromKilogramsPerSecond(1e-6 * partsPerMillion.Least * Flow.KilogramsPerSecond),
        MassFlow.FromKilogramsPerSecond(1e-6 * partsPerMillion.Greatest * Flow.KilogramsPerSecond));

    private static FigureBand<Duration> Times(Mass amount, FigureBand<MassFlow> rate, string parameter)
    {
        double mass = Guard.Positive(amount.Kilograms, "kg", parameter);
        return new(Time(rate.Nominal), Time(rate.Greatest), Time(rate.Least));

        Duration Time(MassFlow flow) => Duration.FromSeconds(mass / Guard.Positive(flow.KilogramsPerSecond, "kg/s of oil", parameter));
    }

    private static IReadOnlyList<Caution> CautionsOf(OilTrain train)
    {
        LimitCheck check = new("oil to the cold end", "ppm (mass)", train.ToColdEndPartsPerMillion.Nominal, ColdEndTarget, IsLeast: false);
        return check.Verdict == LimitVerdict.Kept
            ? []
            :
            [
                new(
                    check.Verdict == LimitVerdict.Broken ? CautionSeverity.Warning : CautionSeverity.Notice,
                    "Oil goes to the cold end",
                    check.ToString(),
                    "oil freezes in recuperator and throttle; of a few ppm a capillary is blocked within days to weeks",
                    $"Add a coalescing filter, and charcoal behind it for the vapour; keep some liquid hydrocarbon at 200 to 250 K, which washes oil on. {Caution.Deference}",
                    ColdEndTarget.Source),
            ];
    }
}
