namespace CryoThermo.Insulation;

/// <summary>How a gas carries heat across a gap, by its Knudsen number: mean free path over width of the gap.</summary>
public enum GasRegime
{
    /// <summary>Below 0.01: molecules meet one another long before the walls; heat does not depend on pressure.</summary>
    Continuum,

    /// <summary>0.01 to 0.1: the continuum with a step of temperature at each wall.</summary>
    TemperatureJump,

    /// <summary>0.1 to 10: neither holds.</summary>
    Transition,

    /// <summary>Above 10: molecules fly from wall to wall; heat is proportional to pressure and does not depend on the width.</summary>
    FreeMolecular,
}
