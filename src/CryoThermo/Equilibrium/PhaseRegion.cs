namespace CryoThermo.Equilibrium;

/// <summary>Which phases coexist over a stretch of an isobar.</summary>
public enum PhaseRegion
{
    /// <summary>One liquid-like phase.</summary>
    Liquid,

    /// <summary>One vapour-like phase.</summary>
    Vapor,

    /// <summary>A liquid and a vapour.</summary>
    LiquidVapor,

    /// <summary>Two liquids.</summary>
    TwoLiquids,

    /// <summary>
    /// The best two-phase answer is itself unstable: at least three phases exist there. The figures are those of the
    /// best two-phase answer and are approximate.
    /// </summary>
    UnresolvedThreePhases,

    /// <summary>Boiling or condensing at one temperature (pure fluid, azeotrope): enthalpy jumps.</summary>
    ConstantTemperatureBoiling,
}
