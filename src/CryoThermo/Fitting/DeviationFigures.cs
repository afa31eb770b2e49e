namespace CryoThermo.Fitting;

/// <summary>How far a model is from measured points. Deviations are computed minus measured in the unit of <see cref="MeasurementKind"/>. Immutable.</summary>
/// <param name="Count">Number of deviations formed.</param>
/// <param name="NotSolved">Points at which the model gave no answer; not among the figures.</param>
/// <param name="MeanAbsolute">Mean of the magnitudes; zero when there are none.</param>
/// <param name="Bias">Mean; zero when there are none.</param>
/// <param name="Worst">The deviation of greatest magnitude, with its sign; zero when there are none.</param>
public sealed record DeviationFigures(int Count, int NotSolved, double MeanAbsolute, double Bias, double Worst)
{
    internal static DeviationFigures Of(IReadOnlyList<double> deviations)
    {
        double[] solved = [.. deviations.Where(double.IsFinite)];
        return solved.Length == 0
            ? new(0, deviations.Count, 0, 0, 0)
            : new(solved.Length, deviations.Count - solved.Length, solved.Average(Math.Abs), solved.Average(), solved.MaxBy(Math.Abs));
    }
}
