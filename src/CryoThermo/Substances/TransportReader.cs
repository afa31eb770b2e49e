using System.Collections.ObjectModel;

namespace CryoThermo.Substances;

/// <summary>Reads the transport block of a substance file and holds its rules.</summary>
internal static class TransportReader
{
    // Bounds that catch slips and wrong units; common practice, no source.
    private const double MostUncertain = 100;
    private const double CriticalTolerance = 0.2;
    private const double LowestViscosity = 1e-7;
    private const double HighestDiluteViscosity = 1e-3;
    private const double LowestConductivity = 1e-4;
    private const double HighestDiluteConductivity = 10;
    private const double DenseProbe = 2;
    private const double HighestDenseFactor = 1000;
    private const int Probes = 20;

    /// <summary>Reads the block; the critical point is that of the substance, for comparison.</summary>
    public static TransportData Read(JsonBlock block, SourceTable sources, double criticalTemperature, double criticalDensity)
    {
        block.RequireOnly("viscosity", "conductivity", "correspondingStates", "surfaceTension", "parachor");
        Property viscosity = ReadProperty("viscosity");
        Property conductivity = ReadProperty("conductivity");
        if (conductivity.DiluteFunction is not null && viscosity.DiluteFunction is null)
        {
            throw block.Check.Broken("viscosity", "is missing: the conductivity of the dilute gas is given without the viscosity of the dilute gas");
        }

        RequireSensible(block.Check, "viscosity", viscosity, LowestViscosity, HighestDiluteViscosity, "Pa s", criticalTemperature, criticalDensity);
        RequireSensible(block.Check, "conductivity", conductivity, LowestConductivity, HighestDiluteConductivity, "W/(m K)", criticalTemperature, criticalDensity);
        JsonBlock? parachor = block.OptionalBlock("parachor");
        parachor?.RequireMarked("value");
        return new TransportData
        {
            DiluteViscosity = viscosity.Dilute,
            DiluteViscosityFunction = viscosity.DiluteFunction,
            DenseViscosity = viscosity.Dense,
            DenseViscosityFunction = viscosity.DenseFunction,
            DiluteConductivity = conductivity.Dilute,
            DiluteConductivityFunction = conductivity.DiluteFunction,
            DenseConductivity = conductivity.Dense,
            DenseConductivityFunction = conductivity.DenseFunction,
            CriticalEnhancement = conductivity.Enhancement,
            CorrespondingStates = block.Block("correspondingStates", b => ReadCorrespondingStates(b, sources, criticalTemperature, criticalDensity)),
            SurfaceTension = block.Block("surfaceTension", b => ReadSurfaceTension(b, sources, criticalTemperature)),
            Parachor = parachor?.InRange("value", 1, 2000, "(mN/m)^(1/4) cm3/mol"),
            ParachorProvenance = parachor is null ? null : sources.Provenance(parachor),
        };

        Property ReadProperty(string field)
        {
            if (block.OptionalBlock(field) is not { } property)
            {
                return default;
            }

            property.RequireOnly("diluteGas", "dense", "criticalEnhancement");
            JsonBlock dilute = property.RequiredBlock("diluteGas");
            JsonBlock? dense = property.OptionalBlock("dense");
            if (field == "viscosity" && property.Holds("criticalEnhancement"))
            {
                throw property.Check.Broken("criticalEnhancement", "belongs to the conductivity");
            }

            return new(
                ReadMarks(dilute, sources),
                ReadDilute(dilute),
                dense is null ? null : ReadMarks(dense, sources),
                dense is null ? null : ReadDense(dense),
                property.Block("criticalEnhancement", b => ReadEnhancement(b, sources, criticalTemperature)));
        }
    }

    private static TransportCorrelation ReadMarks(JsonBlock block, SourceTable sources)
    {
        double low = block.Positive("lowestTemperature", "K");
        double high = block.InRange("highestTemperature", low, 10000, "K");
        return new(
            low,
            high,
            block.Number("highestPressure") is null ? null : block.Positive("highestPressure", "Pa"),
            Percent(block),
            sources.Provenance(block));
    }

    private static double Percent(JsonBlock block) => block.InRange("uncertaintyPercent", 0, MostUncertain, "percent");

    private static DiluteFunction ReadDilute(JsonBlock block)
    {
        string form = block.RequiredText("form");
        switch (form)
        {
            case "powers":
                Require("scale", "reducingTemperature", "terms", "denominatorTerms");
                return new DiluteFunction.Powers(block.Positive("scale", string.Empty), Reducing(), Terms(block, "terms"), OptionalTerms(block, "denominatorTerms"));
            case "kinetic":
                Require("scale", "energyTemperature", "collisionTerms");
                return new DiluteFunction.Kinetic(block.Positive("scale", string.Empty), block.Positive("energyTemperature", "K"), Logarithms(block, "collisionTerms"));
            case "exponential":
                Require("scale", "exponent", "terms", "colder");
                DiluteFunction warm = new DiluteFunction.Exponential(block.Positive("scale", string.Empty), block.RequiredNumber("exponent"), Terms(block, "terms"));
                if (block.OptionalBlock("colder") is not { } colder)
                {
                    return warm;
                }

                colder.RequireOnly("scale", "energyTemperature", "collisionTerms", "until", "from");
                double until = colder.Positive("until", "K");
                return new DiluteFunction.Joined(
                    new DiluteFunction.Kinetic(colder.Positive("scale", string.Empty), colder.Positive("energyTemperature", "K"), Logarithms(colder, "collisionTerms")),
                    warm,
                    until,
                    colder.InRange("from", until + 1, 10000, "K"));
            case "fromViscosity":
                Require("scale", "translation", "internalConstant", "internalSlope", "energyTemperature", "reducingTemperature", "terms");
                CurveTerm[] powers = OptionalTerms(block, "terms");
                return new DiluteFunction.FromViscosity(
                    block.Positive("scale", string.Empty),
                    block.Positive("translation", string.Empty),
                    block.Number("internalConstant") is null ? 0 : block.RequiredNumber("internalConstant"),
                    block.Number("internalSlope") is null ? 0 : block.RequiredNumber("internalSlope"),
                    block.Number("internalSlope") is null ? 1 : block.Positive("energyTemperature", "K"),
                    powers.Length == 0 ? 1 : Reducing(),
                    powers);
            default:
                throw block.Check.Broken("form", $"must be 'powers', 'kinetic', 'exponential' or 'fromViscosity', found '{form}'");
        }

        void Require(params string[] fields) => RequireFields(block, fields);

        double Reducing() => block.Positive("reducingTemperature", "K");
    }

    private static DenseFunction ReadDense(JsonBlock block)
    {
        string form = block.RequiredText("form");
        switch (form)
        {
            case "powers":
                Require("scale", "reducing", "terms", "denominatorTerms");
                return ReadPowers();
            case "freeVolume":
                Require("scale", "reducing", "terms", "initialDensity", "freeVolumeCoefficient", "closePackedDensity", "closePackedSlope");
                return new DenseFunction.FreeVolume(
                    ReadPowers(),
                    ReadInitial(),
                    block.Positive("freeVolumeCoefficient", string.Empty),
                    block.Positive("closePackedDensity", string.Empty),
                    block.Positive("closePackedSlope", string.Empty));
            case "symbolicFit":
                Require("scale", "reducing", "coefficients", "initialDensity");
                return ReadSymbolicFit();
            case "massDensityExponential":
                Require("scale", "molarMass", "criticalMassDensity", "coefficients");
                return new DenseFunction.MassDensityExponential(
                    block.Positive("scale", string.Empty),
                    block.InRange("molarMass", 1e-3, 1, "kg/mol"),
                    block.InRange("criticalMassDensity", 0.01, 2, "g/cm3"),
                    block.RequiredNumbers("coefficients", 7));
            case "gasAndLiquid":
                Require(
                    "scale",
                    "exponent",
                    "coefficient",
                    "activationTemperature",
                    "limitingMolarDensity",
                    "maximum",
                    "reducing",
                    "temperatureWidth",
                    "densityWidth");
                return ReadGasAndLiquid();
            case "logarithmicExponential":
                Require("scale", "energyTemperature", "collisionTerms", "molarMass", "highestLogarithmTemperature", "terms");
                return new DenseFunction.LogarithmicExponential(
                    new DiluteFunction.Kinetic(
                        block.Positive("scale", string.Empty), block.Positive("energyTemperature", "K"), Logarithms(block, "collisionTerms")),
                    block.InRange("molarMass", 1e-3, 1, "kg/mol"),
                    block.InRange("highestLogarithmTemperature", 2, 10000, "K"),
                    ReadTerms("terms", logarithmic: true));
            default:
                throw block.Check.Broken(
                    "form",
                    $"must be 'powers', 'freeVolume', 'symbolicFit', 'massDensityExponential', 'gasAndLiquid' or 'logarithmicExponential', found '{form}'");
        }

        void Require(params string[] fields) => RequireFields(block, [.. fields, "highestPressure"]);

        DenseFunction.Powers ReadPowers()
        {
            (double temperature, double density) = ReadReducing();
            TransportTerm[] denominator = block.Holds("denominatorTerms") ? ReadTerms("denominatorTerms", logarithmic: false) : [];
            if (!Array.TrueForAll(denominator, t => t.DensityExponent == 1 && t.DecayExponent == 0 && !t.IsLogarithmic))
            {
                throw block.Check.Broken("denominatorTerms", "must be straight in density (densityExponent 1, nothing else), so that it is known where they divide by zero");
            }

            return new(block.Positive("scale", string.Empty), temperature, density, ReadTerms("terms", logarithmic: false), denominator);
        }

        DenseFunction.SymbolicFit ReadSymbolicFit()
        {
            (double temperature, double density) = ReadReducing();
            double[] c = block.RequiredNumbers("coefficients", 6);
            c[0] *= block.Positive("scale", string.Empty);
            return new(temperature, density, c, ReadInitial());
        }

        DenseFunction.GasAndLiquid ReadGasAndLiquid()
        {
            double scale = block.Positive("scale", string.Empty);
            (double temperature, double density) = ReadReducing();
            return new(new(
                block.Positive("exponent", string.Empty),
                scale * block.Positive("coefficient", string.Empty),
                block.Positive("activationTemperature", "K"),
                block.Positive("limitingMolarDensity", "mol/m3"),
                scale * block.Positive("maximum", string.Empty),
                temperature,
                density,
                block.Positive("temperatureWidth", "K"),
                block.Positive("densityWidth", "mol/m3")));
        }

        (double Temperature, double MolarDensity) ReadReducing()
        {
            JsonBlock reducing = block.RequiredBlock("reducing");
            reducing.RequireOnly("temperature", "molarDensity");
            return (reducing.Positive("temperature", "K"), reducing.Positive("molarDensity", "mol/m3"));
        }

        DenseFunction.InitialDensity ReadInitial()
        {
            JsonBlock initial = block.RequiredBlock("initialDensity");
            initial.RequireOnly("molarVolume", "energyTemperature", "terms");
            return new(initial.Positive("molarVolume", "m3/mol"), initial.Positive("energyTemperature", "K"), Terms(initial, "terms"));
        }

        TransportTerm[] ReadTerms(string field, bool logarithmic)
        {
            string exponent = logarithmic ? "logarithmExponent" : "temperatureExponent";
            return [.. Filled(block, field, block.OptionalList(field, ReadTerm))];

            TransportTerm ReadTerm(JsonBlock term)
            {
                term.RequireOnly("coefficient", exponent, "densityExponent", "decayExponent", "timesLogarithm");
                double decay = term.Number("decayExponent") is null ? 0 : term.InRange("decayExponent", 0, 7, string.Empty);
                if (decay != Math.Floor(decay))
                {
                    throw term.Check.Broken("decayExponent", $"must be a whole number, found {decay:G6}");
                }

                return new(
                    term.RequiredNumber("coefficient"),
                    term.InRange(exponent, -20, 20, string.Empty),
                    term.InRange("densityExponent", 0.1, 20, string.Empty),
                    (int)decay,
                    term.Flag("timesLogarithm") ?? false);
            }
        }
    }

    private static CriticalEnhancement ReadEnhancement(JsonBlock block, SourceTable sources, double criticalTemperature)
    {
        block.RequireMarked(
            "amplitude",
            "correlationLength",
            "susceptibilityAmplitude",
            "cutoffLength",
            "referenceTemperature",
            "susceptibilityExponent",
            "criticalPressure",
            "criticalMolarDensity");
        return new(
            block.InRange("amplitude", 0.5, 2, string.Empty),
            block.InRange("correlationLength", 1e-11, 1e-9, "m"),
            block.InRange("susceptibilityAmplitude", 0.01, 0.2, string.Empty),
            block.InRange("cutoffLength", 1e-11, 1e-8, "m"),
            block.InRange("referenceTemperature", criticalTemperature, 4 * criticalTemperature, "K"),
            block.InRange("susceptibilityExponent", 1, 1.5, string.Empty),
            block.InRange("criticalPressure", 1e5, 1e8, "Pa"),
            block.Positive("criticalMolarDensity", "mol/m3"),
            sources.Provenance(block));
    }

    private static CorrespondingStatesCoefficients ReadCorrespondingStates(
        JsonBlock block, SourceTable sources, double criticalTemperature, double criticalDensity)
    {
        block.RequireMarked("criticalTemperature", "criticalMolarVolume", "molarMass", "viscosity", "conductivity");
        double temperature = block.InRange(
            "criticalTemperature", (1 - CriticalTolerance) * criticalTemperature, (1 + CriticalTolerance) * criticalTemperature, "K");
        double volume = block.InRange("criticalMolarVolume", (1 - CriticalTolerance) / criticalDensity, (1 + CriticalTolerance) / criticalDensity, "m3/mol");
        double mass = block.InRange("molarMass", 1e-3, 1, "kg/mol");
        (double viscosity, double viscositySlope, double viscosityPercent) = Pair("viscosity");
        (double conductivity, double conductivitySlope, double conductivityPercent) = Pair("conductivity");
        return new(
            temperature,
            volume,
            mass,
            viscosity,
            viscositySlope,
            viscosityPercent,
            conductivity,
            conductivitySlope,
            conductivityPercent,
            sources.Provenance(block));

        (double Constant, double Slope, double Percent) Pair(string field)
        {
            JsonBlock pair = block.RequiredBlock(field);
            pair.RequireOnly("constant", "slope", "uncertaintyPercent");
            double constant = pair.InRange("constant", 0.1, 3, string.Empty);

            // The volume ratio must stay positive up to the density where it is held.
            return (constant, pair.InRange("slope", -0.95 * constant / 3.4, 1, string.Empty), Percent(pair));
        }
    }

    private static SurfaceTensionCurve ReadSurfaceTension(JsonBlock block, SourceTable sources, double criticalTemperature)
    {
        block.RequireMarked("reducingTemperature", "terms", "uncertaintyPercent");
        SurfaceTensionCurve curve = new(
            block.InRange("reducingTemperature", 0.98 * criticalTemperature, 1.02 * criticalTemperature, "K"),
            Array.AsReadOnly(Terms(block, "terms")),
            Percent(block),
            sources.Provenance(block));
        double previous = double.PositiveInfinity;
        for (int i = 10; i < Probes; i++)
        {
            double temperature = curve.ReducingTemperature * i / Probes;
            double tension = curve.At(temperature);
            if (!(tension > 0 && tension < Math.Min(previous, 1)))
            {
                throw block.Check.Broken("terms", $"must give a positive surface tension below 1 N/m that falls with temperature; {tension:G4} N/m at {temperature:G6} K");
            }

            previous = tension;
        }

        return curve;
    }

    /// <summary>Positive and of the right size over the range, the dense part from the critical temperature up.</summary>
    private static void RequireSensible(
        FieldCheck check, string field, in Property property, double low, double high, string unit, double criticalTemperature, double criticalDensity)
    {
        if (property is not { Dilute: { } dilute, DiluteFunction: { } function })
        {
            return;
        }

        // A conductivity may rest on the viscosity; a typical gas stands in for it, since only sign and size are looked at.
        const double TypicalViscosity = 1e-5;
        const double TypicalHeatCapacity = 4;
        for (int i = 0; i <= Probes; i++)
        {
            double temperature = dilute.LowestTemperature + ((dilute.HighestTemperature - dilute.LowestTemperature) * i / Probes);
            double gas = function.At(temperature, TypicalViscosity, TypicalHeatCapacity);
            if (!(gas >= low && gas <= high))
            {
                throw check.Broken($"{field}.diluteGas", $"gives {gas:G4} {unit} at {temperature:G6} K; allowed is {low:G4} to {high:G4}");
            }

            if (property is { DenseFunction: { } dense, Dense: { } range } && temperature >= criticalTemperature && temperature <= range.HighestTemperature)
            {
                double value = dense.At(temperature, DenseProbe * criticalDensity, gas);
                if (!(value > 0 && value < HighestDenseFactor * gas))
                {
                    throw check.Broken(
                        $"{field}.dense", $"gives {value:G4} {unit} at {temperature:G6} K and {DenseProbe} times the critical density; the dilute gas has {gas:G4}");
                }
            }
        }
    }

    private static void RequireFields(JsonBlock block, string[] own) =>
        block.RequireMarked([.. own, "form", "lowestTemperature", "highestTemperature", "uncertaintyPercent"]);

    private static CurveTerm[] Terms(JsonBlock block, string field) =>
        [.. Filled(block, field, block.OptionalList(field, t => ReadTerm(t, -20, 20)))];

    private static CurveTerm[] OptionalTerms(JsonBlock block, string field) => block.Holds(field) ? Terms(block, field) : [];

    /// <summary>Terms in powers of a logarithm, which are whole numbers.</summary>
    private static CurveTerm[] Logarithms(JsonBlock block, string field)
    {
        if (!block.Holds(field))
        {
            return [];
        }

        CurveTerm[] terms = Terms(block, field);
        for (int i = 0; i < terms.Length; i++)
        {
            if (terms[i].Exponent != Math.Floor(terms[i].Exponent))
            {
                throw block.Check.Broken($"{field}[{i}].exponent", $"must be a whole number, found {terms[i].Exponent:G6}");
            }
        }

        return terms;
    }

    private static CurveTerm ReadTerm(JsonBlock term, double low, double high)
    {
        term.RequireOnly("coefficient", "exponent");
        return new(term.RequiredNumber("coefficient"), term.InRange("exponent", low, high, string.Empty));
    }

    private static ReadOnlyCollection<T> Filled<T>(JsonBlock block, string field, ReadOnlyCollection<T>? terms) =>
        block.Check.Required(terms, field) is { Count: > 0 } filled ? filled : throw block.Check.Broken(field, "must hold at least one term");

    private readonly record struct Property(
        TransportCorrelation? Dilute,
        DiluteFunction? DiluteFunction,
        TransportCorrelation? Dense,
        DenseFunction? DenseFunction,
        CriticalEnhancement? Enhancement);
}
