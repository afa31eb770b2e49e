namespace CryoThermo.Coolers.Rating;

/// <summary>A cold box with a phase separator has no steady state at the figures given; tells what is in the way.</summary>
public sealed class SeparatorRefusedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="obstacle">What is in the way.</param>
    /// <param name="message">The same with its figures.</param>
    public SeparatorRefusedException(SeparatorObstacle obstacle, string message)
        : base(message) => Obstacle = obstacle;

    /// <summary>What is in the way.</summary>
    public SeparatorObstacle Obstacle { get; }
}
