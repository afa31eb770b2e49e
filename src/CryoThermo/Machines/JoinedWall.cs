using CryoThermo.HeatTransfer;

namespace CryoThermo.Machines;

/// <summary>The walls of two tubes that lie side by side, joined along their length.</summary>
/// <param name="hot">The tube of the stream that is cooled.</param>
/// <param name="cold">The other.</param>
/// <param name="width">Width of the joint, m.</param>
/// <param name="joint">Resistance of the joint, m K/W.</param>
internal sealed class JoinedWall(TubeWall hot, TubeWall cold, double width, double joint) : ExchangeWall
{
    /// <inheritdoc/>
    public override (double ToHot, double ToCold) Resistances(double temperature, double hotFilm, double coldFilm) =>
        (Side(hot, temperature, hotFilm) + (0.5 * joint), Side(cold, temperature, coldFilm) + (0.5 * joint));

    /// <inheritdoc/>
    public override double AxialConductance(double temperature) =>
        (hot.CrossSection.SquareMeters * hot.Material.ConductivityHeld(temperature)) + (cold.CrossSection.SquareMeters * cold.Material.ConductivityHeld(temperature));

    private double Side(TubeWall tube, double temperature, double film)
    {
        double coefficient = film / (Math.PI * tube.InnerDiameter.Meters);
        return 1 / (TubeJoint.Efficiency(tube, coefficient, tube.Material.ConductivityHeld(temperature), width) * film);
    }
}
