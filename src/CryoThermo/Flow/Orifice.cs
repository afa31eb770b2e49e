using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>A fixed opening by its bore: as a valve of the same flow, with the range of its discharge coefficient. Immutable and thread-safe.</summary>
/// <remarks>
/// Kv follows from Cd times the area. Nothing is recovered behind an opening into a wide space, F_L = 1. x_T follows from the discharge coefficient of choked
/// gas: 2/3 sqrt(2 x_T) Cd = 0.6847 Cd,choked. Coefficients from memory (ISO 5167, ISO 9300 and handbooks of hydraulics).
/// </remarks>
public sealed record Orifice
{
    private static readonly Source Coefficients = new("discharge coefficients: ISO 5167, ISO 9300, handbooks of hydraulics", FromMemory: true);

    private Orifice(Length bore, OrificeEdge edge, (double Least, double Most) coefficient, (double Least, double Most) choked)
    {
        double area = Math.PI / 4 * bore.Meters * bore.Meters;
        Bore = bore;
        Edge = edge;
        LeastDischargeCoefficient = coefficient.Least;
        GreatestDischargeCoefficient = coefficient.Most;
        double middle = 0.5 * (coefficient.Least + coefficient.Most);
        double middleChoked = 0.5 * (choked.Least + choked.Most);
        double ratio = middleChoked / middle * ValveEquations.AirChokedFlux * 1.5;
        Valve = new(middle * area / ValveEquations.AreaPerKv, new($"{Name(edge)} of {bore.Millimeters:G4} mm", 1, ratio * ratio / 2, 1, Coefficients));
        LeastKv = coefficient.Least * area / ValveEquations.AreaPerKv;
        GreatestKv = coefficient.Most * area / ValveEquations.AreaPerKv;
    }

    /// <summary>Diameter.</summary>
    public Length Bore { get; }

    /// <summary>Shape of the edge.</summary>
    public OrificeEdge Edge { get; }

    /// <summary>Least discharge coefficient of liquid to expect.</summary>
    public double LeastDischargeCoefficient { get; }

    /// <summary>Greatest discharge coefficient of liquid to expect.</summary>
    public double GreatestDischargeCoefficient { get; }

    /// <summary>The opening as a valve, at the middle of the range.</summary>
    public ControlValve Valve { get; }

    /// <summary>Least Kv to expect, m3/h.</summary>
    public double LeastKv { get; }

    /// <summary>Greatest Kv to expect, m3/h.</summary>
    public double GreatestKv { get; }

    /// <summary>Describes an opening.</summary>
    /// <param name="bore">Diameter, 1 micrometre to 1 m.</param>
    /// <param name="edge">Shape of its edge.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static Orifice FromBore(Length bore, OrificeEdge edge)
    {
        Guard.InRange(bore.Meters, 1e-6, 1, "m", nameof(bore));
        return edge switch
        {
            OrificeEdge.Sharp => new(bore, edge, (0.60, 0.65), (0.82, 0.87)),
            OrificeEdge.Rounded => new(bore, edge, (0.97, 0.995), (0.97, 0.995)),
            OrificeEdge.ShortTube => new(bore, edge, (0.78, 0.82), (0.78, 0.82)),
            _ => throw new ArgumentOutOfRangeException(nameof(edge), edge, $"edge is {edge}; it must be one of {string.Join(", ", Enum.GetNames<OrificeEdge>())}."),
        };
    }

    private static string Name(OrificeEdge edge) => edge switch
    {
        OrificeEdge.Sharp => "sharp-edged orifice",
        OrificeEdge.Rounded => "rounded nozzle",
        _ => "short tube",
    };
}
