using CryoThermo.Flow;

namespace CryoThermo.Tests.Flow;

/// <summary>The march along a tube against closed solutions, with states of ideal gases and of constant density.</summary>
public sealed class TubeMarchTests
{
    private const double Bore = 1e-3;
    private const double Length = 1.5;

    [Fact]
    public void LaminarFlowOfConstantDensityIsThatOfHagenAndPoiseuille()
    {
        const double Density = 700;
        const double Viscosity = 2e-3;
        const double High = 20e5;
        const double Low = 2e5;
        StateLine line = ConstantDensity(High, Low, Density, Viscosity);
        double flow = Flow(line, High, Low, (re, _) => 64 / re);

        // p0 - p2 = 128 mu L m/(pi rho D^4) + V^2 rho/2, a quadratic in the flow, without loss at the inlet.
        double area = 0.25 * Math.PI * Bore * Bore;
        double a = 0.5 / (Density * area * area);
        double b = 128 * Viscosity * Length / (Math.PI * Density * Math.Pow(Bore, 4));
        double expected = (Math.Sqrt((b * b) + (4 * a * (High - Low))) - b) / (2 * a);
        Assert.Equal(1, flow / expected, 1e-6);
    }

    [Fact]
    public void TurbulentFlowOfConstantDensityAndFrictionFactorIsTheClosedSolution()
    {
        const double Density = 550;
        const double High = 18e5;
        const double Low = 1.5e5;
        const double Friction = 0.025;
        StateLine line = ConstantDensity(High, Low, Density, 1e-4);
        double flow = Flow(line, High, Low, (_, _) => Friction);
        double expected = 0.25 * Math.PI * Bore * Bore * Math.Sqrt(2 * Density * (High - Low) / (1 + (Friction * Length / Bore)));
        Assert.Equal(1, flow / expected, 1e-6);
    }

    // Tables of adiabatic flow with friction of an ideal gas, ratio of heat capacities 1.4 (Shapiro, The Dynamics and Thermodynamics of
    // Compressible Fluid Flow, 1953, from memory): Mach number, Darcy factor times length over bore to the choke, pressure over that at the choke.
    [Theory]
    [InlineData(0.1, 66.922, 10.9435)]
    [InlineData(0.2, 14.533, 5.4554)]
    [InlineData(0.3, 5.2993, 3.6191)]
    [InlineData(0.5, 1.06906, 2.1381)]
    public void ChokingOfAnIdealGasIsThatOfTheTables(double mach, double frictionLength, double pressureRatio)
    {
        const double HeatRatio = 1.4;
        const double Gas = 287.0;
        const double Temperature = 300.0;
        const double Pressure = 8e5;
        const double Friction = 0.02;
        double heatCapacity = HeatRatio * Gas / (HeatRatio - 1);
        double velocity = mach * Math.Sqrt(HeatRatio * Gas * Temperature);
        double flux = velocity * Pressure / (Gas * Temperature);
        double total = (heatCapacity * Temperature) + (0.5 * velocity * velocity);

        // The enthalpy along the stream is known in closed form: h + (G v)^2/2 with v = R h/(cp p).
        double EnthalpyAt(double p)
        {
            double k = flux * flux * Gas * Gas / (2 * heatCapacity * heatCapacity * p * p);
            return (Math.Sqrt(1 + (4 * k * total)) - 1) / (2 * k);
        }

        StateLine line = new([.. Enumerable.Range(0, 91).Select(i =>
        {
            double p = Pressure * Math.Exp(-0.04 * i);
            double h = EnthalpyAt(p);
            double v = Gas * h / (heatCapacity * p);
            return new StateNode(-Math.Log(p), p, h, h / heatCapacity, v, -v / p, Gas / (heatCapacity * p), 0, 1 / heatCapacity, 1e-5, 1, null);
        })]);
        TubeMarch march = new(line, flux, Bore, 0, null, (_, _) => Friction);
        TubeEnd end = march.Run(Pressure, total, 1e3, double.PositiveInfinity);
        Assert.Equal(TubeEnd.Choked, end);
        Assert.Equal(1, Friction * march.End.Position / Bore / frictionLength, 1e-4);
        Assert.Equal(1, Pressure / march.End.Pressure / pressureRatio, 1e-4);
        Assert.Equal(1, march.End.Volume * flux / Math.Sqrt(HeatRatio * Gas * march.End.Temperature), 1e-4);
    }

    // Computed from the formula of S. W. Churchill, Chem. Eng. 84 (1977) 91, by an independent program, not published; the turbulent ones are
    // held against C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133, which the formula stands for (within 2 %, from memory).
    [Theory]
    [InlineData(1000, 0, 0.064)]
    [InlineData(1e5, 0, 0.0178748)]
    [InlineData(1e5, 0.001, 0.0223432)]
    public void FrictionFactorHasItsCheckValues(double reynolds, double roughness, double expected)
    {
        Assert.Equal(1, FrictionFactor.Churchill(reynolds, roughness) / expected, 3e-6);
        if (reynolds > 1e4)
        {
            double f = 0.02;
            for (int i = 0; i < 50; i++)
            {
                f = Math.Pow(-2 * Math.Log10((roughness / 3.7) + (2.51 / (reynolds * Math.Sqrt(f)))), -2);
            }

            Assert.Equal(1, expected / f, 0.02);
        }
    }

    [Fact]
    public void FrictionFactorRefusesWhatIsNoFlow()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.Churchill(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrictionFactor.Churchill(1e4, 0.2));
    }

    private static StateLine ConstantDensity(double high, double low, double density, double viscosity) =>
        new([.. Enumerable.Range(0, 21).Select(i => high + ((low - high) * i / 20)).Select(p => new StateNode(
            -Math.Log(p), p, 0, 300, 1 / density, 0, 0, 0, 1e-3, viscosity, 0, null))]);

    private static double Flow(StateLine line, double high, double low, Func<double, double, double> friction)
    {
        // What passes the whole length, by bisection.
        double least = 1e-9;
        double most = 1;
        for (int i = 0; i < 100; i++)
        {
            double flow = 0.5 * (least + most);
            TubeMarch march = new(line, flow / (0.25 * Math.PI * Bore * Bore), Bore, 0, null, friction);
            bool passes = march.InletPressure(high, 0, 0) is { } inlet && march.Run(inlet, 0, low, Length) == TubeEnd.Length;
            (least, most) = passes ? (flow, most) : (least, flow);
        }

        return least;
    }
}
