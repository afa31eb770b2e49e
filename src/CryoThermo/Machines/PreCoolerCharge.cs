using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// Refrigerant in the parts of a running pre-cooler. What is dissolved in the oil is not counted. Immutable and thread-safe.
/// </summary>
/// <param name="Condenser">In the condenser.</param>
/// <param name="LiquidLine">In the liquid line.</param>
/// <param name="Evaporator">In the evaporator.</param>
/// <param name="Vapor">In suction and discharge side.</param>
/// <param name="Total">All together: nominal with the slip of Zivi, least without slip, greatest with twice the liquid of the nominal where both phases flow (the formulae differ by that much).</param>
public sealed record PreCoolerCharge(Mass Condenser, Mass LiquidLine, Mass Evaporator, Mass Vapor, FigureBand<Mass> Total);
