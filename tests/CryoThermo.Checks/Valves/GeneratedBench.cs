using CryoThermo.Checks.Soak;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.Checks.Valves;

/// <summary>
/// A made-up bench test: a valve of random opening curve, a flow law that is not the one of the evaluation, random errors of the readings, and perhaps a fault.
/// </summary>
public sealed class GeneratedBench
{
    private const double Ratio = 1.4;
    private const double GasConstant = 287.05;
    private const double Kelvins = 295.15;
    private const double Atmosphere = 97000;

    private readonly FlowLaw law;
    private readonly Func<double, double> area;
    private readonly double highest;
    private readonly double airFlow;

    private GeneratedBench(FlowLaw law, Func<double, double> area, double limit, double massFlow, BenchTest test, IReadOnlyList<BenchReading> readings)
    {
        this.law = law;
        this.area = area;
        highest = limit;
        airFlow = massFlow;
        Test = test;
        Readings = readings;
    }

    /// <summary>What is common to the readings.</summary>
    public BenchTest Test { get; }

    /// <summary>The readings, with their errors.</summary>
    public IReadOnlyList<BenchReading> Readings { get; }

    /// <summary>Makes a test: 48 readings at 24 openings, up and down again.</summary>
    /// <param name="law">How air passes.</param>
    /// <param name="fault">What is wrong.</param>
    /// <param name="gaugeNoise">Standard deviation of each gauge reading, share of it.</param>
    /// <param name="flowNoise">Standard deviation of the flow from reading to reading, share of it.</param>
    /// <param name="seed">Seed of the run.</param>
    /// <param name="number">Number of the test.</param>
    public static GeneratedBench Create(FlowLaw law, BenchFault fault, double gaugeNoise, double flowNoise, int seed, int number)
    {
        CaseRandom random = new(seed, number);
        double full = random.Whole(2) == 0 ? 500 : 2000;
        double dead = full * random.Uniform(0.03, 0.12);
        int shape = random.Whole(3);
        double rangeability = random.Uniform(8, 30);
        double Opening(double s) => s <= dead ? 0 : shape switch
        {
            0 => (s - dead) / (full - dead),
            1 => Math.Pow(rangeability, ((s - dead) / (full - dead)) - 1) * (1 - Math.Exp(-(s - dead) / (0.01 * full))),
            _ => Math.Sqrt((s - dead) / (full - dead)),
        };

        double free = random.Uniform(15, 60) / 60000;
        double massFlow = free * Atmosphere / (GasConstant * Kelvins);
        double limit = random.Uniform(7e5, 11e5);

        // Wide open the pressure stands 0.3 to 1 bar above the atmosphere.
        double wide = Atmosphere + random.Uniform(0.3e5, 1e5);
        double fullArea = massFlow / Flux(law, wide, Atmosphere);
        double needed = massFlow / Flux(law, limit, Atmosphere);
        double leak = fault == BenchFault.SeatLeak ? needed * random.Uniform(1.25, 4) : 0;
        double hole = fault == BenchFault.HoseLeak ? fullArea * random.Uniform(0.1, 0.4) : 0;
        double loss = fault == BenchFault.WornCompressor ? random.Uniform(0.15, 0.6) / (limit - Atmosphere) : 0;
        double stuckFrom = fault == BenchFault.Stuck ? random.Whole(3) == 0 ? 0 : random.Uniform(dead + (0.1 * (full - dead)), dead + (0.5 * (full - dead))) : double.PositiveInfinity;
        double stuckAt = stuckFrom == 0 ? random.Uniform(dead + (0.15 * (full - dead)), full) : stuckFrom;
        double Area(double s) => (fullArea * Opening(s >= stuckFrom ? stuckAt : s)) + leak;

        bool measured = fault is BenchFault.HoseLeak or BenchFault.WornCompressor || (fault == BenchFault.None && random.Whole(2) == 0);
        List<BenchReading> readings = [];
        for (int i = 0; i < 48; i++)
        {
            double s = Math.Round(full * (i < 24 ? i : 47 - i) / 23);
            double noise = 1 + (flowNoise * Normal(random));

            // What the compressor gives, less what the hole takes, is what the valve passes.
            double Surplus(double p) => (massFlow * noise * (1 - (loss * (p - Atmosphere)))) - (hole * Flux(law, p, Atmosphere)) - (Area(s) * Flux(law, p, Atmosphere));
            double pressure = limit;
            if (Surplus(limit) < 0)
            {
                double low = Atmosphere * 1.0001, high = limit;
                while (high - low > 1e-3)
                {
                    double middle = 0.5 * (low + high);
                    (low, high) = Surplus(middle) > 0 ? (middle, high) : (low, middle);
                }

                pressure = low;
            }

            double arriving = Area(s) * Flux(law, pressure, Atmosphere) / massFlow * free * (1 + (0.02 * Normal(random)));
            double read = Atmosphere + ((pressure - Atmosphere) * (1 + (gaugeNoise * Normal(random))));
            readings.Add(new(
                s,
                Pressure.FromPascals(read),
                Pressure.FromPascals(Atmosphere),
                Temperature.FromKelvins(Kelvins),
                measured && arriving > 0.02 * free ? VolumeFlow.FromCubicMetersPerSecond(arriving) : null));
        }

        BenchTest test = new()
        {
            Style = law == FlowLaw.Nozzle ? Orifice.FromBore(Length.FromMillimeters(1), OrificeEdge.Rounded).Valve.Style : ValveStyle.Needle,
            FreeAirDelivery = VolumeFlow.FromCubicMetersPerSecond(free),
            IntakePressure = Pressure.FromPascals(Atmosphere),
            IntakeTemperature = Temperature.FromKelvins(Kelvins),
            UpstreamLimit = Pressure.FromPascals(limit),
            ClosedUpToSteps = full * 0.03,
            GaugeReadingShare = gaugeNoise,
            FlowReadingShare = flowNoise,
            ArrivingFlowShare = 0.02,
        };
        return new(law, s => fullArea * Opening(s), limit, massFlow, test, readings);
    }

    /// <summary>
    /// The true coefficient at an opening: that which gives the same flow, without errors, at the pressures of the test. Null where nothing below the limit passes it.
    /// </summary>
    public double? TrueKv(double steps)
    {
        if (area(steps) * Flux(law, highest, Atmosphere) < airFlow)
        {
            return null;
        }

        double low = Atmosphere * 1.0001, high = highest;
        while (high - low > 1e-3)
        {
            double middle = 0.5 * (low + high);
            (low, high) = area(steps) * Flux(law, middle, Atmosphere) < airFlow ? (middle, high) : (low, middle);
        }

        State air = WorkingFluid.Pure("air").At(Temperature.FromKelvins(Kelvins), Pressure.FromPascals(low));
        return ControlValve.ForFlow(air, Pressure.FromPascals(Atmosphere), MassFlow.FromKilogramsPerSecond(airFlow), Test.Style).FlowCoefficientKv;
    }

    /// <summary>The coefficient of small pressure drops: discharge coefficient times area.</summary>
    public double SmallDropKv(double steps) => (law == FlowLaw.Nozzle ? 0.98 : 0.62) * area(steps) / new ControlValve(1, ValveStyle.Needle).EffectiveArea.SquareMeters;

    private static double Flux(FlowLaw law, double p0, double p1)
    {
        double critical = Math.Pow(2 / (Ratio + 1), Ratio / (Ratio - 1));
        double r = Math.Max(p1 / p0, critical);
        double coefficient = law == FlowLaw.Nozzle ? 0.98 : 0.62 + (0.23 * Math.Min(1, (1 - (p1 / p0)) / 0.8));
        return coefficient * p0 * Math.Sqrt(2 / (GasConstant * Kelvins) * Ratio / (Ratio - 1) * (Math.Pow(r, 2 / Ratio) - Math.Pow(r, (Ratio + 1) / Ratio)));
    }

    private static double Normal(CaseRandom random) => Math.Sqrt(-2 * Math.Log(1 - random.Uniform())) * Math.Cos(2 * Math.PI * random.Uniform());
}
