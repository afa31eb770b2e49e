namespace CryoThermo.Design;

/// <summary>A substance at hand.</summary>
/// <param name="Substance">Chemical name, formula or ISO 817 designation.</param>
/// <param name="Purity">Mole fraction of the substance in its bottle, above 0.5 to 1; null where not known. It bounds the impurities of the charge.</param>
/// <param name="PricePerKilogram">Price of a kilogram in a currency of your own; null where not known.</param>
public sealed record BlendComponent(string Substance, double? Purity = null, double? PricePerKilogram = null);
