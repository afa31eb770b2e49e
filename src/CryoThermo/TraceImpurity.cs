using CryoThermo.Diagnostics;

namespace CryoThermo;

/// <summary>A trace in a fluid that is not part of its charge: it does not act on the phases, but may freeze out. Immutable and thread-safe.</summary>
public sealed class TraceImpurity
{
    /// <summary>Most a trace may be, parts per million of the moles: beyond it the impurity is a component of the charge.</summary>
    public const double HighestPartsPerMillion = 10000;

    /// <summary>Names a trace.</summary>
    /// <param name="substance">Chemical name, formula or ISO 817 designation, for example "water".</param>
    /// <param name="molePartsPerMillion">Moles per million moles of the charge, above 0 (down to 1e-6, a mole fraction of 1e-12, and less) to 10 000.</param>
    /// <exception cref="ArgumentException">The name is blank.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The amount is outside its range.</exception>
    public TraceImpurity(string substance, double molePartsPerMillion)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(substance);
        Substance = substance;
        MolePartsPerMillion = Guard.InRange(molePartsPerMillion, double.Epsilon, HighestPartsPerMillion, "ppm (mole)");
    }

    /// <summary>The name as given.</summary>
    public string Substance { get; }

    /// <summary>Moles per million moles of the charge.</summary>
    public double MolePartsPerMillion { get; }

    /// <summary>Moles over moles of the charge.</summary>
    public double MoleFraction => MolePartsPerMillion * 1e-6;

    /// <inheritdoc/>
    public override string ToString() => $"{Substance} {MolePartsPerMillion:G4} ppm";
}
