using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>The range of cold temperatures over which a cooler file wants the cooling power shown. Immutable and thread-safe.</summary>
/// <param name="Lowest">The lowest cold temperature.</param>
/// <param name="Highest">The highest cold temperature, above the lowest and not above the warm end.</param>
public sealed record CoolingCurveDescription(Temperature Lowest, Temperature Highest);
