using CryoThermo.HeatTransfer;
using CryoThermo.Machines;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Machines;

/// <summary>The examples of docs/concepts/compressors.md and pre-cooler.md, run as they stand there.</summary>
public sealed class CompressorPagesTests(ITestOutputHelper output)
{
    [Fact]
    public void TheCompressorDoesWhatThePageTells()
    {
        // Page one:
        CompressorRating nameplate = new(
            WorkingFluid.Pure("propane"), RatingCondition.EuropeanMedium, capacity: Power.FromWatts(900), power: Power.FromWatts(480));
        RatedCompressor rated = new(nameplate, CompressorClass.SmallHermeticReciprocating, shellHeatLossFraction: 0.4);

        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
        State suction = blend.At(Temperature.FromDegreesCelsius(22), Pressure.FromBars(2.2));
        CompressorEstimate there = rated.Compress(suction, Pressure.FromBars(16));
        LimitReport limits = CompressorLimits.Usual.Assess(there.Nominal);
        Console.WriteLine(limits.ToTable());

        Radiator coil = new(
            Power.FromWatts(700), Temperature.FromDegreesCelsius(45), Temperature.FromDegreesCelsius(25), VolumeFlow.FromCubicMetersPerHour(400));
        AmbientCoolerSeasons afterCooler = AmbientCooler.ByAir(coil, coil.Air).CoolInSummerAndWinter(
            there.Nominal.Discharge, there.Nominal.MolarFlow, summer: Temperature.FromDegreesCelsius(35), winter: Temperature.FromDegreesCelsius(5));
        Console.WriteLine(afterCooler.ToTable());

        OilTrain oil = OilTrain.Of(
            afterCooler.Summer.Outlet,
            there.Nominal.MassFlow,
            OilTrain.HermeticCarryOver,
            [OilSeparatorStage.Impingement, OilSeparatorStage.Coalescing],
            MolarMass.FromGramsPerMole(450),
            OilTrain.OilVaporPascals);
        Console.WriteLine(oil.ToTable());
        // End.
        output.WriteLine(limits.ToTable().ToString());
        output.WriteLine(afterCooler.ToTable().ToString());
        output.WriteLine(oil.ToTable().ToString());
        output.WriteLine($"swept {rated.SweptVolumeFlow.Nominal.LitersPerSecond:F4} ({rated.SweptVolumeFlow.Least.LitersPerSecond:F4} to {rated.SweptVolumeFlow.Greatest.LitersPerSecond:F4}) L/s, efficiency {rated.EfficiencyAtRating:F3} {rated.IsEfficiencyExpected}");
        output.WriteLine($"flow {there.MassFlow.Least.GramsPerSecond:F3} {there.MassFlow.Nominal.GramsPerSecond:F3} {there.MassFlow.Greatest.GramsPerSecond:F3} g/s, power {there.Power.Least.Watts:F1} {there.Power.Nominal.Watts:F1} {there.Power.Greatest.Watts:F1} W");
        output.WriteLine($"discharge {there.DischargeTemperature.Least.DegreesCelsius:F1} {there.DischargeTemperature.Nominal.DegreesCelsius:F1} {there.DischargeTemperature.Greatest.DegreesCelsius:F1}; filling {there.Nominal.VolumetricEfficiency:F3}, n {there.Nominal.ReexpansionExponent:F3}, efficiency {there.Nominal.IsentropicEfficiency:F3}");
        output.WriteLine($"return {oil.ReturnInterval(Mass.FromGrams(60), Mass.FromGrams(100)).Least.Hours:F1} h, {oil.ReturnInterval(Mass.FromGrams(60), Mass.FromGrams(100)).Nominal.Hours:F1} h; without return {oil.UntilSumpIsLow(Mass.FromGrams(100)).Least.Hours:F2} h");
        Compare("compressors.md", "Page one");

        // Computed here, as printed on the page.
        Assert.Equal(0.574, rated.SweptVolumeFlow.Nominal.LitersPerSecond, 0.0005);
        Assert.Equal(0.551, rated.SweptVolumeFlow.Least.LitersPerSecond, 0.0006);
        Assert.Equal(0.600, rated.SweptVolumeFlow.Greatest.LitersPerSecond, 0.0005);
        Assert.Equal(0.52, rated.EfficiencyAtRating, 0.005);
        Assert.True(rated.IsEfficiencyExpected);
        Assert.Equal(1.31, there.MassFlow.Nominal.GramsPerSecond, 0.005);
        Assert.Equal(1.22, there.MassFlow.Least.GramsPerSecond, 0.005);
        Assert.Equal(1.41, there.MassFlow.Greatest.GramsPerSecond, 0.005);
        Assert.Equal(434, (double)there.Power.Nominal.Watts, 0.5);
        Assert.Equal(348, (double)there.Power.Least.Watts, 0.5);
        Assert.Equal(544, (double)there.Power.Greatest.Watts, 0.51);
        Assert.Equal(133, there.DischargeTemperature.Nominal.DegreesCelsius, 0.5);
        Assert.Equal(121, there.DischargeTemperature.Least.DegreesCelsius, 0.5);
        Assert.Equal(148, there.DischargeTemperature.Greatest.DegreesCelsius, 0.5);
        Assert.Equal(13, limits.Checks.Single(c => c.Name == "discharge line").ExcessBeyondFarEnd, 0.5);
        Assert.Equal(42, limits.Checks.Single(c => c.Name == "discharge valve").ExcessBeyondFarEnd, 0.5);
        Assert.Equal(LimitVerdict.Broken, limits.Checks.Single(c => c.Name == "oil at the valve").Verdict);
        Assert.Equal(10.7, afterCooler.Summer.AboveDewPoint!.Value.Kelvins, 0.05);
        Assert.Equal(0, afterCooler.Summer.LiquidFraction, 1e-12);
        Assert.Equal(0.22, afterCooler.Winter.LiquidFraction, 0.005);
        Assert.Equal(0.8, oil.ToColdEndPartsPerMillion.Nominal, 0.05);
        Assert.Equal(0.1, oil.ToColdEndPartsPerMillion.Least, 0.05);
        Assert.Equal(6, oil.ToColdEndPartsPerMillion.Greatest, 0.5);
        Assert.Equal(0.09, oil.VaporPartsPerMillion.Nominal, 0.005);
    }

    [Fact]
    public void ThePreCoolerDoesWhatThePageTells()
    {
        // Page two:
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));
        State stream = blend.At(Temperature.FromDegreesCelsius(30), Pressure.FromBars(16));           // from the after-cooler
        MolarFlow flow = MolarFlow.FromMolesPerSecond(0.12);

        Radiator coil = new(
            Power.FromWatts(900), Temperature.FromDegreesCelsius(40), Temperature.FromDegreesCelsius(25), VolumeFlow.FromCubicMetersPerHour(500));
        PreCooler preCooler = new(
            WorkingFluid.Pure("propane"),
            new Compressor(
                CompressorDisplacement.OnMains(Volume.FromCubicCentimeters(8), Frequency.FromHertz(50), poles: 2, slip: 0.04).SweptVolumeFlow,
                new CylinderFilling(clearanceFraction: 0.03, leakFraction: 0.02, suctionHeatingFactor: 0.9),
                CompressorClass.SmallHermeticReciprocating.Efficiency,
                shellHeatLossFraction: 0.3),
            AmbientCooler.ByAir(coil, coil.Air),
            evaporatorConductanceWattsPerKelvin: 25,
            superheat: TemperatureDelta.FromKelvins(5),
            subcooling: TemperatureDelta.FromKelvins(3));
        PreCoolerResult result = preCooler.Cool(stream, flow, medium: Temperature.FromDegreesCelsius(25));
        Console.WriteLine(result.ToTable());

        PreCoolerCharge charge = result.Charge(new(
            condenser: Volume.FromLiters(0.35), liquidLine: Volume.FromLiters(0.05), evaporator: Volume.FromLiters(0.25), suctionSide: Volume.FromLiters(1.5)));
        // End.
        output.WriteLine(result.ToTable().ToString());
        output.WriteLine($"charge {charge.Total.Least.Grams:F1} {charge.Total.Nominal.Grams:F1} {charge.Total.Greatest.Grams:F1} g, of it {charge.Condenser.Grams:F1} condenser, {charge.LiquidLine.Grams:F1} line, {charge.Evaporator.Grams:F1} evaporator, {charge.Vapor.Grams:F1} vapour; stream liquid {1 - result.StreamOutlet.VaporFraction:F3}");
        Compare("pre-cooler.md", "Page two");

        // Computed here, as printed on the page.
        Assert.Equal(303.2, result.StreamInlet.Temperature.Kelvins, 0.06);
        Assert.Equal(276.6, result.StreamOutlet.Temperature.Kelvins, 0.05);
        Assert.Equal(0.235, 1 - result.StreamOutlet.VaporFraction, 0.0005);
        Assert.Equal(620, (double)result.Duty.Watts, 0.5);
        Assert.Equal(295, (double)result.Compression.Power.Watts, 0.5);
        Assert.Equal(3.32, result.EvaporatingPressure.Bars, 0.005);
        Assert.Equal(13.08, result.CondensingPressure.Bars, 0.005);
        Assert.Equal(2.23, result.Compression.MassFlow.GramsPerSecond, 0.005);
        Assert.Equal(334.6, result.Compression.Discharge.Temperature.Kelvins, 0.06);
        Assert.Equal(827, (double)result.Condensing.Duty.Watts, 0.5);
        Assert.Equal(14.6, result.Evaporator.Pinch.Approach.Kelvins, 0.05);
        Assert.Equal(PinchLocation.ColdEnd, result.Evaporator.Pinch.Location);
        Assert.Equal(87, charge.Total.Nominal.Grams, 0.5);
        Assert.Equal(70, charge.Total.Least.Grams, 0.5);
        Assert.Equal(116, charge.Total.Greatest.Grams, 0.5);
        Assert.Equal(45, charge.Condenser.Grams, 0.5);
        Assert.Equal(24, charge.LiquidLine.Grams, 0.5);
        Assert.Equal(8, charge.Evaporator.Grams, 0.5);
        Assert.Equal(11, charge.Vapor.Grams, 0.5);
        PreCoolerProof.Hold(preCooler, result, 0.12, Temperature.FromDegreesCelsius(25));
    }

    private static void Compare(string file, string mark)
    {
        string page = Joined(File.ReadAllText(RepositoryFiles.PathOf("docs", "concepts", file)));
        string own = File.ReadAllText(RepositoryFiles.PathOf("tests", "CryoThermo.Tests", "Machines", "CompressorPagesTests.cs"));
        Assert.Contains(Joined(own.Split($"// {mark}" + ":")[1].Split("// End" + ".")[0]), page, StringComparison.Ordinal);
    }

    private static string Joined(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries));
}
