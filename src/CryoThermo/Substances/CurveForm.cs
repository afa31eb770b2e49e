namespace CryoThermo.Substances;

/// <summary>The published forms of curves along which two phases are in equilibrium; theta = 1 - T/T_red.</summary>
public enum CurveForm
{
    /// <summary>ln(y/y_red) = (T_red/T) sum n theta^k.</summary>
    LogarithmTimesTemperature,

    /// <summary>ln(y/y_red) = sum n theta^k.</summary>
    Logarithm,

    /// <summary>y/y_red = 1 + sum n theta^k, and n ln(T/T_red) where a logarithmic term is given.</summary>
    Ratio,

    /// <summary>y/y_red = 1 + sum n ((T/T_red)^k - 1) + sum n (T/T_red - 1)^k, the second sum over the shifted terms: melting pressures.</summary>
    Melting,

    /// <summary>ln(y/y_red) = sum n (T_red/T)^k: sublimation pressures.</summary>
    InverseTemperature,
}
