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
}
