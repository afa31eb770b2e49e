namespace CryoThermo.Flow;

/// <summary>Shape of a fixed opening.</summary>
public enum OrificeEdge
{
    /// <summary>A hole in a thin plate: Cd 0.60 to 0.65, rising to 0.82 to 0.87 for gas that chokes.</summary>
    Sharp,

    /// <summary>A rounded inlet: Cd 0.97 to 0.995.</summary>
    Rounded,

    /// <summary>A hole two to four diameters long: Cd 0.78 to 0.82.</summary>
    ShortTube,
}
