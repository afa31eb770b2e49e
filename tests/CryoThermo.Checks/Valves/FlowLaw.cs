namespace CryoThermo.Checks.Valves;

/// <summary>How air passes the valve of a made-up bench test: not the law it is evaluated with.</summary>
public enum FlowLaw
{
    /// <summary>Perfect gas along its isentrope, discharge coefficient 0.98.</summary>
    Nozzle,

    /// <summary>The same, with a discharge coefficient that rises from 0.62 to 0.85 as the pressure ratio falls.</summary>
    SharpEdge,
}
