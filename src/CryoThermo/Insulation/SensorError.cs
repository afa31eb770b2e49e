using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>How far a thermometer on a tube reads above the tube. Immutable and thread-safe.</summary>
/// <param name="Total">Reading less temperature of the tube; the sum of the three.</param>
/// <param name="ByWires">By heat along the wires.</param>
/// <param name="ByRadiation">By radiation from the warm surroundings onto the sensor.</param>
/// <param name="BySelfHeating">By the current that measures.</param>
/// <param name="WireHeat">Heat that the wires bring to tube and sensor.</param>
/// <param name="AnchorDecayLength">Along it the wire's difference to the tube falls by a factor of 2.718; three to five times that is a good anchor.</param>
/// <param name="Notes">What to know; empty for nothing.</param>
public sealed record SensorError(
    TemperatureDelta Total,
    TemperatureDelta ByWires,
    TemperatureDelta ByRadiation,
    TemperatureDelta BySelfHeating,
    Power WireHeat,
    Length AnchorDecayLength,
    IReadOnlyList<string> Notes)
{
    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        "Thermometer on a tube: reading above the tube",
        ["cause", "error, K"],
        [
            ["heat along the wires", $"{ByWires.Kelvins:F4}"],
            ["radiation", $"{ByRadiation.Kelvins:F4}"],
            ["self-heating", $"{BySelfHeating.Kelvins:F4}"],
            ["all", $"{Total.Kelvins:F4}"],
        ]);
}
