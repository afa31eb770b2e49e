namespace CryoThermo.Substances;

/// <summary>How far a pair parameter taken from a publication is trusted.</summary>
public enum PairConfidence
{
    /// <summary>No mark was given.</summary>
    NotStated,

    /// <summary>Agrees with its check, or is recorded without doubt.</summary>
    Good,

    /// <summary>Doubtful: disagrees with its check or is uncertain as recorded.</summary>
    Low,
}
