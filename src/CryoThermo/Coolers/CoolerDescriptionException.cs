namespace CryoThermo.Coolers;

/// <summary>A cooler file cannot be used. Carries every fault found in it.</summary>
public sealed class CoolerDescriptionException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="fileName">The file's name, for the message.</param>
    /// <param name="faults">All faults, at least one.</param>
    /// <param name="inner">The underlying error, if any.</param>
    /// <exception cref="ArgumentException"><paramref name="faults"/> is empty.</exception>
    public CoolerDescriptionException(string fileName, IReadOnlyList<DescriptionFault> faults, Exception? inner = null)
        : base(Describe(fileName, faults), inner)
    {
        FileName = fileName;
        Faults = [.. faults];
    }

    /// <summary>The file's name.</summary>
    public string FileName { get; }

    /// <summary>All faults found, at least one.</summary>
    public IReadOnlyList<DescriptionFault> Faults { get; }

    private static string Describe(string fileName, IReadOnlyList<DescriptionFault> faults)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(faults);
        if (faults.Count == 0)
        {
            throw new ArgumentException("faults is empty; at least one is needed.", nameof(faults));
        }

        string count = faults.Count == 1 ? "1 fault" : $"{faults.Count} faults";
        return $"{fileName}: {count}{string.Concat(faults.Select(fault => $"{Environment.NewLine}  {fault.Field}: {fault.Message}"))}";
    }
}
