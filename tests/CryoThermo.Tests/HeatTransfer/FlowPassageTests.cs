using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Tests.Equilibrium;
using UnitsNet;

namespace CryoThermo.Tests.HeatTransfer;

public sealed class FlowPassageTests
{
    private static readonly WorkingFluid Blend = WorkingFluid.Mixture(("nitrogen", 0.2), ("methane", 0.3), ("ethane", 0.25), ("propane", 0.25));
    private static readonly FlowPassage Tube = FlowPassage.RoundTube(Length.FromMillimeters(4));
    private static readonly MassFlow Flow = MassFlow.FromGramsPerSecond(1.5);

    [Fact]
    public void WarmGasByHand()
    {
        State state = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(10));
        PassageFilm film = Tube.Film(state, Flow, HeatDirection.Cooled);

        // The formula of V. Gnielinski 1976 written here with the figures of the state.
        double re = 4 * 1.5e-3 / (Math.PI * 4e-3 * state.Transport.Viscosity.PascalSeconds);
        double f = Math.Pow((0.79 * Math.Log(re)) - 1.64, -2);
        double pr = state.Transport.PrandtlNumber;
        double nu = f / 8 * (re - 1000) * pr / (1 + (12.7 * Math.Sqrt(f / 8) * (Math.Pow(pr, 2.0 / 3) - 1)));
        Assert.Equal(1, film.Reynolds / re, 1e-9);
        Assert.Equal(1, film.Prandtl / pr, 1e-9);
        Assert.Equal(1, film.Nusselt / nu, 1e-9);
        Assert.Equal(1, film.Coefficient.WattsPerSquareMeterKelvin / (nu * state.Transport.ThermalConductivity.WattsPerMeterKelvin / 4e-3), 1e-9);
        Assert.Equal((FilmRegime.Turbulent, 10.0, 5.0), (film.Regime, film.UncertaintyPercent, film.FrictionUncertaintyPercent));
        Assert.Contains("16 (1976) 359", film.Method, StringComparison.Ordinal);
        double g = film.MassFlux.KilogramsPerSecondPerSquareMeter;
        Assert.Equal(1, film.FrictionPascalsPerMeter / (FrictionFactor.Churchill(re, 1e-6 / 4e-3) * g * g / (2 * state.Density.KilogramsPerCubicMeter * 4e-3)), 1e-9);
        Assert.Equal((1.0, 0.0, 0.0), (film.VoidFraction, film.LiquidHoldUp.KilogramsPerMeter, film.SensibleShare));
        Assert.Empty(film.Notes);
    }

    [Fact]
    public void ABlendHasTheShareOfItsVapor()
    {
        State state = Blend.At(Temperature.FromKelvins(170), Pressure.FromBars(3));
        PassageFilm film = Tube.Film(state, Flow, HeatDirection.Heated);
        Assert.Equal(FilmRegime.Evaporating, film.Regime);

        // Heat of the vapour over heat of the whole, by states 0.02 K to both sides at the same pressure.
        State warmer = Blend.At(Temperature.FromKelvins(170.02), Pressure.FromBars(3));
        State colder = Blend.At(Temperature.FromKelvins(169.98), Pressure.FromBars(3));
        double whole = (warmer.SpecificEnthalpy.JoulesPerKilogram - colder.SpecificEnthalpy.JoulesPerKilogram) / 0.04;
        Phase vapor = state.Phases.Single(p => p.Kind == PhaseKind.Vapor);
        double own = state.VaporMassFraction * vapor.IsobaricHeatCapacity.JoulesPerMoleKelvin / vapor.Composition.MolarMass.KilogramsPerMole;
        Assert.Equal(own / whole, film.SensibleShare, 1e-4 * film.SensibleShare);

        // The two resistances, with the vapour alone as Film gives it for the same mass flux of vapour.
        StreamProperties p = PassageStream.StreamPropertiesOf(state);
        double g = film.MassFlux.KilogramsPerSecondPerSquareMeter;
        double alone = Tube.Kernel.Film(p with { Quality = 1 }, p.Quality * g, HeatDirection.Heated, double.PositiveInfinity, 0).Coefficient;
        double liquid = GungorWintertonBoiling.Coefficient(p, g, 4e-3, 0);
        Assert.Equal(1, film.Coefficient.WattsPerSquareMeterKelvin * ((1 / liquid) + (film.SensibleShare / alone)), 1e-9);

        // Hold-up from the void fraction of the public formula; more than without slip.
        double voids = VoidFraction.RouhaniAxelsson(
            state.VaporMassFraction, state.Phases.Single(f => f.Kind == PhaseKind.Liquid).Density, vapor.Density, state.SurfaceTension.Value, film.MassFlux);
        Assert.Equal(voids, film.VoidFraction, 1e-12);
        Assert.Equal((1 - voids) * p.Liquid.Density * Math.PI * 4e-6 * 1e3, film.LiquidHoldUp.GramsPerMeter, 1e-9);
        Assert.True(voids < VoidFraction.Homogeneous(p.Quality, p.Vapor.Density / p.Liquid.Density));
        Assert.Contains("Gungor", film.Method, StringComparison.Ordinal);
        Assert.Contains("Silver", film.Method, StringComparison.Ordinal);
        Assert.Contains("Mueller-Steinhagen", film.FrictionMethod, StringComparison.Ordinal);
        string table = film.ToTable().ToString();
        Assert.Contains("share of heat to the vapour", table, StringComparison.Ordinal);
        Assert.Contains("tube of 4 mm", table, StringComparison.Ordinal);
    }

    [Fact]
    public void HeatOfEvaporatingDoesNotHangOnReferenceStates()
    {
        // A pure fluid: the enthalpies of both phases.
        State nitrogen = WorkingFluid.Pure("nitrogen").AtVaporFraction(Pressure.FromBars(3), 0.4);
        StreamProperties pure = PassageStream.StreamPropertiesOf(nitrogen);
        double heat = (nitrogen.Phases[0].MolarEnthalpy.JoulesPerMole - nitrogen.Phases[1].MolarEnthalpy.JoulesPerMole) / nitrogen.Fluid.Composition.MolarMass.KilogramsPerMole;
        Assert.Equal(1, pure.LatentHeat / heat, 1e-6);
        Assert.Equal(0, pure.SensibleShare);
        Assert.Equal(0.4, pure.Quality, 1e-9);

        // A blend: the enthalpy of the vapour less what the same amounts hold in the liquid, by liquids that have given off a little of them.
        State state = Blend.At(Temperature.FromKelvins(170), Pressure.FromBars(3));
        Phase vapor = state.Phases.Single(p => p.Kind == PhaseKind.Vapor);
        Phase liquid = state.Phases.Single(p => p.Kind == PhaseKind.Liquid);
        double Poorer(double amount)
        {
            (string, double)[] left = [.. Blend.Composition.Components.Select((c, i) =>
                (c.Name, (liquid.Composition.MoleFractions[i] - (amount * vapor.Composition.MoleFractions[i])) / (1 - amount)))];
            State poorer = WorkingFluid.Mixture(left).At(state.Temperature, state.Pressure);
            Assert.Equal(PhaseKind.Liquid, Assert.Single(poorer.Phases).Kind);
            return (1 - amount) * poorer.Phases[0].Result.Figures.Enthalpy;
        }

        double slope = -((-1.5 * liquid.Result.Figures.Enthalpy) + (2 * Poorer(1e-3)) - (0.5 * Poorer(2e-3))) / 1e-3;
        double expected = (vapor.Result.Figures.Enthalpy - slope) / vapor.Composition.MolarMass.KilogramsPerMole;
        Assert.Equal(1, PassageStream.StreamPropertiesOf(state).LatentHeat / expected, 1e-4);
    }

    [Fact]
    public void FromLiquidToVaporWithoutSteps()
    {
        // Along the isobar of a blend: single phases join the two phases where the last bubble and the last drop are.
        WorkingFluid blend = WorkingFluid.Mixture(("methane", 0.4), ("ethane", 0.3), ("propane", 0.3));
        foreach (HeatDirection direction in Enum.GetValues<HeatDirection>())
        {
            State bubble = blend.AtVaporFraction(Pressure.FromBars(3), 1e-7);
            State dew = blend.AtVaporFraction(Pressure.FromBars(3), 1 - 1e-7);
            Assert.Equal(2, bubble.Phases.Count(p => !p.IsIncipient));
            foreach (State edge in new[] { bubble, dew })
            {
                double off = edge == bubble ? -1e-3 : 1e-3;
                State outside = blend.At(Temperature.FromKelvins(edge.Temperature.Kelvins + off), edge.Pressure);
                Assert.Single(outside.Phases);
                PassageFilm a = Tube.Film(edge, Flow, direction);
                PassageFilm b = Tube.Film(outside, Flow, direction);
                Assert.Equal(1, a.Coefficient.WattsPerSquareMeterKelvin / b.Coefficient.WattsPerSquareMeterKelvin, 1e-3);

                // At the dew point friction comes in with the root of three of the liquid: 5e-3 of it at 1e-7.
                Assert.Equal(1, a.FrictionPascalsPerMeter / b.FrictionPascalsPerMeter, 0.02);
            }
        }
    }

    [Fact]
    public void TwoLiquidsAreTakenAsOneAndNoted()
    {
        State state = Enumerable.Range(90, 36).Select(t => Blends.TwoLiquids.At(Temperature.FromKelvins(t), Pressure.FromBars(6)))
            .First(s => s.PhaseDescription == "two liquids + vapor");
        PassageFilm film = Tube.Film(state, Flow, HeatDirection.Heated);
        Assert.Contains(film.Notes, n => n.Subject == "two liquids");
        StreamProperties p = PassageStream.StreamPropertiesOf(state);
        Phase[] liquids = [.. state.Phases.Where(f => f.Kind == PhaseKind.Liquid)];
        Assert.InRange(p.Liquid.Density, liquids.Min(f => f.Density.KilogramsPerCubicMeter), liquids.Max(f => f.Density.KilogramsPerCubicMeter));
        Assert.InRange(p.Liquid.Viscosity, liquids.Min(f => f.Transport.Viscosity.PascalSeconds), liquids.Max(f => f.Transport.Viscosity.PascalSeconds));
        Assert.Equal(state.VaporMassFraction, p.Quality, 1e-12);
    }

    [Fact]
    public void ShapesAndCoilsCount()
    {
        State gas = Blend.At(Temperature.FromKelvins(290), Pressure.FromBars(3));
        Length inner = Length.FromMillimeters(6);
        Length outer = Length.FromMillimeters(10);
        Length coil = Length.FromMillimeters(150);
        PassageFilm within = FlowPassage.Annulus(inner, outer).Film(gas, Flow, HeatDirection.Heated);
        PassageFilm without = FlowPassage.Annulus(inner, outer, PassageWall.Outer).Film(gas, Flow, HeatDirection.Heated);
        Assert.True(within.Coefficient > without.Coefficient);
        Assert.Equal(within.FrictionPascalsPerMeter, without.FrictionPascalsPerMeter, 1e-9);
        Assert.Contains("inner wall", within.Method, StringComparison.Ordinal);
        PassageFilm straight = Tube.Film(gas, Flow, HeatDirection.Heated);
        PassageFilm coiled = FlowPassage.RoundTube(Length.FromMillimeters(4), coil).Film(gas, Flow, HeatDirection.Heated);
        Assert.True(coiled.FrictionPascalsPerMeter > straight.FrictionPascalsPerMeter);
        Assert.Equal(1, coiled.Coefficient / straight.Coefficient, 0.4);
        PassageFilm around = FlowPassage.AroundTubes(3, Length.FromMillimeters(3), outer, coil).Film(gas, Flow, HeatDirection.Heated);
        Assert.Contains("no source", around.Method, StringComparison.Ordinal);
        Assert.Contains("no source", around.FrictionMethod, StringComparison.Ordinal);
        Assert.Equal("around 3 tubes of 3 mm in 10 mm, coiled to 150 mm", around.Passage.ToString());
        Assert.Equal(Math.PI * 9e-3, around.Passage.HeatedPerimeter.Meters, 1e-12);

        // A short tube has more.
        Assert.True(Tube.Film(gas, Flow, HeatDirection.Heated, Length.FromMillimeters(40)).Coefficient > straight.Coefficient);
    }

    [Fact]
    public void OutOfRangeIsNoted()
    {
        WorkingFluid propane = WorkingFluid.Pure("propane");
        State boiling = propane.AtVaporFraction(Pressure.FromBars(2), 0.95);
        PassageFilm dry = FlowPassage.RoundTube(Length.FromMillimeters(20)).Film(boiling, Flow, HeatDirection.Heated, heatFlux: HeatFlux.FromWattsPerSquareMeter(1000));
        Assert.Equal(["dry-out", "liquid film", "slow flow"], dry.Notes.Select(n => n.Subject).Order(StringComparer.Ordinal));
        Assert.Equal(FilmRegime.NearVapor, dry.Regime);
        PassageFilm narrow = FlowPassage.RoundTube(Length.FromMillimeters(2)).Film(boiling, Flow, HeatDirection.Cooled);
        Assert.Contains(narrow.Notes, n => n.Subject == "condensing" && n.Message.Contains("above 3 mm", StringComparison.Ordinal));
        State gas = propane.At(Temperature.FromKelvins(300), Pressure.FromBars(2));
        Assert.Contains(Tube.Film(gas, Flow, HeatDirection.Heated, Length.FromMillimeters(2)).Notes, n => n.Subject == "inlet");
        PassageFilm fast = FlowPassage.RoundTube(Length.FromMillimeters(4), Length.FromMillimeters(15)).Film(gas, MassFlow.FromGramsPerSecond(20), HeatDirection.Heated);
        Assert.Contains(fast.Notes, n => n.Subject == "turbulent friction in a coil");

        // Nucleate boiling of a pure fluid raises the coefficient; it is left out of a blend.
        State half = propane.AtVaporFraction(Pressure.FromBars(2), 0.3);
        Assert.True(Tube.Film(half, Flow, HeatDirection.Heated, heatFlux: HeatFlux.FromKilowattsPerSquareMeter(10)).Coefficient > Tube.Film(half, Flow, HeatDirection.Heated).Coefficient);

        // A strict fluid refuses as its transport does.
        WorkingFluid fluorocarbon = WorkingFluid.Pure("R-23");
        State cold = fluorocarbon.WithRangePolicy(RangePolicy.Strict).At(Temperature.FromKelvins(130), Pressure.FromBars(5));
        Assert.Throws<ModelRangeException>(() => Tube.Film(cold, Flow, HeatDirection.Heated));
        Assert.Equal(2, Tube.Film(fluorocarbon.At(Temperature.FromKelvins(130), Pressure.FromBars(5)), Flow, HeatDirection.Heated).Notes.Count(n => n.Message.Contains("153 K", StringComparison.Ordinal)));
    }

    [Fact]
    public void RandomStatesGiveFiniteFigures()
    {
        Random random = new(7);
        for (int i = 0; i < 60; i++)
        {
            double[] amounts = [.. Enumerable.Range(0, 4).Select(_ => 0.02 + random.NextDouble())];
            WorkingFluid fluid = WorkingFluid.Mixture(("nitrogen", amounts[0] / amounts.Sum()), ("methane", amounts[1] / amounts.Sum()), ("ethane", amounts[2] / amounts.Sum()), ("isobutane", amounts[3] / amounts.Sum()))
                .WithModel(FluidModel.PengRobinson);
            State state = fluid.At(Temperature.FromKelvins(100 + (220 * random.NextDouble())), Pressure.FromBars(Math.Exp(4 * random.NextDouble())));
            PassageFilm film = PassageKernelTests.RandomPassage(random).Film(
                state, MassFlow.FromGramsPerSecond(Math.Exp(6 * random.NextDouble()) / 50), i % 2 == 0 ? HeatDirection.Heated : HeatDirection.Cooled);
            Assert.True(film.Coefficient.WattsPerSquareMeterKelvin > 0 && film.FrictionPascalsPerMeter > 0, $"{film}");
            Assert.InRange(film.SensibleShare, 0, 1);
            Assert.InRange(film.VoidFraction, 0, 1);
            Assert.NotEmpty(film.ToTable().ToString());
        }
    }

    [Fact]
    public void BadFiguresAreNamed()
    {
        State state = WorkingFluid.Pure("nitrogen").At(Temperature.FromKelvins(300), Pressure.FromBars(1));
        Length four = Length.FromMillimeters(4);
        Length ten = Length.FromMillimeters(10);
        Has("bore is 2 m; allowed is 5E-05 to 1 m", () => FlowPassage.RoundTube(Length.FromMeters(2)));
        Has("coilDiameter is 0.01 m; allowed is 0.0133", () => FlowPassage.RoundTube(four, ten));
        Has("roughness is 0.001 m; allowed is 0 to 0.0002 m", () => FlowPassage.RoundTube(four, roughness: Length.FromMillimeters(1)));
        Has("innerDiameter is 0.01 m; allowed is 4E-05 to 0.00396 m", () => FlowPassage.Annulus(ten, four));
        Has("must be one of Inner, Outer", () => FlowPassage.Annulus(four, ten, (PassageWall)5));
        Has("tubeCount is 0 tubes", () => FlowPassage.AroundTubes(0, four, ten));
        Has("tubeDiameter is 0.004 m; allowed is", () => FlowPassage.AroundTubes(5, four, ten));
        Has("tubeDiameter is 0 m", () => FlowPassage.AroundTubes(5, Length.Zero, ten));
        Assert.Equal(7, FlowPassage.AroundTubes(7, Length.FromMillimeters(3.33), ten).TubeCount);
        Has("flow is 0 kg/s", () => Tube.Film(state, MassFlow.Zero, HeatDirection.Heated));
        Has("length is -1 m", () => Tube.Film(state, Flow, HeatDirection.Heated, Length.FromMeters(-1)));
        Has("heatFlux is -5 W/m2", () => Tube.Film(state, Flow, HeatDirection.Heated, heatFlux: HeatFlux.FromWattsPerSquareMeter(-5)));
        Has("must be one of Heated, Cooled", () => Tube.Film(state, Flow, (HeatDirection)7));
        Assert.Throws<ArgumentNullException>(() => Tube.Film(null!, Flow, HeatDirection.Heated));

        static void Has(string text, Action action) => Assert.Contains(text, Assert.Throws<ArgumentOutOfRangeException>(action).Message, StringComparison.Ordinal);
    }
}
