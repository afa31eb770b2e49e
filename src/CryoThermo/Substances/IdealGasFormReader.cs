using System.Collections.ObjectModel;

namespace CryoThermo.Substances;

/// <summary>Reads the ideal-gas part of a Helmholtz equation in any published form and translates it to cp0/R.</summary>
/// <remarks>
/// Form "heatCapacity": the terms add up to cp0/R, and alpha0 = ln(delta) + constant + slope tau - ln(tau) + their double integrals, taken
/// without constant and linear part. Form "helmholtzEnergy": the terms stand in alpha0 itself, so that cp0/R = 1 - tau^2 d2(alpha0)/dtau2.
/// </remarks>
internal static class IdealGasFormReader
{
    /// <summary>Temperature at which the published zero is told, K.</summary>
    public const double ReferenceTemperature = 298.15;

    /// <summary>Pressure at which the published zero is told, Pa.</summary>
    public const double ReferencePressure = 101325;

    public static IdealGasForm Read(
        JsonBlock block, double gasConstant, double reducingTemperature, double reducingDensity, EquationRange range, Provenance provenance)
    {
        PublishedIdealGas published = ReadPublished(block, reducingTemperature, reducingDensity);
        double density = ReferencePressure / (gasConstant * ReferenceTemperature);
        double slope = published.TauSlope(ReferenceTemperature);
        return new IdealGasForm(
            new IdealGasHeatCapacity(published.HeatCapacity, range.LowestTemperature, range.HighestTemperature, provenance),
            gasConstant * ReferenceTemperature * (1 + slope),
            gasConstant * (slope - published.At(ReferenceTemperature, density)),
            block.RequiredText("reference"));
    }

    public static PublishedIdealGas ReadPublished(JsonBlock block, double reducingTemperature, double reducingDensity)
    {
        block.RequireOnly("form", "constant", "slope", "reference", "source", "note", "terms");
        bool isHeatCapacity = block.RequiredText("form") switch
        {
            "heatCapacity" => true,
            "helmholtzEnergy" => false,
            string other => throw block.Check.Broken("form", $"must be 'heatCapacity' or 'helmholtzEnergy', found '{other}'"),
        };
        Translation translation = new(reducingTemperature);
        if (isHeatCapacity)
        {
            translation.Terms.Add(new LogarithmOfTau(-1));
        }
        else
        {
            translation.ConstantHeatCapacity = 1;
        }

        ReadOnlyCollection<JsonBlock> terms = block.List("terms", term => term);
        if (terms.Count == 0)
        {
            throw block.Check.Broken("terms", "must hold at least one term");
        }

        foreach (JsonBlock term in terms)
        {
            if (isHeatCapacity)
            {
                AddHeatCapacityTerm(term, translation);
            }
            else
            {
                AddHelmholtzTerm(term, translation);
            }
        }

        if (translation.ConstantHeatCapacity != 0)
        {
            translation.HeatCapacity.Insert(0, new PowerTerm(translation.ConstantHeatCapacity, 0));
        }

        return new PublishedIdealGas(
            reducingTemperature,
            reducingDensity,
            block.RequiredNumber("constant"),
            block.RequiredNumber("slope"),
            translation.Terms.AsReadOnly(),
            translation.HeatCapacity.AsReadOnly());
    }

    private static void AddHeatCapacityTerm(JsonBlock term, Translation translation)
    {
        double reducing = translation.ReducingTemperature;
        switch (term.RequiredText("kind"))
        {
            case "power":
                term.RequireOnly("kind", "coefficient", "exponent");
                double coefficient = term.RequiredNumber("coefficient");
                double exponent = term.InRange("exponent", -10, 10, string.Empty);
                if (exponent == 0)
                {
                    translation.ConstantHeatCapacity += coefficient;
                    translation.Terms.Add(new LogarithmOfTau(coefficient));
                    break;
                }

                translation.HeatCapacity.Add(new PowerTerm(coefficient, exponent));
                translation.Terms.Add(
                    exponent == -1
                        ? new TauTimesLogarithm(-coefficient / reducing)
                        : new PowerOfTau(-coefficient * Math.Pow(reducing, exponent) / (exponent * (exponent + 1)), -exponent));
                break;
            case "vibration":
                term.RequireOnly("kind", "weight", "temperature");
                VibrationTerm vibration = new(term.RequiredNumber("weight"), term.Positive("temperature", "K"));
                translation.HeatCapacity.Add(vibration);
                translation.Terms.Add(new LogarithmOfExponential(vibration.Weight, 1, -1, -vibration.CharacteristicTemperature / reducing));
                break;
            case "twoLevel":
                term.RequireOnly("kind", "weight", "temperature", "degeneracyRatio");
                TwoLevelTerm levels = new(
                    term.RequiredNumber("weight"),
                    term.Positive("temperature", "K"),
                    term.Positive("degeneracyRatio", string.Empty));
                translation.HeatCapacity.Add(levels);
                translation.Terms.Add(
                    new LogarithmOfExponential(-levels.Weight, 1, levels.DegeneracyRatio, -levels.CharacteristicTemperature / reducing));
                break;
            case "squaredHyperbolicSine":
                term.RequireOnly("kind", "weight", "temperature");
                translation.AddSinh(term.RequiredNumber("weight"), term.Positive("temperature", "K"));
                break;
            case "squaredHyperbolicCosine":
                term.RequireOnly("kind", "weight", "temperature");
                translation.AddCosh(-term.RequiredNumber("weight"), term.Positive("temperature", "K"));
                break;
            default:
                throw term.Check.Broken(
                    "kind",
                    $"must be 'power', 'vibration', 'twoLevel', 'squaredHyperbolicSine' or 'squaredHyperbolicCosine', found '{term.Text("kind")}'");
        }
    }

    private static void AddHelmholtzTerm(JsonBlock term, Translation translation)
    {
        double reducing = translation.ReducingTemperature;
        switch (term.RequiredText("kind"))
        {
            case "logarithm":
                term.RequireOnly("kind", "coefficient");
                double coefficient = term.RequiredNumber("coefficient");
                translation.ConstantHeatCapacity += coefficient;
                translation.Terms.Add(new LogarithmOfTau(coefficient));
                break;
            case "power":
                term.RequireOnly("kind", "coefficient", "exponent");
                PowerOfTau power = new(term.RequiredNumber("coefficient"), term.InRange("exponent", -10, 10, string.Empty));
                translation.Terms.Add(power);
                double curvature = -power.Coefficient * power.Exponent * (power.Exponent - 1);
                if (curvature != 0)
                {
                    translation.HeatCapacity.Add(new PowerTerm(curvature * Math.Pow(reducing, power.Exponent), -power.Exponent));
                }

                break;
            case "vibration":
                term.RequireOnly("kind", "weight", TemperatureField(term));
                VibrationTerm vibration = new(term.RequiredNumber("weight"), CharacteristicTemperature(term, reducing));
                translation.HeatCapacity.Add(vibration);
                translation.Terms.Add(new LogarithmOfExponential(vibration.Weight, 1, -1, -vibration.CharacteristicTemperature / reducing));
                break;
            case "logarithmOfExponential":
                term.RequireOnly("kind", "weight", "constant", "factor", "reducedTemperature");
                AddLogarithmOfExponential(term, translation);
                break;
            case "logarithmOfHyperbolicSine":
                term.RequireOnly("kind", "weight", TemperatureField(term));
                translation.AddSinh(term.RequiredNumber("weight"), CharacteristicTemperature(term, reducing));
                break;
            case "logarithmOfHyperbolicCosine":
                term.RequireOnly("kind", "weight", TemperatureField(term));
                translation.AddCosh(term.RequiredNumber("weight"), CharacteristicTemperature(term, reducing));
                break;
            default:
                throw term.Check.Broken(
                    "kind",
                    "must be 'logarithm', 'power', 'vibration', 'logarithmOfExponential', 'logarithmOfHyperbolicSine' or "
                    + $"'logarithmOfHyperbolicCosine', found '{term.Text("kind")}'");
        }
    }

    /// <summary>
    /// v ln(c + d exp(u tau)): with r = d/c for negative u and c/d for positive u, cp0/R gets a two-level term of weight -v, characteristic
    /// temperature |u| T_red and degeneracy ratio r; r = -1 is a harmonic oscillator of weight v.
    /// </summary>
    private static void AddLogarithmOfExponential(JsonBlock term, Translation translation)
    {
        double weight = term.RequiredNumber("weight");
        double constant = term.RequiredNumber("constant");
        double factor = term.RequiredNumber("factor");
        double rate = term.RequiredNumber("reducedTemperature");
        if (constant == 0 || factor == 0 || rate == 0)
        {
            throw term.Check.Broken("factor", "must not be zero, nor 'constant' or 'reducedTemperature'");
        }

        double ratio = rate < 0 ? factor / constant : constant / factor;
        double temperature = Math.Abs(rate) * translation.ReducingTemperature;
        if (ratio != -1 && !(ratio > 0))
        {
            throw term.Check.Broken("factor", $"over 'constant' must be -1 (an oscillator) or positive (two levels), found {factor / constant:G9}");
        }

        // For negative u the greater of the two terms inside the logarithm is the constant, for positive u the exponential.
        if (rate < 0 ? constant < 0 : factor < 0)
        {
            throw term.Check.Broken(rate < 0 ? "constant" : "factor", "must be positive, or the logarithm has no value");
        }

        translation.HeatCapacity.Add(ratio == -1 ? new VibrationTerm(weight, temperature) : new TwoLevelTerm(-weight, temperature, ratio));
        translation.Terms.Add(new LogarithmOfExponential(weight, constant, factor, rate));
    }

    private static string TemperatureField(JsonBlock term) => term.Number("temperature") is null ? "reducedTemperature" : "temperature";

    private static double CharacteristicTemperature(JsonBlock term, double reducingTemperature) =>
        term.Number("temperature") is null
            ? term.Positive("reducedTemperature", string.Empty) * reducingTemperature
            : term.Positive("temperature", "K");

    private sealed class Translation(double reducingTemperature)
    {
        public double ReducingTemperature => reducingTemperature;

        public List<PublishedIdealGasTerm> Terms { get; } = [];

        public List<HeatCapacityTerm> HeatCapacity { get; } = [];

        public double ConstantHeatCapacity { get; set; }

        /// <summary>v ln(sinh(u/T)): cp0/R gets v (u/T)^2 / sinh^2(u/T), an oscillator of twice the temperature.</summary>
        public void AddSinh(double weight, double temperature)
        {
            HeatCapacity.Add(new VibrationTerm(weight, 2 * temperature));
            Terms.Add(new LogarithmOfSinh(weight, temperature / reducingTemperature));
        }

        /// <summary>v ln(cosh(u/T)): cp0/R gets -v (u/T)^2 / cosh^2(u/T), two levels of equal weight at twice the temperature.</summary>
        public void AddCosh(double weight, double temperature)
        {
            HeatCapacity.Add(new TwoLevelTerm(-weight, 2 * temperature, 1));
            Terms.Add(new LogarithmOfCosh(weight, temperature / reducingTemperature));
        }
    }
}
