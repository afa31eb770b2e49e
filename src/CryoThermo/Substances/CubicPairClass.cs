namespace CryoThermo.Substances;

/// <summary>Kinds of pairs that share an estimating rule and its error band.</summary>
internal enum CubicPairClass
{
    /// <summary>Two hydrocarbons: critical-volume rule.</summary>
    Hydrocarbons,

    /// <summary>At least one of hydrogen, helium and neon: plain geometric combining rule.</summary>
    WithQuantumGas,

    /// <summary>All other pairs: plain geometric combining rule.</summary>
    Other,
}
