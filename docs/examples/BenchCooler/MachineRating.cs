using CryoThermo;
using CryoThermo.Coolers;
using CryoThermo.Coolers.Rating;
using CryoThermo.Design;
using CryoThermo.Diagnostics;

namespace BenchCooler;

/// <summary>The rating of the machine in a cooler file, or why there is none.</summary>
/// <param name="Rating">The rating; null where the machine does not run.</param>
/// <param name="Obstacle">What is in the way; null where it runs, or where that has no name.</param>
/// <param name="Refusal">The same with its figures; null where it runs.</param>
/// <param name="Confidence">How sure it is where it comes to rest; null where it does not, or where that was not found.</param>
/// <param name="NoConfidence">Why there is none although it comes to rest.</param>
internal sealed record MachineRating(CoolerRating? Rating, CoolerObstacle? Obstacle, string? Refusal, RestConfidence? Confidence, string? NoConfidence)
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
            (RestConfidence? confidence, string? without) = ConfidenceOf(cooler, machine, rating);
            return new(rating, rating.Obstacle, null, confidence, without);
        }
        catch (CoolerRefusedException error)
        {
            return new(null, error.Obstacle, error.Message, null, null);
        }
        catch (Exception error) when (error is ConvergenceException or ArgumentException)
        {
            return new(null, null, DesignReport.OneLine(error.Message), null, null);
        }
    }

    private static (RestConfidence? Confidence, string? Without) ConfidenceOf(CoolerDescription cooler, MachineDescription machine, CoolerRating rating)
    {
        if (rating.Reached is null)
        {
            return (null, null);
        }

        // The differences by Peng-Robinson, unless the file says otherwise: some seconds instead of most of a minute by a multi-fluid model.
        FluidModel? differencesBy = machine.Uncertainty.DifferencesBy ?? (cooler.Model == FluidModel.Recommended || cooler.Model == FluidModel.MultiFluid ? FluidModel.PengRobinson : null);
        try
        {
            return (RestConfidence.Of(
                rating, cooler.Load.ColdTemperature, CoolerUncertainty.Usual(rating.Cooler, rating.Charge, machine.Uncertainty, differencesBy), differencesBy), null);
        }
        catch (CoolerRefusedException error)
        {
            return (null, error.Message);
        }
        catch (Exception error) when (error is ConvergenceException or ArgumentException)
        {
            return (null, DesignReport.OneLine(error.Message));
        }
    }
}
