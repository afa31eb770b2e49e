using CryoThermo.Fitting;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Tests.Fitting;

public sealed class MeasurementSetTests
{
    private const string Text =
        """
        # source = own points
        # density_uncertainty_percent = 0.2
        temperature_degC, pressure_MPa, overall_CH4, overall_N2, density_kg_per_m3
        26.85, 10, 0.5, 0.5, 98.5
        -73.15, 1, 0.25, 0.75, 16.1
        """;

    [Fact]
    public void HoldingOutFollowsAFixedRule()
    {
        MeasurementSet set = SyntheticPoints.BubblePoints(1);
        (MeasurementSet fitted, MeasurementSet heldOut) = set.HoldOutEvery(3);
        Assert.Equal(10, fitted.Points.Count);
        Assert.Equal([set.Points[2], set.Points[5], set.Points[8], set.Points[11], set.Points[14]], heldOut.Points);

        (fitted, heldOut) = set.HoldOutIsotherms();
        Assert.Equal([140.0], heldOut.Points.Select(p => p.Temperature.Kelvins).Distinct());
        Assert.Equal(set.Points.Except(heldOut.Points), fitted.Points);
        Assert.Equal(set.Name, heldOut.Name);
        Assert.Contains("allowed is 2 to 15", Assert.Throws<ArgumentOutOfRangeException>(() => set.HoldOutEvery(16)).Message, StringComparison.Ordinal);
        MeasurementSet single = new("single", set.Source, set.Components, set.Points.Take(5));
        Assert.Contains("one isotherm", Assert.Throws<InvalidOperationException>(() => single.HoldOutIsotherms()).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void UnitsAreThoseOfTheHeaders()
    {
        MeasurementSet set = MeasurementSet.FromText(Text, "points.csv");
        Assert.Equal("points", set.Name);
        Measurement point = set.Points[0];
        Assert.Equal(MeasurementKind.Density, point.Kind);
        Assert.Equal(300, point.Temperature.Kelvins, 1e-9);
        Assert.Equal(1e7, point.Pressure.Pascals, 1e-6);
        Assert.Equal(98.5, point.Density!.Value.KilogramsPerCubicMeter, 1e-9);
        Assert.Equal(0.002, point.Uncertainty.DensityRelative, 1e-12);
        Assert.Equal("points.csv, line 4", point.Place);

        MeasurementSet molar = MeasurementSet.FromText(Text.Replace("density_kg_per_m3", "density_mol_per_m3", StringComparison.Ordinal), "points.csv");
        double mass = (0.5 * SubstanceCatalog.Default.Find("methane").MolarMass) + (0.5 * SubstanceCatalog.Default.Find("nitrogen").MolarMass);
        Assert.Equal(98.5 * mass, molar.Points[0].Density!.Value.KilogramsPerCubicMeter, 1e-9);
    }

    [Theory]
    [InlineData("bubble pressure", MeasurementKind.BubblePressure)]
    [InlineData("bubble temperature", MeasurementKind.BubbleTemperature)]
    [InlineData("dew pressure", MeasurementKind.DewPressure)]
    [InlineData("dew temperature", MeasurementKind.DewTemperature)]
    [InlineData("vapor composition", MeasurementKind.VaporComposition)]
    public void WhatIsComparedCanBeSet(string compared, MeasurementKind kind)
    {
        string text = $"# source = own\n# compared = {compared}\ntemperature_K,pressure_Pa,liquid_CO2,vapor_CO2,liquid_methane\n230,4e6,0.5,0.3,0.5\n";
        Assert.Equal(kind, Assert.Single(MeasurementSet.FromText(text, "points.csv").Points).Kind);
    }

    [Fact]
    public void OtherQuantitiesAreRead()
    {
        MeasurementSet sound = MeasurementSet.FromText(
            "# source = own\n# from memory = yes\ntemperature_K,pressure_kPa,overall_carbon_dioxide,overall_R-134a,speed_of_sound_m_per_s,speed_of_sound_uncertainty_percent\n300,100,0.5,0.5,201,0.1\n", "s.csv");
        Assert.Equal(MeasurementKind.SpeedOfSound, sound.Points[0].Kind);
        Assert.Equal(0.001, sound.Points[0].Uncertainty.SpeedOfSoundRelative, 1e-12);
        Assert.True(sound.Source.FromMemory);
        MeasurementSet excess = MeasurementSet.FromText(
            "# source = own\ntemperature_K,liquid_Kr,liquid_Xe,excess_gibbs_energy_J_per_mol,excess_gibbs_energy_uncertainty_J_per_mol\n161.4,0.5,0.5,114,7\n", "g.csv");
        Assert.Equal(MeasurementKind.ExcessGibbsEnergy, excess.Points[0].Kind);
        Assert.Equal(114, excess.Points[0].ExcessGibbsEnergy!.Value.JoulesPerMole, 1e-9);
    }

    [Theory]
    [InlineData("# source = own points", "# nothing", 1, "source", "is missing")]
    [InlineData("temperature_degC", "temperature_F", 3, "temperature_F", "is no known column; known are temperature_K")]
    [InlineData("temperature_degC", "pressure_bar", 3, "pressure_MPa", "given a second time")]
    [InlineData("overall_CH4", "overall_methan", 3, "overall_methan", "methane (74-82-8)")]
    [InlineData("overall_N2", "overall_methane", 3, "overall_methane", "given a second time")]
    [InlineData("0.2\n", "0\n", 2, "density_uncertainty_percent", "from 0.0001 to 100, found 0")]
    [InlineData("density_uncertainty_percent", "density_uncertainty", 2, "density_uncertainty", "is no known uncertainty")]
    [InlineData("26.85", "-272", 4, "temperature_degC", "from -271.15 to 1726.85, found -272")]
    [InlineData("26.85, 10", "26.85, ten", 4, "pressure_MPa", "must be a finite number with a point as decimal mark, found 'ten'")]
    [InlineData("26.85, 10,", "26.85, 10, 1,", 4, "", "has 6 values; the header has 5 columns")]
    [InlineData("0.5, 0.5, 98.5", "0.5, 0.6, 98.5", 4, "overall_...", "add up to 1.1; allowed is 1 within 1E-06")]
    [InlineData("0.5, 0.5, 98.5", "1.5, , 98.5", 4, "overall_CH4", "from 0 to 1, found 1.5")]
    [InlineData("0.5, 0.5, 98.5", "0.5, 0.5, ", 4, "density_kg_per_m3", "is missing")]
    [InlineData("0.5, 0.5, 98.5", ", , 98.5", 4, "liquid_methane", "is missing")]
    [InlineData("# source = own points", "# source = own points\n# compared = density", 2, "compared", "must be one of 'bubble pressure'")]
    [InlineData("# source = own points", "# source = own points\n# from memory = perhaps", 2, "from memory", "'yes' or 'no', found 'perhaps'")]
    public void ABrokenRuleNamesFileLineColumnValueAndRange(string old, string replacement, int line, string column, string rule)
    {
        string text = Text.ReplaceLineEndings("\n");
        Assert.Contains(old, text, StringComparison.Ordinal);
        MeasurementFileException error = Assert.Throws<MeasurementFileException>(
            () => MeasurementSet.FromText(text.Replace(old, replacement, StringComparison.Ordinal), "points.csv"));
        Assert.Equal("points.csv", error.File);
        Assert.Equal(line, error.Line);
        Assert.Equal(column, error.Column);
        Assert.Contains(rule, error.Rule, StringComparison.Ordinal);
        Assert.StartsWith($"points.csv, line {line}", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void AFileIsReadByItsPath()
    {
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName() + ".csv");
        try
        {
            File.WriteAllText(path, Text);
            Assert.Equal(2, MeasurementSet.FromFile(path).Points.Count);
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void ValuesOutOfRangeAreRefusedInCodeToo()
    {
        Temperature t = Temperature.FromKelvins(120);
        Pressure p = Pressure.FromBars(5);
        Assert.Contains("allowed is 1 within", Assert.Throws<ArgumentException>(() => Measurement.OfBubblePressure(t, p, [0.5, 0.6])).Message, StringComparison.Ordinal);
        Assert.Contains("allowed is 2 to 2000 K", Assert.Throws<ArgumentOutOfRangeException>(() => Measurement.OfDewPressure(Temperature.Zero, p, [0.5, 0.5])).Message, StringComparison.Ordinal);
        Assert.Contains("the liquid has 2", Assert.Throws<ArgumentException>(() => Measurement.OfBubblePressure(t, p, [0.5, 0.5], [1.0])).Message, StringComparison.Ordinal);
        Assert.Contains("needs two", Assert.Throws<ArgumentException>(() => Measurement.OfVaporComposition(t, p, [0.5, 0.25, 0.25])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new MeasurementUncertainty { PressureRelative = 0 });
        MeasurementSet set = SyntheticPoints.BubblePoints(1);
        Assert.Throws<ArgumentException>(() => new MeasurementSet("none", set.Source, set.Components, []));
        Assert.Throws<ArgumentException>(() => new MeasurementSet("same", set.Source, [set.Components[0], set.Components[0]], set.Points));
        Assert.Throws<ArgumentException>(() => new MeasurementSet("three", set.Source, set.Components, [Measurement.OfDewPressure(t, p, [0.5, 0.25, 0.25])]));
    }
}
