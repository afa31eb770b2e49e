namespace CryoThermo.Coolers.Charging;

/// <summary>A charge cannot be filled as wanted; tells the limit.</summary>
public sealed class ChargeRefusedException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="refusal">The limit.</param>
    public ChargeRefusedException(ChargeRefusal refusal)
        : base((refusal ?? throw new ArgumentNullException(nameof(refusal))).Message) => Refusal = refusal;

    /// <summary>The limit with its figures.</summary>
    public ChargeRefusal Refusal { get; }
}
