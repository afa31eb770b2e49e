namespace CryoThermo.Coolers.Charging;

/// <summary>What a gas bottle holds.</summary>
public enum BottleKind
{
    /// <summary>Liquid under its own vapour: it gives its vapour pressure, whatever is left in it.</summary>
    Liquefied,

    /// <summary>Gas under pressure, which falls as it is drawn.</summary>
    Compressed,
}
