using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Coolers.Charging;

public sealed class ChargeRecipeTests(ITestOutputHelper output)
{
    private static readonly Temperature Ambient = Temperature.FromKelvins(295.15);

    [Fact]
    public void TheBenchCoolersRecipeClosesByStatesOfItsOwn()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        output.WriteLine(recipe.ToTable().ToString());
        Assert.Equal(["isobutane", "propane", "ethane", "methane", "nitrogen"], recipe.Steps.Select(s => s.Component.Name));

        double amount = 0;
        foreach (ChargeStep step in recipe.Steps)
        {
            // Recomputed by flashes of the public front: V rho(T, p, z) of every space against the amounts filled.
            amount += step.Amount.Moles;
            WorkingFluid gas = WorkingFluid.Mixture(step.Contents);
            double held = BenchCharge.Spaces(BenchCharge.Machine)
                .Sum(s => s.Volume * gas.At(Temperature.FromKelvins(s.Kelvins), step.AbsolutePressure).MolarDensity.MolesPerCubicMeter);
            Assert.Equal(1, held / amount, 1e-10);
            Assert.Equal(step.Component.MolarMass * step.Amount.Moles, step.Mass.Kilograms, 15);
            Assert.Equal(step.AbsolutePressure.Pascals, step.Gauge.Absolute.Pascals, 1e-6);
        }

        Assert.Equal(amount, recipe.TotalAmount.Moles, 1e-12);
        Assert.Equal(6e5, recipe.FinalPressure.Pascals, 6e5 * 1e-12);
        foreach ((Substance component, double fraction) in BenchCharge.Blend.Composition.Components.Zip(BenchCharge.Blend.Composition.MoleFractions))
        {
            Assert.Equal(fraction, recipe.Steps.Single(s => s.Component.Name == component.Name).Amount.Moles / amount, 1e-14);
        }

        Assert.Equal(9.4 - recipe.Steps[0].Mass.Kilograms, recipe.Steps[0].BottleWeightAfter!.Value.Kilograms, 12);
        Assert.Equal(ChargeControl.Mass, recipe.Steps[0].Control);
        Assert.Equal(ChargeControl.Gauge, recipe.Steps[4].Control);
    }

    [Fact]
    public void AnAmountAndThePressureItGivesAreOneRecipe()
    {
        ChargeRecipe byPressure = ChargeRecipe.Solve(BenchCharge.Request());
        ChargeRecipe byAmount = ChargeRecipe.Solve(new()
        {
            Wanted = BenchCharge.Blend,
            Volumes = BenchCharge.Machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            Amount = byPressure.TotalAmount,
        });
        Assert.All(
            byPressure.Steps.Zip(byAmount.Steps),
            s => Assert.Equal(1, s.Second.AbsolutePressure.Pascals / s.First.AbsolutePressure.Pascals, 1e-12));
    }

    [Fact]
    public void AtTheLimitOfIdealGasItIsDaltonsRule()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request(1e-5));
        double sum = 0;
        foreach (ChargeStep step in recipe.Steps)
        {
            // p = n R/sum(V/T), the gas constant of the equation of the gas at hand; B p/(R T) is below 1e-7 at 1 Pa.
            sum += step.Amount.Moles;
            double dalton = sum * 8.314462618 / BenchCharge.Spaces(BenchCharge.Machine).Sum(s => s.Volume / s.Kelvins);
            Assert.Equal(1, step.AbsolutePressure.Pascals / step.IdealPressure.Pascals, 1e-7);
            Assert.Equal(1, step.AbsolutePressure.Pascals / dalton, 5e-6);
        }

        Assert.Equal(1, recipe.Steps.Sum(s => s.PartialPressure.Pascals) / recipe.FinalPressure.Pascals, 5e-6);
    }

    [Fact]
    public void TheDeviationOfTwentyBarsIsTold()
    {
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", 0.3), ("methane", 0.4), ("ethane", 0.3));
        ChargeRecipe recipe = ChargeRecipe.Solve(new()
        {
            Wanted = blend,
            Volumes = [new("all", Volume.FromLiters(5), Ambient)],
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(20),
        });
        output.WriteLine(recipe.ToTable().ToString());
        double z = blend.At(Ambient, Pressure.FromBars(20)).Phases[0].CompressibilityFactor;
        Assert.Equal(20 * (1 - (1 / z)), recipe.Steps[^1].Deviation.Bars, 1e-4);
        Assert.InRange(recipe.Steps[^1].Deviation.Bars, -2.5, -0.5);
    }

    /// <summary>
    /// The example of docs/concepts/charging.md: 5 L at 295.15 K, propane to 2 bar absolute, then nitrogen to 10 bar absolute. By hand:
    /// the pressure of propane alone is that of its pure equation; that of the mixture follows from the pure equations of the standard at
    /// equal reduced temperature and density, Z - 1 = sum x_i (Z_i - 1), since nitrogen and propane have no departure function.
    /// </summary>
    [Fact]
    public void TheTwoComponentExampleAgreesWithTheHandCalculation()
    {
        const double T = 295.15;
        const double V = 0.005;
        (double x1, double x2) = (0.8, 0.2); // nitrogen, propane
        WorkingFluid blend = WorkingFluid.Mixture(("nitrogen", x1), ("propane", x2));
        ChargeRecipe recipe = ChargeRecipe.Solve(new()
        {
            Wanted = blend,
            Volumes = [new("all", Volume.FromCubicMeters(V), Temperature.FromKelvins(T))],
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(10),
        });
        output.WriteLine(recipe.ToTable().ToString());

        // Reducing functions of ISO 20765-2 for nitrogen-propane with the parameters its pair has in the model.
        MultiFluidPair pair = Assert.IsType<MultiFluidPair>(Assert.Single(blend.Pedigree.Pairs));
        output.WriteLine(pair.ToString());
        Assert.Equal("nitrogen", pair.First.Name);
        Assert.Null(pair.Departure);
        WorkingFluid n2 = WorkingFluid.Pure("nitrogen").WithModel(FluidModel.MultiFluid);
        WorkingFluid c3 = WorkingFluid.Pure("propane").WithModel(FluidModel.MultiFluid);

        // Reducing temperature (K) and density (mol/m3) of nitrogen and propane: ISO 20765-2, table of pure-component parameters, from memory.
        (double tc1, double rc1) = (126.192, 11183.9);
        (double tc2, double rc2) = (369.825, 5000.043088);
        double Reduce(ReducingParameters p, double y1, double y2, double y12) =>
            (x1 * x1 * y1) + (x2 * x2 * y2) + (2 * x1 * x2 * p.Beta * p.Gamma * (x1 + x2) / ((p.Beta * p.Beta * x1) + x2) * y12);
        double tr = Reduce(pair.Temperature, tc1, tc2, Math.Sqrt(tc1 * tc2));
        double vr = Reduce(pair.Volume, 1 / rc1, 1 / rc2, Math.Pow((1 / Math.Cbrt(rc1)) + (1 / Math.Cbrt(rc2)), 3) / 8);
        output.WriteLine($"Tr {tr:R} K, 1/vr {1 / vr:R} mol/m3, Tc {tc1:R} {tc2:R}, rhoc {rc1:R} {rc2:R}");

        double PressureAt(double rho)
        {
            double z = 1;
            foreach ((WorkingFluid pure, double x, double tc, double rc) in new[] { (n2, x1, tc1, rc1), (c3, x2, tc2, rc2) })
            {
                State at = pure.AtDensity(Temperature.FromKelvins(T * tc / tr), Molarity.FromMolesPerCubicMeter(rho * vr * rc));
                z += x * (at.Phases[0].CompressibilityFactor - 1);
                output.WriteLine($"  {pure.Composition.Components[0].Name} at {at.Temperature.Kelvins:F4} K, {at.MolarDensity.MolesPerCubicMeter:F4} mol/m3: Z {at.Phases[0].CompressibilityFactor:F8}");
            }

            return z * rho * 8.314472 * T;
        }

        // Second step: the density whose pressure is 10 bar, by the secant rule.
        double a = 1e6 / (8.314472 * T);
        double b = a * 1.03;
        (double pa, double pb) = (PressureAt(a), PressureAt(b));
        while (Math.Abs(pb - 1e6) > 1e-5)
        {
            (a, b, pa) = (b, b + ((1e6 - pb) * (b - a) / (pb - pa)), pb);
            pb = PressureAt(b);
        }

        double n = b * V;
        ChargeStep propane = recipe.Steps[0];
        ChargeStep nitrogen = recipe.Steps[1];
        Assert.Equal(1, propane.Amount.Moles / (x2 * n), 1e-6);
        Assert.Equal(1, nitrogen.Amount.Moles / (x1 * n), 1e-6);
        Assert.Equal(1, propane.Mass.Grams / (x2 * n * 44.09562), 1e-6);
        Assert.Equal(1, nitrogen.Mass.Grams / (x1 * n * 28.0134), 1e-6);

        // First step: propane alone, the reference equation of the pure fluid at the density of what was weighed in.
        double alone = WorkingFluid.Pure("propane").AtDensity(Temperature.FromKelvins(T), Molarity.FromMolesPerCubicMeter(x2 * n / V)).Pressure.Pascals;
        Assert.Equal(1, propane.AbsolutePressure.Pascals / alone, 1e-6);
        output.WriteLine($"n {n:R} mol, {x2 * n * 44.09562:R} g, {x1 * n * 28.0134:R} g, propane alone {alone:R} Pa");
    }

    [Fact]
    public void PropaneIsNotFilledAboveTheVapourPressureInItsBottle()
    {
        ChargeRequest request = new()
        {
            Wanted = WorkingFluid.Mixture(("propane", 0.9), ("isobutane", 0.1)),
            Volumes = [new("all", Volume.FromLiters(5), Temperature.FromDegreesCelsius(40))],
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(6),
            Bottles = [GasBottle.Liquefied("propane", Temperature.FromDegreesCelsius(5))],
        };
        ChargeRefusedException refused = Assert.Throws<ChargeRefusedException>(() => ChargeRecipe.Solve(request));
        Assert.Equal(ChargeLimit.BottlePressure, refused.Refusal.Limit);
        Assert.Equal("propane", refused.Refusal.Component.Name);
        Assert.Equal(
            WorkingFluid.Pure("propane").Saturation(Temperature.FromDegreesCelsius(5)).Pressure.Pascals, refused.Refusal.Allowed!.Value.Pascals, 1e-6);
        Assert.StartsWith("Bottle pressure: ", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void WhatWouldCondenseIsRefusedWithItsPlace()
    {
        ChargeRequest request = new()
        {
            Wanted = BenchCharge.Blend,
            Volumes = [new("shell", Volume.FromLiters(2), Temperature.FromDegreesCelsius(40)), new("cellar buffer", Volume.FromLiters(5), Temperature.FromDegreesCelsius(-10))],
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(14),
        };
        Assert.False(ChargeRecipe.TrySolve(request, out ChargeRecipe? recipe, out ChargeRefusal? refusal));
        Assert.Null(recipe);
        Assert.Equal(ChargeLimit.Condensation, refusal.Limit);
        Assert.Equal("cellar buffer", refusal.Place);
        Assert.True(refusal.Allowed < refusal.Reached);
        output.WriteLine(refusal.Message);
    }

    [Fact]
    public void WhatIsThereAlreadyIsCountedAndTooMuchOfItIsRefused()
    {
        ResidualContents nitrogen = new(Composition.FromMoleFractions(("nitrogen", 1)), Pressure.FromBars(0.5));
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request(6, nitrogen));
        ChargeRecipe fresh = ChargeRecipe.Solve(BenchCharge.Request());
        Assert.Equal(fresh.TotalAmount.Moles, recipe.TotalAmount.Moles, 1e-10);
        Assert.True(recipe.Steps[4].Amount < fresh.Steps[4].Amount);
        Assert.True(recipe.Steps[0].AbsolutePressure > fresh.Steps[0].AbsolutePressure);
        Assert.Equal(1, recipe.Steps[4].AbsolutePressure.Pascals / fresh.Steps[4].AbsolutePressure.Pascals, 1e-12);

        ChargeRefusedException refused = Assert.Throws<ChargeRefusedException>(
            () => ChargeRecipe.Solve(BenchCharge.Request(6, new(Composition.FromMoleFractions(("nitrogen", 1)), Pressure.FromBars(2)))));
        Assert.Equal(ChargeLimit.NegativeAmount, refused.Refusal.Limit);
        Assert.Equal("nitrogen", refused.Refusal.Component.Name);
    }

    [Fact]
    public void AirLeftInTheMachineStaysAndIsTold()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request(6, ResidualContents.Air(Pressure.FromMillibars(5))));
        Assert.Equal(["oxygen", "argon"], recipe.Foreign.Select(f => f.Component.Name));
        double oxygen = 0.209476 / 0.999656 * 500 / recipe.Steps[^1].IdealPressure.Pascals;
        Assert.Equal(1, recipe.Foreign[0].MoleFraction / oxygen, 1e-4);
        Assert.Equal(6e5, recipe.FinalPressure.Pascals, 1e-4);
        Assert.DoesNotContain(recipe.Cautions, c => c.Title == "Fuel and oxidiser in one charge");

        ChargeRecipe airy = ChargeRecipe.Solve(BenchCharge.Request(6, ResidualContents.Air(Pressure.FromBars(0.5))));
        Assert.Contains(airy.Cautions, c => c.Title == "Fuel and oxidiser in one charge" && c.Severity == CautionSeverity.Danger);

        ChargeRequest foreignOnly = new()
        {
            Wanted = WorkingFluid.Mixture(("methane", 0.5), ("ethane", 0.5)),
            Volumes = BenchCharge.Machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(2),
            Residual = ResidualContents.Air(Pressure.FromBars(3)),
        };
        Assert.False(ChargeRecipe.TrySolve(foreignOnly, out _, out ChargeRefusal? refusal));
        Assert.Equal(ChargeLimit.NegativeAmount, refusal.Limit);
    }

    [Fact]
    public void TheAltitudeOfTheGaugeShowsInTheReadingAlone()
    {
        Pressure high = GaugePressure.StandardAtmosphere(Length.FromMeters(1600));
        ChargeRecipe low = ChargeRecipe.Solve(BenchCharge.Request());
        ChargeRecipe up = ChargeRecipe.Solve(new()
        {
            Wanted = BenchCharge.Blend,
            Volumes = BenchCharge.Machine,
            LocalAtmosphere = high,
            FinalPressure = Pressure.FromBars(6),
        });
        Assert.All(
            low.Steps.Zip(up.Steps),
            s => Assert.Equal(
                BenchCharge.Atmosphere.Pascals - high.Pascals, s.Second.Gauge.Reading.Pascals - s.First.Gauge.Reading.Pascals, 1e-3));
        Assert.All(low.Steps.Zip(up.Steps), s => Assert.Equal(s.First.AbsolutePressure.Pascals, s.Second.AbsolutePressure.Pascals, 1e-6));
    }

    [Fact]
    public void ABottleThatIsTooSmallIsRefused()
    {
        ChargeRequest request = new()
        {
            Wanted = WorkingFluid.Mixture(("nitrogen", 0.5), ("methane", 0.5)),
            Volumes = BenchCharge.Machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(15),
            Bottles = [GasBottle.Compressed("nitrogen", Ambient, Pressure.FromBars(40), Volume.FromLiters(1))],
        };
        Assert.False(ChargeRecipe.TrySolve(request, out _, out ChargeRefusal? refusal));
        Assert.Equal(ChargeLimit.BottleContents, refusal.Limit);

        ChargeRequest falling = new()
        {
            Wanted = request.Wanted,
            Volumes = request.Volumes,
            LocalAtmosphere = request.LocalAtmosphere,
            FinalPressure = request.FinalPressure,
            Bottles = [GasBottle.Compressed("nitrogen", Ambient, Pressure.FromBars(40), Volume.FromLiters(1.7))],
        };
        Assert.False(ChargeRecipe.TrySolve(falling, out _, out refusal));
        Assert.Equal(ChargeLimit.BottlePressure, refusal.Limit);
    }

    [Fact]
    public void CautionsNameFireBottlePressureAndVenting()
    {
        ChargeRecipe recipe = ChargeRecipe.Solve(BenchCharge.Request());
        Assert.Contains(recipe.Cautions, c => c.Title == "Flammable charge");
        Assert.Contains(recipe.Cautions, c => c.Title == "Bottle pressure above that of the machine");
        Assert.DoesNotContain(recipe.Cautions, c => c.Title == "Low side below the atmosphere");
        Assert.Contains(ChargeRecipe.Solve(BenchCharge.Request(3)).Cautions, c => c.Title == "Low side below the atmosphere");
        Assert.DoesNotContain(recipe.Cautions, c => c.Title.StartsWith("Fluorinated", StringComparison.Ordinal));
        Assert.All(recipe.Cautions, c => Assert.Contains("licensed practice", c.Advice, StringComparison.OrdinalIgnoreCase));

        ChargeRecipe fluorinated = ChargeRecipe.Solve(new()
        {
            Wanted = WorkingFluid.Mixture(("argon", 0.3), ("R-14", 0.4), ("R-23", 0.3)),
            Volumes = BenchCharge.Machine,
            LocalAtmosphere = BenchCharge.Atmosphere,
            FinalPressure = Pressure.FromBars(8),
        });
        Caution venting = Assert.Single(fluorinated.Cautions, c => c.Title.StartsWith("Fluorinated", StringComparison.Ordinal));
        Assert.Contains("tetrafluoromethane", venting.Figure, StringComparison.Ordinal);
    }

    [Fact]
    public void WrongRequestsAreRefusedByName()
    {
        Assert.Throws<ArgumentException>(() => ChargeRecipe.Solve(new() { Wanted = BenchCharge.Blend, Volumes = BenchCharge.Machine, LocalAtmosphere = BenchCharge.Atmosphere }));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MachineVolume("a", Volume.FromLiters(-1), Ambient));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MachineVolume("a", Volume.FromLiters(1), Temperature.FromKelvins(100)));
        Assert.Throws<ArgumentException>(() => BenchCharge.Request().Volumes.Count == 0 ? null : new ChargeRequest { Wanted = BenchCharge.Blend, Volumes = [], LocalAtmosphere = BenchCharge.Atmosphere });
        Assert.Throws<ArgumentException>(() => new ChargeRequest { Wanted = WorkingFluid.Pure("air"), Volumes = BenchCharge.Machine, LocalAtmosphere = BenchCharge.Atmosphere });
        ArgumentOutOfRangeException noLiquid = Assert.Throws<ArgumentOutOfRangeException>(() => GasBottle.Liquefied("methane", Ambient));
        Assert.Contains("compressed gas", noLiquid.Message, StringComparison.Ordinal);
        ArgumentOutOfRangeException liquid = Assert.Throws<ArgumentOutOfRangeException>(() => GasBottle.Compressed("propane", Ambient, Pressure.FromBars(20)));
        Assert.Contains("vapour pressure", liquid.Message, StringComparison.Ordinal);
    }
}
