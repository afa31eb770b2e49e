using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.IdealGas;

/// <summary>
/// Molar heat capacity, enthalpy and entropy of a pure ideal gas at 101325 Pa, with h = 0 and s = 0 at 298.15 K and 101325 Pa.
/// Immutable, thread-safe, without allocation per call.
/// </summary>
/// <remarks>
/// The integrals are closed forms. With x = u/T and R taken out: power c T^n gives h = c T^(n+1)/(n+1) (n = -1: c ln T) and
/// s = c T^n/n (n = 0: c ln T); an oscillator of weight v gives h = v u / (exp(x) - 1) and s = v [x/(exp(x) - 1) - ln(1 - exp(-x))];
/// a two-level term with degeneracy ratio g gives h = v u q/(1 + q) and s = v [ln(1 + q) + x q/(1 + q)] with q = g exp(-x).
/// Outside its stated range the published form is continued as it stands, which is smooth.
/// </remarks>
internal sealed class IdealGasFunction : IdealGasModel
{
    /// <summary>Molar gas constant, J/(mol K): CODATA 2018, exact.</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>Reference temperature, K, at which h = 0 and s = 0.</summary>
    public const double ReferenceTemperature = 298.15;

    /// <summary>Reference pressure, Pa, at which s = 0.</summary>
    public const double ReferencePressure = 101325;

    private const double LowestTemperature = 1e-3;
    private const double HighestTemperature = 1e5;

    /// <summary>Above this x, exp(-x) vanishes beside any normal number.</summary>
    private const double LargestExponent = 700;

    /// <summary>Below this x, 1 - exp(-x) is taken from its series to keep all digits.</summary>
    private const double SmallestExponent = 1e-2;

    private readonly double gasConstant;
    private readonly string name;
    private readonly IdealGasHeatCapacity form;
    private readonly double constant;
    private readonly PowerTerm[] powerTerms;
    private readonly VibrationTerm[] vibrationTerms;
    private readonly TwoLevelTerm[] twoLevelTerms;
    private readonly double enthalpyOffset;
    private readonly double entropyOffset;

    /// <summary>Takes the ideal-gas heat capacity of a substance.</summary>
    public IdealGasFunction(Substance substance)
        : this(substance.Name, substance.IdealGasHeatCapacity)
    {
    }

    /// <summary>Takes a heat-capacity form.</summary>
    /// <param name="name">The name notes call the substance by.</param>
    /// <param name="form">The form.</param>
    /// <param name="gasConstant">The gas constant to multiply with, J/(mol K): that of the equation of state the form belongs to.</param>
    public IdealGasFunction(string name, IdealGasHeatCapacity form, double gasConstant = GasConstant)
    {
        this.gasConstant = gasConstant;
        this.name = name;
        this.form = form;
        List<PowerTerm> powers = [];
        List<VibrationTerm> vibrations = [];
        List<TwoLevelTerm> twoLevels = [];
        foreach (HeatCapacityTerm term in form.Terms)
        {
            switch (term)
            {
                case PowerTerm { Exponent: 0 } power:
                    constant += power.Coefficient;
                    break;
                case PowerTerm power:
                    powers.Add(power);
                    break;
                case VibrationTerm vibration:
                    vibrations.Add(vibration);
                    break;
                case TwoLevelTerm twoLevel:
                    twoLevels.Add(twoLevel);
                    break;
                default:
                    throw new ArgumentException("The heat capacity holds a term of a kind without an integral here.", nameof(form));
            }
        }

        powerTerms = [.. powers];
        vibrationTerms = [.. vibrations];
        twoLevelTerms = [.. twoLevels];
        Sum(ReferenceTemperature, out _, out enthalpyOffset, out entropyOffset);
    }

    /// <summary>Isobaric molar heat capacity, J/(mol K).</summary>
    /// <param name="temperature">Temperature, K; 0.001 to 100000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside what can be computed.</exception>
    public double HeatCapacity(double temperature)
    {
        Evaluate(temperature, out double heatCapacity, out _, out _);
        return heatCapacity;
    }

    /// <summary>Molar enthalpy, J/mol.</summary>
    /// <param name="temperature">Temperature, K; 0.001 to 100000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside what can be computed.</exception>
    public double Enthalpy(double temperature)
    {
        Evaluate(temperature, out _, out double enthalpy, out _);
        return enthalpy;
    }

    /// <summary>Molar entropy at 101325 Pa, J/(mol K).</summary>
    /// <param name="temperature">Temperature, K; 0.001 to 100000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside what can be computed.</exception>
    public double Entropy(double temperature)
    {
        Evaluate(temperature, out _, out _, out double entropy);
        return entropy;
    }

    /// <summary>Heat capacity, J/(mol K), enthalpy, J/mol, and entropy at 101325 Pa, J/(mol K), at once: one exponential a term.</summary>
    /// <param name="temperature">Temperature, K; 0.001 to 100000.</param>
    /// <param name="heatCapacity">Isobaric molar heat capacity, J/(mol K).</param>
    /// <param name="enthalpy">Molar enthalpy, J/mol.</param>
    /// <param name="entropy">Molar entropy at 101325 Pa, J/(mol K).</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside what can be computed.</exception>
    public override void Evaluate(double temperature, out double heatCapacity, out double enthalpy, out double entropy)
    {
        Guard.InRange(temperature, LowestTemperature, HighestTemperature, "K");
        Sum(temperature, out double cp, out double h, out double s);
        heatCapacity = gasConstant * cp;
        enthalpy = gasConstant * (h - enthalpyOffset);
        entropy = gasConstant * (s - entropyOffset);
    }

    /// <summary>The note a result carries when its temperature lies outside the stated range of the heat capacity; null inside.</summary>
    /// <param name="temperature">Temperature, K.</param>
    public override RangeNote? NoteFor(double temperature) =>
        temperature >= form.LowestTemperature && temperature <= form.HighestTemperature
            ? null
            : new RangeNote(
                $"ideal-gas heat capacity of {name}",
                $"{temperature:G6} K lies outside the stated range of {form.LowestTemperature:G6} to {form.HighestTemperature:G6} K; "
                + "the published form is continued as it stands.");

    private void Sum(double temperature, out double heatCapacity, out double enthalpy, out double entropy)
    {
        double logarithm = Math.Log(temperature);
        double cp = constant;
        double h = constant * temperature;
        double s = constant * logarithm;

        foreach (PowerTerm term in powerTerms)
        {
            double exponent = term.Exponent;
            double value = term.Coefficient * Power(temperature, exponent);
            cp += value;
            h += exponent == -1 ? term.Coefficient * logarithm : value * temperature / (exponent + 1);
            s += value / exponent;
        }

        double inverse = 1 / temperature;
        foreach (VibrationTerm term in vibrationTerms)
        {
            double weight = term.Weight;
            double characteristic = term.CharacteristicTemperature;
            double x = characteristic * inverse;
            if (x > LargestExponent)
            {
                continue;
            }

            double decay = Math.Exp(-x);
            double complement = x < SmallestExponent ? x * (1 - (x / 2 * (1 - (x / 3 * (1 - (x / 4 * (1 - (x / 5)))))))) : 1 - decay;
            double occupation = decay / complement;
            cp += weight * x * x * occupation / complement;
            h += weight * characteristic * occupation;
            s += weight * ((x * occupation) - Math.Log(complement));
        }

        foreach (TwoLevelTerm term in twoLevelTerms)
        {
            double weight = term.Weight;
            double characteristic = term.CharacteristicTemperature;
            double x = characteristic * inverse;
            if (x > LargestExponent)
            {
                continue;
            }

            double population = term.DegeneracyRatio * Math.Exp(-x);
            double upper = population / (1 + population);
            cp += weight * x * x * upper / (1 + population);
            h += weight * characteristic * upper;
            s += weight * (Math.Log(1 + population) + (x * upper));
        }

        heatCapacity = cp;
        enthalpy = h;
        entropy = s;
    }

    /// <summary>The powers of polynomials by multiplication, all others by the general function.</summary>
    private static double Power(double temperature, double exponent) => exponent switch
    {
        1 => temperature,
        2 => temperature * temperature,
        3 => temperature * temperature * temperature,
        _ => Math.Pow(temperature, exponent),
    };
}
