namespace CryoThermo.Design;

/// <summary>What a change of the surroundings or of a pressure does to the capacity.</summary>
/// <param name="Change">What is changed, in words with its unit.</param>
/// <param name="CapacityJoulesPerMole">Capacity then, J/mol.</param>
/// <param name="ChangePercent">Change of the capacity, percent.</param>
public sealed record BlendSensitivity(string Change, double CapacityJoulesPerMole, double ChangePercent);
