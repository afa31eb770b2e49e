using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class OilTrainTests
{
    private static readonly State Gas = WorkingFluid.Mixture(("methane", 0.5), ("propane", 0.5)).At(Temperature.FromKelvins(310), Pressure.FromBars(15));
    private static readonly MassFlow Flow = MassFlow.FromGramsPerSecond(3);
    private static readonly MolarMass Oil = MolarMass.FromGramsPerMole(450);

    private static OilTrain Train(params OilSeparatorStage[] stages) => OilTrain.Of(Gas, Flow, OilTrain.HermeticCarryOver, stages, Oil, OilTrain.OilVaporPascals);

    [Fact]
    public void StagesMultiply()
    {
        OilTrain train = OilTrain.Of(
            Gas,
            Flow,
            new(5000, 1000, 10_000),
            [OilSeparatorStage.OfEfficiency("first", new(0.95, 0.9, 0.99)), OilSeparatorStage.OfEfficiency("second", new(0.999, 0.99, 0.9999))],
            Oil,
            new(0, 0, 0));
        Assert.Equal(250, train.MistPartsPerMillion[0].Nominal, 1e-9);
        Assert.Equal(0.25, train.MistPartsPerMillion[1].Nominal, 1e-9);
        Assert.Equal(1000 * 0.01 * 1e-4, train.ToColdEndPartsPerMillion.Least, 1e-9);
        Assert.Equal(10_000 * 0.1 * 0.01, train.ToColdEndPartsPerMillion.Greatest, 1e-9);

        // What comes out of the compressor is caught or lost.
        Assert.Equal(5000e-6 * 3e-3, train.Caught.Nominal.KilogramsPerSecond + train.Loss.Nominal.KilogramsPerSecond, 1e-15);
    }

    [Fact]
    public void ClassValuesAndVapourSlip()
    {
        OilTrain train = Train(OilSeparatorStage.Impingement, OilSeparatorStage.Coalescing);
        Assert.Equal(5, train.MistPartsPerMillion[1].Greatest, 1e-12);

        // 0.01 Pa of 15 bar is 6.7e-9 in moles; times 450 over the 30.07 g/mol of the gas (16.043 and 44.096 in halves) it is 0.0998 ppm in mass.
        Assert.Equal(1e6 * 1e-2 / 15e5 * 450 / 30.07, train.VaporPartsPerMillion.Nominal, 1e-4);
        Assert.Contains(train.Cautions, c => c.Title == "Oil goes to the cold end");
        Assert.Equal(5, train.ToTable().Rows.Count);

        // A separator known by its outlet makes no mist of its own.
        OilTrain clean = OilTrain.Of(Gas, Flow, new(0.02, 0.01, 0.03), [OilSeparatorStage.Impingement], Oil, new(0, 0, 0));
        Assert.Equal(0.02, clean.MistPartsPerMillion[0].Nominal, 1e-15);
        Assert.Equal(CryoThermo.Diagnostics.CautionSeverity.Notice, Assert.Single(clean.Cautions).Severity);
        Assert.Empty(OilTrain.Of(Gas, Flow, new(0.005, 0.001, 0.01), [], Oil, new(0, 0, 0)).Cautions);
    }

    [Fact]
    public void TimesFollowFromMassesAndRates()
    {
        OilTrain train = Train(OilSeparatorStage.Impingement);

        // 1000 to 15 000 ppm of 3 g/s are 3 to 45 mg/s: 100 g are gone in 9.3 h to 37 minutes.
        FigureBand<Duration> low = train.UntilSumpIsLow(Mass.FromGrams(100));
        Assert.Equal(0.1 / 45e-6, low.Least.Seconds, 1e-6);
        Assert.Equal(0.1 / 3e-6, low.Greatest.Seconds, 1e-6);
        Assert.True(train.UntilSumpIsLowWithReturn(Mass.FromGrams(100)).Nominal > low.Nominal);
        FigureBand<Duration> interval = train.ReturnInterval(Mass.FromGrams(30), Mass.FromGrams(100));
        Assert.Equal(0.03 / ((3900 - 158) * 1e-6 * 3e-3), interval.Nominal.Seconds, 1e-6);
        Assert.Equal(train.ReturnInterval(Mass.FromGrams(100), Mass.FromGrams(30)).Nominal.Seconds, interval.Nominal.Seconds, 1e-9);
        Assert.True(interval.Least <= interval.Nominal && interval.Nominal <= interval.Greatest);
    }

    [Fact]
    public void FiguresOutOfRangeAreRefused()
    {
        Assert.Equal("fromCompressorPartsPerMillion", Assert.Throws<ArgumentOutOfRangeException>(() => OilTrain.Of(Gas, Flow, new(5, 6, 7), [], Oil, new(0, 0, 0))).ParamName);
        Assert.Equal("efficiency", Assert.Throws<ArgumentOutOfRangeException>(() => OilSeparatorStage.OfEfficiency("x", new(0.9, 0.8, 1.2))).ParamName);
        Assert.Equal("oilMolarMass", Assert.Throws<ArgumentOutOfRangeException>(() => OilTrain.Of(Gas, Flow, new(5, 5, 5), [], MolarMass.FromGramsPerMole(20), new(0, 0, 0))).ParamName);
        Assert.Equal("flow", Assert.Throws<ArgumentOutOfRangeException>(() => OilTrain.Of(Gas, MassFlow.Zero, new(5, 5, 5), [], Oil, new(0, 0, 0))).ParamName);
        Assert.Equal("allowance", Assert.Throws<ArgumentOutOfRangeException>(() => Train().UntilSumpIsLow(Mass.Zero)).ParamName);
        Assert.Equal("reservoir", Assert.Throws<ArgumentOutOfRangeException>(() => Train().ReturnInterval(Mass.FromGrams(30), Mass.FromGrams(100))).ParamName);
    }

    /// <summary>
    /// A buffer is judged by StandingCharge: all gas, p = n R T / V within the gas's own deviation; a hot day of 50 degC against 20 degC is 323/293 = 1.10 for an
    /// ideal gas (from memory, arithmetic).
    /// </summary>
    [Fact]
    public void AHotDayRaisesTheStandingPressureAsTheGasDoes()
    {
        WorkingFluid charge = WorkingFluid.Mixture(("nitrogen", 0.4), ("methane", 0.4), ("ethane", 0.2));
        StandingCharge standing = new(charge, AmountOfSubstance.FromMoles(1), [new("machine", Volume.FromLiters(5), Temperature.FromKelvins(293))], Pressure.FromBars(1));
        double cold = standing.At(Temperature.FromKelvins(293.15)).AbsolutePressure.Pascals;
        double hot = standing.At(Temperature.FromKelvins(323.15)).AbsolutePressure.Pascals;
        Assert.Equal(8.314462618 * 293.15 / 5e-3, cold, 0.02 * cold);
        Assert.Equal(323.15 / 293.15, hot / cold, 0.005);

        // The buffer that brings it to 3 bar, checked by a flash of its own.
        Volume buffer = standing.BufferVolumeFor(Pressure.FromBars(3), Temperature.FromKelvins(323.15));
        State with = charge.AtDensity(Temperature.FromKelvins(323.15), Molarity.FromMolesPerCubicMeter(1 / (5e-3 + buffer.CubicMeters)));
        Assert.Equal(3, with.Pressure.Bars, 1e-6);
    }
}
