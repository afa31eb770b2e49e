using System.Collections.ObjectModel;

namespace CryoThermo.Substances;

/// <summary>Reads the Helmholtz equations of a substance file.</summary>
internal static class EquationReader
{
    public static ReadOnlyCollection<HelmholtzEquation> Read(JsonBlock root, SourceTable sources) =>
        root.List("equations", block => ReadEquation(block, sources, isOfMixtureStandard: false));

    /// <summary>Reads one equation.</summary>
    /// <param name="block">Its block.</param>
    /// <param name="sources">Sources of the file.</param>
    /// <param name="isOfMixtureStandard">Whether it stands in the file of a mixture standard, and must say so.</param>
    public static HelmholtzEquation ReadEquation(JsonBlock block, SourceTable sources, bool isOfMixtureStandard)
    {
        block.RequireOnly(
            "standard",
            "source",
            "gasConstant",
            "molarMass",
            "pseudoPure",
            "reducing",
            "criticalPoint",
            "triplePoint",
            "range",
            "uncertainty",
            "remarks",
            "idealGas",
            "densityTerms",
            "bellTerms",
            "criticalTerms",
            "saturationCurves",
            "spinOffsets");
        EquationStandard standard = (block.RequiredText("standard"), isOfMixtureStandard) switch
        {
            ("reference", false) => EquationStandard.Reference,
            ("technical", false) => EquationStandard.Technical,
            ("mixture standard", true) => EquationStandard.MixtureStandard,
            (string other, true) => throw block.Check.Broken("standard", $"must be 'mixture standard', found '{other}'"),
            (string other, _) => throw block.Check.Broken("standard", $"must be 'reference' or 'technical', found '{other}'"),
        };
        Provenance provenance = new(sources.Find(block.Check, block.Text("source")));
        double gasConstant = block.Positive("gasConstant", "J/(mol K)");
        JsonBlock reducing = block.RequiredBlock("reducing");
        reducing.RequireOnly("temperature", "molarDensity");
        double reducingTemperature = reducing.Positive("temperature", "K");
        double reducingDensity = reducing.Positive("molarDensity", "mol/m3");
        EquationRange range = ReadRange(block.RequiredBlock("range"));
        bool isPseudoPure = block.Flag("pseudoPure") ?? false;
        JsonBlock? curves = block.OptionalBlock("saturationCurves");
        curves?.RequireOnly("vaporPressure", "bubblePressure", "dewPressure", "liquidDensity", "vaporDensity", "melting", "sublimation");
        SaturationCurve? vaporPressure = Curve("vaporPressure");
        SaturationCurve? bubblePressure = Curve("bubblePressure");
        SaturationCurve? dewPressure = Curve("dewPressure");
        if (isPseudoPure && vaporPressure is not null)
        {
            throw curves!.Check.Broken("vaporPressure", "does not belong to a pseudo-pure fluid; give bubblePressure and dewPressure");
        }

        if (!isPseudoPure && (bubblePressure ?? dewPressure) is not null)
        {
            throw curves!.Check.Broken(
                bubblePressure is null ? "dewPressure" : "bubblePressure", "belongs to a pseudo-pure fluid only; give vaporPressure");
        }

        JsonBlock? triple = block.OptionalBlock("triplePoint");
        triple?.RequireOnly("temperature", "pressure");
        JsonBlock? spin = block.OptionalBlock("spinOffsets");
        if (spin is not null)
        {
            spin.RequireOnly("enthalpy", "entropy", "source");
            sources.Find(spin.Check, spin.Text("source"));
        }

        JsonBlock idealGas = block.RequiredBlock("idealGas");
        Provenance idealGasProvenance = new(
            idealGas.Text("source") is null ? provenance.Source : sources.Find(idealGas.Check, idealGas.Text("source")),
            null,
            idealGas.OptionalText("note"));
        return new HelmholtzEquation
        {
            Standard = standard,
            Provenance = provenance,
            GasConstant = gasConstant,
            MolarMass = block.Positive("molarMass", "kg/mol"),
            ReducingTemperature = reducingTemperature,
            ReducingMolarDensity = reducingDensity,
            CriticalPoint = ReadPoint(block.RequiredBlock("criticalPoint")),
            TripleTemperature = triple?.Positive("temperature", "K"),
            TriplePressure = triple?.Number("pressure") is null ? null : triple.Positive("pressure", "Pa"),
            Range = range,
            Uncertainty = ReadUncertainty(block.RequiredBlock("uncertainty")),
            IdealGas = IdealGasFormReader.Read(idealGas, gasConstant, reducingTemperature, reducingDensity, range, idealGasProvenance),
            DensityTerms = block.List("densityTerms", ReadDensityTerm),
            BellTerms = block.List("bellTerms", ReadBellTerm),
            CriticalTerms = block.List("criticalTerms", ReadCriticalTerm),
            IsPseudoPure = isPseudoPure,
            VaporPressure = isPseudoPure ? bubblePressure : vaporPressure,
            DewPressure = dewPressure,
            SaturatedLiquidDensity = Curve("liquidDensity"),
            SaturatedVaporDensity = Curve("vaporDensity"),
            MeltingPressure = Curve("melting"),
            SublimationPressure = Curve("sublimation"),
            SpinEnthalpyOffset = spin?.RequiredNumber("enthalpy") ?? 0,
            SpinEntropyOffset = spin?.RequiredNumber("entropy") ?? 0,
            Remarks = block.RequiredTexts("remarks"),
        };

        SaturationCurve? Curve(string field) => curves?.Block(field, curve => ReadCurve(curve, sources));
    }

    private static EquationRange ReadRange(JsonBlock block)
    {
        block.RequireOnly("lowestTemperature", "highestTemperature", "highestPressure", "highestMolarDensity", "note");
        return new EquationRange(
            block.Positive("lowestTemperature", "K"),
            block.Positive("highestTemperature", "K"),
            block.Positive("highestPressure", "Pa"),
            block.Positive("highestMolarDensity", "mol/m3"),
            block.OptionalText("note"));
    }

    private static FluidPoint ReadPoint(JsonBlock block)
    {
        block.RequireOnly("temperature", "pressure", "molarDensity");
        return new FluidPoint(block.Positive("temperature", "K"), block.Positive("pressure", "Pa"), block.Positive("molarDensity", "mol/m3"));
    }

    private static PropertyUncertainty ReadUncertainty(JsonBlock block)
    {
        block.RequireOnly("density", "vaporPressure", "saturatedDensity", "heatCapacity", "speedOfSound", "remark");
        return new PropertyUncertainty(
            block.OptionalText("density"),
            block.OptionalText("vaporPressure"),
            block.OptionalText("saturatedDensity"),
            block.OptionalText("heatCapacity"),
            block.OptionalText("speedOfSound"),
            block.OptionalText("remark"));
    }

    public static DensityTerm ReadDensityTerm(JsonBlock block)
    {
        block.RequireOnly("coefficient", "temperatureExponent", "densityExponent", "decayExponent");
        double decay = block.InRange("decayExponent", 0, 7, string.Empty);
        if (decay != Math.Floor(decay))
        {
            throw block.Check.Broken("decayExponent", $"must be a whole number from 0 to 7, found {decay:G6}");
        }

        return new DensityTerm(
            block.RequiredNumber("coefficient"),
            block.RequiredNumber("temperatureExponent"),
            block.RequiredNumber("densityExponent"),
            (int)decay);
    }

    private static BellTerm ReadBellTerm(JsonBlock block)
    {
        block.RequireOnly(
            "coefficient",
            "temperatureExponent",
            "densityExponent",
            "densitySharpness",
            "densityCenter",
            "temperatureSharpness",
            "temperatureCenter");
        return new BellTerm(
            block.RequiredNumber("coefficient"),
            block.RequiredNumber("temperatureExponent"),
            block.RequiredNumber("densityExponent"),
            block.RequiredNumber("densitySharpness"),
            block.RequiredNumber("densityCenter"),
            block.RequiredNumber("temperatureSharpness"),
            block.RequiredNumber("temperatureCenter"));
    }

    private static CriticalTerm ReadCriticalTerm(JsonBlock block)
    {
        block.RequireOnly(
            "coefficient",
            "distanceExponent",
            "exponent",
            "curveExponent",
            "curveWeight",
            "distanceWeight",
            "densitySharpness",
            "temperatureSharpness");
        return new CriticalTerm(
            block.RequiredNumber("coefficient"),
            block.RequiredNumber("distanceExponent"),
            block.RequiredNumber("exponent"),
            block.RequiredNumber("curveExponent"),
            block.RequiredNumber("curveWeight"),
            block.RequiredNumber("distanceWeight"),
            block.RequiredNumber("densitySharpness"),
            block.RequiredNumber("temperatureSharpness"));
    }

    internal static SaturationCurve ReadCurve(JsonBlock block, SourceTable sources)
    {
        block.RequireOnly(
            "form",
            "reducingTemperature",
            "reducingValue",
            "logarithmicCoefficient",
            "lowestTemperature",
            "highestTemperature",
            "source",
            "uncertainty",
            "note",
            "terms",
            "shiftedTerms");
        CurveForm form = block.RequiredText("form") switch
        {
            "logarithmTimesTemperature" => CurveForm.LogarithmTimesTemperature,
            "logarithm" => CurveForm.Logarithm,
            "ratio" => CurveForm.Ratio,
            "melting" => CurveForm.Melting,
            "inverseTemperature" => CurveForm.InverseTemperature,
            string other => throw block.Check.Broken(
                "form", $"must be 'logarithmTimesTemperature', 'logarithm', 'ratio', 'melting' or 'inverseTemperature', found '{other}'"),
        };
        ReadOnlyCollection<CurveTerm> shifted = block.List("shiftedTerms", ReadCurveTerm);
        if (shifted.Count > 0 && form != CurveForm.Melting)
        {
            throw block.Check.Broken("shiftedTerms", "belongs to a curve of form 'melting' only");
        }

        double? logarithmic = block.Number("logarithmicCoefficient");
        if (logarithmic is not null && form != CurveForm.Ratio)
        {
            throw block.Check.Broken("logarithmicCoefficient", "belongs to a curve of form 'ratio' only");
        }

        return new SaturationCurve(
            form,
            block.Positive("reducingTemperature", "K"),
            block.Positive("reducingValue", string.Empty),
            block.List("terms", ReadCurveTerm),
            shifted,
            logarithmic ?? 0,
            block.Positive("lowestTemperature", "K"),
            block.Positive("highestTemperature", "K"),
            new Provenance(sources.Find(block.Check, block.Text("source")), block.OptionalText("uncertainty"), block.OptionalText("note")));
    }

    private static CurveTerm ReadCurveTerm(JsonBlock block)
    {
        block.RequireOnly("coefficient", "exponent");
        return new CurveTerm(block.RequiredNumber("coefficient"), block.RequiredNumber("exponent"));
    }
}
