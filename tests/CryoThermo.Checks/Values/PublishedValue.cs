namespace CryoThermo.Checks.Values;

/// <summary>A published number and the tolerance it is stated to: absolute, or relative.</summary>
public sealed record PublishedValue(string Quantity, string Unit, double Published, double? AbsoluteTolerance, double? RelativeTolerance)
{
    /// <summary>The tolerance in the unit of the value.</summary>
    public double Tolerance => AbsoluteTolerance ?? (Math.Abs(Published) * (RelativeTolerance ?? throw new InvalidOperationException($"{Quantity} has no tolerance.")));
}
