using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Two tubes lying side by side, joined along their length by solder or braze: a suction line on a capillary. Heat enters all round the inside of one tube,
/// runs along its wall to the joint as in a fin, through the solder, and round the other. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Each tube wall beside the joint is a pair of straight fins of half the rest of the circumference, insulated outside and where they meet; the width of the
/// joint is of one temperature. Standard fin theory; the fillet itself by its width, mean thickness and conductivity.
/// </remarks>
public sealed record TubeJoint
{
    /// <summary>Describes the joint.</summary>
    /// <param name="first">One tube.</param>
    /// <param name="second">The other.</param>
    /// <param name="width">Width of the fillet along the circumference, above zero, at most half of the smaller circumference outside.</param>
    /// <param name="thickness">Mean thickness of solder between the tubes, 1 micrometre to 20 mm.</param>
    /// <param name="solderConductivity">1 to 450 W/(m K): tin-lead about 50, tin-silver about 60, copper-phosphorus braze 20 to 40, silver braze 60 to 150 near 300 K (from memory).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public TubeJoint(TubeSide first, TubeSide second, Length width, Length thickness, ThermalConductivity solderConductivity)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        SolderResistance = CheckedResistance(first.Tube, second.Tube, width, thickness, solderConductivity);
        First = first;
        Second = second;
        Width = width;
        Thickness = thickness;
        SolderConductivity = solderConductivity;
    }

    /// <summary>One tube.</summary>
    public TubeSide First { get; }

    /// <summary>The other.</summary>
    public TubeSide Second { get; }

    /// <summary>Width of the fillet along the circumference.</summary>
    public Length Width { get; }

    /// <summary>Mean thickness of solder between the tubes.</summary>
    public Length Thickness { get; }

    /// <summary>Thermal conductivity of the solder.</summary>
    public ThermalConductivity SolderConductivity { get; }

    /// <summary>From what flows in one tube to what flows in the other, for each metre, W/(m K).</summary>
    public double ConductanceWattsPerMeterKelvin => 1 / (FirstResistance + SolderResistance + SecondResistance);

    /// <summary>Share of the resistance in film and wall of the first tube.</summary>
    public double FirstShare => FirstResistance * ConductanceWattsPerMeterKelvin;

    /// <summary>Share of the resistance in the solder.</summary>
    public double SolderShare => SolderResistance * ConductanceWattsPerMeterKelvin;

    /// <summary>Share of the resistance in film and wall of the second tube.</summary>
    public double SecondShare => SecondResistance * ConductanceWattsPerMeterKelvin;

    /// <summary>Share of the inner surface of the first tube that works: heat that comes to the joint over what would come were all its wall as the joint.</summary>
    public double FirstEfficiency => Efficiency(First);

    /// <summary>Share of the inner surface of the second tube that works.</summary>
    public double SecondEfficiency => Efficiency(Second);

    /// <summary>Where it comes from and how sure it is.</summary>
    public static Source Source { get; } = new(
        "straight-fin theory (any textbook of heat transfer); the model of the joint is derived here", FromMemory: true, Verified: "limits only; a fillet is known to a factor of two at best, so look which share it has");

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        $"Joined tubes: {ConductanceWattsPerMeterKelvin:G3} W/(m K)",
        ["part", "share of the resistance, %", "share of the inner surface that works, %"],
        [
            ["first tube, film and wall", $"{100 * FirstShare:F0}", $"{100 * FirstEfficiency:F0}"],
            ["solder", $"{100 * SolderShare:F0}", string.Empty],
            ["second tube, film and wall", $"{100 * SecondShare:F0}", $"{100 * SecondEfficiency:F0}"],
        ]);

    private double FirstResistance => 1 / (Efficiency(First) * Perimeter(First) * First.FilmCoefficient.WattsPerSquareMeterKelvin);

    private double SecondResistance => 1 / (Efficiency(Second) * Perimeter(Second) * Second.FilmCoefficient.WattsPerSquareMeterKelvin);

    private double SolderResistance { get; }

    private static double Perimeter(TubeSide side) => Math.PI * side.Tube.InnerDiameter.Meters;

    private double Efficiency(TubeSide side) => Efficiency(side.Tube, side.FilmCoefficient.WattsPerSquareMeterKelvin, side.Conductivity, Width.Meters);

    /// <summary>Checks the measures of a joint and tells its resistance, m K/W.</summary>
    internal static double CheckedResistance(TubeWall first, TubeWall second, Length width, Length thickness, ThermalConductivity solderConductivity)
    {
        double least = Math.Min(first.OuterDiameter.Meters, second.OuterDiameter.Meters);
        Guard.InRange(width.Meters, 1e-6, 0.5 * Math.PI * least, "m", nameof(width));
        Guard.InRange(thickness.Meters, 1e-6, 0.02, "m", nameof(thickness));
        Guard.InRange(solderConductivity.WattsPerMeterKelvin, 1, 450, "W/(m K)", nameof(solderConductivity));
        return thickness.Meters / (width.Meters * solderConductivity.WattsPerMeterKelvin);
    }

    /// <summary>Share of the inner surface of a tube that works towards a joint; SI.</summary>
    internal static double Efficiency(TubeWall tube, double filmCoefficient, double conductivity, double width)
    {
        double perimeter = Math.PI * tube.InnerDiameter.Meters;

        // The joint covers an angle; seen from inside it is narrower by the ratio of the diameters.
        double covered = width * tube.InnerDiameter.Meters / tube.OuterDiameter.Meters;
        double length = 0.5 * (perimeter - covered);
        double fin = Fins.Tanh(Math.Sqrt(filmCoefficient / (conductivity * tube.Thickness.Meters)) * length);
        return (covered + (2 * length * fin)) / perimeter;
    }
}
