namespace CryoThermo.Materials;

/// <summary>What a statement on service in the cold is about.</summary>
public enum ColdServiceKind
{
    /// <summary>A metal that carries load.</summary>
    Metal,

    /// <summary>A plastic or composite.</summary>
    Polymer,

    /// <summary>A seal.</summary>
    Seal,

    /// <summary>A solder or braze.</summary>
    Solder,
}
