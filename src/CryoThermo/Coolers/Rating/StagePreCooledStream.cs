using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// A stream behind a vapour-compression stage. The stage's duty is carried over to streams that differ little, with what it was seen to move by from one
/// computed answer to the next; the outlet follows from the stream's own enthalpy.
/// </summary>
internal sealed class StagePreCooledStream : PreCooledStream
{
    /// <summary>How far flow and pressure, as logarithms, and mole fractions may lie from those computed, and the temperature, K.</summary>
    private const double Near = 0.3;
    private const double NearFraction = 0.1;
    private const double NearKelvins = 10;

    /// <summary>Moves from which two answers tell how the duty goes on.</summary>
    private const double LeastMove = 1e-3;

    private readonly PreCooler machine;
    private readonly double room;
    private readonly PreCoolerResult computed;
    private readonly double[] slopes;

    private StagePreCooledStream(PreCooler machine, double room, PreCoolerResult computed, double[] slopes, double? carried)
        : base(carried ?? computed.StreamOutlet.Temperature.Kelvins)
    {
        this.machine = machine;
        this.room = room;
        this.computed = computed;
        this.slopes = slopes;
        IsExact = carried is null;
    }

    /// <inheritdoc/>
    public override bool IsExact { get; }

    /// <summary>The last answer computed.</summary>
    public PreCoolerResult Computed => computed;

    /// <summary>What the stage makes of a stream.</summary>
    /// <param name="machine">The stage.</param>
    /// <param name="stream">Before it.</param>
    /// <param name="flow">mol/s.</param>
    /// <param name="room">K.</param>
    /// <param name="near">Of a stream before; null for none.</param>
    public static StagePreCooledStream Of(PreCooler machine, State stream, double flow, double room, PreCooledStream? near)
    {
        StagePreCooledStream? before = near is StagePreCooledStream stage && ReferenceEquals(stage.machine, machine) && stage.room.Equals(room) ? stage : null;
        return before?.Carried(stream, flow) ?? Compute(machine, stream, flow, room, before);
    }

    /// <inheritdoc/>
    public override PreCooledStream Renewed(State stream, double flow) => Compute(machine, stream, flow, room, this);

    /// <inheritdoc/>
    public override PreCooledStream Exactly(State stream, double flow, double outlet) => Compute(machine, stream, flow, room, this);

    private static StagePreCooledStream Compute(PreCooler machine, State stream, double flow, double room, StagePreCooledStream? before)
    {
        PreCoolerResult result = machine.Cool(stream, MolarFlow.FromMolesPerSecond(flow), Temperature.FromKelvins(room));
        if (before is null)
        {
            return new(machine, room, result, [0, 0, 0], null);
        }

        double[] learned = [.. before.slopes];
        double[] move = before.Move(stream, flow, out double fractions);
        double square = move.Sum(m => m * m);
        if (square > LeastMove * LeastMove && square > fractions * fractions)
        {
            // The least change of the slopes that tells what was seen.
            double unseen = (double)(result.Duty - before.computed.Duty).Watts - move.Zip(learned, (m, s) => m * s).Sum();
            for (int i = 0; i < learned.Length; i++)
            {
                learned[i] += unseen * move[i] / square;
            }
        }

        return new(machine, room, result, learned, null);
    }

    private StagePreCooledStream? Carried(State stream, double flow)
    {
        double[] move = Move(stream, flow, out double fractions);
        if (move.Any(m => Math.Abs(m) > Near) || fractions > NearFraction)
        {
            return null;
        }

        double duty = (double)computed.Duty.Watts + move.Zip(slopes, (m, s) => m * s).Sum();
        State outlet = stream.Fluid.AtEnthalpy(stream.Pressure, MolarEnergy.FromJoulesPerMole(stream.MolarEnthalpy.JoulesPerMole - (duty / flow)), computed.StreamOutlet);
        return new(machine, room, computed, slopes, outlet.Temperature.Kelvins);
    }

    // Of flow, temperature and pressure, in one measure.
    private double[] Move(State stream, double flow, out double fractions)
    {
        State inlet = computed.StreamInlet;
        IReadOnlyList<double> z = inlet.Fluid.Composition.MoleFractions;
        fractions = stream.Fluid.Composition.MoleFractions.Select((x, i) => Math.Abs(x - z[i])).Max();
        return
        [
            Math.Log(flow / computed.StreamFlow.MolesPerSecond),
            Near / NearKelvins * (stream.Temperature - inlet.Temperature).Kelvins,
            Math.Log(stream.Pressure / inlet.Pressure),
        ];
    }
}
