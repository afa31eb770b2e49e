using System.Text;
using CryoThermo.Substances;

namespace CryoThermo.Fitting;

/// <summary>A fitted pair: parameters, standard errors, and how the model compares with each measured set before and after. Immutable and thread-safe.</summary>
public sealed class PairFitResult
{
    private readonly SubstanceCatalog catalog;
    private readonly double[,] correlation;

    internal PairFitResult(
        BinaryPair pair,
        SubstanceCatalog catalog,
        IReadOnlyList<FittedParameter> parameters,
        double[,] correlation,
        IReadOnlyList<SetDeviations> sets,
        int pointCount,
        IReadOnlyList<string> failedPoints)
    {
        Pair = pair;
        this.catalog = catalog;
        Parameters = parameters;
        this.correlation = correlation;
        Sets = sets;
        PointCount = pointCount;
        FailedPoints = failedPoints;
    }

    /// <summary>The pair, of tier <see cref="PairTier.FittedHere"/>, its parameters rounded to six decimals.</summary>
    public BinaryPair Pair { get; }

    /// <summary>The freed parameters.</summary>
    public IReadOnlyList<FittedParameter> Parameters { get; }

    /// <summary>Each measured set before and after, those held out last.</summary>
    public IReadOnlyList<SetDeviations> Sets { get; }

    /// <summary>Number of points in the fit.</summary>
    public int PointCount { get; }

    /// <summary>Points of the fit at which the model gives no answer with the fitted parameters.</summary>
    public IReadOnlyList<string> FailedPoints { get; }

    /// <summary>The correlation coefficient of two freed parameters, -1 to 1. Near -1 or 1 the points do not tell them apart.</summary>
    /// <param name="first">One parameter.</param>
    /// <param name="second">The other.</param>
    /// <exception cref="ArgumentException">A parameter was not freed.</exception>
    public double CorrelationOf(PairParameter first, PairParameter second) => correlation[IndexOf(first, nameof(first)), IndexOf(second, nameof(second))];

    /// <summary>The catalogue of the fit with the fitted pair before those known.</summary>
    public SubstanceCatalog ToCatalog() => catalog.With(Pair);

    /// <summary>The text of a pair file with this pair (docs/formats/pair-file.md).</summary>
    public string ToPairFile() => PairFileWriter.Write([Pair]);

    /// <summary>Parameters with standard errors and the table of sets.</summary>
    public override string ToString()
    {
        StringBuilder text = new();
        text.AppendLine($"{Pair.First.Name} + {Pair.Second.Name}: {PointCount} points, {FailedPoints.Count} without an answer");
        foreach (FittedParameter p in Parameters)
        {
            text.AppendLine($"  {p.Parameter} {p.Start:0.0000} -> {p.Value:0.0000} +- {p.StandardError:0.0000}{(p.IsAtLimit ? " (at its limit)" : string.Empty)}");
        }

        foreach (SetDeviations s in Sets)
        {
            (double factor, string unit) = UnitOf(s.Kind);
            text.AppendLine(
                $"  {(s.IsHeldOut ? "held out" : "fitted  ")} {s.Set}, {PairFit.Words(s.Kind)}, {unit} (stated {s.Uncertainty * factor:0.###}): "
                + $"mean {s.Before.MeanAbsolute * factor:0.###} -> {s.After.MeanAbsolute * factor:0.###}, "
                + $"bias {s.Before.Bias * factor:0.###} -> {s.After.Bias * factor:0.###}, worst {s.Before.Worst * factor:0.###} -> {s.After.Worst * factor:0.###}, "
                + $"{s.After.Count} points, not solved {s.Before.NotSolved} -> {s.After.NotSolved}");
        }

        return text.ToString();
    }

    private static (double Factor, string Unit) UnitOf(MeasurementKind kind) => kind switch
    {
        MeasurementKind.BubbleTemperature or MeasurementKind.DewTemperature => (1, "K"),
        MeasurementKind.ExcessGibbsEnergy => (1, "J/mol"),
        MeasurementKind.VaporComposition => (1, "mole fraction"),
        _ => (100, "%"),
    };

    private int IndexOf(PairParameter parameter, string name)
    {
        for (int i = 0; i < Parameters.Count; i++)
        {
            if (Parameters[i].Parameter == parameter)
            {
                return i;
            }
        }

        throw new ArgumentException($"{name} is {parameter}, which was not freed; freed were {string.Join(", ", Parameters.Select(p => p.Parameter))}.", name);
    }
}
