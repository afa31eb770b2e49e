namespace CryoThermo.Substances;

/// <summary>Kinds of multi-fluid pairs that share a rule of estimation and its error band.</summary>
internal enum MultiFluidPairClass
{
    /// <summary>Two hydrocarbons.</summary>
    Hydrocarbons,

    /// <summary>A hydrocarbon with argon, krypton, xenon, nitrogen, oxygen or carbon monoxide.</summary>
    GasWithHydrocarbon,

    /// <summary>A hydrocarbon with a substance that holds fluorine.</summary>
    FluorinatedWithHydrocarbon,

    /// <summary>At least one of hydrogen, helium and neon.</summary>
    WithQuantumGas,

    /// <summary>With water, whose molecules bind to one another.</summary>
    WithWater,

    /// <summary>All other pairs.</summary>
    Other,
}
