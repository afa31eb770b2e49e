using CryoThermo.IdealGas;
using CryoThermo.Substances;

namespace CryoThermo.Tests.Substances;

/// <summary>The published ideal-gas part and its translation to cp0/R are two routes to the same heat capacity, enthalpy and entropy.</summary>
public sealed class IdealGasFormTests
{
    private const double ReducingTemperature = 180;
    private const double ReducingDensity = 9000;

    /// <summary>A form with a term of each kind; all coefficients are invented for the test.</summary>
    public static TheoryData<string, string> Forms => new()
    {
        { "heatCapacity", """{ "kind": "power", "coefficient": 3.5, "exponent": 0 }""" },
        { "heatCapacity", """{ "kind": "power", "coefficient": 0.002, "exponent": 1 }""" },
        { "heatCapacity", """{ "kind": "power", "coefficient": 31, "exponent": -1.5 }""" },
        { "heatCapacity", """{ "kind": "power", "coefficient": 40, "exponent": -1 }""" },
        { "heatCapacity", """{ "kind": "vibration", "weight": 2.1, "temperature": 950 }""" },
        { "heatCapacity", """{ "kind": "twoLevel", "weight": 0.9, "temperature": 620, "degeneracyRatio": 0.667 }""" },
        { "heatCapacity", """{ "kind": "squaredHyperbolicSine", "weight": 1.4, "temperature": 800 }""" },
        { "heatCapacity", """{ "kind": "squaredHyperbolicCosine", "weight": 1.4, "temperature": 800 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithm", "coefficient": 2.5 }""" },
        { "helmholtzEnergy", """{ "kind": "power", "coefficient": -0.0013, "exponent": -2 }""" },
        { "helmholtzEnergy", """{ "kind": "power", "coefficient": -0.013, "exponent": 1.5 }""" },
        { "helmholtzEnergy", """{ "kind": "power", "coefficient": 0.4, "exponent": 1 }""" },
        { "helmholtzEnergy", """{ "kind": "vibration", "weight": 2.1, "reducedTemperature": 5.2 }""" },
        { "helmholtzEnergy", """{ "kind": "vibration", "weight": 2.1, "temperature": 950 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfExponential", "weight": -0.9, "constant": 1, "factor": 0.667, "reducedTemperature": -3.4 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfExponential", "weight": -0.2, "constant": 0.667, "factor": 1, "reducedTemperature": 4.4 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfExponential", "weight": 1.3, "constant": 1, "factor": -1, "reducedTemperature": -4.4 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfExponential", "weight": 1.3, "constant": -1, "factor": 1, "reducedTemperature": 4.4 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfHyperbolicSine", "weight": 1.3, "reducedTemperature": 4.4 }""" },
        { "helmholtzEnergy", """{ "kind": "logarithmOfHyperbolicCosine", "weight": -1.3, "temperature": 700 }""" },
    };

    public static TheoryData<string, int> Equations => EquationDataTests.All;

    [Theory]
    [MemberData(nameof(Forms))]
    public void BothRoutesAgreeForEveryKind(string form, string term) => RequireAgreement(Published(form, term), 1e-9);

    [Theory]
    [MemberData(nameof(Equations))]
    public void BothRoutesAgreeForEveryEquation(string name, int index)
    {
        Substance substance = SubstanceCatalog.Default.Find(name);
        HelmholtzEquation equation = substance.Equations[index];
        PublishedIdealGas published = JsonBlock.ReadFile(
            DataFiles.ReadText(substance.FileName),
            substance.FileName,
            root => root.List(
                "equations",
                block => IdealGasFormReader.ReadPublished(
                    block.RequiredBlock("idealGas"), equation.ReducingTemperature, equation.ReducingMolarDensity))[index]);
        RequireAgreement(published, 1e-9);

        double density = 101325 / (equation.GasConstant * 298.15);
        double enthalpy = equation.GasConstant * 298.15 * (1 + published.TauSlope(298.15));
        double entropy = equation.GasConstant * (published.TauSlope(298.15) - published.At(298.15, density));
        Assert.Equal(enthalpy, equation.IdealGas.PublishedEnthalpy, 1e-8);
        Assert.Equal(entropy, equation.IdealGas.PublishedEntropy, 1e-9);
    }

    /// <summary>With E the function of an oscillator: (x/sinh x)^2 = E(2x) and (x/cosh x)^2 = E(2x) - E(4x).</summary>
    [Theory]
    [InlineData("squaredHyperbolicSine")]
    [InlineData("squaredHyperbolicCosine")]
    public void HyperbolicTermsAreExactSumsOfOscillators(string kind)
    {
        PublishedIdealGas hyperbolic = Published("heatCapacity", $$"""{ "kind": "{{kind}}", "weight": 1.4, "temperature": 800 }""");
        string oscillators = """{ "kind": "vibration", "weight": 1.4, "temperature": 1600 }"""
            + (kind == "squaredHyperbolicSine" ? string.Empty : """, { "kind": "vibration", "weight": -1.4, "temperature": 3200 }""");
        PublishedIdealGas vibrations = Published("heatCapacity", oscillators);
        foreach (double temperature in new[] { 60.0, 150, 298.15, 500, 1500 })
        {
            double x = 800 / temperature;
            double function = kind == "squaredHyperbolicSine" ? Math.Sinh(x) : Math.Cosh(x);
            double expected = 1.4 * x * x / (function * function);
            Assert.Equal(expected, HeatCapacity(hyperbolic, temperature), 1e-13);
            Assert.Equal(expected, HeatCapacity(vibrations, temperature), 1e-13);
        }
    }

    /// <summary>The coefficient a of ln(tau) in the Helmholtz energy is the heat capacity a + 1: a monatomic gas has 3/2 and 5/2.</summary>
    [Fact]
    public void TheLogarithmOfTauGivesOneMoreInTheHeatCapacity()
    {
        PublishedIdealGas published = Published("helmholtzEnergy", """{ "kind": "logarithm", "coefficient": 1.5 }""");
        Assert.Equal([new PowerTerm(2.5, 0)], published.HeatCapacity.ToArray());
    }

    /// <summary>cp = R (tau d(tau alpha_tau)/dtau ...) by differences; h and s against the closed integrals of the canonical terms.</summary>
    private static void RequireAgreement(PublishedIdealGas published, double tolerance)
    {
        IdealGasHeatCapacity form = new(published.HeatCapacity, 50, 1000, new Provenance(new CryoThermo.Diagnostics.Source("test", FromMemory: false)));
        IdealGasFunction canonical = new("test", form);
        const double gasConstant = IdealGasFunction.GasConstant;
        double EnthalpyOverR(double temperature) => temperature * (1 + published.TauSlope(temperature));
        double EntropyOverR(double temperature) =>
            published.TauSlope(temperature) - published.At(temperature, 101325 / (gasConstant * temperature));

        foreach (double temperature in new[] { 60.0, 110, 220, 400, 900 })
        {
            double scale = Math.Max(1, form.OverGasConstant(temperature));
            double step = 2e-3 * temperature;
            double wide = (EnthalpyOverR(temperature + step) - EnthalpyOverR(temperature - step)) / (2 * step);
            double narrow = (EnthalpyOverR(temperature + (step / 2)) - EnthalpyOverR(temperature - (step / 2))) / step;
            Assert.Equal(form.OverGasConstant(temperature), narrow + ((narrow - wide) / 3), 1e-8 * scale);
            Assert.Equal(
                canonical.Enthalpy(temperature) / (gasConstant * 298.15),
                (EnthalpyOverR(temperature) - EnthalpyOverR(298.15)) / 298.15,
                tolerance * scale);
            Assert.Equal(canonical.Entropy(temperature) / gasConstant, EntropyOverR(temperature) - EntropyOverR(298.15), tolerance * scale);
        }
    }

    private static double HeatCapacity(PublishedIdealGas published, double temperature) => published.HeatCapacity.Sum(t => t.At(temperature));

    private static PublishedIdealGas Published(string form, string terms) => JsonBlock.ReadFile(
        $$"""{ "form": "{{form}}", "constant": 1.5, "slope": -2.5, "reference": "invented for a test", "terms": [{{terms}}] }""",
        "test.json",
        block => IdealGasFormReader.ReadPublished(block, ReducingTemperature, ReducingDensity));
}
