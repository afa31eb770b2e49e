using System.Globalization;
using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using CryoThermo.Safety;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>Why a blend does what it does in a problem. Immutable and thread-safe.</summary>
public sealed class BlendExplanation
{
    private const double FillingError = 0.02;
    private const int FillingTrials = 40;
    private const double Step = 0.01;

    private BlendExplanation(BlendProblem problem, BlendEvaluator evaluator, BlendFigures figures, WorkingFluid fluid)
    {
        Problem = problem;
        Evaluation = evaluator.Report(figures);
        Fluid = fluid;
        Curve = CurveOf(problem, figures);
        Contributions = ContributionsOf(evaluator, figures);
        Sensitivities = SensitivitiesOf(problem, evaluator, figures);
        Robustness = RobustnessOf(evaluator, figures);
        FreezingAtLowPressure = FreezingOf(fluid, problem, figures.Low);
        FreezingAtHighPressure = FreezingOf(fluid, problem, figures.High);
        CapacityError = fluid.Model.CapacityErrorOf(fluid.Composition);
        Cautions = CautionRules.Assess(new()
        {
            Contents = [.. fluid.Composition.Components.Zip(fluid.Composition.MoleFractions).Where(c => c.Second > 0).Select(c => new SubstanceShare(c.First.Name, c.Second))],
            LowPressure = Evaluation.Candidate.LowPressure,
            HighPressure = Evaluation.Candidate.HighPressure,
            LocalAtmosphere = GaugePressure.StandardAtmosphere(Length.Zero),
            ColdestSurface = problem.ColdTemperature,
            DischargeTemperature = Evaluation.DischargeTemperature,
        });
    }

    /// <summary>The problem.</summary>
    public BlendProblem Problem { get; }

    /// <summary>The figures of the blend.</summary>
    public BlendEvaluation Evaluation { get; }

    /// <summary>The blend, components without amount left out; its pedigree names the pairs that are estimated.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>Enthalpy difference of the streams from the cold to the warm end.</summary>
    public IReadOnlyList<BlendCurvePoint> Curve { get; }

    /// <summary>What each component at hand contributes.</summary>
    public IReadOnlyList<ComponentContribution> Contributions { get; }

    /// <summary>What pressures and a summer day do.</summary>
    public IReadOnlyList<BlendSensitivity> Sensitivities { get; }

    /// <summary>What errors of filling do.</summary>
    public FillingRobustness Robustness { get; }

    /// <summary>The component nearest to freezing at the cold temperature and low pressure; null where none is judged.</summary>
    public FreezingMargin? FreezingAtLowPressure { get; }

    /// <summary>The component nearest to freezing at the cold temperature and high pressure; null where none is judged.</summary>
    public FreezingMargin? FreezingAtHighPressure { get; }

    /// <summary>Known errors of capacities by the model; null for a model without a record of them.</summary>
    public CapacityError? CapacityError { get; }

    /// <summary>What can hurt, the gravest first, with the standard atmosphere round the machine; an empty list does not mean that it is safe. Local codes and licensed practice decide.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>The pairs of components whose parameters are estimated.</summary>
    public IReadOnlyList<BinaryPair> EstimatedPairs => [.. Fluid.Pedigree.EstimatedPairs];

    /// <summary>Explains a blend.</summary>
    /// <param name="problem">What it is wanted for.</param>
    /// <param name="candidate">The blend.</param>
    /// <param name="model">The model; null for the recommended one.</param>
    /// <exception cref="ArgumentException">The problem or the candidate contradicts itself.</exception>
    /// <exception cref="ConvergenceException">A state did not converge.</exception>
    public static BlendExplanation Of(BlendProblem problem, BlendCandidate candidate, FluidModel? model = null)
    {
        ArgumentNullException.ThrowIfNull(problem);
        ArgumentNullException.ThrowIfNull(candidate);
        problem.Check();
        candidate.Check(problem);
        BlendEvaluator evaluator = new(problem, model ?? FluidModel.Recommended);
        double sum = candidate.MoleFractions.Sum();
        BlendFigures figures = evaluator.Evaluate(
            [.. candidate.MoleFractions.Select(x => x / sum)], candidate.LowPressure.Pascals, candidate.HighPressure.Pascals, fine: true, all: true);
        WorkingFluid fluid = candidate.Fluid(problem);

        // The recommended model takes the equation of a pure fluid where one component alone is left of a mixture.
        return new(problem, evaluator, figures, model is null || ReferenceEquals(model, FluidModel.Recommended) || model == FluidModel.BestMultiFluid ? fluid : fluid.WithModel(model));
    }

    /// <summary>How to charge the machine so that the circulating blend would be this one at rest; grams and gauge readings.</summary>
    /// <param name="volumes">The volumes the charge reaches, at their temperatures.</param>
    /// <param name="standingPressure">Absolute pressure at rest.</param>
    /// <param name="localAtmosphere">The atmosphere round the gauge, absolute.</param>
    /// <exception cref="ChargeRefusedException">A limit stops it; the message names it.</exception>
    public ChargeRecipe Recipe(IReadOnlyList<MachineVolume> volumes, Pressure standingPressure, Pressure localAtmosphere) => ChargeRecipe.Solve(new()
    {
        Wanted = Fluid,
        Volumes = volumes,
        FinalPressure = standingPressure,
        LocalAtmosphere = localAtmosphere,
    });

    /// <summary>Contributions of the components as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"{Evaluation.Candidate}: {Text($"{Evaluation.CapacityPerMole.JoulesPerMole:0.0}")} J/mol at {Text($"{Problem.ColdTemperature.Kelvins:0.##}")} K, pinch at {Text($"{Evaluation.PinchTemperature.Kelvins:0.0}")} K, by the {Evaluation.Model}",
        ["component", "mol/mol", "1 % mol less, % of capacity", "1 % mol more, % of capacity", "without it, % of capacity"],
        [.. Contributions.Select(c => (IReadOnlyList<string>)
        [
            c.Substance,
            Text($"{c.MoleFraction:0.0000}"),
            Text($"{c.ChangeOnRemovingPercent:+0.00;-0.00;0.00}"),
            Text($"{c.ChangeOnAddingPercent:+0.00;-0.00;0.00}"),
            c.ChangeWithoutPercent is { } without ? Text($"{without:+0.0;-0.0;0.0}") : "nothing left",
        ])]);

    /// <summary>Sensitivities as a table for notebooks and reports.</summary>
    public ResultTable ToSensitivityTable() => new(
        $"{Evaluation.Candidate}: what changes do",
        ["change", "capacity, J/mol", "change, %"],
        [.. Sensitivities.Select(s => (IReadOnlyList<string>)[s.Change, Text($"{s.CapacityJoulesPerMole:0.0}"), Text($"{s.ChangePercent:+0.0;-0.0;0.0}")])]);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static BlendCurvePoint[] CurveOf(BlendProblem problem, BlendFigures figures)
    {
        const double Spacing = 2;
        double top = problem.WarmKelvins - problem.ApproachKelvins;
        double bottom = problem.ColdKelvins;
        SortedSet<double> temperatures = [bottom, top, figures.PinchTemperature];
        for (double t = bottom; t < top; t += Spacing)
        {
            temperatures.Add(t);
        }

        return [.. temperatures.Select(t => new BlendCurvePoint(
            Temperature.FromKelvins(t),
            MolarEnergy.FromJoulesPerMole(t == figures.PinchTemperature ? figures.Capacity : figures.Difference(t)),
            t == figures.PinchTemperature))];
    }

    private static ComponentContribution[] ContributionsOf(BlendEvaluator evaluator, BlendFigures at)
    {
        double[] z = at.Fractions;
        return [.. z.Select((x, i) => new ComponentContribution(
            evaluator.Substances[i].Name,
            x,
            x > 0 && x < 1 ? Change(i, Math.Max(0, x - Step)) : 0,
            x < 1 ? Change(i, Math.Min(1, x + Step)) : 0,
            x >= 1 ? null : x > 0 ? Change(i, 0) : 0))];

        double Change(int component, double wanted)
        {
            double others = z.Index().Where(x => x.Index != component).Sum(x => x.Item);
            double[] other = [.. z.Select((x, i) => i == component ? wanted : x * (1 - wanted) / others)];
            return PercentOf(evaluator.TryEvaluate(other, at.Low, at.High, fine: true), at);
        }
    }

    // A blend that does not cool has lost everything.
    private static double PercentOf(BlendFigures? there, BlendFigures at) =>
        there is null || at.Capacity <= 0 ? -100 : Math.Max(-100, 100 * ((there.Capacity / at.Capacity) - 1));

    private static BlendSensitivity[] SensitivitiesOf(BlendProblem problem, BlendEvaluator evaluator, BlendFigures at)
    {
        const double SummerKelvins = 10;
        BlendEvaluator summer = new(problem.With(BlendLimits.None, SummerKelvins), evaluator.Model);
        BlendEvaluator cool = new(problem.With(BlendLimits.None, -5), evaluator.Model);
        return
        [
            Of("low pressure 10 % higher", evaluator.TryEvaluate(at.Fractions, at.Low * 1.1, at.High, fine: true)),
            Of("low pressure 10 % lower", evaluator.TryEvaluate(at.Fractions, at.Low / 1.1, at.High, fine: true)),
            Of("high pressure 10 % higher", evaluator.TryEvaluate(at.Fractions, at.Low, at.High * 1.1, fine: true)),
            Of("high pressure 10 % lower", evaluator.TryEvaluate(at.Fractions, at.Low, at.High / 1.1, fine: true)),
            Of("warm end and ambient 10 K warmer (summer day)", summer.TryEvaluate(at.Fractions, at.Low, at.High, fine: true)),
            Of("warm end and ambient 5 K colder", cool.TryEvaluate(at.Fractions, at.Low, at.High, fine: true)),
        ];

        BlendSensitivity Of(string change, BlendFigures? there) => new(change, there?.Capacity ?? 0, PercentOf(there, at));
    }

    private static FillingRobustness RobustnessOf(BlendEvaluator evaluator, BlendFigures at)
    {
        Random random = new(1);
        double[] losses = new double[FillingTrials];
        int failed = 0;
        for (int trial = 0; trial < FillingTrials; trial++)
        {
            double[] z = [.. at.Fractions.Select(x => x > 0 ? Math.Max(1e-4, x + (FillingError * NormalDeviate.Next(random))) : 0)];
            double sum = z.Sum();
            BlendFigures? there = evaluator.TryEvaluate([.. z.Select(x => x / sum)], at.Low, at.High, fine: false);
            losses[trial] = -PercentOf(there, at);
            failed += there is null || there.Capacity <= 0 || (at.Violation <= 0 && there.Violation > 0) ? 1 : 0;
        }

        Array.Sort(losses);
        return new(100 * FillingError, FillingTrials, losses.Average(), losses[(int)(0.95 * FillingTrials)], losses[^1], failed / (double)FillingTrials);
    }

    private static FreezingMargin? FreezingOf(WorkingFluid fluid, BlendProblem problem, double pressure) =>
        fluid.FreezeOut.At(problem.ColdTemperature, Pressure.FromPascals(pressure)).Nearest;
}
