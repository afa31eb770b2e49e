using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>A jacket in which water runs against a stream, described by its conductance. Immutable and thread-safe.</summary>
public sealed record WaterJacket
{
    /// <summary>Heat capacity of water from 5 to 60 degC within 0.5 %, J/(kg K): any table, from memory.</summary>
    private const double WaterHeatCapacity = 4186;

    /// <summary>Describes the jacket.</summary>
    /// <param name="conductanceWattsPerKelvin">UA from the stream to the water, above zero to 1e9 W/K.</param>
    /// <param name="water">Flow of water, 1e-6 to 1e4 kg/s.</param>
    /// <param name="waterInlet">0 to 95 degC.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public WaterJacket(double conductanceWattsPerKelvin, MassFlow water, Temperature waterInlet)
    {
        ConductanceWattsPerKelvin = Guard.InRange(conductanceWattsPerKelvin, 1e-9, 1e9, "W/K");
        Guard.InRange(water.KilogramsPerSecond, 1e-6, 1e4, "kg/s", nameof(water));
        Guard.InRange(waterInlet.DegreesCelsius, 0, 95, "degC", nameof(waterInlet));
        Water = water;
        WaterInlet = waterInlet;
    }

    /// <summary>UA from the stream to the water, W/K.</summary>
    public double ConductanceWattsPerKelvin { get; }

    /// <summary>Flow of water.</summary>
    public MassFlow Water { get; }

    /// <summary>Temperature at which the water enters.</summary>
    public Temperature WaterInlet { get; }

    /// <summary>Flow of the water times its heat capacity, W/K.</summary>
    public double WaterCapacityRateWattsPerKelvin => Water.KilogramsPerSecond * WaterHeatCapacity;

    /// <summary>The jacket of a tube: the stream inside, the water around it.</summary>
    /// <param name="tube">The tube.</param>
    /// <param name="length">In the water, above zero to 1000 m.</param>
    /// <param name="inside">Film coefficient of the stream, 0.1 to 1e6 W/(m2 K).</param>
    /// <param name="outside">Film coefficient of the water, 0.1 to 1e6 W/(m2 K): slow in a wide jacket 300, brisk 3000 (common practice, no source).</param>
    /// <param name="water">Flow of water, 1e-6 to 1e4 kg/s.</param>
    /// <param name="waterInlet">0 to 95 degC.</param>
    /// <param name="scale">Resistance of lime and slime on the water side, 0 to 0.01 m2 K/W: 1e-4 to 3.5e-4 for town and cooling-tower water (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range; also where the metal's conductivity is not known as warm as the water.</exception>
    public static WaterJacket OnTube(
        TubeWall tube,
        Length length,
        HeatTransferCoefficient inside,
        HeatTransferCoefficient outside,
        MassFlow water,
        Temperature waterInlet,
        ThermalResistance scale = default)
    {
        ArgumentNullException.ThrowIfNull(tube);
        double l = Guard.InRange(length.Meters, 1e-6, 1000, "m", nameof(length));
        double hi = Guard.InRange(inside.WattsPerSquareMeterKelvin, 0.1, 1e6, "W/(m2 K)", nameof(inside));
        double ho = Guard.InRange(outside.WattsPerSquareMeterKelvin, 0.1, 1e6, "W/(m2 K)", nameof(outside));
        double layer = Guard.InRange(scale.SquareMeterKelvinsPerWatt, 0, 0.01, "m2 K/W", nameof(scale));

        // The conductivities end at 300 K and change little above: that of 300 K is taken for warmer water.
        Temperature mean = Temperature.FromKelvins(Math.Min(waterInlet.Kelvins, tube.Material.Highest.Kelvins));
        double resistance = (1 / (hi * Math.PI * tube.InnerDiameter.Meters))
            + tube.ResistanceMeterKelvinsPerWatt(mean)
            + (((1 / ho) + layer) / (Math.PI * tube.OuterDiameter.Meters));
        return new(l / resistance, water, waterInlet);
    }
}
