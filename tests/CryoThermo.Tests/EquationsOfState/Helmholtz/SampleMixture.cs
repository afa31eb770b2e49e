using CryoThermo.EquationsOfState.Helmholtz;
using CryoThermo.Substances;

namespace CryoThermo.Tests.EquationsOfState.Helmholtz;

/// <summary>A mixture in the multi-fluid frame twice: the library's kernel and the plain formulas.</summary>
internal sealed class SampleMixture
{
    /// <summary>The components of the standard, in the order of their keys.</summary>
    public static IReadOnlyList<Substance> Standard { get; } =
        [.. SubstanceCatalog.Default.All.Where(s => SubstanceCatalog.Default.MultiFluid.Equations.ContainsKey(s.Identity.Key))];

    /// <summary>Further components with equations of their own.</summary>
    public static IReadOnlyList<Substance> Further { get; } =
    [
        .. new[]
        {
            "ethylene", "propylene", "krypton", "xenon", "neon", "nitrous oxide", "tetrafluoromethane", "trifluoromethane", "hexafluoroethane",
            "octafluoropropane", "difluoromethane", "sulfur hexafluoride",
        }.Select(SubstanceCatalog.Default.Find),
    ];

    // The tau from which a continued equation runs on linearly, at most.
    private const double HighestTau = 4.5;

    /// <summary>Makes both.</summary>
    /// <param name="components">Components.</param>
    /// <param name="x">Mole fractions.</param>
    /// <param name="isContinued">Whether each function is continued linearly in tau far below its range, as in the recommended model.</param>
    /// <param name="ownEquations">Whether each component takes its own equation instead of that of the standard.</param>
    public SampleMixture(IReadOnlyList<Substance> components, double[] x, bool isContinued, bool ownEquations = false)
    {
        SubstanceCatalog from = SubstanceCatalog.Default;
        int n = components.Count;
        Components = components;
        X = x;
        Equations = [.. components.Select(c => ownEquations ? c.Equations[0] : MultiFluidAssembly.EquationOf(from, c)!)];
        Pairs = new MultiFluidPair?[n * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++)
            {
                Pairs[(i * n) + j] = from.MultiFluidPairOf(components[i], components[j]);
            }
        }

        double highest = isContinued ? HighestTau : double.PositiveInfinity;
        double[] limits =
        [
            .. Equations.Select(e => e.Standard == EquationStandard.MixtureStandard ? highest : Math.Min(highest, e.ReducingTemperature / e.Range.LowestTemperature)),
        ];
        if (!isContinued)
        {
            limits.AsSpan().Fill(double.PositiveInfinity);
        }

        IsContinued = isContinued;
        Kernel = new(
            Equations, [.. components.Select(c => c.AcentricFactor)], Pairs, PlainMixture.R, new(20, 1000, 2e8, highest, double.PositiveInfinity), limits);
        Plain = new(Equations, Pairs, limits, highest);
        Scratch = new double[Kernel.ScratchLength];
    }

    public IReadOnlyList<Substance> Components { get; }

    public double[] X { get; }

    public HelmholtzEquation[] Equations { get; }

    public MultiFluidPair?[] Pairs { get; }

    public bool IsContinued { get; }

    public MultiFluidMixture Kernel { get; }

    public PlainMixture Plain { get; }

    public double[] Scratch { get; }

    public double ReducingTemperature => Plain.ReducingTemperature<DualNumbers.Real>([.. X.Select(v => new DualNumbers.Real(v))]).Value;

    public double ReducingMolarDensity => 1 / Plain.ReducingVolume<DualNumbers.Real>([.. X.Select(v => new DualNumbers.Real(v))]).Value;

    /// <summary>Two to eight components; now and then a fraction of zero, or nearly pure.</summary>
    public static SampleMixture Random(Random random, bool withFurther)
    {
        IReadOnlyList<Substance> pool = withFurther ? [.. Standard, .. Further] : Standard;
        int n = 2 + random.Next(7);
        Substance[] components = [.. pool.OrderBy(_ => random.Next()).Take(n)];
        if (withFurther && !components.Any(Further.Contains))
        {
            components[random.Next(n)] = Further[random.Next(Further.Count)];
        }

        return new(components, Fractions(random, n), isContinued: withFurther);
    }

    public static double[] Fractions(Random random, int n)
    {
        double[] x = new double[n];
        int style = random.Next(4);
        for (int i = 0; i < n; i++)
        {
            x[i] = style == 0 ? Math.Pow(10, -8 * random.NextDouble()) : 0.02 + random.NextDouble();
        }

        if (style == 1)
        {
            x[random.Next(n)] = 0;
        }
        else if (style == 2)
        {
            x[random.Next(n)] = 1e6;
        }

        double sum = x.Sum();
        return [.. x.Select(v => v / sum)];
    }

    public override string ToString() =>
        string.Join(", ", Components.Select((c, i) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{c.Name} {X[i]:R}")));
}
