using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What unequal flow in parallel tubes costs: half of the tubes get more, half get less, each with its half of the other stream. Immutable and thread-safe.</summary>
/// <param name="Deviation">How far the flow of each half is from the mean, as a share of it.</param>
/// <param name="EvenDuty">Heat exchanged with equal flows.</param>
/// <param name="UnevenDuty">Heat exchanged with unequal flows.</param>
/// <param name="RichOutlet">Temperature of the stream that is cooled where the fuller tubes end.</param>
/// <param name="PoorOutlet">Temperature of the stream that is cooled where the emptier tubes end.</param>
public sealed record FlowMaldistribution(double Deviation, Power EvenDuty, Power UnevenDuty, Temperature RichOutlet, Temperature PoorOutlet)
{
    /// <summary>Heat lost over the heat with equal flows.</summary>
    public double Loss => (double)((EvenDuty.Watts - UnevenDuty.Watts) / EvenDuty.Watts);
}
