using CryoThermo.HeatTransfer;
using CryoThermo.Insulation;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class ResidualGasTests(ITestOutputHelper output)
{
    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    private static ResidualGas Gas(string name, double pascals) => new(WorkingFluid.Pure(name), Pressure.FromPascals(pascals));

    /// <summary>
    /// Corruccini, Vacuum 7-8 (1959) 19, quoted in cryogenics texts (from memory): 1.2, 2.1 and 4.4 W/(m2 Pa K), to the digits printed. Monatomic gases and air (gamma 1.4) computed
    /// elsewhere from Kennard's formula.
    /// </summary>
    [Theory]
    [InlineData("air", 1.2, 0.05)]
    [InlineData("helium", 2.1, 0.05)]
    [InlineData("hydrogen", 4.4, 0.05)]
    [InlineData("air", 1.171, 0.002)]
    [InlineData("helium", 2.100, 0.001)]
    [InlineData("argon", 0.6646, 0.0005)]
    [InlineData("neon", 0.9351, 0.0005)]
    public void TheConstantsOfFreeMoleculesAreThosePublished(string name, double published, double tolerance)
    {
        double found = Gas(name, 1).FreeMolecularCoefficientWattsPerSquareMeterPascalKelvin;
        output.WriteLine($"{name}: {found:F4}, published {published}");
        Assert.Equal(published, found, tolerance);
    }

    /// <summary>Kennard's formula with heat capacities of the ideal gas at 300 K from the JANAF tables (J/(mol K)) and molar masses, both from memory.</summary>
    [Theory]
    [InlineData("nitrogen", 29.125, 0.0280134)]
    [InlineData("hydrogen", 28.849, 0.00201588)]
    [InlineData("methane", 35.708, 0.0160425)]
    [InlineData("water", 33.596, 0.0180153)]
    [InlineData("carbon dioxide", 37.221, 0.0440095)]
    public void TheConstantFollowsFromTheHeatCapacity(string name, double isobaric, double molarMass)
    {
        double gamma = isobaric / (isobaric - 8.314462618);
        double expected = (gamma + 1) / (gamma - 1) * Math.Sqrt(8.314462618 / (8 * Math.PI * molarMass * 300));
        double found = Gas(name, 1).FreeMolecularCoefficientWattsPerSquareMeterPascalKelvin;
        output.WriteLine($"{name}: {found:F4}, by hand {expected:F4}");
        Assert.Equal(1, found / expected, 0.003);
    }

    /// <summary>Mean free paths at 1 Pa and 300 K computed elsewhere from handbook viscosities; 6.6 to 6.8 mm of nitrogen is the usual figure (from memory).</summary>
    [Theory]
    [InlineData("nitrogen", 6.69)]
    [InlineData("helium", 19.7)]
    [InlineData("hydrogen", 12.5)]
    public void TheMeanFreePathIsTheUsualOne(string name, double millimeters)
    {
        double found = Gas(name, 1).Across(GasGap.StillPlates(Length.FromCentimeters(1)), new(K(299.99)), new(K(300.01))).MeanFreePath.Millimeters;
        output.WriteLine($"{name}: {found:F3} mm");
        Assert.Equal(1, found / millimeters, 0.015);
    }

    /// <summary>
    /// Worked example, recomputed elsewhere: air at 0.01 Pa read at 300 K, 77 K with coefficient 1, 300 K with 0.87, areas 0.7: factor 0.9053, 2.364 W/m2. Still air over 20 mm, flat,
    /// with handbook conductivity: 195.1 W/m2, from which that of the cylinders here follows.
    /// </summary>
    [Fact]
    public void TheWorkedExampleIsReproduced()
    {
        const double Inner = 0.02 * 0.7 / 0.3;
        GasGap gap = GasGap.HorizontalCylinders(Length.FromMeters(2 * Inner), Length.FromMeters(2 * Inner / 0.7));
        ResidualGasResult result = Gas("air", 0.01).Across(gap, new(K(77), 1), new(K(300), 0.87));
        Assert.Equal(0.9053, result.AccommodationFactor, 0.00005);
        Assert.Equal(1, result.FreeMolecularFlux.WattsPerSquareMeter / 2.364, 0.005);
        double flat = 195.1 * 0.02 / (Inner * Math.Log(1 / 0.7));
        output.WriteLine($"free {result.FreeMolecularFlux.WattsPerSquareMeter:F4}, continuum {result.ContinuumFlux.WattsPerSquareMeter:F2} against {flat:F2} W/m2");
        Assert.Equal(1, result.ContinuumFlux.WattsPerSquareMeter / flat, 0.03);

        // At 1 Pa, Sherman: 1/q = 1/236.4 + 1/195.1 gives 106.9 W/m2 flat.
        ResidualGasResult more = Gas("air", 1).Across(gap, new(K(77), 1), new(K(300), 0.87));
        Assert.Equal(1, more.Flux.Nominal.WattsPerSquareMeter * ((1 / 236.4) + (1 / flat)), 0.03);
        Assert.Equal(GasRegime.Transition, more.Regime);
    }

    /// <summary>Both limits: molecules alone at low pressure, the continuum at high pressure, to one part in a million.</summary>
    [Theory]
    [InlineData("air")]
    [InlineData("helium")]
    [InlineData("hydrogen")]
    [InlineData("methane")]
    public void TheLimitsAreMet(string name)
    {
        GasGap gap = GasGap.StillPlates(Length.FromMeters(1));
        GasSurface cold = new(K(110), 0.8);
        GasSurface warm = new(K(290), 0.9);
        ResidualGasResult thin = Gas(name, 1e-8).Across(gap, cold, warm);
        Assert.Equal(1, thin.Flux.Nominal / thin.FreeMolecularFlux, 1e-6);
        Assert.Equal(GasRegime.FreeMolecular, thin.Regime);
        ResidualGasResult thick = Gas(name, 2e5).Across(gap, cold, warm);
        Assert.Equal(1, thick.Flux.Nominal / thick.ContinuumFlux, 1e-6);
        Assert.Equal(GasRegime.Continuum, thick.Regime);
        Assert.Equal(1, thick.NusseltNumber, 1e-12);
    }

    /// <summary>At 1 bar the same heat as the convection of a gap by the state of the real gas at its middle, which the conductivity's mean over the temperatures differs from a little.</summary>
    [Fact]
    public void AtTheAtmosphereItIsTheConvectionOfAGap()
    {
        WorkingFluid air = WorkingFluid.Pure("air");
        Pressure bar = Pressure.FromBars(1);
        ResidualGas gas = new(air, bar);
        double upright = gas.Across(GasGap.VerticalPlates(Length.FromMillimeters(30), Length.FromMeters(0.6)), new(K(150)), new(K(295))).Flux.Nominal.WattsPerSquareMeter
            / GapConvection.Vertical(air, bar, K(150), K(295), Length.FromMillimeters(30), Length.FromMeters(0.6)).Flux.WattsPerSquareMeter;
        double round = gas.Across(GasGap.HorizontalCylinders(Length.FromMillimeters(60), Length.FromMillimeters(120)), new(K(150)), new(K(295))).Flux.Nominal.WattsPerSquareMeter
            / GapConvection.HorizontalCylinders(air, bar, K(150), K(295), Length.FromMillimeters(60), Length.FromMillimeters(120)).Flux.WattsPerSquareMeter;
        double below = gas.Across(GasGap.WarmPlateBelow(Length.FromMillimeters(40)), new(K(200)), new(K(295))).Flux.Nominal.WattsPerSquareMeter
            / GapConvection.Horizontal(air, bar, K(295), K(200), Length.FromMillimeters(40)).Flux.WattsPerSquareMeter;
        output.WriteLine($"{upright:F4} {round:F4} {below:F4}");
        Assert.Equal(1, upright, 0.02);
        Assert.Equal(1, round, 0.02);
        Assert.Equal(1, below, 0.02);
    }

    /// <summary>Corruccini 1959, Barron (from memory).</summary>
    [Fact]
    public void AccommodationFollowsItsTable()
    {
        Assert.Equal(0.29, Accommodation.Of(WorkingFluid.Pure("helium"), K(300)), 1e-12);
        Assert.Equal(0.42, Accommodation.Of(WorkingFluid.Pure("helium"), K(77)), 1e-12);
        Assert.Equal(0.97, Accommodation.Of(WorkingFluid.Pure("parahydrogen"), K(20)), 1e-12);
        Assert.Equal(0.935, Accommodation.Of(WorkingFluid.Pure("nitrogen"), K(188.5)), 1e-9);
        Assert.Equal(0.87, Accommodation.Of(WorkingFluid.Pure("air"), K(320)), 1e-12);
        ResidualGasResult unknown = Gas("propane", 1).Across(GasGap.StillPlates(Length.FromMillimeters(10)), new(K(120)), new(K(290)));
        Assert.Equal(1, unknown.AccommodationFactor, 1e-12);
        Assert.Contains(unknown.Notes, n => n.Contains("No accommodation coefficient", StringComparison.Ordinal));
        Assert.Contains(Gas("water", 1).Across(GasGap.StillPlates(Length.FromMillimeters(10)), new(K(200)), new(K(290))).Notes, n => n.Contains("freezes", StringComparison.Ordinal));
    }

    [Fact]
    public void RandomGapsGiveHeatThatRisesWithPressureAndStaysInItsBand()
    {
        Random random = new(11);
        string[] names = ["air", "nitrogen", "helium", "hydrogen", "neon", "argon", "methane", "carbon dioxide"];
        for (int i = 0; i < 300; i++)
        {
            WorkingFluid fluid = WorkingFluid.Pure(names[random.Next(names.Length)]);
            double width = Math.Pow(10, -4.5 + (3.5 * random.NextDouble()));
            double inner = width * (0.5 + (20 * random.NextDouble()));
            GasGap gap = random.Next(5) switch
            {
                0 => GasGap.StillPlates(Length.FromMeters(width)),
                1 => GasGap.VerticalPlates(Length.FromMeters(width), Length.FromMeters(width * (5 + (40 * random.NextDouble())))),
                2 => GasGap.WarmPlateBelow(Length.FromMeters(width)),
                3 => GasGap.HorizontalCylinders(Length.FromMeters(Math.Max(2e-4, 2 * inner)), Length.FromMeters(Math.Max(2e-4, 2 * inner) + (2 * width))),
                _ => GasGap.Spheres(Length.FromMeters(Math.Max(2e-4, 2 * inner)), Length.FromMeters(Math.Max(2e-4, 2 * inner) + (2 * width))),
            };
            GasSurface one = new(K(70 + (200 * random.NextDouble())));
            GasSurface other = new(K(70 + (250 * random.NextDouble())));
            bool warms = other.Temperature > one.Temperature;
            double before = 0;
            for (double p = 1e-6; p < 1.5e5; p *= 4)
            {
                ResidualGasResult result = new ResidualGas(fluid, Pressure.FromPascals(p)).Across(gap, one, other);
                double flux = result.Flux.Nominal.WattsPerSquareMeter;
                string what = $"case {i}: {fluid.Composition}, {gap.Description}, {one.Temperature} to {other.Temperature}, {p} Pa: {flux}";
                Assert.True(double.IsFinite(flux) && (flux > 0) == warms, what);
                Assert.True(Math.Abs(flux) >= before * (1 - 1e-12), what);
                Assert.True(result.Flux.Least.WattsPerSquareMeter <= flux && flux <= result.Flux.Greatest.WattsPerSquareMeter, what);
                before = Math.Abs(flux);
            }
        }
    }

    [Fact]
    public void WhatIsOutOfRangeIsNamed()
    {
        Assert.Equal("pressure", Assert.Throws<ArgumentOutOfRangeException>(() => Gas("air", 3e5)).ParamName);
        Assert.Equal("gaugeTemperature", Assert.Throws<ArgumentOutOfRangeException>(() => new ResidualGas(WorkingFluid.Pure("air"), Pressure.FromPascals(1), K(2))).ParamName);
        Assert.Equal("accommodation", Assert.Throws<ArgumentOutOfRangeException>(() => new GasSurface(K(100), 1.2)).ParamName);
        Assert.Equal("width", Assert.Throws<ArgumentOutOfRangeException>(() => GasGap.StillPlates(Length.FromMeters(2))).ParamName);
        Assert.Equal("outerDiameter", Assert.Throws<ArgumentOutOfRangeException>(() => GasGap.Spheres(Length.FromMeters(1), Length.FromMeters(0.9))).ParamName);
    }
}
