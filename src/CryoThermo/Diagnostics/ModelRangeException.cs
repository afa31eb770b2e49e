namespace CryoThermo.Diagnostics;

/// <summary>A result lies outside the stated range of a model it was computed with, and the fluid was told to be strict about it.</summary>
public sealed class ModelRangeException : Exception
{
    internal ModelRangeException(IReadOnlyList<RangeNote> notes)
        : base(string.Join(" ", notes.Select(n => $"{n.Subject}: {n.Message}")))
    {
        Notes = notes;
    }

    /// <summary>What lies outside of what.</summary>
    public IReadOnlyList<RangeNote> Notes { get; }
}
