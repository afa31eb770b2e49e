using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>The constants of a pure substance, each with its source. Immutable and thread-safe; read from a file that was checked.</summary>
public sealed class Substance
{
    internal Substance(SubstanceIdentity identity, string fileName)
    {
        Identity = identity;
        FileName = fileName;
    }

    /// <summary>Who the substance is.</summary>
    public SubstanceIdentity Identity { get; }

    /// <summary>The chemical name in lower case.</summary>
    public string Name => Identity.Name;

    /// <summary>The file the data came from.</summary>
    public string FileName { get; }

    /// <summary>Molar mass, kg/mol.</summary>
    public double MolarMass { get; internal init; }

    /// <summary>Source and marks of the molar mass.</summary>
    public Provenance MolarMassProvenance { get; internal init; } = null!;

    /// <summary>Critical temperature, K.</summary>
    public double CriticalTemperature { get; internal init; }

    /// <summary>Critical pressure, Pa absolute.</summary>
    public double CriticalPressure { get; internal init; }

    /// <summary>Critical molar density, mol/m3.</summary>
    public double CriticalMolarDensity { get; internal init; }

    /// <summary>Source and marks of the critical point.</summary>
    public Provenance CriticalPointProvenance { get; internal init; } = null!;

    /// <summary>Acentric factor, dimensionless.</summary>
    public double AcentricFactor { get; internal init; }

    /// <summary>Source and marks of the acentric factor.</summary>
    public Provenance AcentricFactorProvenance { get; internal init; } = null!;

    /// <summary>Boiling temperature at 101325 Pa, K; null when the substance does not boil there or none is given.</summary>
    public double? NormalBoilingTemperature { get; internal init; }

    /// <summary>Source and marks of the normal boiling temperature; null with it.</summary>
    public Provenance? NormalBoilingProvenance { get; internal init; }

    /// <summary>Sublimation temperature at 101325 Pa, K; null when the substance does not sublime there or none is given.</summary>
    public double? SublimationTemperature { get; internal init; }

    /// <summary>Source and marks of the sublimation temperature; null with it.</summary>
    public Provenance? SublimationProvenance { get; internal init; }

    /// <summary>Triple-point temperature, K (helium: lambda point); null when none is given.</summary>
    public double? TripleTemperature { get; internal init; }

    /// <summary>Triple-point pressure, Pa absolute; null when none is given.</summary>
    public double? TriplePressure { get; internal init; }

    /// <summary>Source and marks of the triple point; null with it.</summary>
    public Provenance? TriplePointProvenance { get; internal init; }

    /// <summary>Ideal-gas heat capacity.</summary>
    public IdealGasHeatCapacity IdealGasHeatCapacity { get; internal init; } = null!;

    /// <summary>Volume translations for the cubic equations; null when none are given (no translation).</summary>
    public VolumeTranslation? VolumeTranslation { get; internal init; }

    /// <summary>Substance parameter kappa1 of the Stryjek-Vera alpha function (Can. J. Chem. Eng. 64 (1986) 323), dimensionless; null when none is given.</summary>
    public double? StryjekVeraKappa1 { get; internal init; }

    /// <summary>Source and marks of kappa1; null with it.</summary>
    public Provenance? StryjekVeraProvenance { get; internal init; }

    /// <summary>Parameters of the cubic equation for quantum gases; null for all others.</summary>
    public QuantumCorrectionParameters? QuantumCorrection { get; internal init; }

    /// <summary>Fusion, transitions and sublimation of the solid; null when the library knows nothing of it, so that freezing is not computed.</summary>
    public SolidProperties? Solid { get; internal init; }

    /// <summary>Viscosity, thermal conductivity and surface tension; null when none is given, so that they are estimated.</summary>
    public TransportData? Transport { get; internal init; }

    /// <summary>
    /// Helmholtz equations of state, the recommended one first: where a reference and a technical equation exist, the better verified.
    /// Empty when the library has none for the substance.
    /// </summary>
    public IReadOnlyList<HelmholtzEquation> Equations { get; internal init; } = [];

    /// <summary>Reads a substance from the text of a substance file (docs/formats/substance-file.md).</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">The name by which errors call the file.</param>
    /// <exception cref="SubstanceDataException">The text breaks a rule of the format; names file, field and rule.</exception>
    public static Substance FromJson(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentException.ThrowIfNullOrWhiteSpace(fileName);
        return SubstanceReader.Read(text, fileName, SubstanceIdentityTable.Default);
    }

    /// <summary>Reads a substance file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="SubstanceDataException">The file breaks a rule of the format; names file, field and rule.</exception>
    /// <exception cref="IOException">The file cannot be read.</exception>
    public static Substance FromFile(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        return FromJson(File.ReadAllText(path), Path.GetFileName(path));
    }

    /// <summary>The name.</summary>
    public override string ToString() => Identity.ToString();
}
