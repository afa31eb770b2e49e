using UnitsNet;

namespace CryoThermo.Liquefaction;

/// <summary>How a feed gas condenses on a cold end.</summary>
/// <param name="Feed">The gas.</param>
/// <param name="Condensing">Temperature at which it condenses.</param>
/// <param name="FirstDropPressure">Absolute pressure at which the first drop forms; null when nothing condenses or it freezes.</param>
/// <param name="CondensingPressure">Absolute pressure at which all of it condenses; null when that is not possible.</param>
/// <param name="AfterLetDown">State after expansion to the let-down pressure; null when nothing condenses.</param>
/// <param name="LiquidKept">Liquid left after let-down, over the whole, by moles and by mass, 0 to 1; null when nothing condenses.</param>
/// <param name="HeatToRemove">Heat from the supply temperature to saturated liquid, at the condensing pressure; null when nothing condenses.</param>
/// <param name="Remark">What is special about the case; null when nothing is.</param>
public sealed record FeedCondensationResult(
    WorkingFluid Feed,
    Temperature Condensing,
    Pressure? FirstDropPressure,
    Pressure? CondensingPressure,
    State? AfterLetDown,
    (double ByMoles, double ByMass)? LiquidKept,
    SpecificEnergy? HeatToRemove,
    string? Remark);
