using CryoThermo.EquationsOfState.Cubic;

namespace CryoThermo.Tests.EquationsOfState.Cubic;

/// <summary>Made-up mixtures, once as the library's kernel and once in the plain form of the tests.</summary>
internal sealed record SampleCubics(CubicMixture Kernel, PlainCubic Plain, CubicComponent[] Components, double[] X)
{
    /// <summary>1 to 6 components between a light gas and a light oil, any form, any temperature function, with or without shift.</summary>
    public static SampleCubics Random(Random random, bool shifted)
    {
        int n = random.Next(1, 7);
        bool pengRobinson = random.Next(2) == 0;
        int function = random.Next(pengRobinson ? 4 : 2);
        CubicComponent[] components = new CubicComponent[n];
        PlainComponent[] plain = new PlainComponent[n];
        double[] kij = new double[n * n];
        double[,] plainKij = new double[n, n];
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
            for (int j = 0; j < i; j++)
            {
                double k = 0.3 * (random.NextDouble() - 0.3);
                kij[(i * n) + j] = k;
                kij[(j * n) + i] = k;
                plainKij[i, j] = k;
                plainKij[j, i] = k;
            }

            x[i] = random.NextDouble();
        }

        if (n > 2 && random.Next(4) == 0)
        {
            x[random.Next(n)] = 0;
        }

        double sum = x.Sum();
        CubicForm form = pengRobinson ? CubicForm.PengRobinson : CubicForm.SoaveRedlichKwong;
        return new(new(form, components, kij), new(pengRobinson, plain, plainKij), components, [.. x.Select(v => v / sum)]);
    }
}
