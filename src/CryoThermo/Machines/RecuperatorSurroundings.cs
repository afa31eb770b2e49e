using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What is around a recuperator of tubes and how well heat comes through. Immutable and thread-safe.</summary>
public sealed record RecuperatorSurroundings
{
    /// <summary>Describes them.</summary>
    /// <param name="temperature">Temperature of the surroundings.</param>
    /// <param name="conductanceWattsPerMeterKelvin">Heat for each metre of exchanger and kelvin, through insulation or vacuum, 0 to 1000 W/(m K).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public RecuperatorSurroundings(Temperature temperature, double conductanceWattsPerMeterKelvin)
    {
        Guard.InRange(temperature.Kelvins, 1, 1000, "K", nameof(temperature));
        Temperature = temperature;
        ConductanceWattsPerMeterKelvin = Guard.InRange(conductanceWattsPerMeterKelvin, 0, 1000, "W/(m K)");
    }

    /// <summary>Temperature of the surroundings.</summary>
    public Temperature Temperature { get; }

    /// <summary>Heat for each metre of exchanger and kelvin, W/(m K).</summary>
    public double ConductanceWattsPerMeterKelvin { get; }
}
