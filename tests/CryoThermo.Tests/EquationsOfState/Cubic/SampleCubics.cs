using CryoThermo.EquationsOfState.Cubic;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

/// <summary>Made-up mixtures, once as the library's kernel and once in the plain form of the tests.</summary>
internal sealed record SampleCubics(CubicMixture Kernel, PlainCubic Plain, CubicComponent[] Components, double[] X)
{
    // L, M, N of helium, neon and hydrogen: Aasen et al., Fluid Phase Equilib. 524 (2020) 112790, from memory.
    private static readonly (double L, double M, double N)[] Twu = [(0.48558, 1.7173, 0.30271), (0.40453, 0.95861, 0.8396), (156.21, -0.0062072, 5.047)];

    /// <summary>
    /// 1 to 6 components between a light gas and a light oil, any form, any temperature function, with or without shift, on request
    /// with covolumes that depend on temperature in two of three components, and on request with binary parameters linear in 1/T in three of
    /// four pairs.
    /// </summary>
    public static SampleCubics Random(Random random, bool shifted, bool quantum = false, bool sloped = false)
    {
        int n = random.Next(1, 7);
        bool pengRobinson = random.Next(2) == 0;
        int function = random.Next(pengRobinson ? 4 : 2);
        CubicComponent[] components = new CubicComponent[n];
        PlainComponent[] plain = new PlainComponent[n];
        double[] kij = new double[n * n];
        double[,] plainKij = new double[n, n];
        double[] slopes = new double[n * n];
        double[,] plainSlopes = new double[n, n];
        double[] x = new double[n];
        for (int i = 0; i < n; i++)
        {
            double tc = 35 + (480 * random.NextDouble());
            double pc = 1.5e6 + (6e6 * random.NextDouble());

            // Acentric factors as they go with critical temperatures: a light gas with that of an oil would have its
            // attraction pass through zero at these temperatures, where the function has left its meaning.
            double w = -0.25 + (0.8 * (tc - 35) / 480) + (0.1 * random.NextDouble());
            double k1 = 0.2 * (random.NextDouble() - 0.5);
            double shift = shifted ? 1e-5 * (random.NextDouble() - 0.5) : 0;
            (AlphaFunction alpha, PlainAlpha plainAlpha) = (pengRobinson, function) switch
            {
                (true, 0) => ((AlphaFunction)SoaveAlpha.PengRobinson1976(tc, w), (PlainAlpha)PlainAlpha.Soave.PengRobinson1976(w)),
                (true, 1) => (SoaveAlpha.PengRobinson1978(tc, w), PlainAlpha.Soave.PengRobinson1978(w)),
                (true, 2) => (new StryjekVeraAlpha(tc, w, k1), new PlainAlpha.StryjekVera(w, k1)),
                (true, _) => (TwuGeneralizedAlpha.PengRobinson(tc, w), new PlainAlpha.Twu(w, true)),
                (false, 0) => (SoaveAlpha.SoaveRedlichKwong(tc, w), PlainAlpha.Soave.RedlichKwong(w)),
                (false, _) => (TwuGeneralizedAlpha.SoaveRedlichKwong(tc, w), new PlainAlpha.Twu(w, false)),
            };
            components[i] = new(tc, pc, w, alpha, shift);
            plain[i] = new(tc, pc, plainAlpha, shift);
            if (quantum && random.Next(3) > 0)
            {
                // Stronger than any of the three gases has it: hydrogen 0.09 and 0.38 of its critical temperature, helium 0.29 and 0.63.
                (double l, double m, double exponent) = Twu[random.Next(Twu.Length)];
                double a = 0.4 * tc * random.NextDouble();
                double b = tc * (0.05 + random.NextDouble());
                components[i] = components[i] with { Alpha = new TwuAlpha(tc, new(l, m, exponent)), Covolume = new(a, b, tc) };
                plain[i] = plain[i] with { Alpha = new PlainAlpha.TwuOfSubstance(l, m, exponent), Covolume = (a, b) };
            }

            for (int j = 0; j < i; j++)
            {
                double k = 0.3 * (random.NextDouble() - 0.3);
                kij[(i * n) + j] = k;
                kij[(j * n) + i] = k;
                plainKij[i, j] = k;
                plainKij[j, i] = k;
                if (sloped && random.Next(4) > 0)
                {
                    double c = 0.2 * (random.NextDouble() - 0.5);
                    slopes[(i * n) + j] = c;
                    slopes[(j * n) + i] = c;
                    plainSlopes[i, j] = c;
                    plainSlopes[j, i] = c;
                }
            }

            x[i] = random.NextDouble();
        }

        if (n > 2 && random.Next(4) == 0)
        {
            x[random.Next(n)] = 0;
        }

        double sum = x.Sum();
        CubicForm form = pengRobinson ? CubicForm.PengRobinson : CubicForm.SoaveRedlichKwong;
        return new(
            new(form, components, kij, inverseTemperatureCoefficients: slopes), new(pengRobinson, plain, plainKij, plainSlopes), components, [.. x.Select(v => v / sum)]);
    }
}
