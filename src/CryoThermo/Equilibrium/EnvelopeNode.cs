namespace CryoThermo.Equilibrium;

/// <summary>A solved point of a traced line: the variables of <see cref="EnvelopeEquations"/> and how they change along the line.</summary>
/// <param name="Variables">ln K, ln T, ln p, ln of both densities and their difference.</param>
/// <param name="Tangent">Change along the line in its direction of tracing; of any length.</param>
internal sealed record EnvelopeNode(double[] Variables, double[] Tangent)
{
    /// <summary>True when both figures describe an extremum of temperature found by its own condition.</summary>
    public bool IsTemperatureExtremum { get; init; }

    /// <summary>True for an extremum of pressure found by its own condition.</summary>
    public bool IsPressureExtremum { get; init; }

    /// <summary>False where a phase falls apart by itself: its pressure falls with density.</summary>
    public bool IsCompressible { get; init; } = true;

    /// <summary>The same point met from the other end.</summary>
    public EnvelopeNode Reversed() => this with { Tangent = [.. Tangent.Select(static t => -t)] };

    /// <summary>True when another phase forms before.</summary>
    public bool IsUnstable { get; set; }
}
