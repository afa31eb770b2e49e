namespace CryoThermo.Design;

/// <summary>How far a search is.</summary>
/// <param name="Stage">What it is at.</param>
/// <param name="Share">Share of that stage done, 0 to 1.</param>
/// <param name="Evaluations">Blends evaluated so far.</param>
public sealed record BlendSearchProgress(BlendSearchStage Stage, double Share, int Evaluations);
