namespace CryoThermo.Machines;

/// <summary>How a figure stands to a limit.</summary>
public enum LimitVerdict
{
    /// <summary>Not beyond the limit.</summary>
    Kept,

    /// <summary>Beyond the careful end of the limit's band, not beyond the far end.</summary>
    Doubtful,

    /// <summary>Beyond the far end.</summary>
    Broken,
}
