using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Tests.Machines;

/// <summary>What a pre-cooler claims, recomputed from its temperatures, pressures and flows alone.</summary>
internal static class PreCoolerProof
{
    private const double GasConstant = 8.314462618;

    public static void Hold(PreCooler machine, PreCoolerResult result, double streamMoles, Temperature medium)
    {
        WorkingFluid refrigerant = machine.Refrigerant;
        double duty = (double)result.Duty.Watts;
        double flow = result.Compression.MolarFlow.MolesPerSecond;

        // Both ends of the evaporator by their own flashes; the state behind the throttle is two-phase, so by pressure and enthalpy of the liquid before it.
        State streamIn = result.StreamInlet.Fluid.At(result.StreamInlet.Temperature, result.StreamInlet.Pressure);
        State streamOut = result.StreamOutlet.Fluid.At(result.StreamOutlet.Temperature, result.StreamOutlet.Pressure);
        State suction = refrigerant.At(result.Compression.Suction.Temperature, result.EvaporatingPressure);
        State liquid = machine.Subcooling.Kelvins > 0.01
            ? refrigerant.At(result.Condensing.Outlet.Temperature, result.CondensingPressure)
            : refrigerant.BubblePoint(result.CondensingPressure);
        State discharge = refrigerant.At(result.Compression.Discharge.Temperature, result.Compression.Discharge.Pressure);
        double given = streamMoles * (streamIn.MolarEnthalpy - streamOut.MolarEnthalpy).JoulesPerMole;
        double taken = flow * (suction.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole;
        Assert.Equal(given, taken, 1e-6 * duty);
        Assert.Equal(duty, taken, 1e-6 * duty);

        // First law of the whole: heat of stream and power leave by condenser and shell.
        double power = (double)result.Compression.Power.Watts;
        double rejected = flow * (discharge.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole;
        Assert.Equal((double)result.Condensing.Duty.Watts, rejected, 2e-6 * rejected);
        Assert.Equal(duty + power, rejected + (double)result.Compression.ShellHeat.Watts, 3e-6 * (duty + power));

        // Second law of each part.
        double least = -1e-6 * flow * GasConstant;
        Assert.True(result.CompressorEntropyProductionPerSecond.JoulesPerKelvin >= least);
        Assert.True(result.Condensing.EntropyProductionPerSecond.JoulesPerKelvin >= least);
        Assert.True(result.ThrottleEntropyProductionPerSecond.JoulesPerKelvin >= least);
        Assert.True(result.EvaporatorEntropyProductionPerSecond.JoulesPerKelvin >= least - (1e-6 * streamMoles * GasConstant));
        double made = (flow * (discharge.MolarEntropy - suction.MolarEntropy).JoulesPerMoleKelvin) + ((double)result.Compression.ShellHeat.Watts / medium.Kelvins);
        Assert.Equal(made, result.CompressorEntropyProductionPerSecond.JoulesPerKelvin, 1e-6 * Math.Max(made, flow * GasConstant));

        // The conductances are those of the parts: the evaporator by a recuperator of its own.
        Assert.Equal(1, result.Evaporator.ConductanceWattsPerKelvin / machine.EvaporatorConductanceWattsPerKelvin, 1e-4);
        Assert.True(result.Evaporator.Pinch.Approach.Kelvins >= -1e-6);
        Assert.True(result.Compression.Suction.VaporFraction == 1 && result.Condensing.Outlet.VaporFraction == 0);
    }
}
