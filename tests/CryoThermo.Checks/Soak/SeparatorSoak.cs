using CryoThermo.Coolers.Rating;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random cold boxes with a phase separator, light gases with heavy ones. Each is solved and held against states of its own, or refused with the reason.
/// </summary>
public static class SeparatorSoak
{
    private const double GasConstant = 8.314462618;

    private static readonly string[] Light = ["nitrogen", "argon", "methane", "R-14", "ethylene", "ethane"];
    private static readonly string[] Heavy = ["propane", "propylene", "isobutane", "n-butane", "n-pentane", "R-134a", "ethane"];

    /// <summary>Of the counts 1 is a state with the cold exchanger as drawn, 2 with it running backwards; every tenth case by the recommended model, the others by Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        bool isRecommended = number % 10 == 9;
        string[] light = Some(random, Light);
        string[] heavy = [.. Some(random, Heavy).Except(light)];
        string[] names = [.. light, .. heavy];
        double[] z = new double[names.Length];
        random.Simplex(z, 1);
        double low = random.Uniform(1, 4);
        double high = random.Uniform(10, 25);
        double warm = random.Uniform(250, 305);
        double lowest = random.Uniform(75, 130);
        double cold = random.Uniform(lowest, warm);
        double warmConductance = Math.Exp(random.Uniform(Math.Log(5), Math.Log(100)));
        double coldConductance = Math.Exp(random.Uniform(Math.Log(5), Math.Log(100)));
        double moles = Math.Exp(random.Uniform(Math.Log(0.005), Math.Log(0.3)));
        string inputs = FormattableString.Invariant(
            $"seed {seed} case {number}: {string.Join(", ", names.Zip(z, (n, x) => FormattableString.Invariant($"{n} {x:R}")))} {(isRecommended ? "recommended" : "Peng-Robinson")}, {low:R} and {high:R} bar, separator {warm:R} K, cold {cold:R} K, lowest {lowest:R} K, UA {warmConductance:R} and {coldConductance:R} W/K, {moles:R} mol/s");
        if (names.Length == 1)
        {
            return new(null, 0, true, 0);
        }

        try
        {
            WorkingFluid fluid = WorkingFluid.Mixture([.. names.Zip(z)]);
            fluid = isRecommended ? fluid : fluid.WithModel(FluidModel.PengRobinson);
            SeparatorCycle cycle = new(
                fluid,
                Pressure.FromBars(low),
                Pressure.FromBars(high),
                Temperature.FromKelvins(warm),
                Temperature.FromKelvins(lowest),
                warmConductance,
                coldConductance,
                MolarFlow.FromMolesPerSecond(moles));
            SeparatorCycleResult result = cycle.At(Temperature.FromKelvins(cold));
            double worst = 0;
            string? wrong = Wrong(result, ref worst) ?? (number % 4 == 0 ? WrongLimits(result) : null);
            return new(wrong is null ? null : $"{inputs}: {wrong}", result.ColdExchangerRunsBackwards ? 2 : 1, false, worst);
        }
        catch (SeparatorRefusedException)
        {
            return new(null, 0, true, 0);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            return new($"{inputs}: {e.GetType().Name} {e.Message}", 0, false, 0);
        }
    }

    /// <summary>What a result claims, recomputed from its temperatures, pressures, compositions and flows; null when all holds.</summary>
    /// <param name="result">The result.</param>
    /// <param name="worst">Raised to the largest error of a balance, over the duty of the warm exchanger.</param>
    public static string? Wrong(SeparatorCycleResult result, ref double worst)
    {
        double whole = result.Cycle.Flow.MolesPerSecond;
        double vapor = result.VaporThrottle.Flow.MolesPerSecond;
        double liquid = result.LiquidThrottle.Flow.MolesPerSecond;
        for (int i = 0; i < result.Cycle.Fluid.Composition.Components.Count; i++)
        {
            double parts = (vapor * result.Cycle.Vapor.Composition.MoleFractions[i]) + (liquid * result.Cycle.Liquid.Composition.MoleFractions[i]);
            double off = Math.Abs(parts - (whole * result.Cycle.Fluid.Composition.MoleFractions[i])) / whole;
            if (!(off < 1e-9))
            {
                return FormattableString.Invariant($"component {i} is off by {off:R} of the flow");
            }
        }

        State arriving = Again(result.Arriving);
        State separatedVapor = Again(result.SeparatedVapor);
        State separatedLiquid = Again(result.SeparatedLiquid);
        State liquidInlet = Again(result.LiquidThrottle.Inlet);
        State behindLiquid = Again(result.BehindLiquidThrottle);
        State between = Again(result.VaporBetween);
        State vaporInlet = Again(result.VaporThrottle.Inlet);
        State behindVapor = Again(result.BehindVaporThrottle);
        State outlet = Again(result.ColdHeadOutlet);
        State back = Again(result.ReturnBeforeMixing);
        State mixed = Again(result.MixedReturn);
        State suction = Again(result.Suction);
        double duty = whole * H(suction, mixed);
        (string Balance, double Off)[] balances =
        [
            ("first law of the box", (whole * H(suction, arriving)) - (double)result.Cooling.Watts),
            ("cold head", (vapor * H(outlet, behindVapor)) - (double)result.Cooling.Watts),
            ("separator", (vapor * H(separatedVapor, arriving)) + (liquid * H(separatedLiquid, arriving))),
            ("warm exchanger", (vapor * H(separatedVapor, between)) + (liquid * H(separatedLiquid, liquidInlet)) - duty),
            ("cold exchanger", vapor * (H(between, vaporInlet) - H(back, outlet))),
            ("liquid throttle", liquid * H(behindLiquid, liquidInlet)),
            ("vapour throttle", vapor * H(behindVapor, vaporInlet)),
            ("mixing", (vapor * H(back, mixed)) + (liquid * H(behindLiquid, mixed))),
        ];
        foreach ((string balance, double off) in balances)
        {
            worst = Math.Max(worst, Math.Abs(off) / duty);
            if (!(Math.Abs(off) <= 1e-9 * duty))
            {
                return FormattableString.Invariant($"{balance} off by {off:R} W of {duty:R} W");
            }
        }

        (string Part, double Made, double Told)[] productions =
        [
            ("separator", (vapor * S(separatedVapor, arriving)) + (liquid * S(separatedLiquid, arriving)), result.EntropyProductionPerSecond.Separation.JoulesPerKelvin),
            (
                "warm exchanger",
                (whole * S(suction, mixed)) - (vapor * S(separatedVapor, between)) - (liquid * S(separatedLiquid, liquidInlet)),
                result.EntropyProductionPerSecond.WarmExchanger.JoulesPerKelvin),
            ("liquid throttle", liquid * S(behindLiquid, liquidInlet), result.EntropyProductionPerSecond.LiquidThrottle.JoulesPerKelvin),
            ("mixing", -(vapor * S(back, mixed)) - (liquid * S(behindLiquid, mixed)), result.EntropyProductionPerSecond.Mixing.JoulesPerKelvin),
            ("cold exchanger", vapor * (S(back, outlet) - S(between, vaporInlet)), result.EntropyProductionPerSecond.ColdExchanger.JoulesPerKelvin),
            ("vapour throttle", vapor * S(behindVapor, vaporInlet), result.EntropyProductionPerSecond.VaporThrottle.JoulesPerKelvin),
        ];
        foreach ((string part, double made, double told) in productions)
        {
            if (!(made >= -1e-6 * whole * GasConstant) || !(Math.Abs(made - told) <= 1e-7 * whole * GasConstant))
            {
                return FormattableString.Invariant($"{part} produces {made:R} W/K, told are {told:R} W/K");
            }
        }

        if (Math.Abs(productions[0].Made) > 1e-7 * whole * GasConstant)
        {
            return FormattableString.Invariant($"the separator produces {productions[0].Made:R} W/K");
        }

        return result.WarmExchanger.Pinch.Approach.Kelvins >= -1e-6 && result.ColdExchanger?.Pinch.Approach.Kelvins is null or >= -1e-6
            ? Crossing(result)
            : FormattableString.Invariant($"approach {result.WarmExchanger.Pinch.Approach.Kelvins:R} and {result.ColdExchanger?.Pinch.Approach.Kelvins:R} K");
    }

    /// <summary>No exchangers give more than perfect ones, and at the lowest temperature the cooling is gone.</summary>
    private static string? WrongLimits(SeparatorCycleResult result)
    {
        SeparatorCycle cycle = result.Cycle;
        double size = 1e-6 * cycle.Flow.MolesPerSecond * GasConstant * 300;
        try
        {
            double greatest = (double)cycle.GreatestCooling(result.ColdTemperature).Watts;
            if (!((double)result.Cooling.Watts <= greatest + size + (2 * cycle.Flow.MolesPerSecond)))
            {
                return FormattableString.Invariant($"{result.Cooling.Watts} W against at most {greatest:R} W");
            }
        }
        catch (SeparatorRefusedException)
        {
            // Perfect exchangers may lead below the temperatures considered where others do not.
        }

        if (cycle.LowestTemperature() is { EndOfSearch: false } lowest)
        {
            double cooling = (double)cycle.At(lowest.Temperature).Cooling.Watts;
            double warmer = Math.Min(lowest.Temperature.Kelvins + 0.5, cycle.Separator.Kelvins);
            double above = (double)cycle.At(Temperature.FromKelvins(warmer)).Cooling.Watts;

            // Isobar and flash differ by up to 1 J/mol in each of the two enthalpies.
            if (!(cooling >= -2 * cycle.Flow.MolesPerSecond && above >= cooling - (2 * cycle.Flow.MolesPerSecond)))
            {
                return FormattableString.Invariant($"lowest {lowest.Temperature.Kelvins:R} K with {cooling:R} W, half a kelvin above {above:R} W");
            }
        }

        return null;
    }

    /// <summary>Both hot streams against the return along the warm exchanger, every temperature by a flash of its own.</summary>
    private static string? Crossing(SeparatorCycleResult result)
    {
        const int Places = 12;
        double share = result.Cycle.VaporShare;
        double warm = result.Cycle.Separator.Kelvins;
        double middle = result.MiddleTemperature.Kelvins;
        double top = (share * result.SeparatedVapor.MolarEnthalpy.JoulesPerMole) + ((1 - share) * result.SeparatedLiquid.MolarEnthalpy.JoulesPerMole);
        for (int i = 0; i <= Places; i++)
        {
            Temperature hot = Temperature.FromKelvins(middle + ((warm - middle) * i / Places));
            double enthalpy = (share * result.Cycle.Vapor.At(hot, result.Cycle.HighPressure).MolarEnthalpy.JoulesPerMole)
                + ((1 - share) * result.Cycle.Liquid.At(hot, result.Cycle.HighPressure).MolarEnthalpy.JoulesPerMole);
            State cold = result.Cycle.Fluid.AtEnthalpy(
                result.Cycle.LowPressure, MolarEnergy.FromJoulesPerMole(result.Suction.MolarEnthalpy.JoulesPerMole - (top - enthalpy)));

            // The isobars err by up to 1 J/mol, which is 0.05 K of a gas.
            if (!(cold.Temperature.Kelvins <= hot.Kelvins + 0.05))
            {
                return FormattableString.Invariant($"the return has {cold.Temperature.Kelvins:R} K where the hot streams have {hot.Kelvins:R} K");
            }
        }

        return null;
    }

    private static string[] Some(CaseRandom random, string[] names)
    {
        int count = 1 + random.Whole(3);
        return [.. Enumerable.Range(0, 30).Select(_ => names[random.Whole(names.Length)]).Distinct().Take(count)];
    }

    private static double H(State a, State b) => (a.MolarEnthalpy - b.MolarEnthalpy).JoulesPerMole;

    private static double S(State a, State b) => (a.MolarEntropy - b.MolarEntropy).JoulesPerMoleKelvin;

    /// <summary>The state anew by temperature and pressure; by pressure and enthalpy where it changes phase within so little that temperature says nothing.</summary>
    private static State Again(State state) => state.IsobaricHeatCapacity is { JoulesPerMoleKelvin: < 1e4 }
        ? state.Fluid.At(state.Temperature, state.Pressure)
        : state.Fluid.AtEnthalpy(state.Pressure, state.MolarEnthalpy);
}
