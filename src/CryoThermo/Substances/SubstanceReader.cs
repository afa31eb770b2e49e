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
        block.RequireOnly(
            "name",
            "cas",
            "formula",
            "designation",
            "spellings",
            "sources",
            "molarMass",
            "critical",
            "acentricFactor",
            "normalBoilingPoint",
            "sublimationPoint",
            "triplePoint",
            "idealGasHeatCapacity",
            "volumeTranslation",
            "stryjekVera",
            "quantumCorrection",
            "solid",
            "transport",
            "equations");
        SubstanceIdentity identity = ReadIdentity(block, known);
        SourceTable sources = new(block.Check, block.Labelled("sources", SourceEntry.From));

        JsonBlock molarMass = RequiredMarked("molarMass", "value");
        double mass = molarMass.InRange("value", 1e-3, 1, "kg/mol");
        if (identity.Molecule is { } molecule && Math.Abs((mass / molecule.MolarMass) - 1) > MolarMassTolerance)
        {
            throw molarMass.Check.Broken(
                "value", $"must agree within 0.2 % with the {molecule.MolarMass:G6} kg/mol of the formula {identity.Formula}, found {mass:G6}");
        }

        JsonBlock critical = RequiredMarked("critical", "temperature", "pressure", "molarDensity");
        double criticalTemperature = critical.InRange("temperature", 1, 2000, "K");
        double criticalPressure = critical.InRange("pressure", 1e5, 1e8, "Pa");
        double criticalDensity = critical.Positive("molarDensity", "mol/m3");
        double compressibility = criticalPressure / (criticalDensity * GasConstant * criticalTemperature);
        if (compressibility is < LowestCompressibility or > HighestCompressibility)
        {
            throw critical.Check.Broken(
                "molarDensity",
                $"gives a critical compressibility factor of {compressibility:G4}; allowed is {LowestCompressibility} to {HighestCompressibility}");
        }

        JsonBlock acentric = RequiredMarked("acentricFactor", "value");
        double acentricFactor = acentric.InRange("value", -0.6, 2, "(dimensionless)");

        double? triple = null;
        double? triplePressure = null;
        JsonBlock? triplePoint = Marked("triplePoint", "temperature", "pressure");
        if (triplePoint is not null)
        {
            triple = BelowCritical(triplePoint, criticalTemperature);
            triplePressure = triplePoint.Number("pressure") is null ? null : triplePoint.Positive("pressure", "Pa");
            if (triplePressure >= criticalPressure)
            {
                throw triplePoint.Check.Broken(
                    "pressure", $"must be below the critical pressure of {criticalPressure:G6} Pa, found {triplePressure:G6}");
            }
        }

        double? boiling = null;
        JsonBlock? boilingPoint = Marked("normalBoilingPoint", "temperature");
        if (boilingPoint is not null)
        {
            boiling = BelowCritical(boilingPoint, criticalTemperature);
            if (boiling < triple)
            {
                throw boilingPoint.Check.Broken("temperature", $"must not be below the triple temperature of {triple:G6} K, found {boiling:G6}");
            }

            RequireConsistentBoiling(boilingPoint.Check, boiling.Value, criticalTemperature, criticalPressure, acentricFactor, identity);
        }

        double? sublimation = null;
        JsonBlock? sublimationPoint = Marked("sublimationPoint", "temperature");
        if (sublimationPoint is not null)
        {
            sublimation = BelowCritical(sublimationPoint, criticalTemperature);
            if (sublimation > triple)
            {
                throw sublimationPoint.Check.Broken(
                    "temperature", $"must not be above the triple temperature of {triple:G6} K, found {sublimation:G6}");
            }
        }

        JsonBlock heatCapacity = RequiredMarked("idealGasHeatCapacity", "terms", "lowestTemperature", "highestTemperature");
        JsonBlock? translation = Marked("volumeTranslation", "pengRobinson", "soaveRedlichKwong", "fittedTo");
        JsonBlock? stryjekVera = Marked("stryjekVera", "kappa1");
        Substance substance = new(identity, file)
        {
            MolarMass = mass,
            MolarMassProvenance = sources.Provenance(molarMass),
            CriticalTemperature = criticalTemperature,
            CriticalPressure = criticalPressure,
            CriticalMolarDensity = criticalDensity,
            CriticalPointProvenance = sources.Provenance(critical),
            AcentricFactor = acentricFactor,
            AcentricFactorProvenance = sources.Provenance(acentric),
            NormalBoilingTemperature = boiling,
            NormalBoilingProvenance = Provenance(boilingPoint),
            SublimationTemperature = sublimation,
            SublimationProvenance = Provenance(sublimationPoint),
            TripleTemperature = triple,
            TriplePressure = triplePressure,
            TriplePointProvenance = Provenance(triplePoint),
            IdealGasHeatCapacity = ReadHeatCapacity(heatCapacity, sources),
            VolumeTranslation = translation is null ? null : ReadVolumeTranslation(translation, sources, criticalTemperature, criticalDensity),
            StryjekVeraKappa1 = stryjekVera?.InRange("kappa1", -1, 1, "(dimensionless)"),
            StryjekVeraProvenance = Provenance(stryjekVera),
            QuantumCorrection = block.Block("quantumCorrection", quantum => ReadQuantumCorrection(quantum, sources)),
            Solid = block.Block("solid", solid => SolidReader.Read(solid, sources, triple, criticalTemperature, 1 / criticalDensity)),
            Transport = block.Block("transport", transport => TransportReader.Read(transport, sources, criticalTemperature, criticalDensity)),
            Equations = EquationReader.Read(block, sources),
        };
        sources.RequireAllUsed();
        return substance;

        Provenance? Provenance(JsonBlock? marked) => marked is null ? null : sources.Provenance(marked);

        JsonBlock RequiredMarked(string field, params string[] own) => block.Check.Required(Marked(field, own), field);

        JsonBlock? Marked(string field, params string[] own)
        {
            JsonBlock? marked = block.OptionalBlock(field);
            marked?.RequireMarked(own);
            return marked;
        }
    }

    private static SubstanceIdentity ReadIdentity(JsonBlock block, SubstanceIdentityTable known)
    {
        SubstanceIdentity read = IdentityReader.Read(block);
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
            throw block.Check.Broken("formula", $"'{read.Formula}' does not fit {same.Key}, which is {same.Name}, {same.Formula}");
        }

        return SubstanceIdentityTable.Merge(same, read);

        void RequireFree(string spelling, string field)
        {
            if (known.TryFind(spelling, out SubstanceIdentity? other) && !other.Equals(read))
            {
                throw block.Check.Broken(field, $"'{spelling}' already names {other.Name} ({other.Key}), not {read.Key}");
            }
        }
    }

    private static double BelowCritical(JsonBlock block, double criticalTemperature)
    {
        double temperature = block.Positive("temperature", "K");
        return temperature < criticalTemperature
            ? temperature
            : throw block.Check.Broken(
                "temperature", $"must be below the critical temperature of {criticalTemperature:G6} K, found {temperature:G6}");
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

    private static IdealGasHeatCapacity ReadHeatCapacity(JsonBlock block, SourceTable sources)
    {
        IReadOnlyList<HeatCapacityTerm> terms = block.Check.Required(block.OptionalList("terms", ReadTerm), "terms");
        if (terms.Count == 0)
        {
            throw block.Check.Broken("terms", "must hold at least one term");
        }

        double low = block.InRange("lowestTemperature", 0, 10000, "K");
        double high = block.InRange("highestTemperature", 0, 10000, "K");
        if (low >= high)
        {
            throw block.Check.Broken("highestTemperature", $"must be above lowestTemperature ({low:G6} K), found {high:G6}");
        }

        IdealGasHeatCapacity heatCapacity = new(terms, low, high, sources.Provenance(block));
        double start = Math.Max(low, 1);
        for (int i = 0; i <= HeatCapacityProbes; i++)
        {
            double temperature = start * Math.Pow(high / start, (double)i / HeatCapacityProbes);
            double value = heatCapacity.OverGasConstant(temperature);
            if (!(value >= LowestHeatCapacity && value < HighestHeatCapacity))
            {
                throw block.Check.Broken("terms", $"give cp/R = {value:G6} at {temperature:G6} K; allowed is 2.5 to {HighestHeatCapacity}");
            }
        }

        return heatCapacity;
    }

    private static HeatCapacityTerm ReadTerm(JsonBlock block)
    {
        block.RequireOnly("kind", "coefficient", "exponent", "weight", "temperature", "degeneracyRatio");
        string kind = block.Check.Required(block.Text("kind"), "kind");
        switch (kind)
        {
            case "power":
                RequireAbsent("weight");
                RequireAbsent("temperature");
                RequireAbsent("degeneracyRatio");
                return new PowerTerm(block.RequiredNumber("coefficient"), block.InRange("exponent", -10, 10, string.Empty));
            case "vibration":
                RequireAbsent("coefficient");
                RequireAbsent("exponent");
                RequireAbsent("degeneracyRatio");
                return new VibrationTerm(block.RequiredNumber("weight"), block.Positive("temperature", "K"));
            case "twoLevel":
                RequireAbsent("coefficient");
                RequireAbsent("exponent");
                return new TwoLevelTerm(
                    block.RequiredNumber("weight"), block.Positive("temperature", "K"), block.Positive("degeneracyRatio", string.Empty));
            default:
                throw block.Check.Broken("kind", $"must be 'power', 'vibration' or 'twoLevel', found '{kind}'");
        }

        void RequireAbsent(string field)
        {
            if (block.Number(field) is not null)
            {
                throw block.Check.Broken(field, $"does not belong to a term of kind '{kind}'");
            }
        }
    }

    private static VolumeTranslation ReadVolumeTranslation(
        JsonBlock block, SourceTable sources, double criticalTemperature, double criticalDensity)
    {
        // A shift is a fraction of the covolume, which is about a quarter of the critical volume.
        double most = 0.25 / criticalDensity;
        JsonBlock liquid = block.RequiredBlock("fittedTo");
        liquid.RequireMarked("temperature", "molarDensity");
        double density = liquid.Positive("molarDensity", "mol/m3");
        if (density <= criticalDensity)
        {
            throw liquid.Check.Broken("molarDensity", $"must be above the critical molar density of {criticalDensity:G6} mol/m3, found {density:G6}");
        }

        return new VolumeTranslation(
            block.InRange("pengRobinson", -most, most, "m3/mol"),
            block.InRange("soaveRedlichKwong", -most, most, "m3/mol"),
            BelowCritical(liquid, criticalTemperature),
            density,
            sources.Provenance(liquid),
            sources.Provenance(block));
    }

    private static QuantumCorrectionParameters ReadQuantumCorrection(JsonBlock block, SourceTable sources)
    {
        block.RequireMarked(
            "covolumeNumerator", "covolumeOffset", "alphaL", "alphaM", "alphaN", "criticalTemperature", "criticalPressure");
        return new QuantumCorrectionParameters(
            block.Positive("covolumeNumerator", "K"),
            block.Positive("covolumeOffset", "K"),
            block.RequiredNumber("alphaL"),
            block.RequiredNumber("alphaM"),
            block.RequiredNumber("alphaN"),
            block.InRange("criticalTemperature", 1, 2000, "K"),
            block.InRange("criticalPressure", 1e5, 1e8, "Pa"),
            sources.Provenance(block));
    }
}
