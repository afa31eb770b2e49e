using System.Collections.Immutable;

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
        FieldCheck at,
        IdealGasEntry entry,
        double gasConstant,
        double reducingTemperature,
        double reducingDensity,
        EquationRange range,
        Provenance provenance)
    {
        PublishedIdealGas published = ReadPublished(at, entry, reducingTemperature, reducingDensity);
        double density = ReferencePressure / (gasConstant * ReferenceTemperature);
        double slope = published.TauSlope(ReferenceTemperature);
        return new IdealGasForm(
            new IdealGasHeatCapacity(published.HeatCapacity, range.LowestTemperature, range.HighestTemperature, provenance),
            gasConstant * ReferenceTemperature * (1 + slope),
            gasConstant * (slope - published.At(ReferenceTemperature, density)),
            at.Text(entry.Reference, "reference"));
    }

    public static PublishedIdealGas ReadPublished(FieldCheck at, IdealGasEntry entry, double reducingTemperature, double reducingDensity)
    {
        bool isHeatCapacity = at.Required(entry.Form, "form") switch
        {
            "heatCapacity" => true,
            "helmholtzEnergy" => false,
            _ => throw at.Broken("form", $"must be 'heatCapacity' or 'helmholtzEnergy', found '{entry.Form}'"),
        };
        IReadOnlyList<IdealGasTermEntry?> entries = at.Required(entry.Terms, "terms");
        if (entries.Count == 0)
        {
            throw at.Broken("terms", "must hold at least one term");
        }

        Translation translation = new(reducingTemperature);
        if (isHeatCapacity)
        {
            translation.Terms.Add(new LogarithmOfTau(-1));
        }
        else
        {
            translation.ConstantHeatCapacity = 1;
        }

        for (int i = 0; i < entries.Count; i++)
        {
            string place = $"terms[{i}]";
            IdealGasTermEntry term = at.Required(entries[i], place);
            if (isHeatCapacity)
            {
                AddHeatCapacityTerm(at.Within(place), term, translation);
            }
            else
            {
                AddHelmholtzTerm(at.Within(place), term, translation);
            }
        }

        if (translation.ConstantHeatCapacity != 0)
        {
            translation.HeatCapacity.Insert(0, new PowerTerm(translation.ConstantHeatCapacity, 0));
        }

        return new PublishedIdealGas(
            reducingTemperature,
            reducingDensity,
            at.Number(entry.Constant, "constant"),
            at.Number(entry.Slope, "slope"),
            translation.Terms.ToImmutable(),
            translation.HeatCapacity.ToImmutable());
    }

    private static void AddHeatCapacityTerm(FieldCheck at, IdealGasTermEntry entry, Translation translation)
    {
        double reducing = translation.ReducingTemperature;
        switch (at.Required(entry.Kind, "kind"))
        {
            case "power":
                RequireOnly(at, entry, "coefficient", "exponent");
                double coefficient = at.Number(entry.Coefficient, "coefficient");
                double exponent = at.InRange(entry.Exponent, "exponent", -10, 10, string.Empty);
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
                RequireOnly(at, entry, "weight", "temperature");
                VibrationTerm vibration = new(at.Number(entry.Weight, "weight"), at.Positive(entry.Temperature, "temperature", "K"));
                translation.HeatCapacity.Add(vibration);
                translation.Terms.Add(new LogarithmOfExponential(vibration.Weight, 1, -1, -vibration.CharacteristicTemperature / reducing));
                break;
            case "twoLevel":
                RequireOnly(at, entry, "weight", "temperature", "degeneracyRatio");
                TwoLevelTerm levels = new(
                    at.Number(entry.Weight, "weight"),
                    at.Positive(entry.Temperature, "temperature", "K"),
                    at.Positive(entry.DegeneracyRatio, "degeneracyRatio", string.Empty));
                translation.HeatCapacity.Add(levels);
                translation.Terms.Add(
                    new LogarithmOfExponential(-levels.Weight, 1, levels.DegeneracyRatio, -levels.CharacteristicTemperature / reducing));
                break;
            case "squaredHyperbolicSine":
                RequireOnly(at, entry, "weight", "temperature");
                translation.AddSinh(at.Number(entry.Weight, "weight"), at.Positive(entry.Temperature, "temperature", "K"));
                break;
            case "squaredHyperbolicCosine":
                RequireOnly(at, entry, "weight", "temperature");
                translation.AddCosh(-at.Number(entry.Weight, "weight"), at.Positive(entry.Temperature, "temperature", "K"));
                break;
            default:
                throw at.Broken(
                    "kind",
                    $"must be 'power', 'vibration', 'twoLevel', 'squaredHyperbolicSine' or 'squaredHyperbolicCosine', found '{entry.Kind}'");
        }
    }

    private static void AddHelmholtzTerm(FieldCheck at, IdealGasTermEntry entry, Translation translation)
    {
        double reducing = translation.ReducingTemperature;
        switch (at.Required(entry.Kind, "kind"))
        {
            case "logarithm":
                RequireOnly(at, entry, "coefficient");
                double coefficient = at.Number(entry.Coefficient, "coefficient");
                translation.ConstantHeatCapacity += coefficient;
                translation.Terms.Add(new LogarithmOfTau(coefficient));
                break;
            case "power":
                RequireOnly(at, entry, "coefficient", "exponent");
                PowerOfTau power = new(at.Number(entry.Coefficient, "coefficient"), at.InRange(entry.Exponent, "exponent", -10, 10, string.Empty));
                translation.Terms.Add(power);
                double curvature = -power.Coefficient * power.Exponent * (power.Exponent - 1);
                if (curvature != 0)
                {
                    translation.HeatCapacity.Add(new PowerTerm(curvature * Math.Pow(reducing, power.Exponent), -power.Exponent));
                }

                break;
            case "vibration":
                RequireOnly(at, entry, "weight", TemperatureField(entry));
                VibrationTerm vibration = new(at.Number(entry.Weight, "weight"), CharacteristicTemperature(at, entry, reducing));
                translation.HeatCapacity.Add(vibration);
                translation.Terms.Add(new LogarithmOfExponential(vibration.Weight, 1, -1, -vibration.CharacteristicTemperature / reducing));
                break;
            case "logarithmOfExponential":
                RequireOnly(at, entry, "weight", "constant", "factor", "reducedTemperature");
                AddLogarithmOfExponential(at, entry, translation);
                break;
            case "logarithmOfHyperbolicSine":
                RequireOnly(at, entry, "weight", TemperatureField(entry));
                translation.AddSinh(at.Number(entry.Weight, "weight"), CharacteristicTemperature(at, entry, reducing));
                break;
            case "logarithmOfHyperbolicCosine":
                RequireOnly(at, entry, "weight", TemperatureField(entry));
                translation.AddCosh(at.Number(entry.Weight, "weight"), CharacteristicTemperature(at, entry, reducing));
                break;
            default:
                throw at.Broken(
                    "kind",
                    "must be 'logarithm', 'power', 'vibration', 'logarithmOfExponential', 'logarithmOfHyperbolicSine' or "
                    + $"'logarithmOfHyperbolicCosine', found '{entry.Kind}'");
        }
    }

    /// <summary>
    /// v ln(c + d exp(u tau)): with r = d/c for negative u and c/d for positive u, cp0/R gets a two-level term of weight -v, characteristic
    /// temperature |u| T_red and degeneracy ratio r; r = -1 is a harmonic oscillator of weight v.
    /// </summary>
    private static void AddLogarithmOfExponential(FieldCheck at, IdealGasTermEntry entry, Translation translation)
    {
        double weight = at.Number(entry.Weight, "weight");
        double constant = at.Number(entry.Constant, "constant");
        double factor = at.Number(entry.Factor, "factor");
        double rate = at.Number(entry.ReducedTemperature, "reducedTemperature");
        if (constant == 0 || factor == 0 || rate == 0)
        {
            throw at.Broken("factor", "must not be zero, nor 'constant' or 'reducedTemperature'");
        }

        double ratio = rate < 0 ? factor / constant : constant / factor;
        double temperature = Math.Abs(rate) * translation.ReducingTemperature;
        if (ratio != -1 && !(ratio > 0))
        {
            throw at.Broken("factor", $"over 'constant' must be -1 (an oscillator) or positive (two levels), found {factor / constant:G9}");
        }

        // For negative u the greater of the two terms inside the logarithm is the constant, for positive u the exponential.
        if (rate < 0 ? constant < 0 : factor < 0)
        {
            throw at.Broken(rate < 0 ? "constant" : "factor", "must be positive, or the logarithm has no value");
        }

        translation.HeatCapacity.Add(ratio == -1 ? new VibrationTerm(weight, temperature) : new TwoLevelTerm(-weight, temperature, ratio));
        translation.Terms.Add(new LogarithmOfExponential(weight, constant, factor, rate));
    }

    private static string TemperatureField(IdealGasTermEntry entry) => entry.Temperature is null ? "reducedTemperature" : "temperature";

    private static double CharacteristicTemperature(FieldCheck at, IdealGasTermEntry entry, double reducingTemperature) =>
        entry.Temperature is null
            ? at.Positive(entry.ReducedTemperature, "reducedTemperature", string.Empty) * reducingTemperature
            : at.Positive(entry.Temperature, "temperature", "K");

    private static void RequireOnly(FieldCheck at, IdealGasTermEntry entry, params ReadOnlySpan<string> allowed)
    {
        ReadOnlySpan<(double? Value, string Field)> members =
        [
            (entry.Coefficient, "coefficient"),
            (entry.Exponent, "exponent"),
            (entry.Weight, "weight"),
            (entry.Temperature, "temperature"),
            (entry.ReducedTemperature, "reducedTemperature"),
            (entry.DegeneracyRatio, "degeneracyRatio"),
            (entry.Constant, "constant"),
            (entry.Factor, "factor"),
        ];
        foreach ((double? value, string field) in members)
        {
            if (value is not null && !allowed.Contains(field))
            {
                throw at.Broken(field, $"does not belong to a term of kind '{entry.Kind}' in this form");
            }
        }
    }

    private sealed class Translation(double reducingTemperature)
    {
        public double ReducingTemperature => reducingTemperature;

        public ImmutableArray<PublishedIdealGasTerm>.Builder Terms { get; } = ImmutableArray.CreateBuilder<PublishedIdealGasTerm>();

        public ImmutableArray<HeatCapacityTerm>.Builder HeatCapacity { get; } = ImmutableArray.CreateBuilder<HeatCapacityTerm>();

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
