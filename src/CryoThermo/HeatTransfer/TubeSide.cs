using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>One of two tubes joined along their length, with the film coefficient of what flows in it. Immutable and thread-safe.</summary>
public sealed record TubeSide
{
    /// <summary>Describes one side.</summary>
    /// <param name="tube">The tube.</param>
    /// <param name="filmCoefficient">Inside, 0.1 to 1e6 W/(m2 K).</param>
    /// <param name="mean">Mean temperature of its wall, within the range of the metal.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public TubeSide(TubeWall tube, HeatTransferCoefficient filmCoefficient, Temperature mean)
    {
        ArgumentNullException.ThrowIfNull(tube);
        Guard.InRange(filmCoefficient.WattsPerSquareMeterKelvin, 0.1, 1e6, "W/(m2 K)", nameof(filmCoefficient));
        Tube = tube;
        FilmCoefficient = filmCoefficient;
        Mean = mean;
        Conductivity = tube.Material.ConductivityAt(mean).WattsPerMeterKelvin;
    }

    /// <summary>The tube.</summary>
    public TubeWall Tube { get; }

    /// <summary>Film coefficient inside.</summary>
    public HeatTransferCoefficient FilmCoefficient { get; }

    /// <summary>Mean temperature of the wall.</summary>
    public Temperature Mean { get; }

    /// <summary>W/(m K).</summary>
    internal double Conductivity { get; }
}
