using System.Collections.Immutable;
using CryoThermo.Diagnostics;

namespace CryoThermo.Substances;

/// <summary>Reads a substance file and holds the rules of its format.</summary>
internal static class SubstanceReader
{
    /// <summary>CODATA 2018 (exact), J/(mol K).</summary>
    public const double GasConstant = 8.314462618;

    private const double NormalPressure = 101325;

    // Bounds that catch wrong units and slips, not judgements of physics; common practice, no source.
    private const double LowestCompressibility = 0.2;
    private const double HighestCompressibility = 0.35;
    private const double LowestHeatCapacity = 2.5 - 1e-6;
    private const double HighestHeatCapacity = 200;
    private const double MolarMassTolerance = 2e-3;
    private const int HeatCapacityProbes = 200;

    /// <summary>
    /// Allowed ratio of the vapour pressure by the acentric factor, at the normal boiling temperature, to 101325 Pa, and of its inverse.
    /// </summary>
    private const double BoilingPressureFactor = 1.25;

    /// <summary>Reads a file and holds all rules.</summary>
    public static Substance Read(string text, string file, SubstanceIdentityTable known)
    {
        Substance substance = ReadUnchecked(text, file, known);
        foreach (ValidationFinding finding in EquationRules.Broken(substance))
        {
            throw new SubstanceDataException(file, finding.Subject, finding.Message[(finding.Subject.Length + 1)..]);
        }

        return substance;
    }

    /// <summary>
    /// Reads a file without the rules of <see cref="EquationRules"/>: for the shipped files, which the tests hold to them, so that the first
    /// fluid of a process comes sooner.
    /// </summary>
    public static Substance ReadUnchecked(string text, string file, SubstanceIdentityTable known) =>
        JsonBlock.ReadFile(text, file, block => Read(block, file, known));

    private static Substance Read(JsonBlock block, string file, SubstanceIdentityTable known)
    {
        SubstanceDocument document = SubstanceDocument.From(block);
        FieldCheck root = new(file, string.Empty);
        SubstanceIdentity identity = ReadIdentity(root, document, known);
        SourceTable sources = new(root, document.Sources);

        ValueEntry molarMass = root.Required(document.MolarMass, "molarMass");
        FieldCheck atMolarMass = root.Within("molarMass");
        double mass = atMolarMass.InRange(molarMass.Value, "value", 1e-3, 1, "kg/mol");
        if (identity.Molecule is { } molecule && Math.Abs((mass / molecule.MolarMass) - 1) > MolarMassTolerance)
        {
            throw atMolarMass.Broken(
                "value", $"must agree within 0.2 % with the {molecule.MolarMass:G6} kg/mol of the formula {identity.Formula}, found {mass:G6}");
        }

        CriticalEntry critical = root.Required(document.Critical, "critical");
        FieldCheck atCritical = root.Within("critical");
        double criticalTemperature = atCritical.InRange(critical.Temperature, "temperature", 1, 2000, "K");
        double criticalPressure = atCritical.InRange(critical.Pressure, "pressure", 1e5, 1e8, "Pa");
        double criticalDensity = atCritical.Positive(critical.MolarDensity, "molarDensity", "mol/m3");
        double compressibility = criticalPressure / (criticalDensity * GasConstant * criticalTemperature);
        if (compressibility is < LowestCompressibility or > HighestCompressibility)
        {
            throw atCritical.Broken(
                "molarDensity",
                $"gives a critical compressibility factor of {compressibility:G4}; allowed is {LowestCompressibility} to {HighestCompressibility}");
        }

        ValueEntry acentric = root.Required(document.AcentricFactor, "acentricFactor");
        double acentricFactor = root.Within("acentricFactor").InRange(acentric.Value, "value", -0.6, 2, "(dimensionless)");

        double? triple = null;
        double? triplePressure = null;
        if (document.TriplePoint is { } triplePoint)
        {
            FieldCheck at = root.Within("triplePoint");
            triple = BelowCritical(at, triplePoint.Temperature, criticalTemperature);
            triplePressure = triplePoint.Pressure is null ? null : at.Positive(triplePoint.Pressure, "pressure", "Pa");
            if (triplePressure >= criticalPressure)
            {
                throw at.Broken("pressure", $"must be below the critical pressure of {criticalPressure:G6} Pa, found {triplePressure:G6}");
            }
        }

        double? boiling = null;
        if (document.NormalBoilingPoint is { } boilingPoint)
        {
            FieldCheck at = root.Within("normalBoilingPoint");
            boiling = BelowCritical(at, boilingPoint.Temperature, criticalTemperature);
            if (boiling < triple)
            {
                throw at.Broken("temperature", $"must not be below the triple temperature of {triple:G6} K, found {boiling:G6}");
            }

            RequireConsistentBoiling(at, boiling.Value, criticalTemperature, criticalPressure, acentricFactor, identity);
        }

        double? sublimation = null;
        if (document.SublimationPoint is { } sublimationPoint)
        {
            FieldCheck at = root.Within("sublimationPoint");
            sublimation = BelowCritical(at, sublimationPoint.Temperature, criticalTemperature);
            if (sublimation > triple)
            {
                throw at.Broken("temperature", $"must not be above the triple temperature of {triple:G6} K, found {sublimation:G6}");
            }
        }

        Substance substance = new(identity, file)
        {
            MolarMass = mass,
            MolarMassProvenance = sources.Provenance(atMolarMass, molarMass),
            CriticalTemperature = criticalTemperature,
            CriticalPressure = criticalPressure,
            CriticalMolarDensity = criticalDensity,
            CriticalPointProvenance = sources.Provenance(atCritical, critical),
            AcentricFactor = acentricFactor,
            AcentricFactorProvenance = sources.Provenance(root.Within("acentricFactor"), acentric),
            NormalBoilingTemperature = boiling,
            NormalBoilingProvenance = Provenance(document.NormalBoilingPoint, "normalBoilingPoint"),
            SublimationTemperature = sublimation,
            SublimationProvenance = Provenance(document.SublimationPoint, "sublimationPoint"),
            TripleTemperature = triple,
            TriplePressure = triplePressure,
            TriplePointProvenance = Provenance(document.TriplePoint, "triplePoint"),
            IdealGasHeatCapacity = ReadHeatCapacity(
                root.Within("idealGasHeatCapacity"), root.Required(document.IdealGasHeatCapacity, "idealGasHeatCapacity"), sources),
            VolumeTranslation = ReadVolumeTranslation(
                root.Within("volumeTranslation"), document.VolumeTranslation, sources, criticalTemperature, criticalDensity),
            StryjekVeraKappa1 = document.StryjekVera is null
                ? null
                : root.Within("stryjekVera").InRange(document.StryjekVera.Kappa1, "kappa1", -1, 1, "(dimensionless)"),
            StryjekVeraProvenance = Provenance(document.StryjekVera, "stryjekVera"),
            QuantumCubic = ReadQuantumCubic(root.Within("quantumCubic"), document.QuantumCubic, sources),
            Equations = EquationReader.Read(block, sources),
        };
        sources.RequireAllUsed();
        return substance;

        Provenance? Provenance(MarkedEntry? entry, string field) => entry is null ? null : sources.Provenance(root.Within(field), entry);
    }

    private static SubstanceIdentity ReadIdentity(FieldCheck root, SubstanceDocument document, SubstanceIdentityTable known)
    {
        SubstanceIdentity read = IdentityReader.Read(
            root, document.Cas, document.Name, document.Formula, document.Designation, document.Spellings);
        RequireFree(read.Name, "name");
        if (read.Designation is not null)
        {
            RequireFree(read.Designation, "designation");
        }

        for (int i = 0; i < read.Spellings.Count; i++)
        {
            RequireFree(read.Spellings[i], $"spellings[{i}]");
        }

        if (!known.TryFind(read.Key, out SubstanceIdentity? same))
        {
            return read;
        }

        if (read.Molecule is not null && same.Molecule is not null && !read.Molecule.HasSameAtoms(same.Molecule))
        {
            throw root.Broken("formula", $"'{read.Formula}' does not fit {same.Key}, which is {same.Name}, {same.Formula}");
        }

        return SubstanceIdentityTable.Merge(same, read);

        void RequireFree(string spelling, string field)
        {
            if (known.TryFind(spelling, out SubstanceIdentity? other) && !other.Equals(read))
            {
                throw root.Broken(field, $"'{spelling}' already names {other.Name} ({other.Key}), not {read.Key}");
            }
        }
    }

    private static double BelowCritical(FieldCheck at, double? value, double criticalTemperature)
    {
        double temperature = at.Positive(value, "temperature", "K");
        return temperature < criticalTemperature
            ? temperature
            : throw at.Broken("temperature", $"must be below the critical temperature of {criticalTemperature:G6} K, found {temperature:G6}");
    }

    /// <summary>
    /// Compares 101325 Pa with the three-parameter corresponding-states vapour pressure of Lee, Kesler, AIChE J. 21 (1975) 510 (from memory).
    /// Skipped for quantum gases, which it does not describe.
    /// </summary>
    private static void RequireConsistentBoiling(
        FieldCheck at, double boiling, double criticalTemperature, double criticalPressure, double acentricFactor, SubstanceIdentity identity)
    {
        if (identity.Molecule?.IsQuantumGas == true)
        {
            return;
        }

        double tr = boiling / criticalTemperature;
        double tr6 = Math.Pow(tr, 6);
        double simple = 5.92714 - (6.09648 / tr) - (1.28862 * Math.Log(tr)) + (0.169347 * tr6);
        double deviation = 15.2518 - (15.6875 / tr) - (13.4721 * Math.Log(tr)) + (0.43577 * tr6);
        double pressure = criticalPressure * Math.Exp(simple + (acentricFactor * deviation));
        double ratio = pressure / NormalPressure;
        if (ratio is < 1 / BoilingPressureFactor or > BoilingPressureFactor)
        {
            throw at.Broken(
                "temperature",
                $"does not fit the critical point and acentric factor: they give {pressure:G4} Pa at {boiling:G6} K instead of about 101325 Pa");
        }
    }

    private static IdealGasHeatCapacity ReadHeatCapacity(FieldCheck at, HeatCapacityEntry entry, SourceTable sources)
    {
        IReadOnlyList<HeatCapacityTermEntry?> entries = at.Required(entry.Terms, "terms");
        if (entries.Count == 0)
        {
            throw at.Broken("terms", "must hold at least one term");
        }

        ImmutableArray<HeatCapacityTerm>.Builder terms = ImmutableArray.CreateBuilder<HeatCapacityTerm>(entries.Count);
        for (int i = 0; i < entries.Count; i++)
        {
            terms.Add(ReadTerm(at.Within($"terms[{i}]"), entries[i] ?? throw at.Broken($"terms[{i}]", "must be an object, found null")));
        }

        double low = at.InRange(entry.LowestTemperature, "lowestTemperature", 0, 10000, "K");
        double high = at.InRange(entry.HighestTemperature, "highestTemperature", 0, 10000, "K");
        if (low >= high)
        {
            throw at.Broken("highestTemperature", $"must be above lowestTemperature ({low:G6} K), found {high:G6}");
        }

        IdealGasHeatCapacity heatCapacity = new(terms.MoveToImmutable(), low, high, sources.Provenance(at, entry));
        double start = Math.Max(low, 1);
        for (int i = 0; i <= HeatCapacityProbes; i++)
        {
            double temperature = start * Math.Pow(high / start, (double)i / HeatCapacityProbes);
            double value = heatCapacity.OverGasConstant(temperature);
            if (!(value >= LowestHeatCapacity && value < HighestHeatCapacity))
            {
                throw at.Broken("terms", $"give cp/R = {value:G6} at {temperature:G6} K; allowed is 2.5 to {HighestHeatCapacity}");
            }
        }

        return heatCapacity;
    }

    private static HeatCapacityTerm ReadTerm(FieldCheck at, HeatCapacityTermEntry entry)
    {
        switch (at.Required(entry.Kind, "kind"))
        {
            case "power":
                RequireAbsent(entry.Weight, "weight");
                RequireAbsent(entry.Temperature, "temperature");
                RequireAbsent(entry.DegeneracyRatio, "degeneracyRatio");
                return new PowerTerm(at.Number(entry.Coefficient, "coefficient"), at.InRange(entry.Exponent, "exponent", -10, 10, string.Empty));
            case "vibration":
                RequireAbsent(entry.Coefficient, "coefficient");
                RequireAbsent(entry.Exponent, "exponent");
                RequireAbsent(entry.DegeneracyRatio, "degeneracyRatio");
                return new VibrationTerm(at.Number(entry.Weight, "weight"), at.Positive(entry.Temperature, "temperature", "K"));
            case "twoLevel":
                RequireAbsent(entry.Coefficient, "coefficient");
                RequireAbsent(entry.Exponent, "exponent");
                return new TwoLevelTerm(
                    at.Number(entry.Weight, "weight"),
                    at.Positive(entry.Temperature, "temperature", "K"),
                    at.Positive(entry.DegeneracyRatio, "degeneracyRatio", string.Empty));
            default:
                throw at.Broken("kind", $"must be 'power', 'vibration' or 'twoLevel', found '{entry.Kind}'");
        }

        void RequireAbsent(double? value, string field)
        {
            if (value is not null)
            {
                throw at.Broken(field, $"does not belong to a term of kind '{entry.Kind}'");
            }
        }
    }

    private static VolumeTranslation? ReadVolumeTranslation(
        FieldCheck at, VolumeTranslationEntry? entry, SourceTable sources, double criticalTemperature, double criticalDensity)
    {
        if (entry is null)
        {
            return null;
        }

        // A shift is a fraction of the covolume, which is about a quarter of the critical volume.
        double most = 0.25 / criticalDensity;
        LiquidDensityEntry liquid = at.Required(entry.FittedTo, "fittedTo");
        FieldCheck atLiquid = at.Within("fittedTo");
        double density = atLiquid.Positive(liquid.MolarDensity, "molarDensity", "mol/m3");
        if (density <= criticalDensity)
        {
            throw atLiquid.Broken("molarDensity", $"must be above the critical molar density of {criticalDensity:G6} mol/m3, found {density:G6}");
        }

        return new VolumeTranslation(
            at.InRange(entry.PengRobinson, "pengRobinson", -most, most, "m3/mol"),
            at.InRange(entry.SoaveRedlichKwong, "soaveRedlichKwong", -most, most, "m3/mol"),
            BelowCritical(atLiquid, liquid.Temperature, criticalTemperature),
            density,
            sources.Provenance(atLiquid, liquid),
            sources.Provenance(at, entry));
    }

    private static QuantumCubicParameters? ReadQuantumCubic(FieldCheck at, QuantumCubicEntry? entry, SourceTable sources) =>
        entry is null
            ? null
            : new QuantumCubicParameters(
                at.Positive(entry.CovolumeNumerator, "covolumeNumerator", "K"),
                at.Positive(entry.CovolumeOffset, "covolumeOffset", "K"),
                at.Number(entry.AlphaL, "alphaL"),
                at.Number(entry.AlphaM, "alphaM"),
                at.Number(entry.AlphaN, "alphaN"),
                at.InRange(entry.CriticalTemperature, "criticalTemperature", 1, 2000, "K"),
                at.InRange(entry.CriticalPressure, "criticalPressure", 1e5, 1e8, "Pa"),
                sources.Provenance(at, entry));
}
