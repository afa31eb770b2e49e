using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>A cooler at one cold temperature, whatever load that takes: with the charge as filled and the throttle as it stands. Immutable.</summary>
/// <param name="ColdTemperature">Of the stream that leaves the cold head.</param>
/// <param name="GrossCooling">Leak not taken off.</param>
/// <param name="NetCooling">Left for the load.</param>
/// <param name="SuctionPressure">Absolute.</param>
/// <param name="DischargePressure">Absolute.</param>
/// <param name="Flow">That circulates.</param>
/// <param name="Power">Taken up by the gas.</param>
/// <param name="DischargeTemperature">At the compressor's discharge.</param>
/// <param name="CirculatingComposition">Of what circulates.</param>
/// <param name="FlowMismatch">
/// Flow of the throttle over that of the compressor, less 1: zero but for the tolerance of the curve, or where the flow of the throttle jumps from below that of the compressor to above it
/// and no pressures carry one flow. Above 1e-3 in size the other figures are as uncertain as it is large.
/// </param>
public sealed record CoolerCurvePoint(
    Temperature ColdTemperature,
    Power GrossCooling,
    Power NetCooling,
    Pressure SuctionPressure,
    Pressure DischargePressure,
    MolarFlow Flow,
    Power Power,
    Temperature DischargeTemperature,
    Composition CirculatingComposition,
    double FlowMismatch);
