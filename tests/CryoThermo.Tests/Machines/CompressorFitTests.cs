using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

public sealed class CompressorFitTests
{
    private static readonly WorkingFluid Fluid = WorkingFluid.Pure("R-134a");
    private static readonly VolumeFlow Swept = VolumeFlow.FromLitersPerSecond(0.8);
    private static readonly PressureRatioCurve Curve = new([(2, 0.55), (3, 0.58), (5, 0.57), (8, 0.50), (12, 0.42)]);
    private static readonly Compressor Machine = new(Swept, new(0.035, 0.03, 0.9), Curve, 0.2);

    private static readonly (double Low, double High)[] Pressures = [(1.2, 11), (1.6, 11), (2.2, 11), (3, 11), (3, 14), (1.6, 14), (4, 9)];

    [Fact]
    public void ExactPointsGiveTheMachineBack()
    {
        CompressorFit fit = CompressorFit.Of([.. Pressures.Select(p => Reading(p.Low, p.High, 0, 0))], Swept, 0.2);
        Assert.Equal(0.035, fit.Compressor.Filling.ClearanceFraction, 1e-9);
        Assert.Equal(0.97 * 0.9, fit.Compressor.Filling.VolumetricEfficiency(1), 1e-9);
        Assert.Equal(0, fit.FlowDeviation!.Value, 1e-9);

        // The true curve is no parabola: what is left is that.
        Assert.InRange(fit.PowerDeviation!.Value, 1e-6, 0.015);
        Assert.Equal(2, fit.EfficiencyDegree);
        Assert.Equal(7, fit.ToTable().Rows.Count);

        // The residuals told are those of the machine handed out.
        foreach (CompressorResidual r in fit.Residuals)
        {
            CompressorResult own = fit.Compressor.Compress(r.Reading.Suction, r.Reading.DischargePressure);
            Assert.Equal(((double)own.Power.Watts / (double)r.Reading.Power!.Value.Watts) - 1, r.Power!.Value, 1e-9);
            Assert.Equal((own.MassFlow.KilogramsPerSecond / r.Reading.MassFlow!.Value.KilogramsPerSecond) - 1, r.Flow!.Value, 1e-9);
        }
    }

    [Fact]
    public void ScatterIsToldAndAveragedOut()
    {
        Random random = new(3);
        CompressorReading[] readings =
            [.. Pressures.Concat(Pressures).Concat(Pressures).Select(p => Reading(p.Low, p.High, 0.02 * ((2 * random.NextDouble()) - 1), 0.02 * ((2 * random.NextDouble()) - 1)))];
        CompressorFit fit = CompressorFit.Of(readings, Swept);

        // Even scatter of 2 % has a standard deviation of 1.15 %.
        Assert.InRange(fit.FlowDeviation!.Value, 0.007, 0.015);
        Assert.Equal(0.035, fit.Compressor.Filling.ClearanceFraction, 0.006);
    }

    [Fact]
    public void FewPointsGiveFewFigures()
    {
        CompressorFit three = CompressorFit.Of([Reading(1.2, 11, 0, 0), Reading(2.2, 11, 0, 0), Reading(4, 9, 0, 0)], Swept);
        Assert.Equal(1, three.EfficiencyDegree);
        CompressorFit two = CompressorFit.Of([Reading(1.2, 11, 0, 0), Reading(2.2, 11, 0, 0)], Swept);
        Assert.Equal(0, two.EfficiencyDegree);
        Assert.NotEmpty(two.Remarks);
        Assert.Equal(0.035, two.Compressor.Filling.ClearanceFraction, 1e-9);
        Assert.Contains("two at pressure ratios at least a tenth apart", Assert.Throws<ArgumentException>(() => CompressorFit.Of([Reading(1.2, 11, 0, 0)], Swept)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => CompressorFit.Of([Reading(1.2, 11, 0, 0), Reading(1.2, 11.1, 0, 0)], Swept));
        CompressorReading flowOnly = new(Reading(1.2, 11, 0, 0).Suction, Pressure.FromBars(11), MassFlow.FromGramsPerSecond(2.4), null);
        Assert.Contains("none with a power", Assert.Throws<ArgumentException>(() => CompressorFit.Of(
            [flowOnly, new(Reading(3, 11, 0, 0).Suction, Pressure.FromBars(11), MassFlow.FromGramsPerSecond(8), null)], Swept)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void PointsWithPowerAloneUseTheFittedFlow()
    {
        CompressorReading full = Reading(3, 14, 0, 0);
        CompressorFit fit = CompressorFit.Of(
            [Reading(1.2, 11, 0, 0), Reading(2.2, 11, 0, 0), new(full.Suction, full.DischargePressure, null, full.Power), Reading(4, 9, 0, 0)], Swept);
        Assert.Null(fit.Residuals[2].Flow);

        // The flows are exact, so that the fitted flow is the one left out.
        CompressorFit complete = CompressorFit.Of([Reading(1.2, 11, 0, 0), Reading(2.2, 11, 0, 0), full, Reading(4, 9, 0, 0)], Swept);
        Assert.Equal(complete.Residuals[2].Power!.Value, fit.Residuals[2].Power!.Value, 1e-9);
    }

    [Fact]
    public void WhatCannotBeIsToldPlainly()
    {
        Assert.Contains("swept volume", Assert.Throws<ArgumentException>(() => CompressorFit.Of(
            [.. Pressures.Select(p => Reading(p.Low, p.High, 0, 0))], 0.5 * Swept)).Message, StringComparison.Ordinal);
        CompressorReading r = Reading(3, 14, 0, 0);
        Assert.Contains("perfect machine", Assert.Throws<ArgumentException>(() => CompressorFit.Of(
            [Reading(1.2, 11, 0, 0), new(r.Suction, r.DischargePressure, r.MassFlow, Power.FromWatts(0.3 * (double)r.Power!.Value.Watts))], Swept)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new CompressorReading(r.Suction, r.DischargePressure, null, null));
        Assert.Equal("dischargePressure", Assert.Throws<ArgumentOutOfRangeException>(() => new CompressorReading(r.Suction, r.Suction.Pressure, r.MassFlow, null)).ParamName);
        Assert.Equal("suction", Assert.Throws<ArgumentException>(() => new CompressorReading(Fluid.AtVaporFraction(Pressure.FromBars(2), 0.9), Pressure.FromBars(9), r.MassFlow, null)).ParamName);
    }

    private static CompressorReading Reading(double low, double high, double flowOff, double powerOff)
    {
        State suction = Fluid.At(Temperature.FromKelvins(300), Pressure.FromBars(low));
        CompressorResult result = Machine.Compress(suction, Pressure.FromBars(high));
        return new(suction, Pressure.FromBars(high), (1 + flowOff) * result.MassFlow, Power.FromWatts((1 + powerOff) * (double)result.Power.Watts));
    }
}
