namespace CryoThermo.Checks.Values;

/// <summary>What Peng-Robinson gave when the data were collected, by an independent program, with which pair parameters.</summary>
public sealed record NotedDeviation(
    string Model,
    double? FittedInteraction,
    IReadOnlyList<IReadOnlyList<string>>? PairsTakenAsZero,
    int? NotSolved,
    string? Note,
    IReadOnlyList<NotedFigure> Figures);
