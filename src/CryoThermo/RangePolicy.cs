namespace CryoThermo;

/// <summary>What happens where a result lies outside the stated range of a model it was computed with.</summary>
public enum RangePolicy
{
    /// <summary>The state carries a note.</summary>
    Note,

    /// <summary>The call throws a <see cref="Diagnostics.ModelRangeException"/>.</summary>
    Strict,
}
