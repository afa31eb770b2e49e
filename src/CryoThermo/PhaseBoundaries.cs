using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using MathNet.Numerics.RootFinding;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// The boundaries of a pure fluid beyond boiling: melting and sublimation lines by published correlations, and the limits of
/// metastable liquid and vapour. Immutable and thread-safe.
/// </summary>
public sealed class PhaseBoundaries
{
    private readonly WorkingFluid fluid;
    private readonly Substance substance;

    internal PhaseBoundaries(WorkingFluid fluid, Substance substance)
    {
        this.fluid = fluid;
        this.substance = substance;
    }

    /// <summary>Published melting line with source, range and marks; null when the library has none of this substance.</summary>
    public SaturationCurve? MeltingLine => substance.Equations.Select(e => e.MeltingPressure).FirstOrDefault(c => c is not null);

    /// <summary>Published sublimation line with source, range and marks; null when the library has none of this substance.</summary>
    public SaturationCurve? SublimationLine => substance.Equations.Select(e => e.SublimationPressure).FirstOrDefault(c => c is not null);

    /// <summary>Pressure at which the fluid freezes at a temperature above its triple point.</summary>
    /// <param name="temperature">Within the ends of <see cref="MeltingLine"/>.</param>
    /// <exception cref="InvalidOperationException">The library has no melting line of this substance.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public Pressure MeltingPressure(Temperature temperature) => PressureOn(MeltingLine, "melting", temperature);

    /// <summary>Temperature at which the fluid freezes at a pressure.</summary>
    /// <param name="pressure">Absolute, within the ends of <see cref="MeltingLine"/>.</param>
    /// <exception cref="InvalidOperationException">The library has no melting line of this substance.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public Temperature MeltingTemperature(Pressure pressure) => TemperatureOn(MeltingLine, "melting", pressure);

    /// <summary>Pressure of the vapour above the solid at a temperature below the triple point.</summary>
    /// <param name="temperature">Within the ends of <see cref="SublimationLine"/>.</param>
    /// <exception cref="InvalidOperationException">The library has no sublimation line of this substance.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public Pressure SublimationPressure(Temperature temperature) => PressureOn(SublimationLine, "sublimation", temperature);

    /// <summary>Temperature at which vapour of a pressure below the triple point deposits as solid.</summary>
    /// <param name="pressure">Absolute, within the ends of <see cref="SublimationLine"/>.</param>
    /// <exception cref="InvalidOperationException">The library has no sublimation line of this substance.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public Temperature SublimationTemperature(Pressure pressure) => TemperatureOn(SublimationLine, "sublimation", pressure);

    /// <summary>How far liquid and vapour can be carried past saturation at a temperature.</summary>
    /// <param name="temperature">Below the critical temperature of the model.</param>
    /// <exception cref="ArgumentOutOfRangeException">At or above the critical temperature.</exception>
    public MetastableLimits MetastableLimits(Temperature temperature) => fluid.MetastableLimitsAt(temperature);

    private Pressure PressureOn(SaturationCurve? line, string name, Temperature temperature)
    {
        SaturationCurve curve = Require(line, name);
        double t = Guard.InRange(temperature.Kelvins, curve.LowestTemperature, curve.HighestTemperature, "K", nameof(temperature));
        return Pressure.FromPascals(curve.At(t));
    }

    private Temperature TemperatureOn(SaturationCurve? line, string name, Pressure pressure)
    {
        SaturationCurve curve = Require(line, name);
        double low = curve.At(curve.LowestTemperature);
        double high = curve.At(curve.HighestTemperature);
        double p = Guard.InRange(pressure.Pascals, low, high, "Pa", nameof(pressure));

        // Over ten decades of pressure the root is found in ln p; a melting curve may start at a triple pressure of almost zero.
        double target = Math.Log(p);
        return Temperature.FromKelvins(Brent.FindRoot(
            t => Math.Log(curve.At(Math.Clamp(t, curve.LowestTemperature, curve.HighestTemperature))) - target,
            curve.LowestTemperature,
            curve.HighestTemperature,
            1e-11,
            500));
    }

    private SaturationCurve Require(SaturationCurve? line, string name) =>
        line ?? throw new InvalidOperationException($"The library has no {name} line of {substance.Name}.");
}
