namespace CryoThermo.Checks.Values;

/// <summary>What a cubic gave for an excess property when the data were collected, J/mol.</summary>
public sealed record NotedExcess(double ExcessGibbsEnergy, double ExcessEnthalpy, bool InteractionTakenAsZero);
