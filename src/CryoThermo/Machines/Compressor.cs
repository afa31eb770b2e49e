using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A real-gas compressor described by how much of its swept volume it fills (volumetric efficiency, of the suction state) and how its work compares with that at constant
/// entropy (isentropic efficiency); both constants, or functions of the pressure ratio. A share of the work may leave as heat through the shell; with none, discharge
/// temperatures are on the warm side. Immutable and thread-safe.
/// </summary>
public sealed class Compressor
{
    private const string ClearanceFull = "clearance full";

    /// <summary>Creates a compressor of constant efficiencies, without heat through the shell.</summary>
    /// <param name="sweptVolumeFlow">Displacement times speed.</param>
    /// <param name="isentropicEfficiency">Isentropic over actual enthalpy rise, above 0 to 1.</param>
    /// <param name="volumetricEfficiency">Suction volume drawn in over swept volume, above 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public Compressor(VolumeFlow sweptVolumeFlow, double isentropicEfficiency, double volumetricEfficiency)
        : this(sweptVolumeFlow, isentropicEfficiency, volumetricEfficiency, 0.0)
    {
    }

    /// <summary>Creates a compressor of constant efficiencies.</summary>
    /// <param name="sweptVolumeFlow">Displacement times speed.</param>
    /// <param name="isentropicEfficiency">Isentropic over actual enthalpy rise, above 0 to 1.</param>
    /// <param name="volumetricEfficiency">Suction volume drawn in over swept volume, above 0 to 1.</param>
    /// <param name="shellHeatLossFraction">Share of the compression work that leaves as heat through the shell, 0 to 0.95.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public Compressor(VolumeFlow sweptVolumeFlow, double isentropicEfficiency, double volumetricEfficiency, double shellHeatLossFraction)
        : this(
            Checked(sweptVolumeFlow),
            CylinderFilling.Constant(Guard.InRange(volumetricEfficiency, double.Epsilon, 1, "(ratio)")),
            PressureRatioCurve.Constant(Guard.InRange(isentropicEfficiency, 1e-6, 1, "(ratio)")),
            shellHeatLossFraction)
    {
    }

    /// <summary>Creates a compressor whose efficiencies follow the pressure ratio, without heat through the shell.</summary>
    /// <param name="sweptVolumeFlow">Displacement times speed; see <see cref="CompressorDisplacement"/>.</param>
    /// <param name="filling">How the cylinder fills.</param>
    /// <param name="efficiency">Isentropic work over the work that counts as <see cref="CompressorResult.Power"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The swept volume flow is not above zero.</exception>
    public Compressor(VolumeFlow sweptVolumeFlow, CylinderFilling filling, PressureRatioCurve efficiency)
        : this(sweptVolumeFlow, filling, efficiency, 0.0)
    {
    }

    /// <summary>Creates a compressor whose efficiencies follow the pressure ratio.</summary>
    /// <param name="sweptVolumeFlow">Displacement times speed; see <see cref="CompressorDisplacement"/>.</param>
    /// <param name="filling">How the cylinder fills.</param>
    /// <param name="efficiency">
    /// Isentropic work over the work that counts as <see cref="CompressorResult.Power"/>: at the shaft of an open machine, at the terminals of a hermetic one, whose motor
    /// warms the gas.
    /// </param>
    /// <param name="shellHeatLossFraction">Share of that work that leaves as heat through the shell, 0 to 0.95.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public Compressor(VolumeFlow sweptVolumeFlow, CylinderFilling filling, PressureRatioCurve efficiency, double shellHeatLossFraction)
    {
        ArgumentNullException.ThrowIfNull(filling);
        ArgumentNullException.ThrowIfNull(efficiency);
        SweptVolumeFlow = Checked(sweptVolumeFlow);
        Filling = filling;
        Efficiency = efficiency;
        ShellHeatLossFraction = Guard.InRange(shellHeatLossFraction, 0, 0.95, "(ratio)");
    }

    /// <summary>Displacement times speed.</summary>
    public VolumeFlow SweptVolumeFlow { get; }

    /// <summary>How the cylinder fills.</summary>
    public CylinderFilling Filling { get; }

    /// <summary>Isentropic over actual work, by pressure ratio.</summary>
    public PressureRatioCurve Efficiency { get; }

    /// <summary>Share of the compression work that leaves as heat through the shell.</summary>
    public double ShellHeatLossFraction { get; }

    /// <summary>Compresses from a suction state to a discharge pressure.</summary>
    /// <param name="suction">State at the suction port. Liquid in it is computed with, and told in the result.</param>
    /// <param name="dischargePressure">Absolute, above the suction pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The discharge pressure is not above the suction pressure, or so high that the gas left in the clearance fills the cylinder, or the discharge is hotter than the
    /// fluid's highest temperature.
    /// </exception>
    public CompressorResult Compress(State suction, Pressure dischargePressure)
    {
        ArgumentNullException.ThrowIfNull(suction);
        double volumetric = Fill(Filling, suction, dischargePressure, out State isentropic, out double densityRatio);
        double ratio = dischargePressure.Pascals / suction.Pressure.Pascals;
        double efficiency = Efficiency.At(ratio);
        double rise = (isentropic.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole) / efficiency;
        double kept = rise * (1 - ShellHeatLossFraction);
        State discharge = Discharge(suction, dischargePressure, suction.MolarEnthalpy.JoulesPerMole + kept, isentropic);
        double flow = SweptVolumeFlow.CubicMetersPerSecond * volumetric * suction.MolarDensity.MolesPerCubicMeter;
        return new(
            suction,
            discharge,
            MolarFlow.FromMolesPerSecond(flow),
            MassFlow.FromKilogramsPerSecond(flow * suction.Fluid.Composition.MolarMass.KilogramsPerMole),
            Power.FromWatts(flow * rise),
            Power.FromWatts(flow * (rise - kept)),
            ratio,
            suction.VaporFraction < 1)
        {
            VolumetricEfficiency = volumetric,
            IsentropicEfficiency = efficiency,
            ReexpansionExponent = densityRatio > 1 ? Math.Log(ratio) / Math.Log(densityRatio) : null,
            IsEfficiencyExtrapolated = !Efficiency.Covers(ratio),
        };
    }

    /// <summary>Volumetric efficiency, with the state at discharge pressure and suction entropy, and its density over that at suction.</summary>
    internal static double Fill(CylinderFilling filling, State suction, Pressure dischargePressure, out State isentropic, out double densityRatio)
    {
        if (!(dischargePressure.Pascals > suction.Pressure.Pascals))
        {
            throw new ArgumentOutOfRangeException(
                nameof(dischargePressure),
                dischargePressure,
                $"dischargePressure is {dischargePressure.Bars:G6} bar; it must be above the suction pressure of {suction.Pressure.Bars:G6} bar.");
        }

        try
        {
            // An exponent of 0.15 is that of a light blend; any guess serves.
            double guess = suction.Temperature.Kelvins * Math.Pow(dischargePressure.Pascals / suction.Pressure.Pascals, 0.15);
            isentropic = suction.Fluid.AtEntropy(dischargePressure, suction.MolarEntropy, suction, guess);
        }
        catch (ArgumentOutOfRangeException)
        {
            throw TooHot(suction, dischargePressure);
        }

        densityRatio = Math.Max(1, isentropic.MolarDensity.MolesPerCubicMeter / suction.MolarDensity.MolesPerCubicMeter);
        double volumetric = filling.VolumetricEfficiency(densityRatio);
        return volumetric > 0
            ? volumetric
            : throw Marked(new(
                nameof(dischargePressure),
                dischargePressure,
                $"dischargePressure is {dischargePressure.Bars:G6} bar absolute, {dischargePressure.Pascals / suction.Pressure.Pascals:G4} times that of the suction: the gas left in a clearance of "
                + $"{100 * filling.ClearanceFraction:G4} % expands to more than the swept volume, and nothing is drawn in. Allowed is a density ratio below {filling.GreatestDensityRatio:G4}; here it is {densityRatio:G4}."));

        static ArgumentOutOfRangeException Marked(ArgumentOutOfRangeException error)
        {
            error.Data[ClearanceFull] = true;
            return error;
        }
    }

    /// <summary>Whether it was the clearance, filled by what it holds back, that a compressor refused a discharge pressure for.</summary>
    internal static bool IsClearanceFull(ArgumentException error) => error.Data.Contains(ClearanceFull);

    /// <summary>The state behind the compressor; a discharge hotter than the model knows is told as that.</summary>
    internal static State Discharge(State suction, Pressure dischargePressure, double enthalpy, State near)
    {
        try
        {
            return suction.Fluid.AtEnthalpy(dischargePressure, MolarEnergy.FromJoulesPerMole(enthalpy), near);
        }
        catch (ArgumentOutOfRangeException)
        {
            throw TooHot(suction, dischargePressure);
        }
    }

    private static ArgumentOutOfRangeException TooHot(State suction, Pressure dischargePressure) => new(
        nameof(dischargePressure),
        dischargePressure,
        $"dischargePressure is {dischargePressure.Bars:G6} bar absolute, {dischargePressure.Pascals / suction.Pressure.Pascals:G4} times that of the suction at {suction.Temperature.Kelvins:F1} K: "
        + $"the discharge would be hotter than {suction.Fluid.Kernel.HighestTemperature:G4} K, or the pressure above {suction.Fluid.Kernel.HighestPressure / 1e5:G4} bar, where the model ends. Lower the ratio, compress in two stages, or check the efficiency.");

    private static VolumeFlow Checked(VolumeFlow sweptVolumeFlow)
    {
        Guard.Positive(sweptVolumeFlow.CubicMetersPerSecond, "m3/s", nameof(sweptVolumeFlow));
        return sweptVolumeFlow;
    }
}
