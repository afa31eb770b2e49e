namespace CryoThermo.Substances;

/// <summary>Viscosity, Pa s, or thermal conductivity, W/(m K), of a dilute gas. Immutable and thread-safe.</summary>
internal abstract class DiluteFunction
{
    /// <summary>The value.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="viscosity">Viscosity of the dilute gas, Pa s; 0 when viscosity itself is asked for.</param>
    /// <param name="heatCapacity">Isobaric heat capacity of the ideal gas over the gas constant; likewise.</param>
    public abstract double At(double temperature, double viscosity, double heatCapacity);

    /// <summary>
    /// Reduced collision integral of Lennard-Jones molecules: P. D. Neufeld, A. R. Janzen, R. A. Aziz, J. Chem. Phys. 57 (1972) 1100, without
    /// its oscillating term; 0.06 % for reduced temperatures of 0.3 to 100 (from memory).
    /// </summary>
    /// <param name="reduced">T/(epsilon/k).</param>
    public static double CollisionIntegral(double reduced) =>
        (1.16145 * Math.Pow(reduced, -0.14874)) + (0.52487 * Math.Exp(-0.77320 * reduced)) + (2.16178 * Math.Exp(-2.43787 * reduced));

    /// <summary>scale times a sum of n (T/T_red)^k, over another such sum where given.</summary>
    internal sealed class Powers(double scale, double reducing, CurveTerm[] terms, CurveTerm[] denominator) : DiluteFunction
    {
        public override double At(double temperature, double viscosity, double heatCapacity)
        {
            double ln = Math.Log(temperature / reducing);
            return scale * Sum(terms, ln) / (denominator.Length == 0 ? 1 : Sum(denominator, ln));
        }

        internal static double Sum(CurveTerm[] terms, double ln)
        {
            double sum = 0;
            foreach (CurveTerm term in terms)
            {
                sum += term.Coefficient * Math.Exp(term.Exponent * ln);
            }

            return sum;
        }
    }

    /// <summary>
    /// Kinetic theory, scale sqrt(T) / Omega, with ln Omega a sum of n (ln(T/energy))^k, or without terms the integral of Neufeld et al.
    /// </summary>
    internal sealed class Kinetic(double scale, double energy, CurveTerm[] terms) : DiluteFunction
    {
        public override double At(double temperature, double viscosity, double heatCapacity)
        {
            double reduced = temperature / energy;
            return scale * Math.Sqrt(temperature) / (terms.Length == 0 ? CollisionIntegral(reduced) : Math.Exp(LogarithmSum(terms, Math.Log(reduced))));
        }

        internal static double LogarithmSum(CurveTerm[] terms, double ln)
        {
            double sum = 0;
            foreach (CurveTerm term in terms)
            {
                sum += term.Coefficient * IntegerPower(ln, (int)term.Exponent);
            }

            return sum;
        }

        private static double IntegerPower(double value, int exponent)
        {
            double power = 1;
            for (int i = 0; i < Math.Abs(exponent); i++)
            {
                power *= value;
            }

            return exponent < 0 ? 1 / power : power;
        }
    }

    /// <summary>scale T^exponent exp(sum of n T^k).</summary>
    internal sealed class Exponential(double scale, double exponent, CurveTerm[] terms) : DiluteFunction
    {
        public override double At(double temperature, double viscosity, double heatCapacity)
        {
            double ln = Math.Log(temperature);
            return scale * Math.Exp((exponent * ln) + Powers.Sum(terms, ln));
        }
    }

    /// <summary>One function below a temperature, another above a second one, their linear mean between.</summary>
    internal sealed class Joined(DiluteFunction cold, DiluteFunction warm, double from, double to) : DiluteFunction
    {
        public override double At(double temperature, double viscosity, double heatCapacity)
        {
            double share = Math.Clamp((temperature - from) / (to - from), 0, 1);
            return (share < 1 ? (1 - share) * cold.At(temperature, viscosity, heatCapacity) : 0)
                + (share > 0 ? share * warm.At(temperature, viscosity, heatCapacity) : 0);
        }
    }

    /// <summary>
    /// Conductivity from viscosity: scale eta [translation + (constant + slope energy/T)(cp/R - 5/2)], the form of A. Eucken with a share of the
    /// internal energy, plus powers of the temperature.
    /// </summary>
    internal sealed class FromViscosity(double scale, double translation, double constant, double slope, double energy, double reducing, CurveTerm[] terms)
        : DiluteFunction
    {
        public override double At(double temperature, double viscosity, double heatCapacity) =>
            (scale * viscosity * (translation + ((constant + (slope * energy / temperature)) * (heatCapacity - 2.5))))
                + (terms.Length == 0 ? 0 : Powers.Sum(terms, Math.Log(temperature / reducing)));
    }
}
