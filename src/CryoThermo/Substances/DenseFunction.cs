namespace CryoThermo.Substances;

/// <summary>
/// Viscosity, Pa s, or thermal conductivity, W/(m K), of the dense gas and the liquid, given that of the dilute gas. Immutable and thread-safe.
/// </summary>
internal abstract class DenseFunction
{
    /// <summary>The value.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="molarDensity">mol/m3, greater than zero and less than <see cref="HighestMolarDensity"/>.</param>
    /// <param name="dilute">The value of the dilute gas.</param>
    public abstract double At(double temperature, double molarDensity, double dilute);

    /// <summary>Density at which the form diverges, mol/m3; infinite for most.</summary>
    public virtual double HighestMolarDensity(double temperature) => double.PositiveInfinity;

    /// <summary>Second virial coefficient of the viscosity over that of the dilute gas, m3/mol: volume times a sum of n (T/energy)^k.</summary>
    internal sealed class InitialDensity(double volume, double energy, CurveTerm[] terms)
    {
        public double At(double temperature) => volume * DiluteFunction.Powers.Sum(terms, Math.Log(temperature / energy));
    }

    /// <summary>scale times a sum of terms, over 1 plus another such sum where given, added to the dilute gas.</summary>
    internal sealed class Powers(double scale, double temperature, double molarDensity, TransportTerm[] terms, TransportTerm[] denominator)
        : DenseFunction
    {
        public double ReducingTemperature => temperature;

        public double ReducingMolarDensity => molarDensity;

        public override double At(double t, double density, double dilute) => dilute + Residual(t, density);

        /// <summary>Where the denominator, whose terms are straight in density, vanishes.</summary>
        public override double HighestMolarDensity(double t)
        {
            double slope = denominator.Length == 0 ? 0 : TransportTerm.Sum(denominator, Math.Log(t / temperature), 0, 1);
            return slope < 0 ? -molarDensity / slope : double.PositiveInfinity;
        }

        public double Residual(double t, double density)
        {
            double delta = density / molarDensity;
            double lnT = Math.Log(t / temperature);
            double lnDelta = Math.Log(delta);
            double sum = scale * TransportTerm.Sum(terms, lnT, lnDelta, delta);
            return denominator.Length == 0 ? sum : sum / (1 + TransportTerm.Sum(denominator, lnT, lnDelta, delta));
        }
    }

    /// <summary>
    /// Initial density dependence, powers, and a free-volume term that diverges at the close-packed density g1 (1 + g2 sqrt(T/T_red)):
    /// the form of E. Vogel et al., J. Phys. Chem. Ref. Data 27 (1998) 947.
    /// </summary>
    internal sealed class FreeVolume(Powers powers, InitialDensity initial, double coefficient, double packing, double packingSlope) : DenseFunction
    {
        public override double HighestMolarDensity(double temperature) =>
            Math.Min(powers.ReducingMolarDensity * Packing(temperature), powers.HighestMolarDensity(temperature));

        public override double At(double temperature, double molarDensity, double dilute)
        {
            double delta = molarDensity / powers.ReducingMolarDensity;
            double packed = Packing(temperature);
            return (dilute * (1 + (initial.At(temperature) * molarDensity)))
                + powers.Residual(temperature, molarDensity)
                + (coefficient * ((delta / (packed - delta)) - (delta / packed)));
        }

        private double Packing(double temperature) => packing * (1 + (packingSlope * Math.Sqrt(temperature / powers.ReducingTemperature)));
    }

    /// <summary>
    /// Initial density dependence and c1 r^2 exp(c2 t + c3/t + c4 r^2/(c5 + t) + c6 r^6): the form of C. D. Muzny et al., J. Chem. Eng. Data 58
    /// (2013) 969. r and t are density and temperature over those of the scale.
    /// </summary>
    internal sealed class SymbolicFit(double temperature, double molarDensity, double[] c, InitialDensity initial) : DenseFunction
    {
        public override double At(double t, double density, double dilute)
        {
            double reduced = t / temperature;
            double square = density / molarDensity * (density / molarDensity);
            double exponent = (c[1] * reduced) + (c[2] / reduced) + (c[3] * square / (c[4] + reduced)) + (c[5] * square * square * square);
            return (dilute * (1 + (initial.At(t) * density))) + (c[0] * square * Math.Exp(exponent));
        }
    }

    /// <summary>
    /// exp(j1 + j4/T) {exp[rho^0.1 (j2 + j3/T^1.5) + (rho/rhoc - 1) rho^0.5 (j5 + j6/T + j7/T^2)] - 1} with rho in g/cm3: the form of
    /// H. J. M. Hanley, R. D. McCarty, W. M. Haynes, Cryogenics 15 (1975) 413.
    /// </summary>
    internal sealed class MassDensityExponential(double scale, double molarMass, double criticalDensity, double[] j) : DenseFunction
    {
        public override double At(double temperature, double molarDensity, double dilute)
        {
            double density = molarDensity * molarMass * 1e-3;
            double theta = (density / criticalDensity) - 1;
            double exponent = (Math.Pow(density, 0.1) * (j[1] + (j[2] / (temperature * Math.Sqrt(temperature)))))
                + (theta * Math.Sqrt(density) * (j[4] + (j[5] / temperature) + (j[6] / (temperature * temperature))));
            return dilute + (scale * Math.Exp(j[0] + (j[3] / temperature)) * (Math.Exp(exponent) - 1));
        }
    }

    /// <summary>
    /// Dilute gas and a liquid of free volume, weighted by density, with a bump at the critical point: the form of Z. Shan, S. G. Penoncello,
    /// R. T Jacobsen, ASHRAE Trans. 106 (2000) 757.
    /// </summary>
    internal sealed class GasAndLiquid(GasAndLiquid.Constants c) : DenseFunction
    {
        public override double HighestMolarDensity(double temperature) => c.LimitingDensity;

        public override double At(double temperature, double molarDensity, double dilute)
        {
            double share = molarDensity / c.LimitingDensity;
            double free = c.LimitingDensity - molarDensity;
            double liquid = c.Coefficient * c.LimitingDensity * c.LimitingDensity / free * Math.Sqrt(temperature)
                * Math.Exp(molarDensity / free * c.ActivationTemperature / temperature);
            double bump = c.Maximum
                / (Math.Cosh((molarDensity - c.CriticalDensity) / c.DensityWidth) * Math.Cosh((temperature - c.CriticalTemperature) / c.TemperatureWidth));
            return (Math.Pow(1 - share, c.Exponent) * dilute) + (Math.Pow(share, c.Exponent) * liquid) + bump;
        }

        /// <summary>Constants, SI; the coefficient in Pa s or W/(m K) per (mol/m3) K^0.5.</summary>
        internal sealed record Constants(
            double Exponent,
            double Coefficient,
            double ActivationTemperature,
            double LimitingDensity,
            double Maximum,
            double CriticalTemperature,
            double CriticalDensity,
            double TemperatureWidth,
            double DensityWidth);
    }

    /// <summary>
    /// cold (exp(sum) - 1) added to the dilute gas, the sum over n (ln T)^t rho^d with rho in g/cm3: the form of V. D. Arp, R. D. McCarty,
    /// D. G. Friend, NIST Technical Note 1334 (1998). The logarithm stops at a highest temperature.
    /// </summary>
    internal sealed class LogarithmicExponential(DiluteFunction cold, double molarMass, double highest, TransportTerm[] terms) : DenseFunction
    {
        public override double At(double temperature, double molarDensity, double dilute)
        {
            double density = molarDensity * molarMass * 1e-3;
            double sum = TransportTerm.Sum(terms, Math.Log(Math.Log(Math.Min(temperature, highest))), Math.Log(density), density);
            return dilute + (cold.At(temperature, 0, 0) * (Math.Exp(sum) - 1));
        }
    }
}
