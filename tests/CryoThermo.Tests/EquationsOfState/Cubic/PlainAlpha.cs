using CryoThermo.Tests.DualNumbers;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

/// <summary>The temperature functions as their publications print them, for any number type; written apart from the library.</summary>
internal abstract class PlainAlpha
{
    /// <summary>a(T)/a(Tc).</summary>
    public abstract T Of<T>(T reduced, bool aboveCritical)
        where T : struct, IScalar<T>;

    protected static T Power<T>(T x, double exponent)
        where T : struct, IScalar<T> => T.Exp(T.Of(exponent) * T.Log(x));

    protected static T Square<T>(T x)
        where T : struct, IScalar<T> => x * x;

    /// <summary>[1 + m (1 - sqrt(Tr))]^2: Soave (1972).</summary>
    public sealed class Soave(double m) : PlainAlpha
    {
        /// <summary>Peng, Robinson (1976): m = 0.37464 + 1.54226 w - 0.26992 w^2.</summary>
        public static Soave PengRobinson1976(double w) => new(0.37464 + (1.54226 * w) - (0.26992 * w * w));

        /// <summary>Robinson, Peng (1978): another cubic in w above 0.491.</summary>
        public static Soave PengRobinson1978(double w) =>
            w <= 0.491 ? PengRobinson1976(w) : new(0.379642 + (1.48503 * w) - (0.164423 * w * w) + (0.016666 * w * w * w));

        /// <summary>Soave (1972): m = 0.480 + 1.574 w - 0.176 w^2.</summary>
        public static Soave RedlichKwong(double w) => new(0.480 + (1.574 * w) - (0.176 * w * w));

        public override T Of<T>(T reduced, bool aboveCritical) => Square(T.Of(1) + (T.Of(m) * (T.Of(1) - T.Sqrt(reduced))));
    }

    /// <summary>
    /// [1 + k (1 - sqrt(Tr))]^2, k = k0 + k1 (1 + sqrt(Tr)) (0.7 - Tr), k0 = 0.378893 + 1.4897153 w - 0.17131848 w^2 + 0.0196554 w^3:
    /// Stryjek, Vera (1986).
    /// </summary>
    public sealed class StryjekVera(double w, double k1) : PlainAlpha
    {
        public override T Of<T>(T reduced, bool aboveCritical)
        {
            T k0 = T.Of(0.378893 + (1.4897153 * w) - (0.17131848 * w * w) + (0.0196554 * w * w * w));
            T root = T.Sqrt(reduced);
            T k = aboveCritical ? k0 : k0 + (T.Of(k1) * (T.Of(1) + root) * (T.Of(0.7) - reduced));
            return Square(T.Of(1) + (k * (T.Of(1) - root)));
        }
    }

    /// <summary>Tr^(N(M-1)) exp[L (1 - Tr^(NM))]: Twu, Bluck, Cunningham, Coon (1991).</summary>
    public sealed class TwuOfSubstance(double l, double m, double n) : PlainAlpha
    {
        public override T Of<T>(T reduced, bool aboveCritical) =>
            Power(reduced, n * (m - 1)) * T.Exp(T.Of(l) * (T.Of(1) - Power(reduced, n * m)));
    }

    /// <summary>
    /// alpha0 + w (alpha1 - alpha0), each Tr^(N(M-1)) exp[L (1 - Tr^(NM))]: Twu, Coon, Cunningham (1995). The constants are
    /// from memory, as the library's are: this checks the algebra, not the constants.
    /// </summary>
    public sealed class Twu(double w, bool pengRobinson) : PlainAlpha
    {
        public override T Of<T>(T reduced, bool aboveCritical)
        {
            (double L, double M, double N)[] sets = (pengRobinson, aboveCritical) switch
            {
                (true, false) => [(0.125283, 0.911807, 1.948150), (0.511614, 0.784054, 2.812520)],
                (true, true) => [(0.401219, 4.963070, -0.2), (0.024955, 1.248089, -8)],
                (false, false) => [(0.141599, 0.919422, 2.496441), (0.500315, 0.799457, 3.291790)],
                (false, true) => [(0.441411, 6.500018, -0.2), (0.032580, 1.289098, -8)],
            };
            T alpha0 = One(reduced, sets[0]);
            return alpha0 + (T.Of(w) * (One(reduced, sets[1]) - alpha0));
        }

        private static T One<T>(T reduced, (double L, double M, double N) c)
            where T : struct, IScalar<T> =>
            Power(reduced, c.N * (c.M - 1)) * T.Exp(T.Of(c.L) * (T.Of(1) - Power(reduced, c.N * c.M)));
    }
}
