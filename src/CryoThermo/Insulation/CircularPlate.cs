using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A flat round plate, a lid or a bottom, under pressure from one side: thin plate, small deflection. No design: a first look before the code in force is applied. Immutable
/// and thread-safe.
/// </summary>
public sealed record CircularPlate
{
    private static readonly Source Formulae = new(
        "S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells (1959), circular plates; R. J. Roark, Formulas for Stress and Strain", FromMemory: true, Verified: "the plate's differential equation solved by differences");

    /// <summary>Describes a plate.</summary>
    /// <param name="freeDiameter">Between its supports, 1 mm to 10 m.</param>
    /// <param name="thickness">0.01 mm to a quarter of the diameter.</param>
    /// <param name="edge">How it is held; where in doubt, supported.</param>
    /// <exception cref="ArgumentOutOfRangeException">A measure is out of its range.</exception>
    public CircularPlate(Length freeDiameter, Length thickness, PlateEdge edge)
    {
        double d = Guard.InRange(freeDiameter.Meters, 1e-3, 10, "m", nameof(freeDiameter));
        Guard.InRange(thickness.Meters, 1e-5, 0.25 * d, "m", nameof(thickness));
        FreeDiameter = freeDiameter;
        Thickness = thickness;
        Edge = Enum.IsDefined(edge) ? edge : throw new ArgumentOutOfRangeException(nameof(edge), edge, $"edge is {edge}; it must be one of {string.Join(", ", Enum.GetNames<PlateEdge>())}.");
    }

    /// <summary>Between its supports.</summary>
    public Length FreeDiameter { get; }

    /// <summary>Thickness.</summary>
    public Length Thickness { get; }

    /// <summary>How it is held.</summary>
    public PlateEdge Edge { get; }

    /// <summary>Force, stress and deflection under an even pressure.</summary>
    /// <param name="difference">Of the pressures on its sides; 1 atm of a vacuum where left out; 1 Pa to 100 bar.</param>
    /// <param name="youngsModulus">For the deflection, 0.1 to 1000 GPa; none is known here.</param>
    /// <param name="poissonRatio">0 to 0.5; 0.3 of common metals where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public PlateLoad Under(Pressure? difference = null, Pressure? youngsModulus = null, double poissonRatio = 0.3)
    {
        double p = Guard.InRange(difference?.Pascals ?? 101_325, 1, 1e7, "Pa", nameof(difference));
        Guard.InRange(poissonRatio, 0, 0.5, "(no unit)");
        double a = 0.5 * FreeDiameter.Meters;
        double t = Thickness.Meters;
        bool isClamped = Edge == PlateEdge.Clamped;

        // Moments for each length: p a2/8 at a clamped edge, (3 + nu) p a2/16 in the middle of a supported plate; stress is six times that over t2.
        double moment = isClamped ? p * a * a / 8 : (3 + poissonRatio) * p * a * a / 16;
        double stress = 6 * moment / (t * t);
        Length? deflection = null;
        List<string> notes = [];
        if (youngsModulus is { } given)
        {
            double e = Guard.InRange(given.Pascals, 1e8, 1e12, "Pa", nameof(youngsModulus));
            double stiffness = e * t * t * t / (12 * (1 - (poissonRatio * poissonRatio)));
            double w = p * Math.Pow(a, 4) / (64 * stiffness) * (isClamped ? 1 : (5 + poissonRatio) / (1 + poissonRatio));
            deflection = Length.FromMeters(w);
            if (w > 0.5 * t)
            {
                notes.Add($"It would bend by {1e3 * w:F2} mm, more than half its thickness: the form for small deflections no longer holds.");
            }
        }

        double force = p * Math.PI * a * a;
        Caution caution = new(
            force > 500 ? CautionSeverity.Warning : CautionSeverity.Notice,
            "Load of pressure on a lid",
            $"{1e-5 * p:G4} bar on {1e3 * FreeDiameter.Meters:G4} mm: {force:F0} N, bending stress {1e-6 * stress:F1} MPa",
            "a plate that fails under vacuum or pressure throws its parts",
            $"Textbook formula of a thin plate: holes, welds, seals, buckling of the shell below and fatigue are not in it. Design by the code in force. {Caution.Deference}",
            Formulae);
        return new(Force.FromNewtons(force), Pressure.FromPascals(stress), deflection, Formulae, notes, [caution]);
    }
}
