using CryoThermo.Diagnostics;
using CryoThermo.Machines;

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

    /// <summary>What a part refused, as a limit of the cooler: a full clearance means that the throttle lets too little through.</summary>
    /// <param name="error">By the part.</param>
    /// <param name="otherwise">The limit, where it is not the clearance.</param>
    /// <param name="where">Put before the message; may be empty.</param>
    internal static CoolerRefusedException Of(ArgumentException error, CoolerObstacle otherwise, string where = "") =>
        new(Compressor.IsClearanceFull(error) ? CoolerObstacle.ThrottleTooSmall : otherwise, where + MessageText.Of(error));
}
