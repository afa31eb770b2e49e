namespace CryoThermo.Checks.Values;

/// <summary>The interaction parameter a number was computed with.</summary>
public sealed record PairInteraction(string First, string Second, double Interaction);
