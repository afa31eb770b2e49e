using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

/// <summary>Displacement, curves, motor, limits and start of a compressor.</summary>
public sealed class CompressorDescriptionTests
{
    private static readonly CylinderFilling Filling = new(0.03, 0.02, 0.9);

    /// <summary>T (1 + (r^((g-1)/g) - 1)/eta): nitrogen of 300 K at a ratio of 8, efficiency 0.7: 647.8 K; a blend with g = 1.2: 477.5 K (arithmetic).</summary>
    [Theory]
    [InlineData(1.4, 647.8)]
    [InlineData(1.2, 477.5)]
    public void TheDischargeFormulaGivesTheKnownFigures(double exponent, double expected) =>
        Assert.Equal(expected, 300 * (1 + ((Math.Pow(8, (exponent - 1) / exponent) - 1) / 0.7)), 0.06);

    [Fact]
    public void RealNitrogenComesNearTheFormulaAndIsTooHotForOneStage()
    {
        // The heat capacity of nitrogen rises by 4 % from 300 to 650 K (any table), which the formula leaves out: real gas is cooler by up to 4 % of the rise of 348 K.
        State suction = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(1));
        CompressorResult result = new Compressor(VolumeFlow.FromLitersPerSecond(1), Filling, PressureRatioCurve.Constant(0.7)).Compress(suction, Pressure.FromBars(8));
        Assert.InRange(result.Discharge.Temperature.Kelvins, 647.8 - 14, 647.8);
        LimitReport report = CompressorLimits.Usual.Assess(result);
        LimitCheck line = report.Checks.Single(c => c.Name == "discharge line");
        Assert.Equal(LimitVerdict.Broken, line.Verdict);
        Assert.Equal(result.Discharge.Temperature.Kelvins - 393, line.ExcessBeyondFarEnd, 1e-9);
        Assert.Contains(report.Cautions, c => c.Title == "Oil cokes on the valve" && c.Severity == CautionSeverity.Warning);
        Assert.All(report.Cautions, c => Assert.EndsWith("Local codes and licensed practice decide.", c.Advice, StringComparison.Ordinal));
    }

    [Fact]
    public void BalancesHoldByStatesOfTheirOwn()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
        Compressor compressor = new(
            CompressorDisplacement.OnMains(Volume.FromCubicCentimeters(12), Frequency.FromHertz(50), 2, 0.04).SweptVolumeFlow,
            Filling,
            CompressorClass.SmallHermeticReciprocating.Efficiency,
            0.3);
        CompressorResult result = compressor.Compress(blend.At(Temperature.FromKelvins(295), Pressure.FromBars(2)), Pressure.FromBars(16));
        State before = blend.At(result.Suction.Temperature, result.Suction.Pressure);
        State after = blend.At(result.Discharge.Temperature, result.Discharge.Pressure);
        double flow = result.MolarFlow.MolesPerSecond;
        double gained = flow * (after.MolarEnthalpy - before.MolarEnthalpy).JoulesPerMole;
        double power = (double)result.Power.Watts;
        Assert.Equal(power, gained + (double)result.ShellHeat.Watts, 1e-6 * power);
        Assert.Equal(0.3 * power, (double)result.ShellHeat.Watts, 1e-9 * power);

        // Mass: the volume drawn in at suction conditions, and what is left of the swept volume.
        double swept = 12e-6 * 48;
        Assert.Equal(swept, compressor.SweptVolumeFlow.CubicMetersPerSecond, 1e-12);
        State isentropic = blend.AtEntropy(result.Discharge.Pressure, before.MolarEntropy);
        double expanded = isentropic.Density.KilogramsPerCubicMeter / before.Density.KilogramsPerCubicMeter;
        Assert.Equal(swept * (1 - (0.03 * (expanded - 1))) * 0.98 * 0.9 * before.Density.KilogramsPerCubicMeter, result.MassFlow.KilogramsPerSecond, 1e-9);
        Assert.Equal(flow * (isentropic.MolarEnthalpy - before.MolarEnthalpy).JoulesPerMole / result.IsentropicEfficiency, power, 1e-6 * power);

        // Second law: what the gas gains and the shell gives to the room.
        double made = (flow * (after.MolarEntropy - before.MolarEntropy).JoulesPerMoleKelvin) + ((double)result.ShellHeat.Watts / 298);
        Assert.True(made > 0);
        Assert.True(result.AtValve.Temperature > result.Discharge.Temperature);
    }

    [Fact]
    public void ConstantEfficienciesAreTheOldCompressor()
    {
        State suction = WorkingFluid.Pure("methane").At(Temperature.FromKelvins(295), Pressure.FromBars(1.5));
        CompressorResult plain = new Compressor(VolumeFlow.FromLitersPerSecond(1), 0.6, 0.75, 0.2).Compress(suction, Pressure.FromBars(9));
        CompressorResult described = new Compressor(
            VolumeFlow.FromLitersPerSecond(1), CylinderFilling.Constant(0.75), PressureRatioCurve.Constant(0.6), 0.2).Compress(suction, Pressure.FromBars(9));
        Assert.Equal(plain.MolarFlow.MolesPerSecond, described.MolarFlow.MolesPerSecond, 0.0);
        Assert.Equal((double)plain.Power.Watts, (double)described.Power.Watts, 0.0);
        Assert.Equal(1e-3 * 0.75 * suction.MolarDensity.MolesPerCubicMeter, plain.MolarFlow.MolesPerSecond, 1e-15);
        Assert.Equal(0.6, plain.IsentropicEfficiency, 0.0);
        Assert.False(plain.IsEfficiencyExtrapolated);
    }

    [Fact]
    public void TheCurveGoesThroughItsPointsAndTellsWhereItEnds()
    {
        PressureRatioCurve curve = CompressorClass.SmallHermeticReciprocating.Efficiency;
        foreach ((double ratio, double efficiency) in ((double, double)[])[(3, 0.50), (6, 0.50), (10, 0.45), (15, 0.35)])
        {
            Assert.Equal(efficiency, curve.At(ratio), 1e-12);
            Assert.True(curve.Covers(ratio));
        }

        double before = 1;
        for (double ratio = 3; ratio < 15; ratio += 0.1)
        {
            double now = curve.At(ratio);
            Assert.True(now <= before + 1e-12);
            before = now;
        }

        Assert.Equal(0.35, curve.At(40), 1e-12);
        Assert.False(curve.Covers(40));
        Assert.False(curve.Covers(2));
        Assert.True(PressureRatioCurve.Constant(0.4).Covers(40));
        Assert.Equal("points", Assert.Throws<ArgumentException>(() => new PressureRatioCurve([(3, 0.5), (3, 0.4)])).ParamName);
        Assert.Equal("points", Assert.Throws<ArgumentException>(() => new PressureRatioCurve([])).ParamName);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PressureRatioCurve([(3, 1.1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.At(0.5));
        Assert.Equal(new FigureBand<double>(0.5, 0.425, 0.575).Least, CompressorClass.SmallHermeticReciprocating.EfficiencyBand(4).Least, 1e-12);
    }

    [Fact]
    public void DisplacementFromMainsAndCylinders()
    {
        // 50 Hz, 2 poles: 3000 revolutions a minute without slip, 4 poles 1500 (any text on induction motors).
        Assert.Equal(2880, CompressorDisplacement.MotorSpeed(Frequency.FromHertz(50), 2, 0.04).RevolutionsPerMinute, 1e-9);
        Assert.Equal(1800, CompressorDisplacement.MotorSpeed(Frequency.FromHertz(60), 4, 0).RevolutionsPerMinute, 1e-9);
        CompressorDisplacement two = CompressorDisplacement.OfCylinders(
            Length.FromMillimeters(40), Length.FromMillimeters(30), 2, RotationalSpeed.FromRevolutionsPerMinute(1450));
        Assert.Equal(2 * Math.PI / 4 * 16 * 3, two.PerRevolution.CubicCentimeters, 1e-9);
        Assert.Equal(two.PerRevolution.CubicMeters * 1450 / 60, two.SweptVolumeFlow.CubicMetersPerSecond, 1e-12);
        Assert.Equal("poles", Assert.Throws<ArgumentOutOfRangeException>(() => CompressorDisplacement.MotorSpeed(Frequency.FromHertz(50), 3, 0)).ParamName);
        Assert.Equal("slip", Assert.Throws<ArgumentOutOfRangeException>(() => CompressorDisplacement.MotorSpeed(Frequency.FromHertz(50), 2, 0.5)).ParamName);
        Assert.Equal("perRevolution", Assert.Throws<ArgumentOutOfRangeException>(() => new CompressorDisplacement(Volume.Zero, RotationalSpeed.FromRevolutionsPerMinute(1450))).ParamName);
    }

    [Fact]
    public void FreeAirGivesTheDisplacementBack()
    {
        CylinderFilling filling = new(0.05, 0.03, 0.92);
        VolumeFlow swept = CompressorDisplacement.FromFreeAirDelivery(VolumeFlow.FromLitersPerMinute(100), Pressure.FromBars(9), filling);
        WorkingFluid air = WorkingFluid.Mixture(("nitrogen", 0.7812), ("oxygen", 0.2096), ("argon", 0.0092));
        State inlet = air.At(Temperature.FromDegreesCelsius(20), Pressure.FromBars(1));
        CompressorResult back = new Compressor(swept, filling, PressureRatioCurve.Constant(0.6)).Compress(inlet, Pressure.FromBars(9));
        Assert.Equal(100e-3 / 60, back.MolarFlow.MolesPerSecond / inlet.MolarDensity.MolesPerCubicMeter, 1e-12);

        // Ideal air, exponent 1.4: 1 - 0.05 (9^(1/1.4) - 1) = 0.8098, times 0.97 and 0.92; real air within 0.3 % at these pressures.
        Assert.Equal(1, 100e-3 / 60 / (0.8098 * 0.97 * 0.92) / swept.CubicMetersPerSecond, 3e-3);
        Assert.Equal("freeAir", Assert.Throws<ArgumentOutOfRangeException>(() => CompressorDisplacement.FromFreeAirDelivery(VolumeFlow.Zero, Pressure.FromBars(9), filling)).ParamName);
    }

    [Fact]
    public void TheMotorTakesCurrent()
    {
        State suction = WorkingFluid.Pure("propane").At(Temperature.FromKelvins(290), Pressure.FromBars(2));
        CompressorResult result = new Compressor(VolumeFlow.FromLitersPerSecond(0.6), Filling, PressureRatioCurve.Constant(0.5)).Compress(suction, Pressure.FromBars(12));
        double power = (double)result.Power.Watts;
        MotorDraw hermetic = new CompressorMotor(ElectricPotential.FromVolts(230), 1, 0.7).Driving(result);
        Assert.Equal(power, (double)hermetic.Electrical.Watts, 1e-9);
        Assert.Equal(power / (230 * 0.7), hermetic.Current.Amperes, 1e-9);
        Assert.Equal(0, (double)hermetic.MotorHeat.Watts, 1e-9);
        Assert.True(hermetic.StartingCurrent.Least < hermetic.StartingCurrent.Nominal && hermetic.StartingCurrent.Nominal < hermetic.StartingCurrent.Greatest);
        CompressorMotor open = new(ElectricPotential.FromVolts(400), 3, 0.8, 0.85, ElectricCurrent.FromAmperes(15));
        MotorDraw shaft = open.Driving(result);
        Assert.Equal(power / 0.85, (double)shaft.Electrical.Watts, 1e-9);
        Assert.Equal(power / 0.85 / (400 * Math.Sqrt(3) * 0.8), shaft.Current.Amperes, 1e-9);
        Assert.Equal(power * ((1 / 0.85) - 1), (double)shaft.MotorHeat.Watts, 1e-9);
        Assert.Equal(15, shaft.StartingCurrent.Nominal.Amperes, 1e-12);
        Assert.Equal((double)shaft.Electrical.Watts, (double)open.PowerOf(shaft.Current).Watts, 1e-9);
        Assert.Equal("phases", Assert.Throws<ArgumentOutOfRangeException>(() => new CompressorMotor(ElectricPotential.FromVolts(230), 2, 0.7)).ParamName);

        // The current is a limit once stated.
        CompressorLimits limits = CompressorLimits.Usual with { MotorAmperes = LimitBand.Stated(hermetic.Current.Amperes - 0.1) };
        LimitCheck current = limits.Assess(result, hermetic).Checks.Single(c => c.Name == "current of the motor");
        Assert.Equal(0.1, current.ExcessBeyondFarEnd, 1e-9);
        Assert.Equal(LimitVerdict.Broken, current.Verdict);

        // A rise of resistance by 0.393 % a kelvin at 20 degC is that of copper (any table): 1.2 times is 51 K.
        Assert.Equal(20 + (0.2 / 0.00393), CompressorMotor.WindingTemperature(Temperature.FromDegreesCelsius(20), 1.2).DegreesCelsius, 0.2);
    }

    [Fact]
    public void EachLimitIsTold()
    {
        WorkingFluid propane = WorkingFluid.Pure("propane");
        Compressor compressor = new(VolumeFlow.FromLitersPerSecond(0.6), Filling, PressureRatioCurve.Constant(0.6), 0.4);
        CompressorResult mild = compressor.Compress(propane.At(Temperature.FromKelvins(285), Pressure.FromBars(4)), Pressure.FromBars(12));
        LimitReport kept = CompressorLimits.Usual.Assess(mild, winding: Temperature.FromKelvins(390));
        Assert.True(kept.IsKept, string.Join("; ", kept.Cautions.Select(c => c.Figure)));
        Assert.Contains(kept.Checks, c => c.Name == "winding of the motor");
        Assert.DoesNotContain(kept.Checks, c => c.Name == "current of the motor");

        // 4 bar propane has its dew point near 268 K: 2 K above it is too little, and a ratio beyond the stated one is told by how much.
        State cold = propane.At(propane.DewPoint(Pressure.FromBars(4)).Temperature + TemperatureDelta.FromKelvins(2), Pressure.FromBars(4));
        CompressorLimits strict = new() { PressureRatio = LimitBand.Stated(5), HighPressureBars = LimitBand.Stated(21), DischargeValve = null };
        LimitReport report = strict.Assess(compressor.Compress(cold, Pressure.FromBars(24)), winding: Temperature.FromKelvins(410));
        Assert.Equal(1, report.Checks.Single(c => c.Name == "pressure ratio").ExcessBeyondFarEnd, 1e-9);
        Assert.Equal(3, report.Checks.Single(c => c.Name == "high side, absolute").ExcessBeyondFarEnd, 1e-9);
        Assert.Equal(LimitVerdict.Doubtful, report.Checks.Single(c => c.Name == "superheat at the suction").Verdict);
        Assert.Equal(8, report.Checks.Single(c => c.Name == "superheat at the suction").Excess, 1e-6);
        Assert.Equal(LimitVerdict.Doubtful, report.Checks.Single(c => c.Name == "winding of the motor").Verdict);
        Assert.DoesNotContain(report.Checks, c => c.Name == "discharge valve");
        Assert.Equal(CautionSeverity.Danger, report.Cautions[0].Severity);
        Assert.Contains("broken by 3 bar", report.Cautions[0].Figure, StringComparison.Ordinal);
        Assert.Equal(report.Checks.Count, report.ToTable().Rows.Count);

        // Liquid at the suction breaks the limit of superheat, for a pure fluid and a blend.
        WorkingFluid blend = WorkingFluid.Mixture(("methane", 0.5), ("isobutane", 0.5));
        LimitReport wet = CompressorLimits.Usual.Assess(compressor.Compress(blend.At(Temperature.FromKelvins(230), Pressure.FromBars(2)), Pressure.FromBars(6)));
        Assert.Equal(LimitVerdict.Broken, wet.Checks.Single(c => c.Name == "superheat at the suction").Verdict);
        State boiling = propane.AtVaporFraction(Pressure.FromBars(4), 0.95);
        LimitReport drops = CompressorLimits.Usual.Assess(compressor.Compress(boiling, Pressure.FromBars(9)));
        Assert.Equal(LimitVerdict.Broken, drops.Checks.Single(c => c.Name == "superheat at the suction").Verdict);
    }

    [Fact]
    public void TheStartIsJudgedByTheStandingPressure()
    {
        Volume swept = Volume.FromCubicCentimeters(12);
        CompressorStart equal = CompressorLimits.Usual.AssessStart(Pressure.FromBars(5), Pressure.FromBars(5), swept);
        Assert.True(equal.IsEqualised && equal.IsExpected && equal.Cautions.Count == 0);
        Assert.Equal(0, equal.DifferenceTorque.NewtonMeters, 1e-12);
        CompressorStart doubtful = CompressorLimits.Usual.AssessStart(Pressure.FromBars(7), Pressure.FromBars(7), swept);
        Assert.Equal(LimitVerdict.Doubtful, doubtful.StandingPressure!.Verdict);
        CompressorStart against = CompressorLimits.Usual.AssessStart(Pressure.FromBars(12), Pressure.FromBars(2), swept);
        Assert.False(against.IsEqualised || against.IsExpected);
        Assert.Equal(4, against.StandingPressure!.ExcessBeyondFarEnd, 1e-9);

        // Work of a revolution: difference times displacement, 12 J here, over 2 pi.
        Assert.Equal(12 / (2 * Math.PI), against.DifferenceTorque.NewtonMeters, 1e-9);
        Assert.Equal(CautionSeverity.Warning, Assert.Single(against.Cautions).Severity);
        Assert.Equal("lowSide", Assert.Throws<ArgumentOutOfRangeException>(() => CompressorLimits.Usual.AssessStart(Pressure.FromBars(2), Pressure.FromBars(3), swept)).ParamName);
    }
}
