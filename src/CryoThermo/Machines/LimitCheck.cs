namespace CryoThermo.Machines;

/// <summary>A figure of a compressor against one of its limits. Immutable and thread-safe.</summary>
/// <param name="Name">What is limited.</param>
/// <param name="Unit">Unit of the figures.</param>
/// <param name="Figure">The figure.</param>
/// <param name="Limit">The limit.</param>
/// <param name="IsLeast">Whether the figure must not be below the limit; else it must not be above.</param>
public sealed record LimitCheck(string Name, string Unit, double Figure, LimitBand Limit, bool IsLeast)
{
    /// <summary>How far the figure is beyond the careful end of the limit, in its unit; negative while it keeps away from it.</summary>
    public double Excess => Beyond(Limit.Careful);

    /// <summary>How far the figure is beyond the far end.</summary>
    public double ExcessBeyondFarEnd => Beyond(Limit.Far);

    /// <summary>How it stands.</summary>
    public LimitVerdict Verdict => ExcessBeyondFarEnd > 0 ? LimitVerdict.Broken : Excess > 0 ? LimitVerdict.Doubtful : LimitVerdict.Kept;

    /// <summary>The figure, its limit, and by how much it is beyond.</summary>
    public override string ToString()
    {
        string band = Limit.Careful == Limit.Far ? Text(Limit.Far) : $"{Text(Limit.Careful)} to {Text(Limit.Far)}";
        string beyond = Verdict switch
        {
            LimitVerdict.Kept => "kept",
            LimitVerdict.Doubtful => $"doubtful, {Excess:G4} {Unit} beyond the careful end",
            _ => $"broken by {ExcessBeyondFarEnd:G4} {Unit}",
        };
        return $"{Name}: {Text(Figure)}, limit {(IsLeast ? "at least" : "at most")} {band}: {beyond}";
    }

    private double Beyond(double limit) => IsLeast ? limit - Figure : Figure - limit;

    private string Text(double figure) => Unit == "K" && !IsLeast ? $"{figure:F1} K ({figure - 273.15:F1} degC)" : Unit.Length == 0 ? $"{figure:G4}" : $"{figure:G4} {Unit}";
}
