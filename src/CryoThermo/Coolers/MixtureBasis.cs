namespace CryoThermo.Coolers;

/// <summary>What the amounts of a mixture in a cooler file are.</summary>
public enum MixtureBasis
{
    /// <summary>Mole fractions, sum 1.</summary>
    MoleFraction,

    /// <summary>Mole per cent, sum 100.</summary>
    MolePercent,

    /// <summary>Mass fractions, sum 1.</summary>
    MassFraction,

    /// <summary>Absolute partial pressures in one common unit, as filled one after another into one volume; any positive sum.</summary>
    PartialPressure,
}
