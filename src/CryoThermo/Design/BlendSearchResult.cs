using System.Globalization;
using CryoThermo.Diagnostics;

namespace CryoThermo.Design;

/// <summary>What a search found. All figures reported are of the ranking model. Immutable and thread-safe.</summary>
/// <param name="Problem">What was asked.</param>
/// <param name="Ranked">The distinct blends that keep all limits, the best first; when none does, those that violate them least.</param>
/// <param name="Front">With several goals the blends none of the others beats in every goal; with one the best alone.</param>
/// <param name="IsFeasible">Whether any keeps all limits.</param>
/// <param name="Obstacles">Where none does: the limits that stand in the way, and what relaxing each alone would do.</param>
/// <param name="Agreement">How well the independent starts agree.</param>
/// <param name="ExplorationModel">Name of the model explored with.</param>
/// <param name="RankingModel">Model the figures are of.</param>
/// <param name="Explored">Blends evaluated by the exploration model.</param>
/// <param name="Refined">Blends evaluated by the ranking model.</param>
/// <param name="NotEvaluated">Blends that could not be evaluated.</param>
/// <param name="ExplorationTime">Time of the exploration, local search by its model included.</param>
/// <param name="RankingTime">Time of refinement and ranking.</param>
/// <param name="CandidatesPerSecond">Explored blends a second, all cores together.</param>
public sealed record BlendSearchResult(
    BlendProblem Problem,
    IReadOnlyList<BlendEvaluation> Ranked,
    IReadOnlyList<BlendEvaluation> Front,
    bool IsFeasible,
    IReadOnlyList<BlendObstacle> Obstacles,
    StartAgreement Agreement,
    string ExplorationModel,
    FluidModel RankingModel,
    int Explored,
    int Refined,
    int NotEvaluated,
    TimeSpan ExplorationTime,
    TimeSpan RankingTime,
    double CandidatesPerSecond)
{
    /// <summary>The best blend.</summary>
    /// <exception cref="InvalidOperationException">Nothing could be evaluated.</exception>
    public BlendEvaluation Best => Ranked.Count > 0 ? Ranked[0] : throw new InvalidOperationException("No blend of these components could be evaluated.");

    /// <summary>Everything that explains a blend of the ranking, by the ranking model.</summary>
    /// <param name="rank">0 for the best.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such rank.</exception>
    public BlendExplanation Explain(int rank = 0)
    {
        Guard.InRange(rank, 0, Ranked.Count - 1, "places", nameof(rank));
        return BlendExplanation.Of(Problem, Ranked[rank].Candidate, RankingModel);
    }

    /// <summary>The ranking as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Blends of {string.Join(", ", Problem.Components.Select(c => c.Substance))} for {Problem.ColdTemperature.Kelvins.ToString("0.##", CultureInfo.InvariantCulture)} K, by the {RankingModel.Name}",
        ["rank", .. Problem.Components.Select(c => $"{c.Substance}, mol/mol"), "low, bar absolute", "high, bar absolute", "capacity, J/mol", "capacity, J/L of suction", "Carnot, %", "lowest, K", "pinch, K", "limits"],
        [.. Ranked.Select((r, i) => (IReadOnlyList<string>)
        [
            Text($"{i + 1}"),
            .. r.Candidate.MoleFractions.Select(x => Text($"{x:0.0000}")),
            Text($"{r.Candidate.LowPressure.Bars:0.000}"),
            Text($"{r.Candidate.HighPressure.Bars:0.000}"),
            Text($"{r.CapacityPerMole.JoulesPerMole:0.0}"),
            Text($"{r.CapacityPerSuctionVolumeJoulesPerLiter:0.00}"),
            Text($"{r.PercentOfCarnot:0.00}"),
            r.LowestTemperature is { } lowest ? Text($"{lowest.Kelvins:0.00}") : "not asked",
            Text($"{r.PinchTemperature.Kelvins:0.0}"),
            r.IsFeasible ? "kept" : string.Join("; ", r.Constraints.Where(c => !c.IsKept).Select(c => c.ToString())),
        ])]);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
