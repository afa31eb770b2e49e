namespace CryoThermo.Insulation;

/// <summary>How a round plate is held at its edge.</summary>
public enum PlateEdge
{
    /// <summary>Held so that it cannot tilt: welded into a stiff ring. Rarely as stiff as that.</summary>
    Clamped,

    /// <summary>Resting, free to tilt: on a seal or between loose flanges.</summary>
    Supported,
}
