namespace CryoThermo.Checks.Values;

/// <summary>How a published figure came here.</summary>
public enum SourceMark
{
    /// <summary>Recalled; the publication was not at hand.</summary>
    FromMemory,

    /// <summary>Read in the abstract of the publication.</summary>
    Abstract,

    /// <summary>Read in the abstract or a claim of a patent.</summary>
    Patent,

    /// <summary>Computed, not published.</summary>
    Computed,
}
