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

    /// <summary>Two liquids and a vapour.</summary>
    TwoLiquidsVapor,

    /// <summary>Three liquids.</summary>
    ThreeLiquids,

    /// <summary>The best answer is itself unstable: a fourth phase exists there. The figures are those of the best answer and are approximate.</summary>
    UnresolvedPhases,

    /// <summary>Boiling or condensing at one temperature (pure fluid, azeotrope): enthalpy jumps.</summary>
    ConstantTemperatureBoiling,

    /// <summary>Three phases of two components coexist at one temperature: enthalpy jumps.</summary>
    ConstantTemperatureThreePhases,
}
