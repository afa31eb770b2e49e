namespace CryoThermo.HeatTransfer;

/// <summary>Which way the heat goes at the wall of a passage.</summary>
public enum HeatDirection
{
    /// <summary>From the wall to the stream: it warms or evaporates.</summary>
    Heated,

    /// <summary>From the stream to the wall: it cools or condenses.</summary>
    Cooled,
}
