namespace CryoThermo.Materials;

/// <summary>What kind of solid a material is.</summary>
public enum MaterialFamily
{
    /// <summary>A metal or alloy.</summary>
    Metal,

    /// <summary>A plastic.</summary>
    Polymer,

    /// <summary>Fibres in a resin, with properties that depend on the direction.</summary>
    Composite,

    /// <summary>Glass.</summary>
    Glass,
}
