namespace CryoThermo.Coolers.Rating;

/// <summary>A cooler cannot run as described; tells what is in the way.</summary>
public sealed class CoolerRefusedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="obstacle">What is in the way.</param>
    /// <param name="message">The same with its figures.</param>
    public CoolerRefusedException(CoolerObstacle obstacle, string message)
        : base(message) => Obstacle = obstacle;

    /// <summary>What is in the way.</summary>
    public CoolerObstacle Obstacle { get; }
}
