using System.Text;

namespace CryoThermo.Checks.Soak;

/// <summary>One random case: a blend at a temperature and pressure. Immutable.</summary>
public sealed class SoakCase
{
    private static readonly string[] Substances =
    [
        "nitrogen", "argon", "oxygen", "methane", "ethylene", "ethane", "propane", "isobutane", "n-butane", "isopentane", "neon",
    ];

    private static readonly string[] StandardSubstances =
    [
        "nitrogen", "argon", "oxygen", "methane", "carbon monoxide", "ethane", "propane", "isobutane", "n-butane", "isopentane", "n-pentane", "carbon dioxide",
    ];

    private static readonly string[] FurtherSubstances =
    [
        "nitrogen", "argon", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "krypton", "xenon", "R-14", "R-23", "R-116", "R-218",
        "R-32", "R-134a", "nitrous oxide",
    ];

    private static readonly string[] QuantumGases = ["hydrogen", "helium", "neon"];

    private SoakCase(int seed, int number, FluidModel model, (string Substance, double MoleFraction)[] blend, double temperature, double pressure)
    {
        Seed = seed;
        Number = number;
        Blend = blend;
        Temperature = temperature;
        Pressure = pressure;
        Fluid = WorkingFluid.Mixture(blend).WithModel(model);
    }

    /// <summary>Seed of the run.</summary>
    public int Seed { get; }

    /// <summary>Number of the case in the run.</summary>
    public int Number { get; }

    /// <summary>Substances and mole fractions.</summary>
    public IReadOnlyList<(string Substance, double MoleFraction)> Blend { get; }

    /// <summary>K.</summary>
    public double Temperature { get; }

    /// <summary>Pa.</summary>
    public double Pressure { get; }

    /// <summary>The blend with its model.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>
    /// The case of a seed and number: 2 to 8 of eleven substances, uniform on the simplex with traces down to 1e-10 in every third blend,
    /// 65 to 400 K, 100 Pa to 20 MPa uniform in the logarithm; every fourth case with Soave-Redlich-Kwong, the others with Peng-Robinson.
    /// </summary>
    public static SoakCase Create(int seed, int number) => Create(
        seed, number, Substances, random => random.Whole(4) == 0 ? FluidModel.SoaveRedlichKwong : FluidModel.PengRobinson);

    /// <summary>
    /// The same with the multi-fluid model: two of three cases twelve components of the standard under <see cref="FluidModel.MultiFluid"/>, the
    /// others refrigerants under <see cref="FluidModel.Recommended"/>.
    /// </summary>
    public static SoakCase CreateMultiFluid(int seed, int number) => Create(
        seed,
        number,
        number % 3 == 2 ? FurtherSubstances : StandardSubstances,
        _ => number % 3 == 2 ? FluidModel.Recommended : FluidModel.MultiFluid);

    /// <summary>
    /// A case like the others with hydrogen, helium and neon among the substances, at least one of them in each blend, under Peng-Robinson
    /// with quantum corrections; 20 to 400 K.
    /// </summary>
    public static SoakCase WithQuantumGas(int seed, int number)
    {
        SoakCase soak;
        int attempt = 0;
        do
        {
            soak = Create(seed, number + (attempt++ * 10_000_019), [.. Substances.Union(QuantumGases)], _ => FluidModel.PengRobinson);
        }
        while (!soak.Blend.Any(b => QuantumGases.Contains(b.Substance)));

        // Half of the cases as cold as these gases condense.
        double share = (soak.Temperature - 65) / 335;
        double temperature = number % 2 == 0 ? 20 + (80 * share) : soak.Temperature;
        return new(seed, number, FluidModel.PengRobinsonQuantumCorrected, [.. soak.Blend], temperature, soak.Pressure);
    }

    /// <summary>
    /// A blend whose liquid splits more often than not: nitrogen, argon or both and mostly methane beside one to three of ethane, propane,
    /// isobutane, n-butane and isopentane, 75 to 135 K and 0.5 to 60 bar; two of three with a cubic, the others with the multi-fluid model.
    /// </summary>
    public static SoakCase WithTwoLiquids(int seed, int number)
    {
        CaseRandom random = new(seed + 104_729, number);
        List<string> chosen = random.Whole(4) == 0 ? ["nitrogen", "argon"] : [random.Whole(5) == 0 ? "argon" : "nitrogen"];
        if (random.Whole(3) > 0)
        {
            chosen.Add("methane");
        }

        string[] heavy = ["ethane", "propane", "isobutane", "n-butane", "isopentane"];
        int count = 1 + random.Whole(3);
        for (int i = 0; i < count; i++)
        {
            int pick = i + random.Whole(heavy.Length - i);
            (heavy[i], heavy[pick]) = (heavy[pick], heavy[i]);
            chosen.Add(heavy[i]);
        }

        double[] x = new double[chosen.Count];
        random.Simplex(x, 1);
        FluidModel model = random.Whole(3) switch
        {
            0 => FluidModel.PengRobinson,
            1 => FluidModel.SoaveRedlichKwong,
            _ => FluidModel.MultiFluid,
        };
        double temperature = random.Uniform(75, 135);
        double pressure = 5e4 * Math.Pow(120, random.Uniform());
        return new(seed, number, model, [.. x.Select((fraction, i) => (chosen[i], fraction))], temperature, pressure);
    }

    private static SoakCase Create(int seed, int number, string[] substances, Func<CaseRandom, FluidModel> choose)
    {
        CaseRandom random = new(seed, number);
        int count = 2 + random.Whole(7);
        string[] pool = [.. substances];
        for (int i = 0; i < count; i++)
        {
            int pick = i + random.Whole(pool.Length - i);
            (pool[i], pool[pick]) = (pool[pick], pool[i]);
        }

        double[] x = new double[count];
        random.Simplex(x, 1);
        if (random.Whole(3) == 0)
        {
            int traces = 1 + random.Whole(count - 1);
            for (int i = 0; i < traces; i++)
            {
                x[i] = Math.Pow(10, random.Uniform(-10, -2));
            }

            double rest = 1 - x[..traces].Sum();
            double sum = x[traces..].Sum();
            for (int i = traces; i < count; i++)
            {
                x[i] *= rest / sum;
            }
        }

        double temperature = random.Uniform(65, 400);
        double pressure = 1e2 * Math.Pow(2e5, random.Uniform());
        return new(seed, number, choose(random), [.. x.Select((fraction, i) => (pool[i], fraction))], temperature, pressure);
    }

    /// <summary>All inputs, to every digit.</summary>
    public override string ToString()
    {
        StringBuilder text = new();
        text.Append($"seed {Seed} case {Number}: {Fluid.Model.Name}, {Temperature:R} K, {Pressure:R} Pa,");
        foreach ((string substance, double fraction) in Blend)
        {
            text.Append($" {substance} {fraction:R}");
        }

        return text.ToString();
    }
}
