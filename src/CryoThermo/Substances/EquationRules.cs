using System.Globalization;

namespace CryoThermo.Substances;

/// <summary>The rules that the Helmholtz equations of a substance must keep, as far as they can be seen without evaluating them.</summary>
internal sealed class EquationRules
{
    // Bounds that catch slips; common practice, no source.
    private const double GasConstantTolerance = 1e-3;
    private const double MolarMassTolerance = 2e-4;
    private const double ReducingTemperatureTolerance = 0.05;
    private const double ReducingDensityTolerance = 0.2;
    private const double CriticalTemperatureTolerance = 0.01;
    private const double CriticalPressureTolerance = 0.05;
    private const double LowestCompressibility = 0.2;
    private const double HighestCompressibility = 0.35;
    private const double TripleTemperatureTolerance = 0.01;
    private const double ZeroDensityTolerance = 1e-10;
    private const double LowestHeatCapacity = 2.5 - 1e-6;
    private const double HighestHeatCapacity = 200;
    private const double HeatCapacityTolerance = 0.02;
    private const double CurveEndTolerance = 0.02;
    private const int Probes = 40;

    private readonly Substance substance;
    private readonly HelmholtzEquation equation;
    private readonly string place;
    private readonly List<ValidationFinding> findings;

    private EquationRules(Substance substance, HelmholtzEquation equation, string place, List<ValidationFinding> findings)
    {
        this.substance = substance;
        this.equation = equation;
        this.place = place;
        this.findings = findings;
    }

    /// <summary>Names of the checks.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        "gas constant",
        "molar mass",
        "reducing point",
        "critical point",
        "triple point",
        "range",
        "uncertainty",
        "terms",
        "zero-density limit",
        "ideal gas",
        "saturation curves",
        "spin offsets",
    ];

    /// <summary>All rules broken by the equations of a substance.</summary>
    public static IReadOnlyList<ValidationFinding> Broken(Substance substance)
    {
        List<ValidationFinding> broken = [];
        for (int i = 0; i < substance.Equations.Count; i++)
        {
            new EquationRules(substance, substance.Equations[i], $"equations[{i}]", broken).CheckAll();
        }

        return broken;
    }

    private static string Text(double value, string unit) =>
        unit.Length == 0 ? value.ToString("G9", CultureInfo.InvariantCulture) : string.Create(CultureInfo.InvariantCulture, $"{value:G9} {unit}");

    private static string Bounds(double low, double high, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{low:G9} to {high:G9} {unit}").TrimEnd();

    private void CheckAll()
    {
        FluidPoint critical = equation.CriticalPoint;
        Around("gas constant", "gasConstant", equation.GasConstant, SubstanceReader.GasConstant, GasConstantTolerance, "J/(mol K)");
        Around("molar mass", "molarMass", equation.MolarMass, substance.MolarMass, MolarMassTolerance, "kg/mol");
        Around("reducing point", "reducing.temperature", equation.ReducingTemperature, critical.Temperature, ReducingTemperatureTolerance, "K");
        Around(
            "reducing point", "reducing.molarDensity", equation.ReducingMolarDensity, critical.MolarDensity, ReducingDensityTolerance, "mol/m3");
        Around(
            "critical point", "criticalPoint.temperature", critical.Temperature, substance.CriticalTemperature, CriticalTemperatureTolerance, "K");
        Around("critical point", "criticalPoint.pressure", critical.Pressure, substance.CriticalPressure, CriticalPressureTolerance, "Pa");
        Inside(
            "critical point",
            "criticalPoint.molarDensity",
            critical.Pressure / (critical.MolarDensity * equation.GasConstant * critical.Temperature),
            LowestCompressibility,
            HighestCompressibility,
            "(compressibility factor)");
        CheckTriplePoint();
        CheckRange();
        CheckUncertainty();
        CheckTerms();
        CheckZeroDensityLimit();
        CheckIdealGas();
        CheckCurves();
        if (!substance.Identity.Key.StartsWith("1333-74-0", StringComparison.Ordinal)
            && (equation.SpinEnthalpyOffset != 0 || equation.SpinEntropyOffset != 0))
        {
            Report(
                "spin offsets",
                "spinOffsets",
                Text(equation.SpinEnthalpyOffset, "J/mol"),
                "none",
                $"belong to the spin forms of hydrogen only, not to {substance.Name}");
        }
    }

    private void CheckTriplePoint()
    {
        if (equation.TripleTemperature is double temperature)
        {
            Inside("triple point", "triplePoint.temperature", temperature, 0, equation.CriticalPoint.Temperature, "K");
            if (substance.TripleTemperature is double known)
            {
                Around("triple point", "triplePoint.temperature", temperature, known, TripleTemperatureTolerance, "K");
            }
        }

        if (equation.TriplePressure is double pressure)
        {
            Inside("triple point", "triplePoint.pressure", pressure, 0, equation.CriticalPoint.Pressure, "Pa");
        }
    }

    private void CheckRange()
    {
        EquationRange range = equation.Range;
        FluidPoint critical = equation.CriticalPoint;
        Inside("range", "range.lowestTemperature", range.LowestTemperature, 0, critical.Temperature, "K");
        Inside("range", "range.highestTemperature", range.HighestTemperature, critical.Temperature, 10000, "K");
        Inside("range", "range.highestPressure", range.HighestPressure, critical.Pressure, 1e11, "Pa");
        Inside("range", "range.highestMolarDensity", range.HighestMolarDensity, critical.MolarDensity, 20 * critical.MolarDensity, "mol/m3");
    }

    private void CheckUncertainty()
    {
        PropertyUncertainty stated = equation.Uncertainty;
        if ((stated.Density ?? stated.VaporPressure ?? stated.SaturatedDensity ?? stated.HeatCapacity ?? stated.SpeedOfSound ?? stated.Remark) is null)
        {
            Report("uncertainty", "uncertainty", "nothing", "at least one statement", "must say something; 'remark' may tell that nothing is stated");
        }
    }

    private void CheckTerms()
    {
        if (equation.DensityTerms.Count == 0)
        {
            Report("terms", "densityTerms", "none", "at least one", "must hold at least one term");
        }

        HashSet<(double, double, int)> seen = [];
        for (int i = 0; i < equation.DensityTerms.Count; i++)
        {
            DensityTerm term = equation.DensityTerms[i];
            string at = $"densityTerms[{i}]";
            CheckCommon(at, term.Coefficient, term.TemperatureExponent, term.DensityExponent);
            Inside("terms", $"{at}.decayExponent", term.DecayExponent, 0, 7, string.Empty);
            if (!seen.Add((term.TemperatureExponent, term.DensityExponent, term.DecayExponent)))
            {
                Report("terms", at, "the exponents of an earlier term", "each set of exponents once", "repeats the exponents of an earlier term");
            }
        }

        for (int i = 0; i < equation.BellTerms.Count; i++)
        {
            BellTerm term = equation.BellTerms[i];
            string at = $"bellTerms[{i}]";
            CheckCommon(at, term.Coefficient, term.TemperatureExponent, term.DensityExponent);
            Positive($"{at}.densitySharpness", term.DensitySharpness);
            Positive($"{at}.temperatureSharpness", term.TemperatureSharpness);
            Inside("terms", $"{at}.densityCenter", term.DensityCenter, -10, 10, string.Empty);
            Inside("terms", $"{at}.temperatureCenter", term.TemperatureCenter, -10, 10, string.Empty);
        }

        for (int i = 0; i < equation.CriticalTerms.Count; i++)
        {
            CriticalTerm term = equation.CriticalTerms[i];
            string at = $"criticalTerms[{i}]";
            NotZero($"{at}.coefficient", term.Coefficient);
            Positive($"{at}.distanceExponent", term.DistanceExponent);
            Inside("terms", $"{at}.exponent", term.Exponent, 0.5, 2, string.Empty);
            Inside("terms", $"{at}.curveExponent", term.CurveExponent, 0.1, 1, string.Empty);
            Positive($"{at}.curveWeight", term.CurveWeight);
            Positive($"{at}.distanceWeight", term.DistanceWeight);
            Positive($"{at}.densitySharpness", term.DensitySharpness);
            Positive($"{at}.temperatureSharpness", term.TemperatureSharpness);
        }
    }

    private void CheckCommon(string at, double coefficient, double temperatureExponent, double densityExponent)
    {
        NotZero($"{at}.coefficient", coefficient);
        Inside("terms", $"{at}.temperatureExponent", temperatureExponent, -10, 200, string.Empty);
        Inside("terms", $"{at}.densityExponent", densityExponent, 0, 30, string.Empty);
    }

    /// <summary>At zero density the residual Helmholtz energy vanishes: terms without a factor delta must cancel one another.</summary>
    private void CheckZeroDensityLimit()
    {
        foreach (double temperature in (ReadOnlySpan<double>)
            [equation.Range.LowestTemperature, equation.ReducingTemperature, equation.Range.HighestTemperature])
        {
            double tau = equation.ReducingTemperature / temperature;
            double sum = 0;
            foreach (DensityTerm term in equation.DensityTerms)
            {
                sum += term.DensityExponent == 0 ? term.Coefficient * Math.Pow(tau, term.TemperatureExponent) : 0;
            }

            foreach (BellTerm term in equation.BellTerms)
            {
                double distance = tau - term.TemperatureCenter;
                double exponent = (term.DensitySharpness * term.DensityCenter * term.DensityCenter)
                    + (term.TemperatureSharpness * distance * distance);
                sum += term.DensityExponent == 0 ? term.Coefficient * Math.Pow(tau, term.TemperatureExponent) * Math.Exp(-exponent) : 0;
            }

            if (!(Math.Abs(sum) <= ZeroDensityTolerance))
            {
                Report(
                    "zero-density limit",
                    "densityTerms",
                    Text(sum, string.Empty),
                    Bounds(-ZeroDensityTolerance, ZeroDensityTolerance, string.Empty),
                    $"with density exponent 0 add up to {Text(sum, string.Empty)} at {Text(temperature, "K")}; they must cancel one another");
                return;
            }
        }
    }

    private void CheckIdealGas()
    {
        IdealGasHeatCapacity form = equation.IdealGas.HeatCapacity;
        double low = equation.Range.LowestTemperature;
        double high = equation.Range.HighestTemperature;
        if (low >= high)
        {
            return;
        }

        for (int i = 0; i <= Probes; i++)
        {
            double temperature = low * Math.Pow(high / low, (double)i / Probes);
            double value = form.OverGasConstant(temperature);
            if (!(value >= LowestHeatCapacity && value <= HighestHeatCapacity))
            {
                Report(
                    "ideal gas",
                    "idealGas.terms",
                    Text(value, string.Empty),
                    Bounds(2.5, HighestHeatCapacity, string.Empty),
                    $"give cp/R = {Text(value, string.Empty)} at {Text(temperature, "K")}");
                return;
            }
        }

        Around(
            "ideal gas",
            "idealGas.terms",
            form.OverGasConstant(IdealGasFormReader.ReferenceTemperature),
            substance.IdealGasHeatCapacity.OverGasConstant(IdealGasFormReader.ReferenceTemperature),
            HeatCapacityTolerance,
            "(cp/R at 298.15 K, against idealGasHeatCapacity)");
    }

    private void CheckCurves()
    {
        string pressure = equation.IsPseudoPure ? "bubblePressure" : "vaporPressure";
        double critical = equation.CriticalPoint.Temperature;
        CheckCurve(pressure, equation.VaporPressure, critical, rising: true);
        CheckCurve("dewPressure", equation.DewPressure, critical, rising: true);
        CheckCurve("liquidDensity", equation.SaturatedLiquidDensity, critical, rising: false);
        CheckCurve("vaporDensity", equation.SaturatedVaporDensity, critical, rising: true);
        CheckCurve("melting", equation.MeltingPressure, equation.Range.HighestTemperature, rising: true);
        CheckCurve("sublimation", equation.SublimationPressure, equation.TripleTemperature ?? critical, rising: true);
        CheckOrder(pressure, equation.VaporPressure, "dewPressure", equation.DewPressure);
        CheckOrder("liquidDensity", equation.SaturatedLiquidDensity, "vaporDensity", equation.SaturatedVaporDensity);
        CheckJoin("sublimation", equation.SublimationPressure);
        CheckJoin(pressure, equation.VaporPressure);
        if (equation.IsPseudoPure)
        {
            RequireCurve(pressure, equation.VaporPressure);
            RequireCurve("dewPressure", equation.DewPressure);
            RequireCurve("liquidDensity", equation.SaturatedLiquidDensity);
            RequireCurve("vaporDensity", equation.SaturatedVaporDensity);
        }
    }

    private void RequireCurve(string name, SaturationCurve? curve)
    {
        if (curve is null)
        {
            Report("saturation curves", $"saturationCurves.{name}", "none", "a curve", "is missing; a pseudo-pure fluid needs its lines as curves");
        }
    }

    private void CheckCurve(string name, SaturationCurve? curve, double highest, bool rising)
    {
        if (curve is null)
        {
            return;
        }

        string at = $"saturationCurves.{name}";
        if (curve.Terms.Count + curve.ShiftedTerms.Count == 0)
        {
            Report("saturation curves", $"{at}.terms", "none", "at least one", "must hold at least one term");
            return;
        }

        int before = findings.Count;
        Inside("saturation curves", $"{at}.lowestTemperature", curve.LowestTemperature, 0, curve.HighestTemperature, "K");
        Inside("saturation curves", $"{at}.highestTemperature", curve.HighestTemperature, curve.LowestTemperature, highest * (1 + 1e-3), "K");
        if (findings.Count > before || curve.LowestTemperature == curve.HighestTemperature)
        {
            return;
        }

        double last = double.NaN;
        for (int i = 0; i <= Probes; i++)
        {
            double temperature = Math.Min(
                curve.HighestTemperature, curve.LowestTemperature + ((curve.HighestTemperature - curve.LowestTemperature) * i / Probes));
            double value = curve.At(temperature);
            if (!(value > 0 && double.IsFinite(value)))
            {
                Report("saturation curves", at, Text(value, string.Empty), "positive", $"gives {Text(value, string.Empty)} at {Text(temperature, "K")}");
                return;
            }

            if (rising ? value < last : value > last)
            {
                Report(
                    "saturation curves",
                    at,
                    Text(value, string.Empty),
                    rising ? "rising" : "falling",
                    $"must {(rising ? "rise" : "fall")} with temperature; it turns near {Text(temperature, "K")}");
                return;
            }

            last = value;
        }
    }

    private void CheckOrder(string greaterName, SaturationCurve? greater, string smallerName, SaturationCurve? smaller)
    {
        if (greater is null || smaller is null)
        {
            return;
        }

        double low = Math.Max(greater.LowestTemperature, smaller.LowestTemperature);
        double high = Math.Min(greater.HighestTemperature, smaller.HighestTemperature);
        for (int i = 0; i < Probes && low < high; i++)
        {
            double temperature = low + ((high - low) * i / Probes);
            double above = greater.At(temperature);
            double below = smaller.At(temperature);
            if (!(above > below))
            {
                Report(
                    "saturation curves",
                    $"saturationCurves.{greaterName}",
                    Text(above, string.Empty),
                    $"more than {Text(below, string.Empty)}",
                    $"must lie above {smallerName}; at {Text(temperature, "K")} they are {Text(above, string.Empty)} and {Text(below, string.Empty)}");
                return;
            }
        }
    }

    /// <summary>A pressure curve that reaches the triple point must give the triple pressure there, where one is given.</summary>
    private void CheckJoin(string name, SaturationCurve? curve)
    {
        if (curve is null
            || equation.TripleTemperature is not double temperature
            || equation.TriplePressure is not double pressure
            || !(temperature >= curve.LowestTemperature && temperature <= curve.HighestTemperature))
        {
            return;
        }

        // Rounding of a tiny triple pressure to two digits, and curves that were fitted above it, cost more there.
        double tolerance = pressure < 1000 ? 5 * CurveEndTolerance : CurveEndTolerance;
        Around("saturation curves", $"saturationCurves.{name}", curve.At(temperature), pressure, tolerance, "Pa at the triple point");
    }

    private void Positive(string field, double value)
    {
        if (!(value > 0 && double.IsFinite(value)))
        {
            Report("terms", field, Text(value, string.Empty), "greater than zero", $"must be greater than zero, found {Text(value, string.Empty)}");
        }
    }

    private void NotZero(string field, double value)
    {
        if (value == 0 || !double.IsFinite(value))
        {
            Report("terms", field, Text(value, string.Empty), "not zero", $"must not be zero, found {Text(value, string.Empty)}");
        }
    }

    private void Around(string check, string field, double value, double target, double tolerance, string unit) =>
        Inside(check, field, value, target * (1 - tolerance), target * (1 + tolerance), unit);

    private void Inside(string check, string field, double value, double low, double high, string unit)
    {
        if (!(value >= low && value <= high))
        {
            Report(
                check,
                field,
                Text(value, unit),
                Bounds(low, high, unit),
                $"must lie from {Bounds(low, high, unit)}, found {Text(value, string.Empty)}");
        }
    }

    private void Report(string check, string field, string value, string allowed, string rule) =>
        findings.Add(new ValidationFinding(check, $"{place}.{field}", value, allowed, $"{place}.{field} {rule}"));
}
