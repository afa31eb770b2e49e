using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;

namespace BenchCooler;

/// <summary>The rating of the machine in a cooler file, or why there is none.</summary>
/// <param name="Rating">The rating; null where the machine does not run.</param>
/// <param name="Obstacle">What is in the way; null where it runs, or where that has no name.</param>
/// <param name="Refusal">The same with its figures; null where it runs.</param>
internal sealed record MachineRating(CoolerRating? Rating, CoolerObstacle? Obstacle, string? Refusal)
{
    /// <summary>Rates the machine in its room with its load; null where the file describes none.</summary>
    public static MachineRating? Of(CoolerDescription cooler)
    {
        if (cooler.Machine is not { } machine)
        {
            return null;
        }

        try
        {
            CoolerRating rating = machine.ToCooler().Rate(machine.ToCharge(), cooler.AmbientTemperature, cooler.Load.Demanded);
            return new(rating, rating.Obstacle, null);
        }
        catch (CoolerRefusedException error)
        {
            return new(null, error.Obstacle, error.Message);
        }
        catch (Exception error) when (error is ConvergenceException or ArgumentException)
        {
            return new(null, null, DesignReport.OneLine(error.Message));
        }
    }
}
