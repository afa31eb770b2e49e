using CryoThermo.Fitting;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Fitting;

public sealed class SubstanceValidatorTests
{
    public static TheoryData<string> Names => [.. SubstanceCatalog.Default.All.Where(s => s.Equations.Count > 0).Select(s => s.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void EveryShippedEquationComputesWhatItShould(string name)
    {
        ValidationReport report = SubstanceValidator.Validate(SubstanceCatalog.Default.Find(name));

        Assert.True(report.IsValid, report.ToString());
    }

    [Theory]

    // One digit, exponent or constant of the nitrogen file changed; the first equation of the file is the reference equation.
    [InlineData("critical point", "0.924803575275", "0.934803575275")]
    [InlineData("boiling point", "\"normalBoilingPoint\": { \"temperature\": 77.355", "\"normalBoilingPoint\": { \"temperature\": 77.255")]
    [InlineData("saturation curves", "-6.12445284", "-6.21445284")]
    [InlineData("saturation curves", "1.48654237", "1.46854237")]
    [InlineData("ideal-gas heat capacity", "1.012941", "1.912941")]
    [InlineData("triple point", "\"pressure\": 12519.8", "\"pressure\": 15219.8")]
    public void APlantedFaultIsFound(string check, string from, string to)
    {
        string text = DataFiles.ReadText("nitrogen.json");
        int at = text.LastIndexOf(from, StringComparison.Ordinal);
        at = check == "boiling point" ? text.IndexOf(from, StringComparison.Ordinal) : at;
        Assert.True(at > 0, $"{from} is not in the file.");
        Substance broken = SubstanceReader.ReadUnchecked(string.Concat(text.AsSpan(0, at), to, text.AsSpan(at + from.Length)), "broken.json", SubstanceIdentityTable.Default);

        ValidationReport report = SubstanceValidator.Validate(broken);

        Assert.Contains(check, report.Findings.Select(f => f.Check));
        Assert.Contains("nitrogen", report.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void ASubstanceWithoutHelmholtzEquationHasNothingToCheck()
    {
        Assert.True(SubstanceValidator.Validate(SubstanceCatalog.Default.Find("ammonia")).IsValid);
        Assert.Throws<ArgumentNullException>(() => SubstanceValidator.Validate(null!));
    }
}
