using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>The recuperator of a cooler: by its conductance and the volumes of its sides, or by its tubes. Immutable and thread-safe.</summary>
public sealed class CoolerRecuperator
{
    private CoolerRecuperator(
        double conductance, Pressure highSidePressureDrop, Pressure lowSidePressureDrop, Volume highSide, Volume lowSide, TubeRecuperator? tubes, double leakWattsPerMeterKelvin)
    {
        ConductanceWattsPerKelvin = conductance;
        HighSidePressureDrop = highSidePressureDrop;
        LowSidePressureDrop = lowSidePressureDrop;
        HighSideVolume = highSide;
        LowSideVolume = lowSide;
        Tubes = tubes;
        LeakWattsPerMeterKelvin = leakWattsPerMeterKelvin;
    }

    /// <summary>Conductance (U times A) from stream to stream, W/K; not a number of the machine where the tubes are given, then zero.</summary>
    public double ConductanceWattsPerKelvin { get; }

    /// <summary>Pressure lost by the high side; zero where the tubes are given, which tell their own.</summary>
    public Pressure HighSidePressureDrop { get; }

    /// <summary>Pressure lost by the low side; zero where the tubes are given.</summary>
    public Pressure LowSidePressureDrop { get; }

    /// <summary>Volume of the high side.</summary>
    public Volume HighSideVolume { get; }

    /// <summary>Volume of the low side.</summary>
    public Volume LowSideVolume { get; }

    /// <summary>The tubes; null where the conductance is given.</summary>
    public TubeRecuperator? Tubes { get; }

    /// <summary>Heat from the room for each metre of the tubes and kelvin, W/(m K).</summary>
    public double LeakWattsPerMeterKelvin { get; }

    /// <summary>A recuperator by its conductance, spread evenly over the heat's path as the streams need it.</summary>
    /// <param name="wattsPerKelvin">U times A, above zero to 1e6 W/K.</param>
    /// <param name="highSide">Free volume of the high side, zero or more.</param>
    /// <param name="lowSide">Free volume of the low side, zero or more.</param>
    /// <param name="highSidePressureDrop">Zero or more; taken before the recuperator, so that the streams meet at the cold end's pressures.</param>
    /// <param name="lowSidePressureDrop">Zero or more; taken behind it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static CoolerRecuperator OfConductance(
        double wattsPerKelvin, Volume highSide, Volume lowSide, Pressure highSidePressureDrop = default, Pressure lowSidePressureDrop = default)
    {
        Guard.InRange(wattsPerKelvin, double.Epsilon, 1e6, "W/K");
        Guard.InRange(highSide.CubicMeters, 0, 100, "m3", nameof(highSide));
        Guard.InRange(lowSide.CubicMeters, 0, 100, "m3", nameof(lowSide));
        Guard.InRange(highSidePressureDrop.Pascals, 0, 1e8, "Pa", nameof(highSidePressureDrop));
        Guard.InRange(lowSidePressureDrop.Pascals, 0, 1e8, "Pa", nameof(lowSidePressureDrop));
        return new(wattsPerKelvin, highSidePressureDrop, lowSidePressureDrop, highSide, lowSide, null, 0);
    }

    /// <summary>A recuperator by its tubes: films, friction and conduction along the metal follow from the streams.</summary>
    /// <param name="tubes">The tubes.</param>
    /// <param name="leakWattsPerMeterKelvin">Heat from the room for each metre and kelvin, 0 to 1000 W/(m K); 0 where the budget of the cold head holds it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The leak is out of its range.</exception>
    public static CoolerRecuperator OfTubes(TubeRecuperator tubes, double leakWattsPerMeterKelvin = 0)
    {
        ArgumentNullException.ThrowIfNull(tubes);
        Guard.InRange(leakWattsPerMeterKelvin, 0, 1000, "W/(m K)");
        return new(
            0,
            default,
            default,
            tubes.HotPassage.FlowArea * tubes.HotTubes * tubes.Length,
            tubes.ColdPassage.FlowArea * tubes.ColdTubes * tubes.Length,
            tubes,
            leakWattsPerMeterKelvin);
    }

    /// <summary>The same with its conductance, or the length of its tubes, times a factor; volumes as they are.</summary>
    internal CoolerRecuperator Scaled(double factor) => new(
        ConductanceWattsPerKelvin * factor, HighSidePressureDrop, LowSidePressureDrop, HighSideVolume, LowSideVolume, Tubes?.WithLength(Tubes.Length * factor), LeakWattsPerMeterKelvin / factor);
}
