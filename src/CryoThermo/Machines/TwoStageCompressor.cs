using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// Two compressors in series with a cooler between them. The pressure between them is the one at which the second draws in what the first delivers. Immutable and
/// thread-safe.
/// </summary>
public sealed class TwoStageCompressor
{
    /// <summary>Joins two compressors.</summary>
    /// <param name="first">Takes the suction gas.</param>
    /// <param name="second">Delivers at the discharge pressure.</param>
    /// <param name="intercooler">Outlet temperature and loss of pressure between them.</param>
    public TwoStageCompressor(Compressor first, Compressor second, AfterCooler intercooler)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        ArgumentNullException.ThrowIfNull(intercooler);
        First = first;
        Second = second;
        Intercooler = intercooler;
    }

    /// <summary>Takes the suction gas.</summary>
    public Compressor First { get; }

    /// <summary>Delivers at the discharge pressure.</summary>
    public Compressor Second { get; }

    /// <summary>Outlet temperature and loss of pressure between them.</summary>
    public AfterCooler Intercooler { get; }

    /// <summary>Compresses from a suction state to a discharge pressure.</summary>
    /// <param name="suction">State at the suction of the first stage.</param>
    /// <param name="dischargePressure">Absolute, above the suction pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The discharge pressure is not above that of the suction and the loss between the stages; or no pressure between the stages exists: the second stage is too large
    /// or too small for the first. The message says which.
    /// </exception>
    public TwoStageResult Compress(State suction, Pressure dischargePressure)
    {
        ArgumentNullException.ThrowIfNull(suction);
        double from = suction.Pressure.Pascals;
        double to = dischargePressure.Pascals;
        double loss = Intercooler.PressureDrop.Pascals;
        if (!(to > (from + loss) * (1 + 1e-6)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(dischargePressure), dischargePressure, $"dischargePressure is {to / 1e5:G6} bar; it must be above suction pressure and loss between the stages together, {(from + loss) / 1e5:G6} bar.");
        }

        // What the second draws in rises with the pressure between, what the first delivers falls: one crossing at most.
        double low = Math.Log(Math.Max(from, loss + (1e-3 * from)) * (1 + 1e-9));
        double high = Math.Log(to * (1 - 1e-9));
        double atLow = Surplus(low);
        double atHigh = Surplus(high);
        if (!(atLow > 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(suction), suction.Pressure, $"suction is at {from / 1e5:G5} bar: the second stage draws in more than the first delivers even there, {Math.Exp(-atLow):G3} times as much, so that the pressure between them falls below that of the suction. The second stage is too large, or the first too small.");
        }

        if (!(atHigh < 0))
        {
            throw new ArgumentOutOfRangeException(
                nameof(dischargePressure), dischargePressure, $"dischargePressure is {to / 1e5:G5} bar: the first stage delivers more than the second draws in even there, so that the second has nothing to compress. The second stage is too small.");
        }

        double between = Math.Exp(BracketedRoot.Solve(Surplus, low, high));
        CompressorResult first = First.Compress(suction, Pressure.FromPascals(between));
        State cooled = Intercooler.Cool(first.Discharge);
        CompressorResult second = Second.Compress(cooled, dischargePressure);
        double heat = first.MolarFlow.MolesPerSecond * (first.Discharge.MolarEnthalpy - cooled.MolarEnthalpy).JoulesPerMole;
        return new(first, second, Pressure.FromPascals(between), Power.FromWatts(heat), first.Power + second.Power);

        double Surplus(double logarithm)
        {
            Pressure middle = Pressure.FromPascals(Math.Exp(logarithm));
            double delivered = Flow(First, suction, middle);
            double drawn = Flow(Second, suction.Fluid.At(Intercooler.Outlet, middle - Intercooler.PressureDrop), dischargePressure);
            return Math.Log(Math.Max(delivered, 1e-30) / Math.Max(drawn, 1e-30));
        }
    }

    /// <summary>Flow in mol/s; zero where the gas left in the clearance fills the cylinder.</summary>
    private static double Flow(Compressor compressor, State suction, Pressure discharge)
    {
        State isentropic = suction.Fluid.AtEntropy(discharge, suction.MolarEntropy);
        double density = suction.MolarDensity.MolesPerCubicMeter;
        double volumetric = compressor.Filling.VolumetricEfficiency(Math.Max(1, isentropic.MolarDensity.MolesPerCubicMeter / density));
        return Math.Max(0, volumetric) * compressor.SweptVolumeFlow.CubicMetersPerSecond * density;
    }
}
