using System.Diagnostics;
using System.Globalization;
using System.Text;
using CryoThermo.Checks.Soak;
using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Checks.Blends;

/// <summary>The long comparisons of the blend search.</summary>
public static class BlendCommands
{
    private static readonly string[] Pool = ["nitrogen", "argon", "methane", "ethane", "propane", "isobutane", "ethylene", "n-butane"];

    /// <summary>The page that compares the search with published compositions, by the recommended model.</summary>
    /// <param name="progress">Receives a line a blend.</param>
    public static string PublishedPage(TextWriter progress)
    {
        ArgumentNullException.ThrowIfNull(progress);
        StringBuilder page = new();
        page.AppendLine("# Blend search against published compositions");
        page.AppendLine();
        page.AppendLine("Written by `dotnet run -c Release --project tests/CryoThermo.Checks -- blends published`; do not edit. The same components, temperatures, pressures and model for both;");
        page.AppendLine("the objective is the greatest cooling a mole circulated on the cycle limit with a perfect recuperator. The published compositions are no starts of the search, and most were not made for");
        page.AppendLine("this objective alone (cool-down, freezing, oil and liquid at the compressor count too), so that a higher figure here does not say that they are bad.");
        page.AppendLine();
        page.AppendLine("| blend | cold, K | warm end, K | low/high, bar absolute | published composition | J/mol | found | J/mol | gain, % | starts that agree within 0.5 % | model |");
        page.AppendLine("| --- | ---: | ---: | ---: | --- | ---: | --- | ---: | ---: | ---: | --- |");
        foreach (PublishedBlend blend in PublishedBlend.All)
        {
            BlendEvaluation published = BlendEvaluation.Of(blend.Problem, blend.Candidate);
            BlendSearchResult found = BlendSearch.Run(blend.Problem);
            BlendEvaluation best = found.Best;
            double gain = 100 * ((best.CapacityPerMole.JoulesPerMole / published.CapacityPerMole.JoulesPerMole) - 1);
            page.AppendLine(string.Create(
                CultureInfo.InvariantCulture,
                $"| {blend.Name} | {blend.ColdKelvins} | {blend.WarmKelvins} | {blend.LowBars}/{blend.HighBars} | {Text(blend, blend.Candidate)} | {published.CapacityPerMole.JoulesPerMole:0} | {Text(blend, best.Candidate)} | {best.CapacityPerMole.JoulesPerMole:0} | {gain:+0;-0;0} | {found.Agreement.WithinHalfPercent} of {found.Agreement.Values.Count} | {found.RankingModel.Name} |"));
            progress.WriteLine($"{blend.Name}: {published.CapacityPerMole.JoulesPerMole:0.0} published, {best.CapacityPerMole.JoulesPerMole:0.0} found");
        }

        page.AppendLine();
        page.AppendLine("Sources:");
        page.AppendLine();
        foreach (PublishedBlend blend in PublishedBlend.All)
        {
            page.AppendLine($"- {blend.Name}: {blend.Source}.");
        }

        BlendProblem ceiling = Ceiling;
        BlendSearchResult top = BlendSearch.Run(ceiling, new() { Finalists = 20 });
        page.AppendLine();
        page.AppendLine("## The ceiling at 80 K");
        page.AppendLine();
        page.AppendLine(string.Create(
            CultureInfo.InvariantCulture,
            $"At most about 3200 J/mol was found for 80 K at elevated pressures with up to nine components free (Maytal and others, Cryogenics 46 (2006), abstract; pressures not stated there). Here, of {string.Join(", ", ceiling.Components.Select(c => c.Substance))} between 1 and 50 bar absolute from 300 K, nothing frozen: {top.Best.CapacityPerMole.JoulesPerMole:0} J/mol by the {top.RankingModel.Name}, with {Text(ceiling, top.Best.Candidate)}."));
        progress.WriteLine($"80 K: {top.Best.CapacityPerMole.JoulesPerMole:0.0}, {top.Best.Candidate}");
        return page.ToString();
    }

    /// <summary>Compares searches with dense grids; the largest shortfall in percent is returned.</summary>
    /// <param name="problems">Number of problems, alternately of two and three components.</param>
    /// <param name="seeds">Searches of each.</param>
    /// <param name="output">Receives a line a problem.</param>
    public static double AgainstGrid(int problems, int seeds, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(output);
        double worst = 0;
        for (int number = 0; number < problems; number++)
        {
            BlendProblem problem = GridProblem(number);
            Stopwatch watch = Stopwatch.StartNew();
            double grid = GridBest(problem);
            double gridSeconds = watch.Elapsed.TotalSeconds;
            watch.Restart();
            double[] found = [.. Enumerable.Range(1, seeds).Select(seed => BlendSearch.Run(
                problem, new() { Seed = seed, RankingModel = FluidModel.PengRobinson }).Best.CapacityPerMole.JoulesPerMole)];
            double shortfall = 100 * ((grid / found.Min()) - 1);
            worst = Math.Max(worst, shortfall);
            output.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{string.Join("/", problem.Components.Select(c => c.Substance))} {problem.ColdKelvins():0.#} K {problem.LeastLowPressure.Bars:0.##}/{problem.LeastHighPressure.Bars:0.##} bar absolute: grid {grid:0.00} J/mol ({gridSeconds:0.0} s), searches {found.Min():0.00} to {found.Max():0.00} ({watch.Elapsed.TotalSeconds / seeds:0.0} s each), shortfall {shortfall:0.0000} %"));
        }

        return worst;
    }

    /// <summary>A problem of two (even numbers) or three components that cools.</summary>
    /// <param name="number">Which.</param>
    public static BlendProblem GridProblem(int number)
    {
        for (int attempt = 0; ; attempt++)
        {
            CaseRandom random = new(77, (1000 * number) + attempt);
            int count = 2 + (number % 2);
            string[] names = [.. Enumerable.Range(0, 40).Select(_ => Pool[random.Whole(Pool.Length)]).Distinct().Take(count)];
            double low = random.Uniform(1, 2.5);
            double high = random.Uniform(10, 25);
            BlendProblem problem = new()
            {
                Components = [.. names.Select(n => new BlendComponent(n))],
                ColdTemperature = Temperature.FromKelvins(random.Uniform(90, 170)),
                WarmEnd = Temperature.FromKelvins(random.Uniform(275, 300)),
                LeastLowPressure = Pressure.FromBars(low),
                GreatestLowPressure = Pressure.FromBars(low),
                LeastHighPressure = Pressure.FromBars(high),
                GreatestHighPressure = Pressure.FromBars(high),
            };
            double[] equal = [.. Enumerable.Repeat(1.0 / count, count)];
            if (Capacity(problem, new(problem, FluidModel.PengRobinson), equal) > 100)
            {
                return problem;
            }
        }
    }

    private static BlendProblem Ceiling => new()
    {
        Components = [.. new[] { "neon", "nitrogen", "argon", "oxygen", "methane", "ethane", "propane", "isobutane", "isopentane" }.Select(n => new BlendComponent(n))],
        ColdTemperature = Temperature.FromKelvins(80),
        WarmEnd = Temperature.FromKelvins(300),
        LeastLowPressure = Pressure.FromBars(1),
        GreatestLowPressure = Pressure.FromBars(1),
        LeastHighPressure = Pressure.FromBars(10),
        GreatestHighPressure = Pressure.FromBars(50),
        Limits = new() { FreezingMargin = TemperatureDelta.FromKelvins(0) },
    };

    private static double ColdKelvins(this BlendProblem problem) => problem.ColdTemperature.Kelvins;

    private static string Text(PublishedBlend blend, BlendCandidate candidate) => Text(blend.Problem, candidate);

    private static string Text(BlendProblem problem, BlendCandidate candidate) => string.Join(
        ", ", problem.Components.Select((c, i) => (c.Substance, X: candidate.MoleFractions[i])).Where(c => c.X > 0).Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Substance} {c.X:0.000}")));

    private static double Capacity(BlendProblem problem, BlendEvaluator evaluator, double[] z) =>
        evaluator.TryEvaluate(z, problem.LeastLowPressure.Pascals, problem.LeastHighPressure.Pascals, fine: true)?.Capacity ?? double.NegativeInfinity;

    /// <summary>The best of a dense grid, made denser round its best points; fine isobars throughout.</summary>
    private static double GridBest(BlendProblem problem)
    {
        BlendEvaluator evaluator = new(problem, FluidModel.PengRobinson);
        int n = problem.Components.Count;
        double step = n == 2 ? 0.005 : 0.025;
        List<double[]> points = [];
        for (double x = 0; x <= 1 + 1e-9; x += step)
        {
            for (double y = n == 2 ? 1 - x : 0; x + y <= 1 + 1e-9; y += step)
            {
                points.Add(n == 2 ? [x, Math.Max(0, 1 - x)] : [x, y, Math.Max(0, 1 - x - y)]);
            }
        }

        (double Value, double[] Point)[] coarse = Values(points);
        double best = coarse[0].Value;
        double width = step;
        double[][] centres = [.. coarse.Take(3).Select(c => c.Point)];
        for (int zoom = 0; zoom < 2; zoom++)
        {
            double fine = width / 6;
            List<double[]> near = [];
            foreach (double[] centre in centres)
            {
                for (int i = -7; i <= 7; i++)
                {
                    for (int j = n == 2 ? 0 : -7; j <= (n == 2 ? 0 : 7); j++)
                    {
                        double x = centre[0] + (i * fine);
                        double y = n == 2 ? 1 - x : centre[1] + (j * fine);
                        if (x >= 0 && y >= 0 && x + y <= 1 + 1e-12)
                        {
                            near.Add(n == 2 ? [x, y] : [x, y, Math.Max(0, 1 - x - y)]);
                        }
                    }
                }
            }

            (double Value, double[] Point)[] finer = Values(near);
            best = Math.Max(best, finer[0].Value);
            centres = [finer[0].Point];
            width = fine;
        }

        return best;

        (double Value, double[] Point)[] Values(List<double[]> all)
        {
            double[] values = new double[all.Count];
            Parallel.For(0, all.Count, i => values[i] = Capacity(problem, evaluator, all[i]));
            return [.. values.Zip(all).OrderByDescending(v => v.First)];
        }
    }
}
