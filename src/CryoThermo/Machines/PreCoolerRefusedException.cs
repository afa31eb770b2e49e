namespace CryoThermo.Machines;

/// <summary>A pre-cooler has no steady state with the stream and the parts given; tells what is in the way.</summary>
public sealed class PreCoolerRefusedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="obstacle">What is in the way.</param>
    /// <param name="message">The same with its figures.</param>
    public PreCoolerRefusedException(PreCoolerObstacle obstacle, string message)
        : base(message) => Obstacle = obstacle;

    /// <summary>What is in the way.</summary>
    public PreCoolerObstacle Obstacle { get; }
}
