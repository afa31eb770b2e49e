using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>What passes a valve. Immutable and thread-safe.</summary>
public sealed record ValveFlow : IThrottleFlow
{
    internal ValveFlow(ControlValve valve, State inlet, Pressure outletPressure, MassFlow massFlow, bool isChoked, double reynoldsFactor, double reynoldsNumber)
    {
        Valve = valve;
        Inlet = inlet;
        OutletPressure = outletPressure;
        MassFlow = massFlow;
        IsChoked = isChoked;
        ReynoldsFactor = reynoldsFactor;
        ReynoldsNumber = reynoldsNumber;
    }

    /// <summary>The valve.</summary>
    public ControlValve Valve { get; }

    /// <summary>State before it.</summary>
    public State Inlet { get; }

    /// <summary>Absolute pressure behind it.</summary>
    public Pressure OutletPressure { get; }

    /// <summary>Mass flow.</summary>
    public MassFlow MassFlow { get; }

    /// <summary>Molar flow.</summary>
    public MolarFlow MolarFlow => MolarFlow.FromMolesPerSecond(MassFlow.KilogramsPerSecond / Inlet.Fluid.Composition.MolarMass.KilogramsPerMole);

    /// <summary>True where a lower outlet pressure brings no more.</summary>
    public bool IsChoked { get; }

    /// <summary>Flow over that without friction of viscosity, F_R: 1 where turbulent.</summary>
    public double ReynoldsFactor { get; }

    /// <summary>Reynolds number of the standard.</summary>
    public double ReynoldsNumber { get; }

    /// <summary>The state behind the valve: expansion at constant enthalpy.</summary>
    /// <exception cref="ConvergenceException">The state was not found.</exception>
    public State Outlet() => Inlet.Fluid.AtEnthalpy(OutletPressure, Inlet.MolarEnthalpy);

    /// <summary>The flow as a table for notebooks and reports.</summary>
    public ResultTable ToTable()
    {
        State outlet = Outlet();
        return new(
            $"{Valve.Style.Name}, Kv {Valve.FlowCoefficientKv:G4} m3/h",
            ["", "before", "behind"],
            [
                ["pressure, bar absolute", $"{Inlet.Pressure.Bars:F3}", $"{OutletPressure.Bars:F3}"],
                ["temperature, K", $"{Inlet.Temperature.Kelvins:F2}", $"{outlet.Temperature.Kelvins:F2}"],
                ["temperature, degC", $"{Inlet.Temperature.DegreesCelsius:F2}", $"{outlet.Temperature.DegreesCelsius:F2}"],
                ["phases", Inlet.PhaseDescription, outlet.PhaseDescription],
                ["vapor, % (mole)", $"{100 * Inlet.VaporFraction:F1}", $"{100 * outlet.VaporFraction:F1}"],
                ["density, kg/m3", $"{Inlet.Density.KilogramsPerCubicMeter:G5}", $"{outlet.Density.KilogramsPerCubicMeter:G5}"],
                ["flow, g/s", $"{MassFlow.GramsPerSecond:G5}", string.Empty],
                ["flow, mol/s", $"{MolarFlow.MolesPerSecond:G5}", string.Empty],
                ["choked", IsChoked ? "yes" : "no", string.Empty],
                ["Reynolds number", $"{ReynoldsNumber:G4}", string.Empty],
                ["Reynolds factor", $"{ReynoldsFactor:G4}", string.Empty],
            ]);
    }
}
