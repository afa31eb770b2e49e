using CryoThermo.Coolers;
using UnitsNet;

namespace CryoThermo.Tests.Coolers;

/// <summary>
/// First and second law of random coolers, recomputed from the reported temperatures, pressures, composition and flow by
/// flashes of a fluid of their own; no enthalpy or entropy of the design is used.
/// </summary>
public sealed class CoolerDesignBalanceTests
{
    private const double GasConstant = 8.314462618;
    private const double OfPower = 1e-6;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 36)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void BothLawsHoldForEveryPartAndTheLoop(int seed)
    {
        CoolerDescription description = BenchCoolerFile.Describe(RandomCooler.Plausible(seed));
        CoolerDesign design = CoolerDesign.Evaluate(description);
        WorkingFluid fluid = WorkingFluid.Mixture(description.Charge.ToComposition())
            .WithModel(description.Model);
        Point At(string place)
        {
            State reported = design.Loop.Single(p => p.Place == place).State;
            State state = fluid.At(reported.Temperature, reported.Pressure);
            return new(state.Temperature.Kelvins, state.Pressure.Pascals, state.MolarEnthalpy.JoulesPerMole, state.MolarEntropy.JoulesPerMoleKelvin, state.MolarDensity.MolesPerCubicMeter);
        }

        Point suction = At("compressor suction");
        Point discharge = At("compressor discharge");
        Point afterCooler = At("after-cooler outlet");
        bool preCooled = description.PreCoolerOutletTemperature is not null;
        Point warmEnd = preCooled ? At("pre-cooler outlet") : afterCooler;
        Point throttleInlet = At("throttle inlet");
        Point throttleOutlet = At("throttle outlet");
        Point leaving = At("cold head outlet");

        // The description's own figures are where they belong.
        Assert.Equal(description.LowPressure.Absolute.Pascals, suction.P, 1e-6 * suction.P);
        Assert.Equal(description.HighPressure.Absolute.Pascals, discharge.P, 1e-6 * discharge.P);
        Assert.Equal(discharge.P, afterCooler.P, 1e-6 * discharge.P);
        Assert.Equal(description.WarmEndTemperature.Kelvins, warmEnd.T, 1e-9);
        Assert.Equal(description.Load.ColdTemperature.Kelvins, leaving.T, 1e-9);
        Assert.Equal(discharge.P - description.Recuperator.HighSidePressureDrop.Pascals, throttleInlet.P, 1e-6 * throttleInlet.P);
        Assert.Equal(suction.P + description.Recuperator.LowSidePressureDrop.Pascals, throttleOutlet.P, 1e-6 * throttleOutlet.P);
        Assert.Equal(throttleOutlet.P, leaving.P, 1e-6 * leaving.P);

        double flow = design.Compression.MolarFlow.MolesPerSecond;
        double swept = description.Compressor.SweptVolumeFlow.CubicMetersPerSecond * description.Compressor.VolumetricEfficiency;
        Assert.Equal(swept * suction.Density, flow, 1e-8 * flow);

        double power = (double)design.Compression.Power.Watts;
        double shell = (double)design.Compression.ShellHeat.Watts;
        double pre = (double)(design.PreCoolerHeat?.Watts ?? 0);
        double gross = (double)design.GrossCooling.Watts;
        Assert.True(power > 0);

        // First law, part by part and round the loop.
        Balance("compressor", flow * (discharge.H - suction.H), power - shell);
        Balance("shell", shell, power * description.Compressor.ShellHeatLossFraction);
        Balance("after-cooler", flow * (discharge.H - afterCooler.H), (double)design.AfterCoolerHeat.Watts);
        Balance("pre-cooler", flow * (afterCooler.H - warmEnd.H), pre);
        Balance("recuperator", flow * (warmEnd.H - throttleInlet.H), flow * (suction.H - leaving.H));
        Balance("throttle", flow * throttleInlet.H, flow * throttleOutlet.H);
        Balance("cold head", flow * (leaving.H - throttleOutlet.H), gross);
        Balance("loop", power + gross, shell + (double)design.AfterCoolerHeat.Watts + pre);
        Balance("leak", gross - (double)description.HeatLeak.Watts, (double)design.NetCooling.Watts);

        // The work is that of the isentropic efficiency: the isentropic end state found again by halving the temperature.
        double isentropic = EnthalpyAtEntropy(fluid, discharge.P, suction.S);
        Balance("isentropic work", flow * (isentropic - suction.H), power * description.Compressor.IsentropicEfficiency);

        // Second law: heat leaves at the wall temperature most against the part, the colder of the stream's ends.
        double ambient = description.AmbientTemperature.Kelvins;
        Entropy("compressor", discharge.S - suction.S + (shell / flow / ambient));
        Entropy("after-cooler", afterCooler.S - discharge.S + ((discharge.H - afterCooler.H) / Math.Min(ambient, afterCooler.T)));
        Entropy("pre-cooler", warmEnd.S - afterCooler.S + ((afterCooler.H - warmEnd.H) / warmEnd.T));
        Entropy("recuperator", suction.S - leaving.S + throttleInlet.S - warmEnd.S);
        Entropy("throttle", throttleOutlet.S - throttleInlet.S);
        Entropy("cold head", leaving.S - throttleOutlet.S - ((leaving.H - throttleOutlet.H) / leaving.T));
        Entropy("recuperator, reported", design.Recuperator.EntropyProductionPerSecond.JoulesPerKelvin / flow);

        // The recuperator's own figures come from isobars: 1 J/mol on each of the two ends.
        Assert.Equal(flow * (suction.H - leaving.H), (double)design.Recuperator.Duty.Watts, (2 * flow) + (1e-4 * flow * (suction.H - leaving.H)));

        void Balance(string part, double one, double other) => Assert.True(
            Math.Abs(one - other) <= OfPower * power, $"seed {seed}, {part}: {one:R} W against {other:R} W at a power of {power:R} W");

        void Entropy(string part, double perMole) => Assert.True(
            perMole >= -1e-6 * GasConstant, $"seed {seed}, {part}: entropy produced {perMole:R} J/(mol K)");
    }

    private static double EnthalpyAtEntropy(WorkingFluid fluid, double pressure, double entropy)
    {
        double low = 50;
        double high = 1000;
        while (high - low > 1e-9)
        {
            double middle = 0.5 * (low + high);
            State state = fluid.At(Temperature.FromKelvins(middle), Pressure.FromPascals(pressure));
            (low, high) = state.MolarEntropy.JoulesPerMoleKelvin > entropy ? (low, middle) : (middle, high);
        }

        return fluid.At(Temperature.FromKelvins(0.5 * (low + high)), Pressure.FromPascals(pressure)).MolarEnthalpy.JoulesPerMole;
    }

    private readonly record struct Point(double T, double P, double H, double S, double Density);
}
