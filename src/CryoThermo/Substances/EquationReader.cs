using System.Collections.Immutable;

namespace CryoThermo.Substances;

/// <summary>Reads the Helmholtz equations of a substance file.</summary>
internal static class EquationReader
{
    public static ImmutableArray<HelmholtzEquation> Read(FieldCheck root, IReadOnlyList<EquationEntry?>? entries, SourceTable sources)
    {
        if (entries is null)
        {
            return [];
        }

        ImmutableArray<HelmholtzEquation>.Builder equations = ImmutableArray.CreateBuilder<HelmholtzEquation>(entries.Count);
        for (int i = 0; i < entries.Count; i++)
        {
            string place = $"equations[{i}]";
            equations.Add(ReadEquation(root.Within(place), root.Required(entries[i], place), sources));
        }

        return equations.MoveToImmutable();
    }

    private static HelmholtzEquation ReadEquation(FieldCheck at, EquationEntry entry, SourceTable sources)
    {
        EquationStandard standard = at.Required(entry.Standard, "standard") switch
        {
            "reference" => EquationStandard.Reference,
            "technical" => EquationStandard.Technical,
            _ => throw at.Broken("standard", $"must be 'reference' or 'technical', found '{entry.Standard}'"),
        };
        Provenance provenance = new(sources.Find(at, entry.Source));
        double gasConstant = at.Positive(entry.GasConstant, "gasConstant", "J/(mol K)");
        ReducingEntry reducing = at.Required(entry.Reducing, "reducing");
        double reducingTemperature = at.Within("reducing").Positive(reducing.Temperature, "temperature", "K");
        double reducingDensity = at.Within("reducing").Positive(reducing.MolarDensity, "molarDensity", "mol/m3");
        EquationRange range = ReadRange(at.Within("range"), at.Required(entry.Range, "range"));
        SaturationCurvesEntry curves = entry.SaturationCurves ?? new SaturationCurvesEntry();
        FieldCheck atCurves = at.Within("saturationCurves");
        bool isPseudoPure = entry.PseudoPure ?? false;
        if (isPseudoPure && curves.VaporPressure is not null)
        {
            throw atCurves.Broken("vaporPressure", "does not belong to a pseudo-pure fluid; give bubblePressure and dewPressure");
        }

        if (!isPseudoPure && (curves.BubblePressure ?? curves.DewPressure) is not null)
        {
            throw atCurves.Broken(
                curves.BubblePressure is null ? "dewPressure" : "bubblePressure", "belongs to a pseudo-pure fluid only; give vaporPressure");
        }

        IdealGasEntry idealGas = at.Required(entry.IdealGas, "idealGas");
        FieldCheck atIdealGas = at.Within("idealGas");
        Provenance idealGasProvenance = new(
            idealGas.Source is null ? provenance.Source : sources.Find(atIdealGas, idealGas.Source), null, idealGas.Note);
        double? tripleTemperature = null;
        double? triplePressure = null;
        if (entry.TriplePoint is { } triple)
        {
            tripleTemperature = at.Within("triplePoint").Positive(triple.Temperature, "temperature", "K");
            triplePressure = triple.Pressure is null ? null : at.Within("triplePoint").Positive(triple.Pressure, "pressure", "Pa");
        }

        double spinEnthalpy = 0;
        double spinEntropy = 0;
        if (entry.SpinOffsets is { } offsets)
        {
            FieldCheck atOffsets = at.Within("spinOffsets");
            sources.Find(atOffsets, offsets.Source);
            spinEnthalpy = atOffsets.Number(offsets.Enthalpy, "enthalpy");
            spinEntropy = atOffsets.Number(offsets.Entropy, "entropy");
        }

        return new HelmholtzEquation
        {
            Standard = standard,
            Provenance = provenance,
            GasConstant = gasConstant,
            MolarMass = at.Positive(entry.MolarMass, "molarMass", "kg/mol"),
            ReducingTemperature = reducingTemperature,
            ReducingMolarDensity = reducingDensity,
            CriticalPoint = ReadPoint(at.Within("criticalPoint"), at.Required(entry.CriticalPoint, "criticalPoint")),
            TripleTemperature = tripleTemperature,
            TriplePressure = triplePressure,
            Range = range,
            Uncertainty = ReadUncertainty(at.Within("uncertainty"), at.Required(entry.Uncertainty, "uncertainty")),
            IdealGas = IdealGasFormReader.Read(
                atIdealGas, idealGas, gasConstant, reducingTemperature, reducingDensity, range, idealGasProvenance),
            DensityTerms = ReadList(at, entry.DensityTerms, "densityTerms", ReadDensityTerm),
            BellTerms = ReadList(at, entry.BellTerms, "bellTerms", ReadBellTerm),
            CriticalTerms = ReadList(at, entry.CriticalTerms, "criticalTerms", ReadCriticalTerm),
            IsPseudoPure = isPseudoPure,
            VaporPressure = isPseudoPure
                ? ReadCurve(atCurves, curves.BubblePressure, "bubblePressure", sources)
                : ReadCurve(atCurves, curves.VaporPressure, "vaporPressure", sources),
            DewPressure = ReadCurve(atCurves, curves.DewPressure, "dewPressure", sources),
            SaturatedLiquidDensity = ReadCurve(atCurves, curves.LiquidDensity, "liquidDensity", sources),
            SaturatedVaporDensity = ReadCurve(atCurves, curves.VaporDensity, "vaporDensity", sources),
            MeltingPressure = ReadCurve(atCurves, curves.Melting, "melting", sources),
            SublimationPressure = ReadCurve(atCurves, curves.Sublimation, "sublimation", sources),
            SpinEnthalpyOffset = spinEnthalpy,
            SpinEntropyOffset = spinEntropy,
            Remarks = [.. (entry.Remarks ?? []).Select((remark, i) => at.Text(remark, $"remarks[{i}]"))],
        };
    }

    private static EquationRange ReadRange(FieldCheck at, EquationRangeEntry entry) => new(
        at.Positive(entry.LowestTemperature, "lowestTemperature", "K"),
        at.Positive(entry.HighestTemperature, "highestTemperature", "K"),
        at.Positive(entry.HighestPressure, "highestPressure", "Pa"),
        at.Positive(entry.HighestMolarDensity, "highestMolarDensity", "mol/m3"),
        OptionalText(at, entry.Note, "note"));

    private static FluidPoint ReadPoint(FieldCheck at, FluidPointEntry entry) => new(
        at.Positive(entry.Temperature, "temperature", "K"),
        at.Positive(entry.Pressure, "pressure", "Pa"),
        at.Positive(entry.MolarDensity, "molarDensity", "mol/m3"));

    private static PropertyUncertainty ReadUncertainty(FieldCheck at, PropertyUncertaintyEntry entry) => new(
        OptionalText(at, entry.Density, "density"),
        OptionalText(at, entry.VaporPressure, "vaporPressure"),
        OptionalText(at, entry.SaturatedDensity, "saturatedDensity"),
        OptionalText(at, entry.HeatCapacity, "heatCapacity"),
        OptionalText(at, entry.SpeedOfSound, "speedOfSound"),
        OptionalText(at, entry.Remark, "remark"));

    private static DensityTerm ReadDensityTerm(FieldCheck at, DensityTermEntry entry)
    {
        double decay = at.InRange(entry.DecayExponent, "decayExponent", 0, 7, string.Empty);
        if (decay != Math.Floor(decay))
        {
            throw at.Broken("decayExponent", $"must be a whole number from 0 to 7, found {decay:G6}");
        }

        return new DensityTerm(
            at.Number(entry.Coefficient, "coefficient"),
            at.Number(entry.TemperatureExponent, "temperatureExponent"),
            at.Number(entry.DensityExponent, "densityExponent"),
            (int)decay);
    }

    private static BellTerm ReadBellTerm(FieldCheck at, BellTermEntry entry) => new(
        at.Number(entry.Coefficient, "coefficient"),
        at.Number(entry.TemperatureExponent, "temperatureExponent"),
        at.Number(entry.DensityExponent, "densityExponent"),
        at.Number(entry.DensitySharpness, "densitySharpness"),
        at.Number(entry.DensityCenter, "densityCenter"),
        at.Number(entry.TemperatureSharpness, "temperatureSharpness"),
        at.Number(entry.TemperatureCenter, "temperatureCenter"));

    private static CriticalTerm ReadCriticalTerm(FieldCheck at, CriticalTermEntry entry) => new(
        at.Number(entry.Coefficient, "coefficient"),
        at.Number(entry.DistanceExponent, "distanceExponent"),
        at.Number(entry.Exponent, "exponent"),
        at.Number(entry.CurveExponent, "curveExponent"),
        at.Number(entry.CurveWeight, "curveWeight"),
        at.Number(entry.DistanceWeight, "distanceWeight"),
        at.Number(entry.DensitySharpness, "densitySharpness"),
        at.Number(entry.TemperatureSharpness, "temperatureSharpness"));

    private static SaturationCurve? ReadCurve(FieldCheck curves, SaturationCurveEntry? entry, string field, SourceTable sources)
    {
        if (entry is null)
        {
            return null;
        }

        FieldCheck at = curves.Within(field);
        CurveForm form = at.Required(entry.Form, "form") switch
        {
            "logarithmTimesTemperature" => CurveForm.LogarithmTimesTemperature,
            "logarithm" => CurveForm.Logarithm,
            "ratio" => CurveForm.Ratio,
            "melting" => CurveForm.Melting,
            "inverseTemperature" => CurveForm.InverseTemperature,
            _ => throw at.Broken(
                "form",
                $"must be 'logarithmTimesTemperature', 'logarithm', 'ratio', 'melting' or 'inverseTemperature', found '{entry.Form}'"),
        };
        if (entry.ShiftedTerms is not null && form != CurveForm.Melting)
        {
            throw at.Broken("shiftedTerms", "belongs to a curve of form 'melting' only");
        }

        if (entry.LogarithmicCoefficient is not null && form != CurveForm.Ratio)
        {
            throw at.Broken("logarithmicCoefficient", "belongs to a curve of form 'ratio' only");
        }

        return new SaturationCurve(
            form,
            at.Positive(entry.ReducingTemperature, "reducingTemperature", "K"),
            at.Positive(entry.ReducingValue, "reducingValue", string.Empty),
            ReadList(at, entry.Terms, "terms", ReadCurveTerm),
            ReadList(at, entry.ShiftedTerms, "shiftedTerms", ReadCurveTerm),
            entry.LogarithmicCoefficient is null ? 0 : at.Number(entry.LogarithmicCoefficient, "logarithmicCoefficient"),
            at.Positive(entry.LowestTemperature, "lowestTemperature", "K"),
            at.Positive(entry.HighestTemperature, "highestTemperature", "K"),
            sources.Provenance(at, entry));
    }

    private static CurveTerm ReadCurveTerm(FieldCheck at, CurveTermEntry entry) =>
        new(at.Number(entry.Coefficient, "coefficient"), at.Number(entry.Exponent, "exponent"));

    private static ImmutableArray<T> ReadList<TEntry, T>(
        FieldCheck at, IReadOnlyList<TEntry?>? entries, string field, Func<FieldCheck, TEntry, T> read)
        where TEntry : class
    {
        if (entries is null)
        {
            return [];
        }

        ImmutableArray<T>.Builder list = ImmutableArray.CreateBuilder<T>(entries.Count);
        for (int i = 0; i < entries.Count; i++)
        {
            string place = $"{field}[{i}]";
            list.Add(read(at.Within(place), at.Required(entries[i], place)));
        }

        return list.MoveToImmutable();
    }

    private static string? OptionalText(FieldCheck at, string? text, string field) => text is null ? null : at.Text(text, field);
}
