using CryoThermo.HeatTransfer;

namespace CryoThermo.Machines;

/// <summary>The walls of equal tubes inside another: heat goes through those of the inner ones; all conduct along their length.</summary>
/// <param name="tube">One of the inner tubes.</param>
/// <param name="count">Number of them.</param>
/// <param name="shell">The tube around.</param>
internal sealed class CoaxialWall(TubeWall tube, int count, TubeWall shell) : ExchangeWall
{
    private readonly double shape = Math.Log(tube.OuterDiameter.Meters / tube.InnerDiameter.Meters) / (2 * Math.PI * count);
    private readonly double tubeSection = count * tube.CrossSection.SquareMeters;
    private readonly double shellSection = shell.CrossSection.SquareMeters;

    /// <inheritdoc/>
    public override (double ToHot, double ToCold) Resistances(double temperature, double hotFilm, double coldFilm)
    {
        double half = 0.5 * shape / tube.Material.ConductivityHeld(temperature);
        return ((1 / hotFilm) + half, (1 / coldFilm) + half);
    }

    /// <inheritdoc/>
    public override double AxialConductance(double temperature) =>
        (tubeSection * tube.Material.ConductivityHeld(temperature)) + (shellSection * shell.Material.ConductivityHeld(temperature));
}
