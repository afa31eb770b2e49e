using CryoThermo.Checks.Accuracy;
using CryoThermo.Checks.Values;
using UnitsNet;

namespace CryoThermo.Tests.Checks;

public sealed class PublishedExampleTests
{
    public static TheoryData<string, string, string> Rows
    {
        get
        {
            TheoryData<string, string, string> rows = [];
            foreach (PublishedExample example in CheckValues.Examples)
            {
                foreach (PublishedValue value in example.Values)
                {
                    rows.Add(example.Name, value.Quantity, example.Source + (example.FromMemory ? " (from memory)" : string.Empty));
                }
            }

            return rows;
        }
    }

    public static TheoryData<string, double, string> VaporPressures
    {
        get
        {
            TheoryData<string, double, string> rows = [];
            foreach (RoundedPressure pressure in CheckValues.VaporPressures.Pressures)
            {
                rows.Add(pressure.Fluid, pressure.Bar, CheckValues.VaporPressures.Source);
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void APublishedValueIsMetWithinItsTolerance(string name, string quantity, string source)
    {
        PublishedExample example = CheckValues.Examples.Single(e => e.Name == name);
        int index = example.Values.ToList().FindIndex(v => v.Quantity == quantity);
        PublishedValue value = example.Values[index];
        double computed = ExampleCalculations.Compute(example)[index];
        Assert.True(Math.Abs(computed - value.Published) <= value.Tolerance, $"{quantity} is {computed:R}, published {value.Published} within {value.Tolerance} in {source}");
    }

    [Fact]
    public void EveryExampleHasValuesWithATolerance()
    {
        Assert.Equal(9, CheckValues.Examples.Count);
        Assert.All(CheckValues.Examples, e => Assert.NotEmpty(e.Values));
        Assert.All(CheckValues.Examples.SelectMany(e => e.Values), v => Assert.True(v.Tolerance > 0 && v.Tolerance < Math.Abs(v.Published)));
    }

    [Theory]
    [MemberData(nameof(VaporPressures))]
    public void VaporPressuresAt120KelvinAreWithinThreePercent(string fluid, double bar, string source)
    {
        double computed = WorkingFluid.Pure(fluid).WithModel(FluidModel.PengRobinson).Saturation(Temperature.FromKelvins(CheckValues.VaporPressures.Temperature)).Pressure.Bars;
        Assert.True(Math.Abs((computed / bar) - 1) <= CheckValues.VaporPressures.RelativeTolerance, $"{computed:G6} bar, {bar} bar by {source}");
    }
}
