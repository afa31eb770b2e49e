using CryoThermo.Diagnostics;
using CryoThermo.Insulation;
using CryoThermo.Materials;
using UnitsNet;
using Xunit.Abstractions;

namespace CryoThermo.Tests.Insulation;

public sealed class PlateAndSensorTests(ITestOutputHelper output)
{
    private static Temperature K(double kelvins) => Temperature.FromKelvins(kelvins);

    /// <summary>
    /// The equation of a round plate (Timoshenko): for the slope phi, D (phi'' + phi'/r - phi/r2) = -p r/2, solved here by differences; stress is six times the moment
    /// D (phi' + nu phi/r) over the square of the thickness.
    /// </summary>
    [Theory]
    [InlineData(PlateEdge.Clamped)]
    [InlineData(PlateEdge.Supported)]
    public void TheStressOfAPlateIsThatOfItsDifferentialEquation(PlateEdge edge)
    {
        const double A = 0.15;
        const double T = 0.006;
        const double P = 101_325;
        const double E = 195e9; // stainless steel, from memory; only the deflection needs it
        const double Nu = 0.3;
        double stiffness = E * T * T * T / (12 * (1 - (Nu * Nu)));
        const int N = 4000;
        double h = A / N;

        // Tridiagonal system for phi at h, 2h, ... A; phi(0) = 0.
        double[] low = new double[N + 1], middle = new double[N + 1], high = new double[N + 1], right = new double[N + 1];
        for (int i = 1; i < N; i++)
        {
            double r = i * h;
            low[i] = (1 / (h * h)) - (1 / (2 * h * r));
            middle[i] = (-2 / (h * h)) - (1 / (r * r));
            high[i] = (1 / (h * h)) + (1 / (2 * h * r));
            right[i] = -P * r / 2 / stiffness;
        }

        if (edge == PlateEdge.Clamped)
        {
            middle[N] = 1;
        }
        else
        {
            // phi' + nu phi/r = 0 with a point mirrored beyond the edge: phi(N+1) = phi(N-1) - 2 h nu phi(N)/A.
            low[N] = 2 / (h * h);
            middle[N] = (-2 / (h * h)) - (1 / (A * A)) - (2 * h * Nu / A * ((1 / (h * h)) + (1 / (2 * h * A))));
            right[N] = -P * A / 2 / stiffness;
        }

        for (int i = 2; i <= N; i++)
        {
            double m = low[i] / middle[i - 1];
            middle[i] -= m * high[i - 1];
            right[i] -= m * right[i - 1];
        }

        double[] phi = new double[N + 1];
        phi[N] = right[N] / middle[N];
        for (int i = N - 1; i >= 1; i--)
        {
            phi[i] = (right[i] - (high[i] * phi[i + 1])) / middle[i];
        }

        double moment = edge == PlateEdge.Clamped
            ? stiffness * (((3 * phi[N]) - (4 * phi[N - 1]) + phi[N - 2]) / (2 * h))
            : stiffness * (1 + Nu) * phi[1] / h;
        double sag = 0;
        for (int i = 0; i < N; i++)
        {
            sag += 0.5 * h * (phi[i] + phi[i + 1]);
        }

        PlateLoad load = new CircularPlate(Length.FromMeters(2 * A), Length.FromMeters(T), edge).Under(youngsModulus: Pressure.FromPascals(E));
        output.WriteLine($"{edge}: {load.BendingStress.Megapascals:F3} MPa, differences {Math.Abs(6 * moment / (T * T)) / 1e6:F3}; {load.Deflection!.Value.Millimeters:F5} mm, {1e3 * Math.Abs(sag):F5}");
        Assert.Equal(1, Math.Abs(6 * moment / (T * T)) / load.BendingStress.Pascals, 0.001);
        Assert.Equal(1, Math.Abs(sag) / load.Deflection.Value.Meters, 0.001);
        Assert.Equal(101_325 * Math.PI * A * A, load.Force.Newtons, 1e-6);
    }

    [Fact]
    public void ALidDefersToTheCode()
    {
        PlateLoad load = new CircularPlate(Length.FromMillimeters(300), Length.FromMillimeters(3), PlateEdge.Supported).Under(youngsModulus: Pressure.FromGigapascals(195));
        Caution caution = Assert.Single(load.Cautions);
        Assert.Equal(CautionSeverity.Warning, caution.Severity);
        Assert.Contains("licensed practice", caution.Advice, StringComparison.Ordinal);
        Assert.Single(load.Notes);
        Assert.True(load.StressShare(AllowableStress.Of(SolidMaterial.Named("stainless steel 304"))[0]) > 1);
        Assert.Equal("thickness", Assert.Throws<ArgumentOutOfRangeException>(() => new CircularPlate(Length.FromMillimeters(10), Length.FromMillimeters(3), PlateEdge.Clamped)).ParamName);
    }

    /// <summary>
    /// Sensor, anchored wire and warm run by differences, with a metal of one conductivity (German silver here) and radiation in full: the network must be it.
    /// </summary>
    [Theory]
    [InlineData(0.05, 4e-4, 0)]
    [InlineData(0.2, 4e-4, 1e-5)]
    [InlineData(0.02, 2e-3, 5e-5)]
    [InlineData(0, 1e-3, 0)]
    public void TheErrorIsThatOfAFinSolvedByDifferences(double anchored, double contact, double selfHeating)
    {
        const double D = 0.2e-3;
        const double G = 0.05;
        const double WarmRun = 0.3;
        const double FreeRun = 0.01;
        const int Count = 4;
        const double Conductivity = 20;
        const double Exposed = 20e-6;
        const double Emissivity = 0.3;
        SensorWires wires = new(SolidMaterial.Named("German silver"), Length.FromMeters(D), Count, Length.FromMeters(WarmRun), Length.FromMeters(anchored), G, Length.FromMeters(FreeRun));
        SensorMounting mounting = new(
            wires, ThermalResistance.FromSquareMeterKelvinsPerWatt(contact), Area.FromSquareMillimeters(8), Area.FromSquareMeters(Exposed), Emissivity, Power.FromWatts(selfHeating));
        SensorError error = mounting.On(K(90), K(295));

        // Nodes along one wire: from the warm place over the anchor to the sensor; the sensor takes the heat of all wires.
        const double Step = 0.25e-3;
        int n = (int)Math.Round((WarmRun + anchored + FreeRun) / Step);
        double link = Conductivity * 0.25 * Math.PI * D * D / Step;
        double[] lower = new double[n + 1], diagonal = new double[n + 1], upper = new double[n + 1], source = new double[n + 1];
        double theta = 0;
        double warmHeat = 0;
        for (int round = 0; round < 50; round++)
        {
            for (int i = 0; i <= n; i++)
            {
                double x = i * Step;
                double share = Math.Clamp((x + (0.5 * Step) - WarmRun) / Step, 0, 1) - Math.Clamp((x + (0.5 * Step) - WarmRun - anchored) / Step, 0, 1);
                double sink = G * Step * share;
                (lower[i], upper[i], source[i]) = (-link, -link, 0);
                diagonal[i] = (2 * link) + sink;
                if (i == 0)
                {
                    (lower[i], diagonal[i], upper[i], source[i]) = (0, 1, 0, 205);
                }
                else if (i == n)
                {
                    double radiated = Emissivity * 5.670374419e-8 * Exposed * (Math.Pow(295, 4) - Math.Pow(90 + theta, 4));
                    upper[i] = 0;
                    lower[i] = -link;
                    diagonal[i] = link + (8e-6 / contact / Count);
                    source[i] = (radiated + selfHeating) / Count;
                }
            }

            for (int i = 1; i <= n; i++)
            {
                double m = lower[i] / diagonal[i - 1];
                diagonal[i] -= m * upper[i - 1];
                source[i] -= m * source[i - 1];
            }

            double next = source[n] / diagonal[n];
            theta = next;
            double above = 0;
            for (int i = n - 1; i >= 0; i--)
            {
                above = next;
                next = (source[i] - (upper[i] * next)) / diagonal[i];
            }

            warmHeat = Count * link * (next - above);
        }

        output.WriteLine($"anchored {1e3 * anchored:F0} mm: {error.Total.Kelvins:F6} K, differences {theta:F6} K; wires bring {1e3 * (double)error.WireHeat.Watts:F4} and {1e3 * warmHeat:F4} mW");
        Assert.Equal(1, error.Total.Kelvins / theta, 0.002);
        Assert.Equal(1, (double)error.WireHeat.Watts / warmHeat, 0.002);
        Assert.Equal(error.Total.Kelvins, error.ByWires.Kelvins + error.ByRadiation.Kelvins + error.BySelfHeating.Kelvins, 1e-12);
    }

    /// <summary>Copper wires, whose conductivity changes on the way: a march with k(T) everywhere, shooting for the temperature of the room.</summary>
    [Fact]
    public void WithCopperTheErrorIsNear()
    {
        const double D = 0.1e-3;
        const double G = 0.05;
        SolidMaterial copper = SolidMaterial.Named("copper RRR 50");
        SensorWires wires = new(copper, Length.FromMeters(D), 4, Length.FromMeters(0.5), Length.FromMeters(0.02), G, Length.FromMeters(0.01));
        double contact = 1e-3 / 8e-6;
        double told = new SensorMounting(wires, ThermalResistance.FromSquareMeterKelvinsPerWatt(1e-3), Area.FromSquareMillimeters(8), Area.Zero, 0.5).On(K(90), K(295)).Total.Kelvins;
        double section = 0.25 * Math.PI * D * D;
        double WarmEnd(double theta)
        {
            double flow = theta / contact / 4;
            double t = 90 + theta;
            const double Step = 2e-5;
            for (double x = 0; x < 0.53; x += Step)
            {
                flow += x is > 0.01 and < 0.03 ? G * Step * (t - 90) : 0;
                t += Step * flow / (copper.ConductivityAt(K(Math.Clamp(t, 90, 300))).WattsPerMeterKelvin * section);
                if (t > 400)
                {
                    break;
                }
            }

            return t;
        }

        double low = 0;
        double high = 50;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = WarmEnd(middle) < 295 ? (middle, high) : (low, middle);
        }

        output.WriteLine($"network {told:G5} K, march with k(T) {low:G5} K");
        Assert.Equal(1, told / low, 0.2);
    }

    [Fact]
    public void TheAnchorThatIsNeededIsFound()
    {
        SensorWires wires = new(SolidMaterial.Named("copper RRR 50"), Length.FromMillimeters(0.1), 4, Length.FromMeters(0.5), Length.Zero, 0.05, Length.FromMillimeters(10));
        SensorMounting mounting = new(wires, ThermalResistance.FromSquareMeterKelvinsPerWatt(1e-3), Area.FromSquareMillimeters(8), Area.FromSquareMillimeters(2), 0.1, Power.FromMicrowatts(10));
        SensorError free = mounting.On(K(90), K(295));
        Length needed = mounting.AnchoringLength(TemperatureDelta.FromKelvins(0.05), K(90), K(295))!.Value;
        output.WriteLine($"without anchor {free.Total.Kelvins:F3} K; 0.05 K at {needed.Millimeters:F1} mm, decay {free.AnchorDecayLength.Millimeters:F1} mm\n{free.ToTable()}");
        SensorMounting tied = new(
            wires.WithAnchored(needed), ThermalResistance.FromSquareMeterKelvinsPerWatt(1e-3), Area.FromSquareMillimeters(8), Area.FromSquareMillimeters(2), 0.1, Power.FromMicrowatts(10));
        Assert.Equal(0.05, tied.On(K(90), K(295)).Total.Kelvins, 1e-6);
        Assert.NotEmpty(free.Notes);
        Assert.Null(mounting.AnchoringLength(TemperatureDelta.FromKelvins(1e-6), K(90), K(295)));
        Assert.Equal(0, mounting.AnchoringLength(TemperatureDelta.FromKelvins(100), K(90), K(295))!.Value.Meters);
        Assert.Equal("warm", Assert.Throws<ArgumentOutOfRangeException>(() => mounting.On(K(90), K(80))).ParamName);
    }

    [Fact]
    public void RandomMountingsReadHighAndLessSoWithMoreAnchor()
    {
        Random random = new(29);
        string[] metals = ["copper RRR 50", "constantan", "copper RRR 100", "German silver", "stainless steel 304"];
        for (int i = 0; i < 400; i++)
        {
            SolidMaterial metal = SolidMaterial.Named(metals[random.Next(metals.Length)]);
            SensorWires wires = new(
                metal,
                Length.FromMeters(Math.Pow(10, -5 + (2.5 * random.NextDouble()))),
                1 + random.Next(8),
                Length.FromMeters(Math.Pow(10, -2 + (2.5 * random.NextDouble()))),
                Length.Zero,
                Math.Pow(10, -3 + (4 * random.NextDouble())),
                Length.FromMeters(Math.Pow(10, -3.5 + (3 * random.NextDouble()))));
            double contact = Math.Pow(10, -6 + (5 * random.NextDouble()));
            double exposed = random.Next(2) * 1e-4 * random.NextDouble();
            double tube = 78 + (150 * random.NextDouble());
            double before = double.PositiveInfinity;
            foreach (double anchored in (double[])[0, 0.003, 0.03, 0.3, 3, 30])
            {
                SensorError error = new SensorMounting(
                    wires.WithAnchored(Length.FromMeters(anchored)), ThermalResistance.FromSquareMeterKelvinsPerWatt(contact), Area.FromSquareMillimeters(10), Area.FromSquareMeters(exposed), 0.5,
                    Power.FromWatts(1e-5 * random.Next(2))).On(K(tube), K(296));
                Assert.True(error.ByWires.Kelvins >= 0 && error.ByWires.Kelvins <= 296 - tube, $"case {i}");
                Assert.True(error.ByRadiation.Kelvins >= -1e-9 && double.IsFinite(error.Total.Kelvins), $"case {i}");
                Assert.True(error.ByWires.Kelvins <= before * (1 + 1e-9), $"case {i}");
                Assert.True(double.IsFinite((double)error.WireHeat.Watts), $"case {i}");
                before = error.ByWires.Kelvins;
            }
        }
    }
}
