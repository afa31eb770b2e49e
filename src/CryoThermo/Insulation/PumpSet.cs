using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// Pumps in series, from the vacuum to the outside, each behind a line or directly. What one pump delivers the next takes in; the pressures between them
/// follow. Immutable and thread-safe.
/// </summary>
public sealed class PumpSet
{
    /// <summary>One standard atmosphere, Pa.</summary>
    internal const double StandardAtmospherePascals = 101325;

    private readonly VacuumPump[] pumps;
    private readonly PumpingLine?[] lines;

    /// <summary>Creates a set.</summary>
    /// <param name="stages">In the order in which the gas passes: the line before a pump (null for none) and the pump.</param>
    /// <param name="outlet">Pressure outside, absolute; null for one standard atmosphere.</param>
    /// <exception cref="ArgumentException">There is no stage.</exception>
    public PumpSet(IReadOnlyList<(PumpingLine? Line, VacuumPump Pump)> stages, Pressure? outlet = null)
    {
        ArgumentNullException.ThrowIfNull(stages);
        if (stages.Count == 0)
        {
            throw new ArgumentException("stages is empty; at least one pump is needed.", nameof(stages));
        }

        foreach ((_, VacuumPump pump) in stages)
        {
            ArgumentNullException.ThrowIfNull(pump, nameof(stages));
        }

        lines = [.. stages.Select(s => s.Line)];
        pumps = [.. stages.Select(s => s.Pump)];
        OutletPressure = outlet ?? Pressure.FromPascals(StandardAtmospherePascals);
        Guard.Positive(OutletPressure.Pascals, "Pa", nameof(outlet));
    }

    /// <summary>Creates a set of pumps one behind the other without lines worth counting.</summary>
    /// <param name="pumps">In the order in which the gas passes.</param>
    /// <exception cref="ArgumentException">There is no pump.</exception>
    public PumpSet(params VacuumPump[] pumps)
        : this([.. (pumps ?? throw new ArgumentNullException(nameof(pumps))).Select(p => ((PumpingLine?)null, p))])
    {
    }

    /// <summary>The pumps in the order in which the gas passes.</summary>
    public IReadOnlyList<VacuumPump> Pumps => pumps;

    /// <summary>The line before each pump; null for none.</summary>
    public IReadOnlyList<PumpingLine?> Lines => lines;

    /// <summary>Pressure outside.</summary>
    public Pressure OutletPressure { get; }

    /// <summary>The pressure reached at no flow: every pump holds its ratio.</summary>
    public Pressure Ultimate
    {
        get
        {
            double p = OutletPressure.Pascals;
            for (int i = pumps.Length - 1; i >= 0; i--)
            {
                p = (p / pumps[i].CompressionRatio) + pumps[i].SealantVaporPressure.Pascals;
            }

            return Pressure.FromPascals(p);
        }
    }

    /// <summary>What is pumped at a pressure in the vacuum.</summary>
    /// <param name="gas">The gas; its lightness helps in a narrow line.</param>
    /// <param name="temperature">Of gas, lines and pumps.</param>
    /// <param name="inlet">Pressure in the vacuum, absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is not above zero.</exception>
    public PumpingResult At(WorkingFluid gas, Temperature temperature, Pressure inlet)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Guard.Positive(temperature.Kelvins, "K", nameof(temperature));
        Guard.Positive(inlet.Pascals, "Pa", nameof(inlet));
        double molarMass = gas.Composition.MolarMass.KilogramsPerMole;
        double viscosity = PumpingLine.ViscosityOf(gas, temperature.Kelvins);
        double[] inlets = new double[pumps.Length];
        double throughput = Throughput(molarMass, viscosity, temperature.Kelvins, inlet.Pascals, inlets);
        int above = Enumerable.Range(0, pumps.Length).FirstOrDefault(i => pumps[i].HighestInlet is { } highest && inlets[i] > highest.Pascals, -1);
        return new(
            throughput,
            VolumeFlow.FromCubicMetersPerSecond(throughput / inlet.Pascals),
            [.. inlets.Select(p => Pressure.FromPascals(p))],
            above < 0 ? null : above);
    }

    /// <summary>Throughput at a pressure, Pa m3/s, zero at and below the ultimate pressure.</summary>
    internal double Throughput(double molarMass, double viscosity, double temperature, double inlet, Span<double> inlets)
    {
        if (inlet <= Ultimate.Pascals)
        {
            Outlet(0, inlet, inlets);
            return 0;
        }

        // The pressure the last pump can deliver against falls with the throughput: one root between nothing and what the first pump sweeps.
        double[] between = new double[pumps.Length];
        double swept = inlet * pumps[0].Speed.CubicMetersPerSecond;
        (double low, double high) = BracketedRoot.Narrow(q => Outlet(q, inlet, between), 0, Outlet(0, inlet, between), swept, Outlet(swept, inlet, between), (x, y) => y - x <= 1e-13 * y);
        double found = 0.5 * (low + high);
        Outlet(found, inlet, inlets);
        return found;

        // What the last pump delivers against, over the pressure outside, less one; where a line cannot pass the throughput, the less the more is asked of it.
        double Outlet(double throughput, double p, Span<double> at)
        {
            for (int k = 0; k < pumps.Length; k++)
            {
                if (lines[k] is { } line && throughput > 0)
                {
                    double most = p > 0 ? line.At(molarMass, viscosity, temperature, 0.5 * p) * p : 0;
                    if (throughput >= most)
                    {
                        at[k..].Clear();
                        return -1 - (throughput / inlet / pumps[0].Speed.CubicMetersPerSecond);
                    }

                    p = Behind(line, throughput, p, most);
                }

                at[k] = p;
                p = pumps[k].CompressionRatio * (p - pumps[k].SealantVaporPressure.Pascals - (throughput / pumps[k].Speed.CubicMetersPerSecond));
            }

            return Math.Max(-1, p / OutletPressure.Pascals) - 1;
        }

        // Pressure at the far end of a line that passes a throughput: the higher it is, the less passes.
        double Behind(PumpingLine line, double throughput, double before, double most) => BracketedRoot.Narrow(
            end => (line.At(molarMass, viscosity, temperature, 0.5 * (before + end)) * (before - end)) - throughput, 0, most - throughput, before, -throughput, (x, y) => y - x <= 1e-13 * before).High;
    }
}
