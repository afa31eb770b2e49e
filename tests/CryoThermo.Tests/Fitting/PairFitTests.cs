using CryoThermo.Diagnostics;
using CryoThermo.Fitting;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Fitting;

public sealed class PairFitTests
{
    private static readonly PairParameter[] Strength = [PairParameter.TemperatureGamma];
    private static readonly PairParameter[] StrengthAndAsymmetry = [PairParameter.TemperatureGamma, PairParameter.TemperatureBeta];

    private static PairFit Fit => new("krypton", "methane");

    [Fact]
    public void ExactPointsGiveTheParametersTheyWereMadeWith()
    {
        PairFitResult result = Fit.Fit(
            [PairParameter.TemperatureGamma, PairParameter.TemperatureBeta, PairParameter.VolumeGamma],
            [SyntheticPoints.BubblePoints(1, 0), SyntheticPoints.Densities(1)]);
        Assert.Equal(SyntheticPoints.Truth.Temperature.Gamma, result.Parameters[0].Value, 2e-4);
        Assert.Equal(SyntheticPoints.Truth.Temperature.Beta, result.Parameters[1].Value, 2e-4);
        Assert.Equal(SyntheticPoints.Truth.Volume.Gamma, result.Parameters[2].Value, 3 * result.Parameters[2].StandardError);
        Assert.InRange(result.Parameters[2].StandardError, 1e-6, 0.01);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void ScatteredPointsGiveThemWithinTheStandardErrors(int seed)
    {
        PairFitResult result = new PairFit("krypton", "methane", null, SyntheticPoints.Catalog.With(SyntheticPoints.Truth with { Temperature = new(1, 1) }))
            .Fit(StrengthAndAsymmetry, [SyntheticPoints.BubblePoints(seed)]);
        foreach ((FittedParameter parameter, double truth) in result.Parameters.Zip([SyntheticPoints.Truth.Temperature.Gamma, SyntheticPoints.Truth.Temperature.Beta]))
        {
            Assert.InRange(parameter.StandardError, 1e-4, 5e-3);
            Assert.InRange(Math.Abs(parameter.Value - truth), 0, 3 * parameter.StandardError);
            Assert.False(parameter.IsAtLimit);
        }

        Assert.InRange(result.CorrelationOf(PairParameter.TemperatureGamma, PairParameter.TemperatureBeta), -0.999, 0.999);
        Assert.Equal(1, result.CorrelationOf(PairParameter.TemperatureBeta, PairParameter.TemperatureBeta));
        Assert.Equal(15, result.PointCount);
        Assert.Empty(result.FailedPoints);
        Assert.All(result.Sets, s => Assert.True(s.After.MeanAbsolute < 0.5 * s.Before.MeanAbsolute));
    }

    [Fact]
    public void AnOutlierDoesNotMoveTheAnswerBeyondItsError()
    {
        MeasurementSet clean = SyntheticPoints.BubblePoints(4);
        List<Measurement> points = [.. clean.Points];
        Measurement wrong = points[7];
        points[7] = Measurement.OfBubblePressure(wrong.Temperature, wrong.Pressure * 1.4, wrong.Fractions, null, null, wrong.Uncertainty);
        FittedParameter without = Fit.Fit(Strength, [clean]).Parameters[0];
        FittedParameter with = Fit.Fit(Strength, [new(clean.Name, clean.Source, clean.Components, points)]).Parameters[0];
        Assert.InRange(Math.Abs(with.Value - without.Value), 0, without.StandardError);

        // It stands out in the table instead.
        SetDeviations row = Assert.Single(
            Fit.Fit(Strength, [new(clean.Name, clean.Source, clean.Components, points)]).Sets, s => s.Kind == MeasurementKind.BubblePressure);
        Assert.InRange(row.After.Worst, -0.35, -0.2);
    }

    [Fact]
    public void PointsHeldOutAreComparedButNotFitted()
    {
        (MeasurementSet fitted, MeasurementSet heldOut) = SyntheticPoints.BubblePoints(5).HoldOutIsotherms();
        PairFitResult result = Fit.Fit(Strength, [fitted], [heldOut]);
        PairFitResult alone = Fit.Fit(Strength, [fitted]);
        Assert.Equal(alone.Parameters, result.Parameters);
        SetDeviations row = Assert.Single(result.Sets, s => s.IsHeldOut && s.Kind == MeasurementKind.BubblePressure);
        Assert.Equal(5, row.After.Count);
        Assert.True(row.After.MeanAbsolute < 3 * SyntheticPoints.Scatter && row.Before.MeanAbsolute > row.After.MeanAbsolute);
        Assert.Contains("held out made bubble points", result.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void TheFileOfAFitGivesTheSameFluid()
    {
        PairFitResult result = Fit.Fit(StrengthAndAsymmetry, [SyntheticPoints.BubblePoints(6)]);
        SubstanceCatalog read = SubstanceCatalog.Default.WithPairs(result.ToPairFile(), "fitted.json");
        MultiFluidPair pair = read.MultiFluidPairOf(read.Find("krypton"), read.Find("methane"));
        MultiFluidPair fitted = (MultiFluidPair)result.Pair;
        Assert.Equal(fitted, pair);
        Assert.Equal(PairTier.FittedHere, pair.Tier);
        Assert.Equal(result.Parameters[0].StandardError, pair.StandardErrors!.TemperatureGamma, 1e-6);
        Assert.Equal(0, pair.StandardErrors.VolumeGamma);
        Assert.Contains("made bubble points: 15 points", pair.FittedTo, StringComparison.Ordinal);
        Assert.Null(pair.HalfWidth95);
        Assert.Equal(Pressure(result.ToCatalog()), Pressure(read));
        Assert.NotEqual(Pressure(SubstanceCatalog.Default), Pressure(read));

        static double Pressure(SubstanceCatalog catalog) =>
            catalog.Mixture(("methane", 0.4), ("krypton", 0.6)).BubblePoint(Temperature.FromKelvins(130)).Pressure.Pascals;
    }

    [Fact]
    public void TheInteractionOfACubicIsFittedToo()
    {
        CubicPair truth = SyntheticPoints.Catalog.PairOf(SyntheticPoints.Catalog.Find("krypton"), SyntheticPoints.Catalog.Find("methane"), CubicModelKind.PengRobinson)
            with
        { InteractionParameter = 0.047 };
        MeasurementSet points = SyntheticPoints.BubblePoints(7, SyntheticPoints.Scatter, SyntheticPoints.Catalog.With(truth), FluidModel.PengRobinson);
        PairFitResult result = new PairFit("krypton", "methane", FluidModel.PengRobinson).Fit([PairParameter.Interaction], [points]);
        Assert.Equal(0.047, result.Parameters[0].Value, 3 * result.Parameters[0].StandardError);
        SubstanceCatalog read = SubstanceCatalog.Default.WithPairs(result.ToPairFile(), "fitted.json");
        CubicPair pair = read.PairOf(read.Find("krypton"), read.Find("methane"), CubicModelKind.PengRobinson);
        Assert.Equal(result.Pair, pair);
        Assert.NotNull(pair.StandardError);
    }

    /// <summary>125 to 155 K: 298.15 K/T - 1 goes from 1.39 to 0.92, so that k at 298.15 K and c are closely correlated.</summary>
    [Theory]
    [InlineData(0.02, 0.03)]
    [InlineData(0.06, -0.05)]
    public void AnInteractionLinearInTheInverseTemperatureIsFittedToo(double k, double c)
    {
        CubicPair start = SyntheticPoints.Catalog.PairOf(
            SyntheticPoints.Catalog.Find("krypton"), SyntheticPoints.Catalog.Find("methane"), CubicModelKind.PengRobinson);
        CubicPair truth = start with { InteractionParameter = k, InverseTemperatureCoefficient = c };
        PairParameter[] both = [PairParameter.Interaction, PairParameter.InverseTemperatureCoefficient];
        MeasurementSet exact = SyntheticPoints.BubblePoints(1, 0, SyntheticPoints.Catalog.With(truth), FluidModel.PengRobinson);
        PairFitResult without = new PairFit("krypton", "methane", FluidModel.PengRobinson).Fit(both, [exact]);
        Assert.Equal(k, without.Parameters[0].Value, 1e-5);
        Assert.Equal(c, without.Parameters[1].Value, 1e-5);

        MeasurementSet points = SyntheticPoints.BubblePoints(12, SyntheticPoints.Scatter, SyntheticPoints.Catalog.With(truth), FluidModel.PengRobinson);
        PairFitResult result = new PairFit("krypton", "methane", FluidModel.PengRobinson).Fit(both, [points]);
        Assert.Equal(start.InteractionParameter, result.Parameters[0].Start);
        Assert.Equal(0, result.Parameters[1].Start);
        Assert.All(result.Parameters, p => Assert.InRange(p.StandardError, 1e-4, 0.02));
        Assert.InRange(Math.Abs(result.Parameters[0].Value - k), 0, 3 * result.Parameters[0].StandardError);
        Assert.InRange(Math.Abs(result.Parameters[1].Value - c), 0, 3 * result.Parameters[1].StandardError);
        Assert.InRange(result.CorrelationOf(both[0], both[1]), -1, -0.9);
        Assert.All(result.Sets, s => Assert.True(s.After.MeanAbsolute < s.Before.MeanAbsolute));

        // Where the points are, k(T) is known much better than either.
        CubicPair fitted = (CubicPair)result.Pair;
        Assert.InRange(Math.Abs(fitted.InteractionAt(140) - truth.InteractionAt(140)), 0, 0.3 * result.Parameters[0].StandardError);
        SubstanceCatalog read = SubstanceCatalog.Default.WithPairs(result.ToPairFile(), "fitted.json");
        Assert.Equal(fitted, read.PairOf(read.Find("krypton"), read.Find("methane"), CubicModelKind.PengRobinson));
        Assert.Equal(result.Parameters[1].StandardError, fitted.InverseTemperatureStandardError!.Value, 1e-6);
    }

    [Fact]
    public void TheCoefficientEndsAtItsLimitAndSaysSo()
    {
        CubicPair truth = SyntheticPoints.Catalog.PairOf(SyntheticPoints.Catalog.Find("krypton"), SyntheticPoints.Catalog.Find("methane"), CubicModelKind.PengRobinson)
            with
        { InteractionParameter = 0.02, InverseTemperatureCoefficient = 0.05 };
        PairFit fit = new("krypton", "methane", FluidModel.PengRobinson) { LargestInverseTemperatureCoefficient = 0.02 };
        FittedParameter coefficient = fit.Fit(
            [PairParameter.Interaction, PairParameter.InverseTemperatureCoefficient],
            [SyntheticPoints.BubblePoints(2, 0, SyntheticPoints.Catalog.With(truth), FluidModel.PengRobinson)]).Parameters[1];
        Assert.Equal(0.02, coefficient.Value, 1e-9);
        Assert.True(coefficient.IsAtLimit);
    }

    [Fact]
    public void APointWithoutAnAnswerIsToldAndDoesNotEndTheFit()
    {
        // Above the critical temperatures of both there is no bubble point.
        MeasurementSet good = SyntheticPoints.BubblePoints(8);
        Measurement impossible = Measurement.OfBubblePressure(Temperature.FromKelvins(260), UnitsNet.Pressure.FromBars(60), [0.5, 0.5]) with { Place = "the impossible one" };
        PairFitResult result = Fit.Fit(Strength, [new(good.Name, good.Source, good.Components, [.. good.Points, impossible])]);
        Assert.Contains("the impossible one", Assert.Single(result.FailedPoints), StringComparison.Ordinal);
        Assert.Equal(1, result.Sets.First(s => s.Kind == MeasurementKind.BubblePressure).After.NotSolved);
        Assert.Equal(Fit.Fit(Strength, [good]).Parameters[0].Value, result.Parameters[0].Value, 1e-3);
    }

    [Fact]
    public void PointsThatSayNothingEndInAnExceptionThatSaysSo()
    {
        MeasurementSet good = SyntheticPoints.BubblePoints(9);
        Measurement impossible = Measurement.OfBubblePressure(Temperature.FromKelvins(260), UnitsNet.Pressure.FromBars(60), [0.5, 0.5]);
        ConvergenceException error = Assert.Throws<ConvergenceException>(() => Fit.Fit(Strength, [new("none", good.Source, good.Components, [impossible])]));
        Assert.Contains("no answer at any point", error.Message, StringComparison.Ordinal);

        // One point cannot tell strength from the volume.
        MeasurementSet single = new("single", good.Source, good.Components, [good.Points[7]]);
        Assert.Contains("at least as many", Assert.Throws<ArgumentException>(
            () => Fit.Fit([PairParameter.TemperatureGamma, PairParameter.VolumeGamma, PairParameter.VolumeBeta], [single])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AWrongQuestionIsRefused()
    {
        MeasurementSet points = SyntheticPoints.BubblePoints(10);
        Assert.Contains("no parameter of a pair", Assert.Throws<ArgumentException>(() => Fit.Fit([PairParameter.Interaction], [points])).Message, StringComparison.Ordinal);
        Assert.Contains("no parameter of a pair", Assert.Throws<ArgumentException>(() => Fit.Fit([PairParameter.InverseTemperatureCoefficient], [points])).Message, StringComparison.Ordinal);
        Assert.Contains("no departure function", Assert.Throws<ArgumentException>(() => Fit.Fit([PairParameter.DepartureWeight], [points])).Message, StringComparison.Ordinal);
        Assert.Contains("each once", Assert.Throws<ArgumentException>(() => Fit.Fit([], [points])).Message, StringComparison.Ordinal);
        Assert.Contains("must hold xenon and methane", Assert.Throws<ArgumentException>(() => new PairFit("xenon", "methane").Fit(Strength, [points])).Message, StringComparison.Ordinal);
        Assert.Contains("never altered", Assert.Throws<ArgumentException>(() => new PairFit("nitrogen", "methane", FluidModel.MultiFluid)).Message, StringComparison.Ordinal);
        Assert.Contains("as published", Assert.Throws<ArgumentException>(() => new PairFit("neon", "methane", FluidModel.PengRobinsonQuantumCorrected)).Message, StringComparison.Ordinal);
        Assert.Contains("pentafluoroethane", Assert.Throws<ArgumentException>(() => new PairFit("R-125", "propane")).Message, StringComparison.Ordinal);
        Assert.Contains("generalised", Assert.Throws<ArgumentException>(() => Fit.WithDeparture("none", 1)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Fit.Fit(Strength, [points]).CorrelationOf(PairParameter.VolumeBeta, PairParameter.TemperatureGamma));
        using CancellationTokenSource cancelled = new();
        cancelled.Cancel();
        Assert.Throws<OperationCanceledException>(() => Fit.Fit(Strength, [points], null, cancelled.Token));
    }

    [Fact]
    public void TheWeightOfANamedDepartureFunctionCanBeFitted()
    {
        PairFit fit = new PairFit("methane", "krypton").WithDeparture("generalised", 0);
        SubstanceCatalog catalog = SyntheticPoints.Catalog.With(((MultiFluidPair)fit.Start) with { DepartureWeight = 0.4 });
        PairFitResult result = fit.Fit([PairParameter.DepartureWeight], [SyntheticPoints.BubblePoints(11, SyntheticPoints.Scatter, catalog)]);
        Assert.Equal(0.4, result.Parameters[0].Value, 3 * result.Parameters[0].StandardError);
        Assert.InRange(result.Parameters[0].StandardError, 1e-4, 0.1);
        SubstanceCatalog read = SubstanceCatalog.Default.WithPairs(result.ToPairFile(), "fitted.json");
        Assert.Equal(result.Parameters[0].Value, read.MultiFluidPairOf(read.Find("methane"), read.Find("krypton")).DepartureWeight, 1e-6);
    }
}
