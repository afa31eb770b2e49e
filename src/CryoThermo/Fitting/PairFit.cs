using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;

namespace CryoThermo.Fitting;

/// <summary>
/// Fits parameters of two substances in a mixture model to measured points. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Robust regression: a planted or real outlier counts with its magnitude, not its square. Starting values are the parameters known so far, a
/// scan over the strength, and, where both phases were measured, the parameters that make the fugacities in both phases equal at the measured
/// states. A point at which the model gives no answer with some trial parameters is penalised there and told in the result; it does not end the
/// fit. Free as few parameters as the points justify, and hold points out to see it.
/// </remarks>
public sealed class PairFit
{
    // Standard uncertainty of a fugacity difference, for starting values only.
    private const double FugacityUncertainty = 0.02;

    // Share by which a gamma or beta may leave its start in any case: those of unlike substances lie outside the usual limits.
    private const double RoomAboutStart = 0.1;

    private static readonly PairParameter[] CubicParameters = [PairParameter.Interaction, PairParameter.InverseTemperatureCoefficient];

    private readonly SubstanceCatalog catalog;
    private readonly Substance first;
    private readonly Substance second;
    private readonly FluidModel model;
    private readonly BinaryPair start;

    /// <summary>Prepares a fit.</summary>
    /// <param name="first">One substance, by any of its names; the asymmetric parameters count from it.</param>
    /// <param name="second">The other.</param>
    /// <param name="model"><see cref="FluidModel.Recommended"/> for the multi-fluid model, or a cubic other than the quantum-corrected one; null for the former.</param>
    /// <param name="catalog">Where substances and other pairs come from; null for those of the library.</param>
    /// <exception cref="ArgumentException">A substance is not known or has no Helmholtz equation, both are the same, or the model has no pairs to fit.</exception>
    public PairFit(string first, string second, FluidModel? model = null, SubstanceCatalog? catalog = null)
    {
        this.catalog = catalog ?? SubstanceCatalog.Default;
        this.first = this.catalog.Find(first);
        this.second = this.catalog.Find(second);
        this.model = model ?? FluidModel.Recommended;
        if (this.model.Cubic is { } cubic)
        {
            if (cubic.PairKind == CubicModelKind.PengRobinsonQuantumCorrected)
            {
                throw new ArgumentException($"model is {this.model}, whose pairs a file can only name as published; fit {FluidModel.PengRobinson}.", nameof(model));
            }

            start = this.catalog.PairOf(this.first, this.second, cubic.PairKind);
        }
        else if (ReferenceEquals(this.model, FluidModel.Recommended))
        {
            foreach (Substance substance in (Substance[])[this.first, this.second])
            {
                if (MultiFluidAssembly.EquationOf(this.catalog, substance) is null)
                {
                    throw new ArgumentException($"The library has no Helmholtz equation of {substance.Name}: fit the pair for a cubic.", nameof(model));
                }
            }

            start = this.catalog.MultiFluidPairOf(this.first, this.second);
        }
        else
        {
            throw new ArgumentException($"model is {this.model}; allowed are {nameof(FluidModel.Recommended)} and the cubics. The standard itself is never altered.", nameof(model));
        }
    }

    private PairFit(PairFit other, BinaryPair start)
    {
        catalog = other.catalog;
        first = other.first;
        second = other.second;
        model = other.model;
        this.start = start;
    }

    /// <summary>The pair the fit starts from.</summary>
    public BinaryPair Start => start;

    /// <summary>Lowest value a gamma or beta may take, unless a tenth below its start is lower. Default 0.8.</summary>
    public double LowestReducing { get; init; } = 0.8;

    /// <summary>Highest value a gamma or beta may take, unless a tenth above its start is higher. Default 1.25.</summary>
    public double HighestReducing { get; init; } = 1.25;

    /// <summary>Greatest magnitude of the factor of a departure function. Default 3.</summary>
    public double LargestDepartureWeight { get; init; } = 3;

    /// <summary>Greatest magnitude of the interaction parameter of a cubic. Default 0.5.</summary>
    public double LargestInteraction { get; init; } = 0.5;

    /// <summary>Greatest magnitude of the coefficient of 298.15 K/T - 1 in the interaction parameter of a cubic. Default 0.5.</summary>
    public double LargestInverseTemperatureCoefficient { get; init; } = 0.5;

    /// <summary>The same fit with the pair started from a departure function of the catalogue, for example the standard's "generalised".</summary>
    /// <param name="name">Name of the departure function.</param>
    /// <param name="weight">Starting factor, -10 to 10.</param>
    /// <exception cref="ArgumentException">The catalogue knows no such function, or the model has none.</exception>
    public PairFit WithDeparture(string name, double weight)
    {
        ArgumentNullException.ThrowIfNull(name);
        Guard.InRange(weight, -10, 10, string.Empty);
        if (start is not MultiFluidPair pair)
        {
            throw new ArgumentException($"{model} has no departure functions.", nameof(name));
        }

        return catalog.MultiFluid.Departures.TryGetValue(name, out DepartureFunction? function)
            ? With(pair with { Departure = function, DepartureWeight = weight })
            : throw new ArgumentException(
                $"'{name}' is no departure function of the catalogue; it has {string.Join(", ", catalog.MultiFluid.Departures.Keys.Order(StringComparer.Ordinal))}.", nameof(name));
    }

    /// <summary>Fits.</summary>
    /// <param name="free">
    /// Parameters to free; those of a cubic pair are <see cref="PairParameter.Interaction"/> and <see cref="PairParameter.InverseTemperatureCoefficient"/>.
    /// </param>
    /// <param name="fitted">Measured points to fit; more deviations than free parameters, or as many.</param>
    /// <param name="heldOut">Measured points that are only compared; null for none.</param>
    /// <param name="cancellation">Ends the fit early.</param>
    /// <exception cref="ArgumentException">A parameter does not belong to the model or is named twice; a set does not hold the pair; too few points.</exception>
    /// <exception cref="ConvergenceException">The points do not determine the parameters, or the model gives no answer at any of them.</exception>
    /// <exception cref="OperationCanceledException">The fit was ended early.</exception>
    public PairFitResult Fit(
        IReadOnlyList<PairParameter> free,
        IReadOnlyList<MeasurementSet> fitted,
        IReadOnlyList<MeasurementSet>? heldOut = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(free);
        ArgumentNullException.ThrowIfNull(fitted);
        heldOut ??= [];
        CheckParameters(free);
        foreach (MeasurementSet set in fitted.Concat(heldOut))
        {
            if (!set.Components.Any(c => c.Identity.Equals(first.Identity)) || !set.Components.Any(c => c.Identity.Equals(second.Identity)))
            {
                throw new ArgumentException($"'{set.Name}' holds {string.Join(", ", set.Components.Select(c => c.Name))}; it must hold {first.Name} and {second.Name}.", nameof(fitted));
            }
        }

        Problem problem = new(this, free, fitted);
        if (problem.Count < free.Count)
        {
            throw new ArgumentException($"fitted gives {problem.Count} deviations for {free.Count} free parameters; at least as many are needed.", nameof(fitted));
        }

        RobustLeastSquares regression = new(problem.Residuals, [.. free.Select(p => LimitsOf(p).Low)], [.. free.Select(p => LimitsOf(p).High)]);
        double[] from = StartFrom(free, problem, regression, cancellation);
        RobustLeastSquares.Answer answer = regression.Solve(from, cancellation);
        if (answer.Solved == 0 || !answer.IsDetermined)
        {
            throw new ConvergenceException(
                "pair fit",
                $"{first.Name} and {second.Name}, {string.Join(", ", free)}, {problem.Count} deviations",
                double.PositiveInfinity,
                answer.Solved == 0
                    ? "The model gives no answer at any point: check temperatures, pressures and the order of the mole fractions."
                    : "The points do not determine these parameters: free fewer of them or add points.");
        }

        FittedParameter[] parameters =
        [
            .. free.Select((p, i) => new FittedParameter(p, ValueOf(start, p), answer.Parameters[i], answer.StandardErrors[i], IsAtLimit(p, answer.Parameters[i]))),
        ];
        BinaryPair pair = Finish(parameters, fitted);
        return new(
            pair,
            catalog,
            parameters,
            answer.Correlation,
            [.. Compare(pair, fitted, false), .. Compare(pair, heldOut, true)],
            fitted.Sum(s => s.Points.Count),
            FailedPoints(pair, fitted));
    }

    /// <summary>Compares two catalogues with measured sets without fitting.</summary>
    /// <param name="sets">The sets.</param>
    /// <param name="model">The model.</param>
    /// <param name="before">The catalogue before.</param>
    /// <param name="after">The catalogue after.</param>
    /// <param name="heldOut">Whether the sets are marked as held out.</param>
    public static IReadOnlyList<SetDeviations> Compare(
        IReadOnlyList<MeasurementSet> sets, FluidModel model, SubstanceCatalog before, SubstanceCatalog after, bool heldOut)
    {
        ArgumentNullException.ThrowIfNull(sets);
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        List<SetDeviations> rows = [];
        foreach (MeasurementSet set in sets)
        {
            MeasurementKind[] kinds = [.. set.Points.SelectMany(MeasurementEvaluator.KindsOf)];
            double[] uncertainty = [.. set.Points.SelectMany(p => MeasurementEvaluator.KindsOf(p).Select(p.Uncertainty.Of))];
            double[] was = DeviationsOf(set, model, before);
            double[] now = ReferenceEquals(before, after) ? was : DeviationsOf(set, model, after);
            foreach (MeasurementKind kind in kinds.Distinct())
            {
                int[] which = [.. Enumerable.Range(0, kinds.Length).Where(i => kinds[i] == kind)];
                rows.Add(new(
                    set.Name,
                    kind,
                    heldOut,
                    which.Average(i => uncertainty[i]),
                    DeviationFigures.Of([.. which.Select(i => was[i])]),
                    DeviationFigures.Of([.. which.Select(i => now[i])])));
            }
        }

        return rows;
    }

    private static double[] DeviationsOf(MeasurementSet set, FluidModel model, SubstanceCatalog catalog)
    {
        MeasurementEvaluator evaluator = new(KernelOf(set, model, catalog));
        List<double> deviations = [];
        foreach (Measurement point in set.Points)
        {
            evaluator.Deviations(point, deviations);
        }

        return [.. deviations];
    }

    private static FluidKernel KernelOf(MeasurementSet set, FluidModel model, SubstanceCatalog catalog)
    {
        double equal = 1.0 / set.Components.Count;
        Composition composition = Composition.FromMoleFractions(catalog, [.. set.Components.Select(c => (c.Name, equal))]);
        return FluidAssembly.Build(catalog, composition, model, ReferenceState.IdealGasAt25DegreesCelsius).Kernel;
    }

    private PairFit With(BinaryPair pair) => new(this, pair)
    {
        LowestReducing = LowestReducing,
        HighestReducing = HighestReducing,
        LargestDepartureWeight = LargestDepartureWeight,
        LargestInteraction = LargestInteraction,
        LargestInverseTemperatureCoefficient = LargestInverseTemperatureCoefficient,
    };

    private void CheckParameters(IReadOnlyList<PairParameter> free)
    {
        if (free.Count == 0 || free.Distinct().Count() != free.Count)
        {
            throw new ArgumentException($"free holds {free.Count} parameters ({string.Join(", ", free)}); one or more are needed, each once.", nameof(free));
        }

        foreach (PairParameter parameter in free)
        {
            if (CubicParameters.Contains(parameter) != start is CubicPair)
            {
                throw new ArgumentException($"free holds {parameter}, which is no parameter of a pair of {model}.", nameof(free));
            }

            if (parameter == PairParameter.DepartureWeight && start is MultiFluidPair { Departure: null })
            {
                throw new ArgumentException($"free holds {parameter}, but {first.Name} and {second.Name} have no departure function; name one with {nameof(WithDeparture)}.", nameof(free));
            }
        }
    }

    private double[] StartFrom(IReadOnlyList<PairParameter> free, Problem problem, RobustLeastSquares regression, CancellationToken cancellation)
    {
        double[] known = [.. free.Select(p => ValueOf(start, p))];
        List<double[]> candidates = [known];
        if (problem.HasTieLines)
        {
            RobustLeastSquares byFugacity = new(problem.FugacityResiduals, [.. free.Select(p => LimitsOf(p).Low)], [.. free.Select(p => LimitsOf(p).High)]);
            candidates.Add(byFugacity.Solve(known, cancellation).Parameters);
        }

        int strength = Enumerable.Range(0, free.Count).FirstOrDefault(i => free[i] is PairParameter.TemperatureGamma or PairParameter.Interaction, -1);
        for (int step = -4; strength >= 0 && step <= 4; step++)
        {
            double[] scanned = [.. known];
            scanned[strength] += 0.03 * step;
            candidates.Add(scanned);
        }

        cancellation.ThrowIfCancellationRequested();
        double scale = candidates.Min(regression.ScaleAt);
        return candidates.MinBy(c => regression.Loss(c, scale))!;
    }

    private (double Low, double High) LimitsOf(PairParameter parameter) => parameter switch
    {
        PairParameter.Interaction => (-LargestInteraction, LargestInteraction),
        PairParameter.InverseTemperatureCoefficient => (-LargestInverseTemperatureCoefficient, LargestInverseTemperatureCoefficient),
        PairParameter.DepartureWeight => (-LargestDepartureWeight, LargestDepartureWeight),
        _ => (Math.Min(LowestReducing, (1 - RoomAboutStart) * ValueOf(start, parameter)), Math.Max(HighestReducing, (1 + RoomAboutStart) * ValueOf(start, parameter))),
    };

    private bool IsAtLimit(PairParameter parameter, double value)
    {
        (double low, double high) = LimitsOf(parameter);
        return value - low < 1e-6 || high - value < 1e-6;
    }

    private static double ValueOf(BinaryPair pair, PairParameter parameter) => (pair, parameter) switch
    {
        (CubicPair cubic, PairParameter.InverseTemperatureCoefficient) => cubic.InverseTemperatureCoefficient,
        (CubicPair cubic, _) => cubic.InteractionParameter,
        (MultiFluidPair p, PairParameter.TemperatureGamma) => p.Temperature.Gamma,
        (MultiFluidPair p, PairParameter.TemperatureBeta) => p.Temperature.Beta,
        (MultiFluidPair p, PairParameter.VolumeGamma) => p.Volume.Gamma,
        (MultiFluidPair p, PairParameter.VolumeBeta) => p.Volume.Beta,
        (MultiFluidPair p, _) => p.DepartureWeight,
        _ => throw new InvalidOperationException("Not a pair of a mixture model."),
    };

    private static BinaryPair WithValue(BinaryPair pair, PairParameter parameter, double value) => (pair, parameter) switch
    {
        (CubicPair cubic, PairParameter.InverseTemperatureCoefficient) => cubic with { InverseTemperatureCoefficient = value },
        (CubicPair cubic, _) => cubic with { InteractionParameter = value },
        (MultiFluidPair p, PairParameter.TemperatureGamma) => p with { Temperature = p.Temperature with { Gamma = value } },
        (MultiFluidPair p, PairParameter.TemperatureBeta) => p with { Temperature = p.Temperature with { Beta = value } },
        (MultiFluidPair p, PairParameter.VolumeGamma) => p with { Volume = p.Volume with { Gamma = value } },
        (MultiFluidPair p, PairParameter.VolumeBeta) => p with { Volume = p.Volume with { Beta = value } },
        (MultiFluidPair p, _) => p with { DepartureWeight = value },
        _ => throw new InvalidOperationException("Not a pair of a mixture model."),
    };

    private static BinaryPair WithValues(BinaryPair pair, IReadOnlyList<PairParameter> parameters, IReadOnlyList<double> values)
    {
        for (int i = 0; i < parameters.Count; i++)
        {
            pair = WithValue(pair, parameters[i], values[i]);
        }

        return pair;
    }

    // Six decimals go into a pair file, finer than any standard error.
    private BinaryPair Finish(FittedParameter[] parameters, IReadOnlyList<MeasurementSet> fitted)
    {
        BinaryPair pair = WithValues(start, [.. parameters.Select(p => p.Parameter)], [.. parameters.Select(p => Math.Round(p.Value, 6))]);
        string fittedTo = string.Join(
            "; ",
            fitted.Select(s => $"{s.Name}: {s.Points.Count} points ({string.Join(", ", s.Points.Select(p => Words(p.Kind)).Distinct())}), "
                + $"{s.Points.Min(p => p.TemperatureKelvins):0.#} to {s.Points.Max(p => p.TemperatureKelvins):0.#} K; {s.Source.Publication}"));
        Source source = new("fitted with this library", fitted.Any(s => s.Source.FromMemory), null);
        return pair switch
        {
            CubicPair cubic => cubic with
            {
                Tier = PairTier.FittedHere,
                Source = source,
                FittedTo = fittedTo,
                Confidence = PairConfidence.NotStated,
                StandardError = ErrorOf(PairParameter.Interaction) is not 0 and var error ? error : null,
                InverseTemperatureStandardError = ErrorOf(PairParameter.InverseTemperatureCoefficient) is not 0 and var slopeError ? slopeError : null,
                HalfWidth95 = null,
            },
            MultiFluidPair multi => multi with
            {
                Tier = PairTier.FittedHere,
                Source = source,
                FittedTo = fittedTo,
                Basis = multi.Tier == PairTier.Published ? "parameters not fitted here are those of the standard" : null,
                HalfWidth95 = null,
                StandardErrors = new(
                    ErrorOf(PairParameter.VolumeBeta),
                    ErrorOf(PairParameter.VolumeGamma),
                    ErrorOf(PairParameter.TemperatureBeta),
                    ErrorOf(PairParameter.TemperatureGamma),
                    ErrorOf(PairParameter.DepartureWeight)),
            },
            _ => throw new InvalidOperationException("Not a pair of a mixture model."),
        };

        double ErrorOf(PairParameter parameter) =>
            Array.Find(parameters, p => p.Parameter == parameter) is { } found ? Math.Max(Math.Round(found.StandardError, 6), 1e-6) : 0;
    }

    internal static string Words(MeasurementKind kind) => kind switch
    {
        MeasurementKind.BubblePressure => "bubble pressure",
        MeasurementKind.BubbleTemperature => "bubble temperature",
        MeasurementKind.DewPressure => "dew pressure",
        MeasurementKind.DewTemperature => "dew temperature",
        MeasurementKind.VaporComposition => "vapour composition",
        MeasurementKind.Density => "density",
        MeasurementKind.SpeedOfSound => "speed of sound",
        _ => "excess Gibbs energy",
    };

    private IReadOnlyList<SetDeviations> Compare(BinaryPair pair, IReadOnlyList<MeasurementSet> sets, bool heldOut) =>
        Compare(sets, model, catalog.With(start), catalog.With(pair), heldOut);

    private List<string> FailedPoints(BinaryPair pair, IReadOnlyList<MeasurementSet> sets)
    {
        List<string> failed = [];
        SubstanceCatalog with = catalog.With(pair);
        foreach (MeasurementSet set in sets)
        {
            MeasurementEvaluator evaluator = new(KernelOf(set, model, with));
            foreach (Measurement point in set.Points)
            {
                List<double> deviations = [];
                evaluator.Deviations(point, deviations);
                if (deviations.Exists(d => !double.IsFinite(d)))
                {
                    failed.Add($"{set.Name}: {point}");
                }
            }
        }

        return failed;
    }

    /// <summary>The residuals of trial parameters.</summary>
    private sealed class Problem
    {
        private readonly PairFit fit;
        private readonly IReadOnlyList<PairParameter> free;
        private readonly IReadOnlyList<MeasurementSet> sets;
        private readonly double[] standardUncertainty;
        private double[]? lastParameters;
        private List<double> lastResiduals = [];

        public Problem(PairFit fit, IReadOnlyList<PairParameter> free, IReadOnlyList<MeasurementSet> sets)
        {
            this.fit = fit;
            this.free = free;
            this.sets = sets;
            List<double> uncertainty = [];
            foreach (MeasurementSet set in sets)
            {
                MeasurementEvaluator evaluator = new(KernelOf(set, fit.model, fit.catalog.With(fit.start)));
                foreach (Measurement point in set.Points)
                {
                    // Errors in the composition act like errors in the pressure (effective variance).
                    double slope = point.Kind == MeasurementKind.BubblePressure && point.Uncertainty.LiquidFraction > 0 ? evaluator.BubbleSlope(point) : 0;
                    double fromComposition = slope * point.Uncertainty.LiquidFraction;
                    foreach (MeasurementKind kind in MeasurementEvaluator.KindsOf(point))
                    {
                        double expanded = point.Uncertainty.Of(kind);
                        uncertainty.Add(0.5 * (kind == MeasurementKind.BubblePressure ? Math.Sqrt((expanded * expanded) + (fromComposition * fromComposition)) : expanded));
                    }
                }
            }

            standardUncertainty = [.. uncertainty];
        }

        public int Count => standardUncertainty.Length;

        public bool HasTieLines => sets.Any(s => s.Points.Any(p => p.VaporFractions is not null));

        public IReadOnlyList<double> Residuals(double[] parameters)
        {
            if (lastParameters is not null && parameters.AsSpan().SequenceEqual(lastParameters))
            {
                return lastResiduals;
            }

            List<double> values = new(Count);
            SubstanceCatalog trial = fit.catalog.With(WithValues(fit.start, free, parameters));
            foreach (MeasurementSet set in sets)
            {
                MeasurementEvaluator evaluator = new(KernelOf(set, fit.model, trial));
                foreach (Measurement point in set.Points)
                {
                    evaluator.Deviations(point, values, forFit: true);
                }
            }

            for (int i = 0; i < values.Count; i++)
            {
                values[i] /= standardUncertainty[i];
            }

            lastParameters = [.. parameters];
            lastResiduals = values;
            return values;
        }

        public IReadOnlyList<double> FugacityResiduals(double[] parameters)
        {
            List<double> values = [];
            SubstanceCatalog trial = fit.catalog.With(WithValues(fit.start, free, parameters));
            foreach (MeasurementSet set in sets.Where(s => s.Points.Any(p => p.VaporFractions is not null)))
            {
                MeasurementEvaluator evaluator = new(KernelOf(set, fit.model, trial));
                foreach (Measurement point in set.Points.Where(p => p.VaporFractions is not null))
                {
                    evaluator.FugacityDifferences(point, values);
                }
            }

            for (int i = 0; i < values.Count; i++)
            {
                values[i] /= FugacityUncertainty;
            }

            return values;
        }
    }
}
