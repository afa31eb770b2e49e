using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// The space around the cold parts as a system: its volume, what leaks and outgasses into it, the cold surfaces that take gas up, and the pumps. Gases are
/// ideal and well mixed at one temperature; the pumps draw them in the shares they have. Immutable and thread-safe.
/// </summary>
public sealed class VacuumSpace
{
    private const int MostSteps = 500_000;

    /// <summary>Difference between a step and its two halves, over the pressure.</summary>
    private const double StepTolerance = 5e-6;

    /// <summary>Most change of the logarithm of the pressure in a step, so that between the points a straight line in it holds.</summary>
    private const double MostChange = 0.03;

    private const double LeastPressure = 1e-14;
    private const double HighestPressure = 1e7;

    private static readonly Source Jackets = new("EN 13458-2 and ISO 21009-1: static vacuum insulated vessels, relief of the jacket", FromMemory: true);

    private readonly string[] names;
    private readonly double[] molarMasses;
    private readonly double[] viscosities;
    private readonly double[][] coldSpeeds;
    private readonly double[][] coldBalances;
    private readonly int[] gasOfLoad;
    private readonly int[] gasOfSurface;
    private readonly double volume;
    private readonly double temperature;

    /// <summary>Creates a space.</summary>
    /// <param name="volume">Free volume, pores of an insulation with it.</param>
    /// <param name="temperature">Of the gas, mostly that of the outer wall, 200 to 500 K.</param>
    /// <param name="loads">Gases that enter at an even rate; null for none.</param>
    /// <param name="surfaces">Surfaces that outgas; null for none.</param>
    /// <param name="coldSurfaces">Surfaces that take gas up; null for none.</param>
    /// <exception cref="ArgumentOutOfRangeException">Volume or temperature is outside its range.</exception>
    /// <exception cref="ArgumentException">A gas is not known to the library, or its viscosity is not.</exception>
    public VacuumSpace(
        Volume volume,
        Temperature temperature,
        IReadOnlyList<GasLoad>? loads = null,
        IReadOnlyList<OutgassingSurface>? surfaces = null,
        IReadOnlyList<ColdSurface>? coldSurfaces = null)
    {
        this.volume = Guard.Positive(volume.CubicMeters, "m3", nameof(volume));
        this.temperature = Guard.InRange(temperature.Kelvins, 200, 500, "K", nameof(temperature));
        Loads = loads ?? [];
        Surfaces = surfaces ?? [];
        ColdSurfaces = coldSurfaces ?? [];
        names = [.. Loads.Select(l => l.Gas).Concat(Surfaces.Select(s => s.Gas)).Prepend("air").Distinct(StringComparer.OrdinalIgnoreCase)];
        gasOfLoad = [.. Loads.Select(l => IndexOf(l.Gas))];
        gasOfSurface = [.. Surfaces.Select(s => IndexOf(s.Gas))];
        WorkingFluid[] gases = [.. names.Select(WorkingFluid.Pure)];
        molarMasses = [.. gases.Select(g => g.Composition.MolarMass.KilogramsPerMole)];
        viscosities = [.. gases.Select(g => PumpingLine.ViscosityOf(g, this.temperature))];
        coldSpeeds = [.. ColdSurfaces.Select(c => molarMasses.Select(m => c.Speed(m, this.temperature)).ToArray())];
        coldBalances = [.. ColdSurfaces.Select(c => gases.Select(g => c.BalancePascals(g, temperature)).ToArray())];
    }

    /// <summary>Free volume.</summary>
    public Volume Volume => Volume.FromCubicMeters(volume);

    /// <summary>Temperature of the gas.</summary>
    public Temperature Temperature => Temperature.FromKelvins(temperature);

    /// <summary>Gases that enter at an even rate.</summary>
    public IReadOnlyList<GasLoad> Loads { get; }

    /// <summary>Surfaces that outgas.</summary>
    public IReadOnlyList<OutgassingSurface> Surfaces { get; }

    /// <summary>Surfaces that take gas up.</summary>
    public IReadOnlyList<ColdSurface> ColdSurfaces { get; }

    /// <summary>What a vacuum around cold parts can do.</summary>
    public IReadOnlyList<Caution> Cautions =>
    [
        new(
            CautionSeverity.Danger,
            "Cold parts in a shut space",
            $"{volume * 1e3:G4} L of vacuum",
            "A shut jacket around cold parts has a relief device that lifts far below its collapse and bursting pressure",
            $"Fit one: a leak of cold liquid, or what froze on cold surfaces, fills the space with gas as soon as it warms. Air that froze out is rich in oxygen. {Caution.Deference}",
            Jackets),
    ];

    /// <summary>Pumps the space down from air.</summary>
    /// <param name="pumps">The pumps.</param>
    /// <param name="start">Pressure of the air in it at first, absolute, above zero to 2 bar.</param>
    /// <param name="duration">How long, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    /// <exception cref="ConvergenceException">The course takes too many steps.</exception>
    public VacuumCourse PumpDown(PumpSet pumps, Pressure start, Duration duration)
    {
        ArgumentNullException.ThrowIfNull(pumps);
        Guard.Positive(start.Pascals, "Pa", nameof(start));
        Guard.InRange(start.Pascals, LeastPressure, 2e5, "Pa absolute", nameof(start));
        double[] first = new double[names.Length];
        first[0] = start.Pascals;
        return Run(pumps, 0, first, duration);
    }

    /// <summary>Goes on with the valve to the pumps shut: the rise of the pressure.</summary>
    /// <param name="from">A point of a course of this space.</param>
    /// <param name="duration">How long, above zero.</param>
    /// <exception cref="ArgumentException">The point has other gases.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The duration is outside its range.</exception>
    public VacuumCourse Shut(VacuumPoint from, Duration duration) => Run(null, SecondsOf(from), Partials(from), duration);

    /// <summary>Goes on with other pumps.</summary>
    /// <param name="pumps">The pumps.</param>
    /// <param name="from">A point of a course of this space.</param>
    /// <param name="duration">How long, above zero.</param>
    /// <exception cref="ArgumentException">The point has other gases.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The duration is outside its range.</exception>
    public VacuumCourse GoOn(PumpSet pumps, VacuumPoint from, Duration duration)
    {
        ArgumentNullException.ThrowIfNull(pumps);
        return Run(pumps, SecondsOf(from), Partials(from), duration);
    }

    /// <summary>Pressure at which the pumps and the cold surfaces take away just what enters at a time.</summary>
    /// <param name="pumps">The pumps.</param>
    /// <param name="pumped">Time since the surfaces were first pumped: they give off the less the longer.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is negative, or more enters than the pumps take at two bar.</exception>
    public VacuumPoint HoldingPressure(PumpSet pumps, Duration pumped)
    {
        ArgumentNullException.ThrowIfNull(pumps);
        double seconds = Guard.InRange(pumped.Seconds, 0, 1e12, "s", nameof(pumped));
        double[] partial = new double[names.Length];
        double lowest = Math.Log(Math.Max(LeastPressure, pumps.Ultimate.Pascals));
        double highest = Math.Log(2e5);
        if (Over(highest) > 0)
        {
            throw new ArgumentOutOfRangeException(nameof(pumps), "More gas enters than the pumps take away at 2 bar absolute; mend the leak or take larger pumps.");
        }

        double found = Over(lowest) <= 0 ? lowest : BracketedRoot.Solve(Over, lowest, highest);
        Over(found);
        double sum = partial.Sum();
        if (!(sum > 0))
        {
            // Nothing enters: what is left is the air the pumps let back.
            partial[0] = Math.Exp(found);
        }

        return PointOf(seconds, partial);

        // Sum of what the gases would have over a pressure, less one.
        double Over(double lnPressure)
        {
            double p = Math.Exp(lnPressure);
            Balance(p, partial);
            return Math.Min(1e6, partial.Sum() / p) - 1;
        }

        void Balance(double p, double[] into)
        {
            Array.Fill(into, p / into.Length);
            for (int round = 0; round < 60; round++)
            {
                double moved = 0;
                double speed = SpeedAt(pumps, into, p);
                for (int i = 0; i < into.Length; i++)
                {
                    double before = into[i];
                    into[i] = ForGas(i, seconds, speed);
                    moved = Math.Max(moved, Math.Abs(into[i] - before));
                }

                if (moved <= 1e-13 * p)
                {
                    return;
                }
            }
        }
    }

    /// <summary>The leak of air from outside that may be added until a pressure is held, Pa m3/s; negative where it is not held as it is.</summary>
    /// <param name="pumps">The pumps.</param>
    /// <param name="wanted">Pressure to be held, absolute.</param>
    /// <param name="pumped">Time since the surfaces were first pumped.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wanted pressure is at or below what the pumps reach, or the time is negative.</exception>
    public double GreatestLeakPascalCubicMetersPerSecond(PumpSet pumps, Pressure wanted, Duration pumped)
    {
        ArgumentNullException.ThrowIfNull(pumps);
        double seconds = Guard.InRange(pumped.Seconds, 0, 1e12, "s", nameof(pumped));
        double p = wanted.Pascals;
        if (!(p > pumps.Ultimate.Pascals && p < 2e5))
        {
            throw new ArgumentOutOfRangeException(
                nameof(wanted), wanted, $"wanted is {p:G6} Pa; allowed is what lies above the {pumps.Ultimate.Pascals:G6} Pa the pumps reach at no flow, up to 2 bar.");
        }

        double[] partial = new double[names.Length];
        partial[0] = p;
        double added = 0;
        for (int round = 0; round < 200; round++)
        {
            double speed = SpeedAt(pumps, partial, p);
            double others = 0;
            for (int i = 1; i < names.Length; i++)
            {
                partial[i] = ForGas(i, seconds, speed);
                others += partial[i];
            }

            partial[0] = p - others;
            double before = added;
            added = (speed * partial[0]) - Net(0, seconds, partial[0]);
            if (Math.Abs(added - before) <= 1e-14 * Math.Abs(added))
            {
                break;
            }

            // Where the other gases alone are too many, the speed is that for them.
            partial[0] = Math.Max(0, partial[0]);
        }

        return added;
    }

    // Partial pressure of a gas at rest, when the pumps take it at a speed.
    private double ForGas(int gas, double seconds, double speed)
    {
        (double gain, double loss) = Rates(gas, seconds, 0);
        if (gain == 0)
        {
            return 0;
        }

        double p = gain / (speed + loss);

        // Cold surfaces take it up above their balance only: with all of them, then with fewer.
        foreach (int k in Enumerable.Range(0, ColdSurfaces.Count).Where(k => double.IsFinite(coldBalances[k][gas])).OrderBy(k => coldBalances[k][gas]))
        {
            if (p > coldBalances[k][gas])
            {
                gain += coldSpeeds[k][gas] * coldBalances[k][gas];
                loss += coldSpeeds[k][gas];
                p = gain / (speed + loss);
            }
        }

        return p;
    }

    // What enters at a partial pressure less what surfaces take up, without the pumps, Pa m3/s.
    private double Net(int gas, double seconds, double p)
    {
        (double gain, double loss) = Rates(gas, seconds, p);
        return gain - (loss * p);
    }

    // Gain and loss over the partial pressure, Pa m3/s and m3/s; cold surfaces take part above their balance.
    private (double Gain, double Loss) Rates(int gas, double seconds, double p)
    {
        double gain = 0;
        double loss = 0;
        for (int k = 0; k < gasOfLoad.Length; k++)
        {
            gain += gasOfLoad[k] == gas ? Loads[k].PascalCubicMetersPerSecond : 0;
        }

        for (int k = 0; k < gasOfSurface.Length; k++)
        {
            if (gasOfSurface[k] == gas)
            {
                double rate = Surfaces[k].RateAt(seconds);
                gain += rate;
                loss += Surfaces[k].Balance is { } balance ? rate / balance.Pascals : 0;
            }
        }

        for (int k = 0; k < coldSpeeds.Length; k++)
        {
            if (p > coldBalances[k][gas])
            {
                gain += coldSpeeds[k][gas] * coldBalances[k][gas];
                loss += coldSpeeds[k][gas];
            }
        }

        return (gain, loss);
    }

    private int IndexOf(string gas) => Array.FindIndex(names, n => string.Equals(n, gas, StringComparison.OrdinalIgnoreCase));

    // What the pumps leave of their speed, m3/s.
    private double SpeedAt(PumpSet pumps, double[] partial, double p) => ThroughputAt(pumps, partial, p) / p;

    private double ThroughputAt(PumpSet pumps, double[] partial, double p)
    {
        double sum = partial.Sum();
        double mass = sum > 0 ? partial.Zip(molarMasses).Sum(x => x.First * x.Second) / sum : molarMasses[0];
        double viscosity = sum > 0 ? partial.Zip(viscosities).Sum(x => x.First * x.Second) / sum : viscosities[0];
        Span<double> inlets = stackalloc double[pumps.Pumps.Count];
        return pumps.Throughput(mass, viscosity, temperature, p, inlets);
    }

    private static double SecondsOf(VacuumPoint from)
    {
        ArgumentNullException.ThrowIfNull(from);
        return from.Time.Seconds;
    }

    private double[] Partials(VacuumPoint from)
    {
        if (from.PartialPressures.Count != names.Length || names.Any(n => !from.PartialPressures.ContainsKey(n)))
        {
            throw new ArgumentException(
                $"from holds {string.Join(", ", from.PartialPressures.Keys)}; the gases of this space are {string.Join(", ", names)}.", nameof(from));
        }

        return [.. names.Select(n => Guard.InRange(from.PartialPressures[n].Pascals, 0, HighestPressure, "Pa", nameof(from)))];
    }

    private VacuumPoint PointOf(double seconds, double[] partial) => new(
        Duration.FromSeconds(seconds),
        Pressure.FromPascals(partial.Sum()),
        names.Zip(partial).ToDictionary(p => p.First, p => Pressure.FromPascals(p.Second), StringComparer.OrdinalIgnoreCase));

    // By the exponential of rates that are straight about the start of each step; two half steps against a whole one set the step.
    private VacuumCourse Run(PumpSet? pumps, double start, double[] first, Duration duration)
    {
        double span = Guard.Positive(duration.Seconds, "s", nameof(duration));
        Guard.InRange(span, 0, 1e12, "s", nameof(duration));
        double end = start + span;
        double now = start;
        double[] p = first;
        List<VacuumPoint> points = [PointOf(now, p)];
        double step = 1e-4 * span;
        (double Throughput, double Slope) pumped = Pumped(pumps, p);
        for (int i = 0; now < end; i++)
        {
            if (i == MostSteps)
            {
                throw new ConvergenceException("Vacuum space", $"{volume * 1e3:G6} L for {span:G6} s", end - now, "Take a shorter time, or pumps that fit the volume.");
            }

            step = Math.Min(step, end - now);
            double[] whole = Step(pumped, now, p, step);
            double[] half = Step(pumped, now, p, 0.5 * step);
            double[] halves = Step(Pumped(pumps, half), now + (0.5 * step), half, 0.5 * step);
            double total = halves.Sum();
            double off = whole.Zip(halves).Max(x => Math.Abs(x.First - x.Second)) / total;
            double change = Math.Abs(Math.Log(total / p.Sum()));
            if ((off > StepTolerance || change > MostChange) && step > 1e-12 * span)
            {
                step *= 0.5;
                continue;
            }

            now = end - now - step <= 1e-9 * span ? end : now + step;

            // Whole and halves are of second order: what is left falls to a quarter.
            p = [.. halves.Zip(whole, (two, one) => Math.Max(0, two + ((two - one) / 3)))];
            pumped = Pumped(pumps, p);
            points.Add(PointOf(now, p));
            if (total > HighestPressure)
            {
                throw new ArgumentOutOfRangeException(nameof(duration), duration, $"duration is {span:G6} s; after {now - start:G6} s the pressure passes {HighestPressure / 1e5:G3} bar.");
            }

            step *= off < 0.2 * StepTolerance && change < 0.6 * MostChange ? 1.5 : 1;
        }

        return new(this, pumps, points, AccountOf(pumps, now, p));
    }

    // Throughput of the pumps, Pa m3/s, and its slope in the pressure, m3/s.
    private (double Throughput, double Slope) Pumped(PumpSet? pumps, double[] p)
    {
        if (pumps is null)
        {
            return (0, 0);
        }

        double total = p.Sum();
        double beside = 1e-4 * total;
        return (
            ThroughputAt(pumps, p, total),
            Math.Max(0, (ThroughputAt(pumps, p, total + beside) - ThroughputAt(pumps, p, total - beside)) / (2 * beside)));
    }

    private double[] Step((double Throughput, double Slope) pumped, double now, double[] p, double step)
    {
        double total = p.Sum();
        // Rates straight in the pressures and the time: dp/dt = f + J dp + g t; its solution stands in the exponential of [J g f; 0 0 1; 0 0 0], with the time
        // over the step.
        int n = p.Length;
        double[,] system = new double[n + 2, n + 2];
        double speed = total > 0 ? pumped.Throughput / total : 0;
        for (int i = 0; i < n; i++)
        {
            (double gain, _) = Rates(i, now, p[i]);
            (double gainAfter, _) = Rates(i, now + step, p[i]);
            (_, double loss) = Rates(i, now + (0.5 * step), p[i]);
            for (int j = 0; j < n && total > 0; j++)
            {
                system[i, j] = -p[i] / total * (pumped.Slope - speed) * step / volume;
            }

            system[i, i] -= (loss + speed) * step / volume;
            system[i, n] = (gainAfter - gain) * step / volume;
            system[i, n + 1] = (gain - ((loss + speed) * p[i])) * step / volume;
        }

        system[n, n + 1] = 1;
        double[,] grown = MatrixExponential.Of(system);
        double[] next = new double[n];
        for (int i = 0; i < n; i++)
        {
            next[i] = Math.Max(i == 0 ? LeastPressure : 0, p[i] + grown[i, n + 1]);
        }

        return next;
    }

    private List<VacuumFlow> AccountOf(PumpSet? pumps, double seconds, double[] p)
    {
        List<VacuumFlow> flows = [];
        double total = p.Sum();
        double speed = pumps is null ? 0 : SpeedAt(pumps, p, total);
        foreach (GasLoad load in Loads)
        {
            flows.Add(new(load.Name, load.Gas, load.PascalCubicMetersPerSecond));
        }

        for (int i = 0; i < names.Length; i++)
        {
            foreach (OutgassingSurface surface in Surfaces.Where((_, k) => gasOfSurface[k] == i))
            {
                double rate = surface.RateAt(seconds);
                flows.Add(new(surface.Name, names[i], rate * (surface.Balance is { } balance ? 1 - (p[i] / balance.Pascals) : 1)));
            }

            for (int k = 0; k < coldSpeeds.Length; k++)
            {
                if (p[i] > coldBalances[k][i])
                {
                    flows.Add(new($"cold surface at {ColdSurfaces[k].Temperature.Kelvins:G4} K", names[i], -coldSpeeds[k][i] * (p[i] - coldBalances[k][i])));
                }
            }

            if (speed > 0)
            {
                flows.Add(new("pumps", names[i], -speed * p[i]));
            }
        }

        return flows;
    }
}
