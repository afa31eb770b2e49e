using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Fitting;

/// <summary>Measured points of one publication or one run, all of the same components. Immutable and thread-safe.</summary>
public sealed class MeasurementSet
{
    // Temperatures this close belong to one isotherm.
    private const double IsothermWidth = 0.5;

    /// <summary>Creates a set.</summary>
    /// <param name="name">Its name, as it appears in results.</param>
    /// <param name="source">Publication or notebook.</param>
    /// <param name="components">Two or more components; the mole fractions of the points are in this order.</param>
    /// <param name="points">One or more points.</param>
    /// <exception cref="ArgumentException">Too few components or points, or a point has another number of mole fractions.</exception>
    public MeasurementSet(string name, Source source, IReadOnlyList<Substance> components, IEnumerable<Measurement> points)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(components);
        ArgumentNullException.ThrowIfNull(points);
        Name = name;
        Source = source;
        Components = [.. components];
        Points = [.. points];
        if (Components.Count < 2 || Components.DistinctBy(c => c.Identity).Count() != Components.Count)
        {
            throw new ArgumentException($"'{name}' has the components {string.Join(", ", Components.Select(c => c.Name))}; two or more different ones are needed.", nameof(components));
        }

        if (Points.Count == 0)
        {
            throw new ArgumentException($"'{name}' has no points; one or more are needed.", nameof(points));
        }

        foreach (Measurement point in Points)
        {
            if (point.Fractions.Count != Components.Count)
            {
                throw new ArgumentException($"'{name}': {point} has {point.Fractions.Count} mole fractions; the set has {Components.Count} components.", nameof(points));
            }
        }
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>Where the points come from.</summary>
    public Source Source { get; }

    /// <summary>The components, in the order of the mole fractions.</summary>
    public IReadOnlyList<Substance> Components { get; }

    /// <summary>The points.</summary>
    public IReadOnlyList<Measurement> Points { get; }

    /// <summary>Reads a measurement file (docs/formats/measurement-file.md).</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="catalog">Where the substances come from; null for those of the library.</param>
    /// <exception cref="MeasurementFileException">The file breaks a rule of the format; names file, line, column, value and the allowed range.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static MeasurementSet FromFile(string path, SubstanceCatalog? catalog = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        return FromText(File.ReadAllText(path), Path.GetFileName(path), catalog);
    }

    /// <summary>Reads the text of a measurement file.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">The name by which errors call it.</param>
    /// <param name="catalog">Where the substances come from; null for those of the library.</param>
    /// <exception cref="MeasurementFileException">The text breaks a rule of the format; names file, line, column, value and the allowed range.</exception>
    public static MeasurementSet FromText(string text, string file, SubstanceCatalog? catalog = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentException.ThrowIfNullOrWhiteSpace(file);
        return new MeasurementFileReader(file, catalog ?? SubstanceCatalog.Default).Read(text);
    }

    /// <summary>
    /// Splits into points to fit and points to hold out by a fixed rule: every n-th point, in the order of the set, is held out. The points of
    /// one isotherm then stand on both sides; <see cref="HoldOutIsotherms"/> is the harder test.
    /// </summary>
    /// <param name="every">n, 2 or more; no more than the number of points.</param>
    /// <exception cref="ArgumentOutOfRangeException">n is outside its range.</exception>
    public (MeasurementSet Fitted, MeasurementSet HeldOut) HoldOutEvery(int every)
    {
        if (every < 2 || every > Points.Count)
        {
            throw new ArgumentOutOfRangeException(nameof(every), every, $"every is {every}; allowed is 2 to {Points.Count}, the number of points of '{Name}'.");
        }

        return Split(i => (i + 1) % every == 0);
    }

    /// <summary>
    /// Splits into points to fit and points to hold out by a fixed rule: every third isotherm, counted from the second coldest, is held out
    /// whole. Points within 0.5 K are one isotherm.
    /// </summary>
    /// <exception cref="InvalidOperationException">The set has fewer than two isotherms.</exception>
    public (MeasurementSet Fitted, MeasurementSet HeldOut) HoldOutIsotherms()
    {
        double[] sorted = [.. Points.Select(p => p.TemperatureKelvins).Order()];
        List<double> starts = [sorted[0]];
        foreach (double temperature in sorted)
        {
            if (temperature - starts[^1] > IsothermWidth)
            {
                starts.Add(temperature);
            }
        }

        return starts.Count < 2
            ? throw new InvalidOperationException($"'{Name}' has one isotherm; two or more are needed to hold one out.")
            : Split(i => starts.FindLastIndex(s => s <= Points[i].TemperatureKelvins) % 3 == 1);
    }

    /// <summary>Name and number of points.</summary>
    public override string ToString() => $"{Name} ({Points.Count} points)";

    private (MeasurementSet Fitted, MeasurementSet HeldOut) Split(Func<int, bool> isHeldOut) => (
        new(Name, Source, Components, Points.Where((_, i) => !isHeldOut(i))),
        new(Name, Source, Components, Points.Where((_, i) => isHeldOut(i))));
}
