using CryoThermo.Diagnostics;
using CryoThermo.IdealGas;
using CryoThermo.Substances;
using MathNet.Numerics.Integration;

namespace CryoThermo.Tests.IdealGas;

public sealed class IdealGasFunctionTests
{
    private static readonly SubstanceCatalog Catalog = SubstanceCatalog.Default;

    public static TheoryData<string> AllSubstances => [.. Catalog.All.Select(s => s.Name)];

    /// <summary>
    /// cp at 298.15 K in J/(mol K) from thermochemical tables (each value from memory, given to 0.01 or 0.1) and the deviation of the form in
    /// per cent that was found when the data were collected. Monatomic gases: (5/2) R, exact.
    /// </summary>
    public static TheoryData<string, double, double> TableValues => new()
    {
        { "nitrogen", 29.12, 0.00 },
        { "argon", 20.786, 0.00 },
        { "oxygen", 29.38, -0.01 },
        { "methane", 35.69, 0.05 },
        { "ethylene", 42.90, -0.11 },
        { "ethane", 52.50, -0.05 },
        { "propylene", 64.30, 0.15 },
        { "propane", 73.60, -0.36 },
        { "isobutane", 96.60, 0.04 },
        { "n-butane", 98.50, -0.02 },
        { "1-butene", 85.70, -0.72 },
        { "isopentane", 118.80, 0.07 },
        { "n-pentane", 120.00, 0.03 },
        { "neopentane", 121.00, -0.07 },
        { "neon", 20.786, 0.00 },
        { "helium", 20.786, 0.00 },
        { "hydrogen", 28.84, -0.02 },
        { "parahydrogen", 30.00, -0.18 },
        { "krypton", 20.786, 0.00 },
        { "xenon", 20.786, 0.00 },
        { "carbon monoxide", 29.14, -0.01 },
        { "carbon dioxide", 37.13, 0.03 },
        { "nitrous oxide", 38.62, -0.09 },
        { "water", 33.59, -0.01 },
        { "tetrafluoromethane", 61.05, 0.02 },
        { "trifluoromethane", 51.10, -0.11 },
        { "difluoromethane", 42.90, 0.10 },
        { "hexafluoroethane", 106.50, -0.08 },
        { "octafluoropropane", 148.00, 0.00 },
        { "pentafluoroethane", 95.00, -0.60 },
        { "1,1,1-trifluoroethane", 78.30, -0.28 },
        { "1,1-difluoroethane", 68.00, -0.77 },
        { "sulfur hexafluoride", 97.20, -0.14 },
        { "acetylene", 44.00, 0.10 },
        { "ammonia", 35.65, -0.31 },
        { "hydrogen sulfide", 34.20, -0.27 },
        { "n-hexane", 143.00, -0.29 },
    };

    [Theory]
    [MemberData(nameof(TableValues))]
    public void HeatCapacityAgreesWithThermochemicalTables(string name, double table, double statedDeviation)
    {
        double value = Function(name).HeatCapacity(298.15);
        double deviation = 100 * ((value / table) - 1);
        Assert.Equal(statedDeviation, deviation, 0.03);
        Assert.InRange(deviation, -1, 1);
    }

    /// <summary>A finding: 1.2 % below the table value of 86.0 J/(mol K), which is from memory; the published form is 1.1 % below it.</summary>
    [Fact]
    public void TheKnownExceptionIs1112Tetrafluoroethane() =>
        Assert.Equal(-1.18 / 100, (Function("R-134a").HeatCapacity(298.15) / 86.00) - 1, 0.03 / 100);

    /// <summary>The published value of cp0/R of nitrogen at 300 K follows from the terms of the paper; computed here with plain arithmetic.</summary>
    [Fact]
    public void ThePublishedTermsOfNitrogenAreSummedAsThePaperSays()
    {
        double x = 3364.011 / 300;
        double expected = 3.5 + (3.066469e-6 * 300) + (4.70124e-9 * 300 * 300) - (3.987984e-13 * 300 * 300 * 300)
            + (1.012941 * x * x * Math.Exp(x) / Math.Pow(Math.Exp(x) - 1, 2));
        Assert.Equal(expected * 8.314462618, Function("nitrogen").HeatCapacity(300), 1e-12);
    }

    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void EnthalpyAndEntropyAreTheIntegralsOfHeatCapacity(string name)
    {
        IdealGasHeatCapacity form = Catalog.Find(name).IdealGasHeatCapacity;
        IdealGasFunction function = Function(name);
        double[] nodes = [50, 60, 75, 100, 150, 220, 298.15, 400, 600];
        foreach ((double low, double high) in nodes.Zip(nodes.Skip(1)))
        {
            double enthalpy = GaussLegendreRule.Integrate(t => 8.314462618 * form.OverGasConstant(t), low, high, 64);
            double entropy = GaussLegendreRule.Integrate(t => 8.314462618 * form.OverGasConstant(t) / t, low, high, 64);
            Assert.Equal(1, (function.Enthalpy(high) - function.Enthalpy(low)) / enthalpy, 1e-11);
            Assert.Equal(1, (function.Entropy(high) - function.Entropy(low)) / entropy, 1e-11);
        }
    }

    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void TheReferenceStateIsZero(string name)
    {
        Function(name).Evaluate(298.15, out double heatCapacity, out double enthalpy, out double entropy);
        Assert.Equal(0, enthalpy);
        Assert.Equal(0, entropy);
        Assert.Equal(8.314462618 * Catalog.Find(name).IdealGasHeatCapacity.OverGasConstant(298.15), heatCapacity, 1e-11);
    }

    /// <summary>dh/dT = cp and T ds/dT = cp by central differences with Richardson's step halving.</summary>
    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void DerivativesOfEnthalpyAndEntropyGiveTheHeatCapacity(string name)
    {
        IdealGasFunction function = Function(name);
        foreach (double temperature in new[] { 52.0, 77, 120, 200, 298.15, 420, 590 })
        {
            double heatCapacity = function.HeatCapacity(temperature);
            Assert.Equal(1, Slope(function.Enthalpy, temperature) / heatCapacity, 1e-8);
            Assert.Equal(1, temperature * Slope(function.Entropy, temperature) / heatCapacity, 1e-8);
        }
    }

    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void TheCombinedCallAgreesWithTheSingleOnes(string name)
    {
        IdealGasFunction function = Function(name);
        function.Evaluate(133, out double heatCapacity, out double enthalpy, out double entropy);
        Assert.Equal(function.HeatCapacity(133), heatCapacity);
        Assert.Equal(function.Enthalpy(133), enthalpy);
        Assert.Equal(function.Entropy(133), entropy);
    }

    /// <summary>
    /// From 50 to 600 K, also below the stated range, every form stays between the translational (5/2) R and the classical limit of N atoms with
    /// all vibrations excited: (5/2) R for one atom, (3 N - 3/2) R for a linear molecule, which is above that of a bent one.
    /// </summary>
    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void HeatCapacityStaysPhysicalFrom50To600Kelvins(string name)
    {
        Substance substance = Catalog.Find(name);
        int atoms = AtomCount(substance);
        double most = atoms == 1 ? 2.5 : (3 * atoms) - 1.5;
        for (double temperature = 50; temperature <= 600; temperature += 2.5)
        {
            Assert.InRange(substance.IdealGasHeatCapacity.OverGasConstant(temperature), 2.5, most);
        }
    }

    /// <summary>
    /// A polyatomic molecule has rigid-rotor cp of 4 R (linear 7/2 R). Two published forms fall below that limit when they are continued to 50 K.
    /// </summary>
    [Fact]
    public void OnlyTwoFormsFallBelowTheRigidRotorLimitAt50Kelvins()
    {
        string[] linear = ["nitrogen", "oxygen", "carbon monoxide", "carbon dioxide", "nitrous oxide", "acetylene"];
        string[] excluded = ["hydrogen", "parahydrogen", "orthohydrogen", "helium", "neon", "argon", "krypton", "xenon", "air"];
        IEnumerable<string> below = Catalog.All
            .Where(s => !excluded.Contains(s.Name))
            .Where(s => s.IdealGasHeatCapacity.OverGasConstant(50) < (linear.Contains(s.Name) ? 3.5 : 4) - 0.01)
            .Select(s => s.Name);
        Assert.Equal(["1,1,1-trifluoroethane", "1,1-difluoroethane"], below.Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(AllSubstances))]
    public void NothingOverflowsAtVeryLowOrHighTemperature(string name)
    {
        IdealGasFunction function = Function(name);
        foreach (double temperature in new[] { 1e-3, 0.1, 1, 5, 20, 5000, 1e5 })
        {
            function.Evaluate(temperature, out double heatCapacity, out double enthalpy, out double entropy);
            Assert.True(double.IsFinite(heatCapacity) && double.IsFinite(enthalpy) && double.IsFinite(entropy));
        }
    }

    /// <summary>With a characteristic temperature far below T an oscillator has k T on the average: h = v R (T - T0), s = v R ln(T/T0).</summary>
    [Fact]
    public void ASoftOscillatorReachesItsClassicalLimitWithoutLossOfDigits()
    {
        IdealGasHeatCapacity form = new([new VibrationTerm(2, 1e-5)], 1, 1000, Any);
        IdealGasFunction function = new("soft", form);
        Assert.Equal(2 * 8.314462618, function.HeatCapacity(600), 1e-12);
        Assert.Equal(2 * 8.314462618 * (600 - 298.15), function.Enthalpy(600), 1e-3);
        Assert.Equal(2 * 8.314462618 * Math.Log(600 / 298.15), function.Entropy(600), 1e-12);
    }

    /// <summary>The inverse power of temperature integrates to a logarithm.</summary>
    [Fact]
    public void TheInversePowerIntegratesToALogarithm()
    {
        IdealGasFunction function = new("inverse", new IdealGasHeatCapacity([new PowerTerm(300, -1)], 1, 1000, Any));
        Assert.Equal(8.314462618 * 300 * Math.Log(600 / 298.15), function.Enthalpy(600), 1e-9);
        Assert.Equal(8.314462618 * 300 * ((1 / 298.15) - (1 / 600.0)), function.Entropy(600), 1e-12);
    }

    /// <summary>A two-level term with g = 1 is the squared hyperbolic cosine form of Aly, Lee, Fluid Phase Equilib. 6 (1981) 169 (from memory).</summary>
    [Fact]
    public void ATwoLevelTermOfEqualDegeneracyIsTheHyperbolicCosineForm()
    {
        double x = 900.0 / 250;
        Assert.Equal(Math.Pow(x / 2 / Math.Cosh(x / 2), 2), new TwoLevelTerm(1, 900, 1).At(250), 1e-15);
    }

    [Fact]
    public void ATemperatureOutsideTheStatedRangeIsNoted()
    {
        IdealGasFunction function = Function("propane");
        Assert.Null(function.NoteFor(85));
        Assert.Null(function.NoteFor(1000));
        RangeNote? note = function.NoteFor(70);
        Assert.NotNull(note);
        Assert.Equal("ideal-gas heat capacity of propane", note.Subject);
        Assert.Contains("70 K", note.Message, StringComparison.Ordinal);
        Assert.Contains("85 to 1000 K", note.Message, StringComparison.Ordinal);
        Assert.NotNull(function.NoteFor(1001));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void AnImpossibleTemperatureIsRefused(double temperature)
    {
        ArgumentOutOfRangeException error = Assert.Throws<ArgumentOutOfRangeException>(() => Function("argon").Enthalpy(temperature));
        Assert.Equal("temperature", error.ParamName);
        Assert.Contains(" K", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void NothingIsAllocated()
    {
        IdealGasFunction function = Function("oxygen");
        function.Evaluate(100, out _, out _, out _);
        long before = GC.GetAllocatedBytesForCurrentThread();
        double sum = 0;
        for (int i = 0; i < 1000; i++)
        {
            function.Evaluate(100 + i, out double heatCapacity, out double enthalpy, out double entropy);
            sum += heatCapacity + enthalpy + entropy;
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.True(double.IsFinite(sum));
    }

    private static Provenance Any => new(new Source("invented for a test, no source", FromMemory: false));

    /// <summary>Air has no formula; all but 1 % of it is diatomic.</summary>
    private static int AtomCount(Substance substance) => substance.Identity.Molecule?.AtomCount ?? 2;

    private static IdealGasFunction Function(string name) => new(Catalog.Find(name));

    private static double Slope(Func<double, double> function, double at)
    {
        double step = 1e-3 * at;
        double wide = (function(at + step) - function(at - step)) / (2 * step);
        double narrow = (function(at + (step / 2)) - function(at - (step / 2))) / step;
        return narrow + ((narrow - wide) / 3);
    }
}
