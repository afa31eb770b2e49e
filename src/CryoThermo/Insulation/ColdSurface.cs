using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium.Solids;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>
/// A cold surface that takes up the gases whose vapour pressure at its temperature lies below their own: as many molecules as strike it, times the share
/// that sticks, A s sqrt(R T/(2 pi M)) (kinetic theory). That holds while molecules reach it without striking one another. Immutable and thread-safe.
/// </summary>
public sealed record ColdSurface
{
    /// <summary>Creates a surface.</summary>
    /// <param name="area">Area seen by the gas.</param>
    /// <param name="temperature">Its temperature, 4 to 300 K.</param>
    /// <param name="stickingShare">Share of what strikes it that stays, above 0 to 1; near 1 for water below 150 K (common practice, no source).</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public ColdSurface(Area area, Temperature temperature, double stickingShare = 1)
    {
        Guard.Positive(area.SquareMeters, "m2", nameof(area));
        Guard.InRange(temperature.Kelvins, 4, 300, "K", nameof(temperature));
        StickingShare = Guard.InRange(stickingShare, double.Epsilon, 1, "(share)");
        Area = area;
        Temperature = temperature;
    }

    /// <summary>Area seen by the gas.</summary>
    public Area Area { get; }

    /// <summary>Its temperature.</summary>
    public Temperature Temperature { get; }

    /// <summary>Share of what strikes it that stays.</summary>
    public double StickingShare { get; }

    /// <summary>Speed at which it takes up a gas whose vapour pressure there is negligible.</summary>
    /// <param name="gas">A pure gas.</param>
    /// <param name="gasTemperature">Of the gas before it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not above zero.</exception>
    public VolumeFlow SpeedFor(WorkingFluid gas, Temperature gasTemperature)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Guard.Positive(gasTemperature.Kelvins, "K", nameof(gasTemperature));
        return VolumeFlow.FromCubicMetersPerSecond(Speed(gas.Composition.MolarMass.KilogramsPerMole, gasTemperature.Kelvins));
    }

    /// <summary>
    /// Pressure of a gas in a warm space that stands in balance with its deposit on the surface: the vapour pressure there times sqrt(T/T_cold).
    /// </summary>
    /// <param name="gas">A pure gas; air is taken as its nitrogen. Infinity where the surface is above its critical temperature or the library knows no solid of it.</param>
    /// <param name="gasTemperature">Of the gas before it.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not above zero.</exception>
    public double BalancePascals(WorkingFluid gas, Temperature gasTemperature)
    {
        ArgumentNullException.ThrowIfNull(gas);
        Guard.Positive(gasTemperature.Kelvins, "K", nameof(gasTemperature));
        return VaporPressure(gas, Temperature.Kelvins) * Math.Sqrt(gasTemperature.Kelvins / Temperature.Kelvins);
    }

    internal double Speed(double molarMass, double gasTemperature) =>
        Area.SquareMeters * StickingShare * Math.Sqrt(SubstanceReader.GasConstant * gasTemperature / (2 * Math.PI * molarMass));

    // Pa; infinity where nothing condenses or nothing is known.
    private static double VaporPressure(WorkingFluid gas, double temperature)
    {
        WorkingFluid pure = gas.IsPseudoPure ? WorkingFluid.Pure("nitrogen") : gas;
        Substance substance = pure.Composition.Components[0];
        double triple = substance.Solid?.TripleTemperature ?? substance.TripleTemperature ?? double.NaN;
        if (temperature >= substance.CriticalTemperature)
        {
            return double.PositiveInfinity;
        }

        if (!(temperature < triple))
        {
            return pure.Saturation(UnitsNet.Temperature.FromKelvins(temperature)).Pressure.Pascals;
        }

        if (substance.Solid is null)
        {
            return double.PositiveInfinity;
        }

        // Published lines first, the fugacity of the solid where they end.
        SaturationCurve? line = substance.Equations.Select(e => e.SublimationPressure).OfType<SaturationCurve>()
            .Concat(substance.Solid.SublimationPressures)
            .FirstOrDefault(c => temperature >= c.LowestTemperature && temperature <= c.HighestTemperature);
        return line is null
            ? Math.Exp(new SolidMixture(pure.Kernel, pure.Composition.Components)[0]!.LnFugacity(temperature, 1))
            : line.At(temperature);
    }
}
