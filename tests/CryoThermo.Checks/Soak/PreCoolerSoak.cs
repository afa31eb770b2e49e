using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random pre-coolers: pure refrigerants and blends of two, condensers of all sizes against air and water, streams of blends and pure gases. Each is solved, and held
/// against states of its own, or refused with the reason.
/// </summary>
public static class PreCoolerSoak
{
    private static readonly string[] Refrigerants = ["propane", "isobutane", "n-butane", "propylene", "R-134a", "ethane", "R-23"];
    private static readonly string[] Streams = ["nitrogen", "argon", "methane", "ethane", "propane", "isobutane"];

    /// <summary>Of the counts 1 is with a pure refrigerant, 2 with a blend; every third case by the recommended model, the others by Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        bool isRecommended = number % 3 == 2;
        string first = Refrigerants[random.Whole(Refrigerants.Length)];
        string second = Refrigerants[random.Whole(Refrigerants.Length)];
        double share = random.Uniform(0.1, 0.9);
        bool isBlend = first != second && random.Whole(2) == 0;
        string[] names = [.. Enumerable.Range(0, 20).Select(_ => Streams[random.Whole(Streams.Length)]).Distinct().Take(1 + random.Whole(4))];
        double[] z = new double[names.Length];
        random.Simplex(z, 1);
        double streamKelvins = random.Uniform(230, 330);
        double streamBars = Math.Exp(random.Uniform(Math.Log(2), Math.Log(25)));
        double moles = Math.Exp(random.Uniform(Math.Log(0.003), Math.Log(3)));
        double medium = random.Uniform(275, 315);
        double swept = Math.Exp(random.Uniform(Math.Log(0.03), Math.Log(3)));
        double clearance = random.Uniform(0, 0.06);
        double shell = random.Uniform(0, 0.5);
        double evaporator = Math.Exp(random.Uniform(Math.Log(1), Math.Log(300)));
        double condenser = Math.Exp(random.Uniform(Math.Log(5), Math.Log(500)));
        bool isWater = random.Whole(2) == 0;
        double superheat = random.Uniform(0, 15);
        double subcooling = random.Whole(3) == 0 ? 0 : random.Uniform(0, 8);
        double loss = random.Whole(3) == 0 ? random.Uniform(0, 0.5) : 0;
        string inputs = FormattableString.Invariant(
            $"seed {seed} case {number}: {(isBlend ? FormattableString.Invariant($"{first} {share:R} {second}") : first)} {(isRecommended ? "recommended" : "Peng-Robinson")}, stream {string.Join(", ", names.Zip(z, (n, x) => FormattableString.Invariant($"{n} {x:R}")))} {streamKelvins:R} K {streamBars:R} bar {moles:R} mol/s, medium {medium:R} K, {swept:R} L/s clearance {clearance:R} shell {shell:R}, UA {evaporator:R} and {condenser:R} W/K {(isWater ? "water" : "air")}, superheat {superheat:R}, subcooling {subcooling:R}, loss {loss:R} bar");
        try
        {
            WorkingFluid refrigerant = isBlend ? WorkingFluid.Mixture((first, share), (second, 1 - share)) : WorkingFluid.Pure(first);
            WorkingFluid fluid = names.Length == 1 ? WorkingFluid.Pure(names[0]) : WorkingFluid.Mixture([.. names.Zip(z)]);
            if (!isRecommended)
            {
                refrigerant = refrigerant.WithModel(FluidModel.PengRobinson);
                fluid = fluid.WithModel(FluidModel.PengRobinson);
            }

            State stream = fluid.At(Temperature.FromKelvins(streamKelvins), Pressure.FromBars(streamBars));
            if (stream.HasUnresolvedPhase)
            {
                return new(null, 0, true, 0);
            }

            Pressure drop = Pressure.FromBars(loss);
            VolumeFlow fan = VolumeFlow.FromCubicMetersPerSecond(condenser / 300);
            AmbientCooler rejecting = isWater
                ? AmbientCooler.ByWater(condenser, MassFlow.FromKilogramsPerSecond(condenser / 2000), drop)
                : AmbientCooler.ByAir(new(Power.FromWatts(10 * condenser), Temperature.FromKelvins(310), Temperature.FromKelvins(300), fan), fan, drop);
            PreCooler machine = new(
                refrigerant,
                new(VolumeFlow.FromLitersPerSecond(swept), new(clearance, 0.02, 0.9), CompressorClass.SmallHermeticReciprocating.Efficiency, shell),
                rejecting,
                evaporator,
                TemperatureDelta.FromKelvins(superheat),
                TemperatureDelta.FromKelvins(subcooling));
            PreCoolerResult result = machine.Cool(stream, MolarFlow.FromMolesPerSecond(moles), Temperature.FromKelvins(medium));
            double worst = 0;
            string? wrong = Wrong(machine, result, moles, ref worst);
            return new(wrong is null ? null : $"{inputs}: {wrong}", isBlend ? 2 : 1, false, worst);
        }
        catch (PreCoolerRefusedException)
        {
            return new(null, 0, true, 0);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new($"{inputs}: {e.GetType().Name} {e.Message}", 0, false, 0);
        }
    }

    private static string? Wrong(PreCooler machine, PreCoolerResult result, double moles, ref double worst)
    {
        const double gasConstant = 8.314462618;
        double flow = result.Compression.MolarFlow.MolesPerSecond;
        double duty = (double)result.Duty.Watts;
        double given = moles * (result.StreamInlet.MolarEnthalpy - Again(result.StreamOutlet).MolarEnthalpy).JoulesPerMole;
        double taken = flow * (Again(result.Compression.Suction).MolarEnthalpy - Again(result.Condensing.Outlet).MolarEnthalpy).JoulesPerMole;
        double off = Math.Max(Math.Abs(given - taken), Math.Abs(duty - taken)) / duty;
        worst = Math.Max(worst, off);
        if (!(off < 1e-6))
        {
            return FormattableString.Invariant($"duty {duty:R}, given {given:R}, taken {taken:R} W");
        }

        double power = (double)result.Compression.Power.Watts;
        double left = (double)result.Condensing.Duty.Watts + (double)result.Compression.ShellHeat.Watts;
        if (Math.Abs(duty + power - left) > 1e-6 * left)
        {
            return FormattableString.Invariant($"{duty:R} and {power:R} W come, {left:R} W leave");
        }

        (string Part, double Made, double Least)[] parts =
        [
            ("compressor", result.CompressorEntropyProductionPerSecond.JoulesPerKelvin, flow),
            ("condenser", result.Condensing.EntropyProductionPerSecond.JoulesPerKelvin, flow),
            ("throttle", result.ThrottleEntropyProductionPerSecond.JoulesPerKelvin, flow),
            ("evaporator", result.EvaporatorEntropyProductionPerSecond.JoulesPerKelvin, flow + moles),
        ];
        foreach ((string part, double made, double size) in parts)
        {
            if (!(made >= -1e-6 * size * gasConstant))
            {
                return FormattableString.Invariant($"{part} produces {made:R} W/K");
            }
        }

        double conductance = result.Evaporator.ConductanceWattsPerKelvin / machine.EvaporatorConductanceWattsPerKelvin;
        return conductance < 1 + 1e-3
            && (conductance > 1 - 1e-3 || result.Evaporator.Pinch.Approach.Kelvins < 0.02)
            && result.Evaporator.Pinch.Approach.Kelvins >= -1e-6
            && result.CondensingPressure > result.EvaporatingPressure
            && result.Compression.Suction.VaporFraction == 1
            && result.Condensing.Outlet.VaporFraction == 0
            ? null
            : FormattableString.Invariant($"evaporator {conductance:R} of its conductance, {result.Evaporator.Pinch.Approach.Kelvins:R} K, suction {result.Compression.Suction}, liquid {result.Condensing.Outlet}");
    }

    /// <summary>The state anew: by temperature and pressure where it has one phase, by pressure and enthalpy on a boiling line, where temperature says nothing.</summary>
    private static State Again(State state) => state.VaporFraction is > 0 and < 1 || state.Phases.Count > 1
        ? state.Fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy)
        : state.Fluid.At(state.Temperature, state.Pressure);
}
