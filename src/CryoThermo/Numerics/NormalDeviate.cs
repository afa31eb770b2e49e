namespace CryoThermo.Numerics;

/// <summary>Normally distributed numbers of mean 0 and deviation 1 (Box, Muller, Ann. Math. Statist. 29 (1958) 610), the same for a seed on every machine.</summary>
internal static class NormalDeviate
{
    /// <summary>The next one; takes two numbers from the generator.</summary>
    public static double Next(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
