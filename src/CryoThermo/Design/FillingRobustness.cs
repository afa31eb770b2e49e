namespace CryoThermo.Design;

/// <summary>What errors of filling do: each component off by a random error, the whole renormalised.</summary>
/// <param name="ErrorPercentMole">Standard deviation of each error, percent of the whole charge, mol.</param>
/// <param name="Trials">Number of fillings tried.</param>
/// <param name="MeanLossPercent">Mean loss of capacity, percent.</param>
/// <param name="LossOfOneInTwentyPercent">Loss that one filling in twenty exceeds, percent.</param>
/// <param name="WorstLossPercent">Greatest loss, percent.</param>
/// <param name="FailedShare">Share of the fillings that do not reach the cold temperature or miss a limit the blend itself keeps.</param>
public sealed record FillingRobustness(
    double ErrorPercentMole, int Trials, double MeanLossPercent, double LossOfOneInTwentyPercent, double WorstLossPercent, double FailedShare);
