using CryoThermo.Machines;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// The steady state of a <see cref="SeparatorColdBox"/>, from its isobars. "z" is the whole circulating fluid, "y" its vapour in the separator, "x" its liquid there; enthalpies are per mole
/// of the fluid named.
/// </summary>
internal sealed record SeparatorColdBoxState
{
    /// <summary>Moles of vapour over moles of the whole in the separator.</summary>
    public required double VaporShare { get; init; }

    /// <summary>The fluid of the vapour stream.</summary>
    public required WorkingFluid Vapor { get; init; }

    /// <summary>The fluid of the liquid stream.</summary>
    public required WorkingFluid Liquid { get; init; }

    /// <summary>Temperature of the return leaving the cold head, K.</summary>
    public required double ColdTemperature { get; init; }

    /// <summary>Temperature of both high-pressure streams between the exchangers, K.</summary>
    public required double MiddleTemperature { get; init; }

    /// <summary>Gross cooling at the cold head, J a mole of the whole flow.</summary>
    public required double CoolingPerMole { get; init; }

    /// <summary>At the warm end behind the warm exchanger, low pressure, J/mol of z.</summary>
    public required double SuctionEnthalpy { get; init; }

    /// <summary>Of the vapour stream between the exchangers, J/mol of y.</summary>
    public required double VaporMiddleEnthalpy { get; init; }

    /// <summary>Before the throttle of the vapour stream, J/mol of y.</summary>
    public required double VaporThrottleInletEnthalpy { get; init; }

    /// <summary>Before the throttle of the liquid stream, J/mol of x.</summary>
    public required double LiquidThrottleInletEnthalpy { get; init; }

    /// <summary>Of the return behind the cold exchanger, before it is mixed, J/mol of y.</summary>
    public required double ColdReturnEnthalpy { get; init; }

    /// <summary>Of the mixed return before the warm exchanger, J/mol of z.</summary>
    public required double MixedEnthalpy { get; init; }

    /// <summary>Heat from both high-pressure streams to the return in the warm exchanger, W.</summary>
    public required double WarmDuty { get; init; }

    /// <summary>Heat from the vapour stream to its return in the cold exchanger, W; negative where the cold head is warmer than the middle.</summary>
    public required double ColdDuty { get; init; }

    /// <summary>The least temperature difference in the warm exchanger and its place.</summary>
    public required RecuperatorPinch WarmPinch { get; init; }

    /// <summary>The same in the cold exchanger. With a negative duty the return is its hot stream, and "cold end" is where that leaves.</summary>
    public required RecuperatorPinch ColdPinch { get; init; }

    /// <summary>The warm exchanger at this state.</summary>
    public required CounterFlowKernel WarmExchanger { get; init; }

    /// <summary>The cold exchanger at this state; null where both its streams enter at one temperature.</summary>
    public required CounterFlowKernel? ColdExchanger { get; init; }
}
