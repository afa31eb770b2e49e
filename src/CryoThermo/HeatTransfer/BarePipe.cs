using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>A pipe without insulation in a still room. Immutable and thread-safe.</summary>
public sealed record BarePipe
{
    private static readonly Lazy<WorkingFluid> Air = new(() => WorkingFluid.Pure("air"));

    /// <summary>Describes the pipe.</summary>
    /// <param name="outerDiameter">0.1 mm to 10 m.</param>
    /// <param name="emissivity">Of its surface, 1e-4 to 1; rime makes it 0.9 (from memory).</param>
    /// <param name="height">1 mm to 100 m where it stands; leave it out where it lies.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public BarePipe(Length outerDiameter, double emissivity, Length? height = null)
    {
        Guard.InRange(outerDiameter.Meters, 1e-4, 10, "m", nameof(outerDiameter));
        Guard.InRange(emissivity, 1e-4, 1, "of black");
        if (height is { } given)
        {
            Guard.InRange(given.Meters, 1e-3, 100, "m", nameof(height));
        }

        OuterDiameter = outerDiameter;
        Emissivity = emissivity;
        Height = height;
    }

    /// <summary>Outside.</summary>
    public Length OuterDiameter { get; }

    /// <summary>Of its surface.</summary>
    public double Emissivity { get; }

    /// <summary>Where it stands; null where it lies.</summary>
    public Length? Height { get; }

    /// <summary>Heat that the pipe takes from the room, and what settles on it.</summary>
    /// <param name="surface">Temperature of its surface, 65 to 1000 K.</param>
    /// <param name="room">Temperature of air and walls, -40 to 60 degC.</param>
    /// <param name="humidity">Relative humidity, 1 to 100 %.</param>
    /// <param name="atmosphere">Absolute, 0.3 to 2 bar; 1.01325 bar where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public BarePipeResult InRoom(Temperature surface, Temperature room, RelativeHumidity humidity, Pressure? atmosphere = null)
    {
        Guard.InRange(surface.Kelvins, 65, 1000, "K", nameof(surface));
        Temperature dew = MoistAir.DewPoint(room, humidity);
        Temperature frost = MoistAir.FrostPoint(room, humidity);
        Pressure pressure = atmosphere ?? Pressure.FromAtmospheres(1);
        Guard.InRange(pressure.Bars, 0.3, 2, "bar", nameof(atmosphere));
        NaturalConvectionResult convection = Height is { } height
            ? NaturalConvection.VerticalCylinder(Air.Value, pressure, surface, room, height, OuterDiameter)
            : NaturalConvection.HorizontalCylinder(Air.Value, pressure, surface, room, OuterDiameter);
        RadiationResult radiation = GreySurfaces.ToRoom(surface, Emissivity, room);
        double perimeter = Math.PI * OuterDiameter.Meters;
        return new(
            this,
            surface,
            room,
            dew > Temperature.FromDegreesCelsius(0) ? dew : frost,
            convection,
            radiation,
            LinearPowerDensity.FromWattsPerMeter(-perimeter * (convection.Flux.WattsPerSquareMeter + radiation.Flux.WattsPerSquareMeter)),
            LinearPowerDensity.FromWattsPerMeter(perimeter * MoistureFlux(surface, room, humidity, convection.Coefficient.WattsPerSquareMeterKelvin)));
    }

    // Heat that settling moisture brings, W/m2, for a convection coefficient in W/(m2 K). Heat and mass pass alike (W. K. Lewis): coefficient over c p (Le)^(2/3), with Le 0.85 of moisture in air; ideal gas at the surface and in the room.
    internal static double MoistureFlux(Temperature surface, Temperature room, RelativeHumidity humidity, double coefficient)
    {
        double here = MoistAir.AtSurface(surface.DegreesCelsius);
        double there = MoistAir.VaporPressure(room, humidity);
        if (here >= there)
        {
            return 0;
        }

        const double AirHeatPerVolume = 353.1 * 1006; // density times temperature of air at 1 atm, times its heat capacity, both from memory
        double film = 0.5 * (surface.Kelvins + room.Kelvins);
        double speed = coefficient * film / (AirHeatPerVolume * Math.Pow(0.85, 2.0 / 3));
        double density = (there / room.Kelvins) - (here / surface.Kelvins);
        const double WaterGasConstant = 461.5; // J/(kg K)
        double heat = surface.DegreesCelsius < 0 ? 2.834e6 : 2.50e6; // J/kg, sublimation and evaporation at 0 degC, from memory
        return speed * Math.Max(0, density) / WaterGasConstant * heat;
    }
}
