using System.Diagnostics;
using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random plausible coolers: blends of two to five components of the usual ladder, compressors, valves and capillaries, recuperators, spaces, leaks and loads of all sizes.
/// Each is rated, its steady state held against states of its own, or refused with the limit named.
/// </summary>
public static class CoolerSoak
{
    private static readonly string[] Ladder = ["nitrogen", "argon", "methane", "ethylene", "ethane", "propane", "isobutane", "n-butane", "isopentane"];

    /// <summary>Of the counts 1 carries its load, 2 carries less and says so; every eighth case by the recommended model, the others by Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        string[] names = [.. Enumerable.Range(0, 30).Select(_ => Ladder[random.Whole(Ladder.Length)]).Distinct().Take(2 + random.Whole(4))];
        double[] z = new double[names.Length];
        random.Simplex(z, 1);
        double shell = Log(random, 0.3, 8);
        double high = Log(random, 0.02, 0.5);
        double cold = Log(random, 0.005, 0.2);
        double standing = random.Uniform(1.2, 10);
        double room = random.Uniform(283, 313);
        double swept = Log(random, 0.05, 2);
        double clearance = random.Whole(2) == 0 ? 0 : random.Uniform(0.005, 0.06);
        double heat = random.Uniform(0, 0.6);
        double conductance = Log(random, 3, 150);
        double drop = random.Whole(2) == 0 ? 0 : random.Uniform(0.01, 0.3);
        double kv = swept * Log(random, 0.002, 0.05);
        bool isCapillary = random.Whole(6) == 0;
        double bore = 0.9 * Math.Sqrt(swept) * random.Uniform(0.6, 1.5);
        double leak = Log(random, 0.3, 10);
        double load = random.Whole(4) == 0 ? 0 : Log(random, 0.5, 30);
        double approach = random.Uniform(2, 12);
        double? preCooled = random.Whole(4) == 0 ? random.Uniform(235, 280) : null;
        bool isRecommended = number % 8 == 7;
        double moles = 1e-3 * (shell + (2 * high) + cold) * standing * 1e5 / (8.314462618 * room);
        string inputs = FormattableString.Invariant(
            $"seed {seed} case {number}: {string.Join(", ", names.Zip(z, (n, x) => FormattableString.Invariant($"{n} {x:R}")))} {(isRecommended ? "recommended" : "Peng-Robinson")}, {moles:R} mol in {shell:R} + 2 x {high:R} + {cold:R} L, room {room:R} K + {approach:R}, {swept:R} L/s clearance {clearance:R} shell {heat:R}, {conductance:R} W/K, drops {drop:R} bar, {(isCapillary ? FormattableString.Invariant($"bore {bore:R} mm") : FormattableString.Invariant($"Kv {kv:R}"))}, leak {leak:R} load {load:R} W, pre-cooled {preCooled:R} K");
        try
        {
            WorkingFluid fluid = WorkingFluid.Mixture([.. names.Zip(z)]);
            fluid = isRecommended ? fluid : fluid.WithModel(FluidModel.PengRobinson);
            Cooler cooler = new(
                new(VolumeFlow.FromLitersPerSecond(swept), new(clearance, 0.02, 0.9), CompressorClass.SmallHermeticReciprocating.Efficiency, heat),
                AfterCooling.WithApproach(TemperatureDelta.FromKelvins(approach)),
                CoolerRecuperator.OfConductance(conductance, Volume.FromLiters(high), Volume.FromLiters(2 * high), Pressure.FromBars(drop), Pressure.FromBars(0.5 * drop)),
                isCapillary ? new Capillary(Length.FromMillimeters(bore), Length.FromMeters(1.5)) : new ControlValve(kv, ValveStyle.Needle),
                [
                    new("shell", Volume.FromLiters(shell), SpacePlace.Suction),
                    new("discharge", Volume.FromLiters(0.3 * high), SpacePlace.Discharge),
                    new("warm", Volume.FromLiters(0.7 * high), SpacePlace.WarmHighSide),
                    new("cold", Volume.FromLiters(cold), SpacePlace.ColdHead),
                ],
                [HeatLeakItem.Known("leak", new(Power.FromWatts(leak), Power.FromWatts(leak), Power.FromWatts(leak)), Source.CommonPractice)])
            {
                PreCooling = preCooled is { } t ? PreCooling.To(Temperature.FromKelvins(t)) : null,
            };
            long start = Stopwatch.GetTimestamp();
            CoolerRating rating = cooler.Rate(new(fluid, AmountOfSubstance.FromMoles(moles)), Temperature.FromKelvins(room), Power.FromWatts(load));
            double seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
            double worst = 0;
            string? wrong = rating.Reached is { } state ? Wrong(rating, state, load, ref worst) : rating.Obstacle is null && rating.Remarks.Count == 0 ? "nothing is told" : null;
            wrong ??= rating.Obstacle == CoolerObstacle.NotFound ? string.Join(" ", rating.Remarks) : seconds > 300 ? FormattableString.Invariant($"{seconds:F0} s") : null;
            return new(wrong is null ? null : $"{inputs}: {wrong}", rating.Reached is null ? 2 : 1, false, worst);
        }
        catch (CoolerRefusedException)
        {
            return new(null, 0, true, 0);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new($"{inputs}: {e.GetType().Name} {e.Message}", 0, false, 0);
        }
    }

    private static double Log(CaseRandom random, double from, double to) => Math.Exp(random.Uniform(Math.Log(from), Math.Log(to)));

    private static string? Wrong(CoolerRating rating, CoolerState state, double load, ref double worst)
    {
        double flow = state.Compression.MolarFlow.MolesPerSecond;
        double power = (double)state.Compression.Power.Watts;
        Dictionary<string, State> again = state.Loop.ToDictionary(p => p.Place, p => Again(p.State));
        double H(string place) => flow * again[place].MolarEnthalpy.JoulesPerMole;
        string warm = state.PreCoolerHeat is null ? "after-cooler outlet" : "pre-cooler outlet";
        double cooling = H("cold head outlet") - H("throttle outlet");
        double exchanged = H("compressor suction") - H("cold head outlet") - (H(warm) - H("throttle inlet"));
        double off = Math.Max(Math.Abs(cooling - (double)(state.NetCooling + state.HeatLeak).Watts), Math.Abs(exchanged)) / power;
        worst = off;
        if (!(off < 1e-5))
        {
            return FormattableString.Invariant($"balance off by {off:G3} of the power");
        }

        double held = 0;
        for (int i = 0; i < rating.Charge.Fluid.Composition.MoleFractions.Count; i++)
        {
            double filled = rating.Charge.Amount.Moles * rating.Charge.Fluid.Composition.MoleFractions[i];
            held = Math.Max(held, Math.Abs(state.Contents.Sum(c => c.Amounts[i].Moles) - filled) / rating.Charge.Amount.Moles);
        }

        if (!(held < 1e-9))
        {
            return FormattableString.Invariant($"contents off by {held:G3} of the charge");
        }

        if (!(Math.Abs((double)state.NetCooling.Watts - load) < 1e-5 * Math.Max(1, load)))
        {
            return FormattableString.Invariant($"net cooling {state.NetCooling.Watts:R} W");
        }

        if (state.ExergyLosses.FirstOrDefault(l => (double)l.Loss.Watts < -1e-5 * power) is { } gain)
        {
            return FormattableString.Invariant($"{gain.Part} gains {-gain.Loss.Watts:R} W of {power:R} W");
        }

        return state.IsStable && state.DischargePressure > state.SuctionPressure && rating.NoLoad?.ColdTemperature.Kelvins - 1e-6 <= state.ColdTemperature.Kelvins
            ? null
            : FormattableString.Invariant($"reached {state.ColdTemperature.Kelvins:R} K, without load {rating.NoLoad?.ColdTemperature.Kelvins:R} K. {string.Join(" ", rating.Remarks)}");
    }

    private static State Again(State state) => state.Phases.Count > 1
        ? state.Fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy)
        : state.Fluid.At(state.Temperature, state.Pressure);
}
