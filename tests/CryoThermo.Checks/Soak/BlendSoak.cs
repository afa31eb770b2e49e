using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random blend problems of at most three components: the answer keeps every limit by states of its own, or the limits in the way are named.
/// </summary>
public static class BlendSoak
{
    private static readonly string[] Pool =
    [
        "nitrogen", "argon", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane", "R-14", "R-23", "R-218", "krypton", "R-134a",
        "oxygen",
    ];

    // What of the pool burns, by ISO 817 (R-23, R-134a, R-14 and R-218 do not).
    private static readonly string[] Fuels = ["methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane"];

    // Boiling temperatures from memory, rounded: they only keep most problems within reach.
    private static readonly (string Name, double BoilingKelvins)[] Light = [("nitrogen", 77), ("argon", 87), ("methane", 112), ("oxygen", 90), ("krypton", 120), ("R-14", 145), ("ethylene", 169)];

    /// <summary>Of the counts 1 is feasible, 2 infeasible; every sixth problem is ranked with the recommended model, the others with Peng-Robinson.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        BlendProblem problem = Create(seed, number);
        bool isRecommended = number % 6 == 5;
        FluidModel model = isRecommended ? FluidModel.Recommended : FluidModel.PengRobinson;
        BlendSearchResult result = BlendSearch.Run(
            problem, new() { Seed = number + 1, Starts = 2, Generations = 10, PopulationFactor = 3, Finalists = 5, RankingModel = model, MostThreads = 1 });
        string inputs = $"seed {seed} case {number}: {problem.ToJson()}";
        if (!result.IsFeasible)
        {
            return new(result.Ranked.Count > 0 && result.Obstacles.Count == 0 ? $"{inputs}: infeasible without a reason" : null, 2, false, 0);
        }

        double worst = 0;
        string? failure = null;
        foreach (BlendEvaluation evaluation in result.Ranked.Take(2))
        {
            failure ??= Wrong(problem, evaluation, isRecommended, ref worst) is { } wrong ? $"{inputs}: {evaluation.Candidate}: {wrong}" : null;
        }

        return new(failure, 1, false, worst);
    }

    private static string? Wrong(BlendProblem problem, BlendEvaluation evaluation, bool isRecommended, ref double worst)
    {
        BlendCandidate candidate = evaluation.Candidate;
        WorkingFluid fluid = candidate.Fluid(problem);
        if (isRecommended && fluid.Composition.Components.Count == 1)
        {
            // Alone the component has another equation than in the blend.
            return null;
        }

        fluid = isRecommended ? fluid : fluid.WithModel(FluidModel.PengRobinson);
        BlendLimits limits = problem.Limits;
        double q = evaluation.CapacityPerMole.JoulesPerMole;
        double cold = problem.ColdTemperature.Kelvins;
        double warm = problem.WarmEnd.Kelvins - problem.LeastApproach.Kelvins;
        for (int i = 0; i <= 60; i++)
        {
            double t = cold + ((warm - cold) * i / 60);
            double difference = fluid.At(Temperature.FromKelvins(t), candidate.LowPressure).MolarEnthalpy.JoulesPerMole
                - fluid.At(Temperature.FromKelvins(t + problem.LeastApproach.Kelvins), candidate.HighPressure).MolarEnthalpy.JoulesPerMole;
            worst = Math.Max(worst, q - difference);

            // Both isobars are exact within 1 J/mol.
            if (difference < q - 2)
            {
                return $"capacity {q:G8} J/mol, but the difference at {t:G6} K is {difference:G8} J/mol";
            }
        }

        if (!(q > 0))
        {
            return $"capacity {q:G6} J/mol";
        }

        if (limits.GreatestPressureRatio is { } ratio && candidate.HighPressure.Pascals / candidate.LowPressure.Pascals > ratio * (1 + 1e-9))
        {
            return "pressure ratio";
        }

        if (limits.MostComponents is { } most && candidate.MoleFractions.Count(x => x > 0) > most)
        {
            return "number of components";
        }

        double fuel = problem.Components.Zip(candidate.MoleFractions).Where(c => Fuels.Contains(c.First.Substance)).Sum(c => c.Second);
        double oxygen = problem.Components.Zip(candidate.MoleFractions).Where(c => c.First.Substance == "oxygen").Sum(c => c.Second);
        if (fuel > 0 && oxygen > 0)
        {
            return $"{fuel:G3} mol/mol of fuel beside {oxygen:G3} mol/mol of oxygen";
        }

        if (limits.LeastInertFraction is { } inert && 1 - fuel < inert - 1e-9)
        {
            return $"inert fraction {1 - fuel:G6}";
        }

        if (limits.FreezingMargin is { } margin)
        {
            Temperature coldest = Temperature.FromKelvins(Math.Max(cold - margin.Kelvins, 60));
            if (fluid.FreezeOut.At(coldest, candidate.LowPressure).Freezes || fluid.FreezeOut.At(coldest, candidate.HighPressure).Freezes)
            {
                return $"freezes at {coldest.Kelvins:G6} K";
            }
        }

        State suction = fluid.At(evaluation.SuctionTemperature, candidate.LowPressure);
        if (problem.Load is { } load)
        {
            // What is left in the clearance expands isentropically to the low pressure.
            BlendCompressor compressor = problem.Compressor!;
            double expansion = fluid.AtEntropy(candidate.HighPressure, suction.MolarEntropy).MolarDensity.MolesPerCubicMeter / suction.MolarDensity.MolesPerCubicMeter;
            double volumetric = compressor.FullVolumetricEfficiency - (compressor.ClearanceShare * (expansion - 1));
            double watts = compressor.SweptVolumeFlow.CubicMetersPerSecond * volumetric * suction.MolarDensity.MolesPerCubicMeter * q;
            if (watts < (double)load.Watts * (1 - 1e-3))
            {
                return $"{watts:G6} W of {(double)load.Watts:G6} W";
            }
        }

        if (limits.GreatestStandingPressure is { } standing)
        {
            State rest = fluid.AtDensity(problem.WarmEnd, Molarity.FromMolesPerCubicMeter(MolesOf(problem, candidate, fluid) / problem.Spaces!.Total.CubicMeters));
            if (rest.Pressure.Pascals > standing.Pascals * (1 + 1e-6))
            {
                return $"{rest.Pressure.Bars:G6} bar at rest, allowed {standing.Bars:G6}";
            }
        }

        if (limits.LeastSuctionSuperheat is { } superheat)
        {
            State nearer = fluid.At(Temperature.FromKelvins(evaluation.SuctionTemperature.Kelvins - superheat.Kelvins + 0.01), candidate.LowPressure);
            if (suction.Phases.Count > 1 || nearer.Phases.Count > 1)
            {
                return $"liquid at {evaluation.SuctionTemperature.Kelvins:G6} K less the superheat";
            }
        }

        if (limits.GreatestDischargeTemperature is { } hottest)
        {
            State reversible = fluid.AtEntropy(candidate.HighPressure, suction.MolarEntropy);
            double work = (reversible.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole) / problem.Compressor!.IsentropicEfficiency;
            State discharge = fluid.AtEnthalpy(candidate.HighPressure, MolarEnergy.FromJoulesPerMole(suction.MolarEnthalpy.JoulesPerMole + work));
            if (discharge.Temperature.Kelvins > hottest.Kelvins + 1e-4)
            {
                return $"discharge at {discharge.Temperature.Kelvins:G8} K";
            }
        }

        if (limits.NoSecondLiquid)
        {
            for (int i = 0; i <= 40; i++)
            {
                Temperature t = Temperature.FromKelvins(cold + ((problem.WarmEnd.Kelvins - cold) * i / 40));
                foreach (Pressure p in (ReadOnlySpan<Pressure>)[candidate.LowPressure, candidate.HighPressure])
                {
                    if (fluid.At(t, p).Phases.Count(phase => phase.Kind != PhaseKind.Vapor) > 1)
                    {
                        return $"two liquids at {t.Kelvins:G6} K, {p.Bars:G6} bar";
                    }
                }
            }
        }

        return null;
    }

    /// <summary>What the spaces hold in the running machine, the recuperator in quarters.</summary>
    private static double MolesOf(BlendProblem problem, BlendCandidate candidate, WorkingFluid fluid)
    {
        MachineSpaces spaces = problem.Spaces!;
        double moles = Held(spaces.WarmLow, problem.WarmEnd, candidate.LowPressure) + Held(spaces.WarmHigh, problem.WarmEnd, candidate.HighPressure)
            + Held(spaces.ColdHead, problem.ColdTemperature, candidate.LowPressure);
        foreach (double share in (ReadOnlySpan<double>)[0.125, 0.375, 0.625, 0.875])
        {
            Temperature t = Temperature.FromKelvins(problem.ColdTemperature.Kelvins + (share * (problem.WarmEnd.Kelvins - problem.ColdTemperature.Kelvins)));
            moles += (Held(spaces.RecuperatorLow, t, candidate.LowPressure) + Held(spaces.RecuperatorHigh, t, candidate.HighPressure)) / 4;
        }

        return moles;

        double Held(Volume space, Temperature t, Pressure p) => space.CubicMeters * fluid.At(t, p).MolarDensity.MolesPerCubicMeter;
    }

    private static BlendProblem Create(int seed, int number)
    {
        CaseRandom random = new(seed, number);
        int count = 1 + random.Whole(3);
        (string lightest, double boiling) = Light[random.Whole(Light.Length)];
        string[] names = [.. Enumerable.Range(0, 60).Select(_ => Pool[random.Whole(Pool.Length)]).Prepend(lightest).Distinct().Take(count)];
        double low = random.Uniform(0.7, 3);
        double high = random.Uniform(8, 30);
        bool freeLow = random.Whole(3) == 0;
        bool freeHigh = random.Whole(3) == 0;
        bool hasCompressor = random.Whole(2) == 0;
        MachineSpaces? spaces = random.Whole(3) == 0
            ? new(Volume.FromLiters(random.Uniform(1, 6)), Volume.FromLiters(0.5), Volume.FromLiters(random.Uniform(0.1, 0.5)), Volume.FromLiters(random.Uniform(0.05, 0.2)), Volume.FromLiters(0.05))
            : null;
        return new()
        {
            Components = [.. names.Select(n => new BlendComponent(n))],
            ColdTemperature = Temperature.FromKelvins(boiling + random.Uniform(0, 70)),
            WarmEnd = Temperature.FromKelvins(random.Uniform(260, 310)),
            LeastLowPressure = Pressure.FromBars(low),
            GreatestLowPressure = Pressure.FromBars(freeLow ? 1.8 * low : low),
            LeastHighPressure = Pressure.FromBars(freeHigh ? Math.Max(0.6 * high, 2 * low) : high),
            GreatestHighPressure = Pressure.FromBars(high),
            LeastApproach = TemperatureDelta.FromKelvins(random.Whole(2) == 0 ? 0 : random.Uniform(0.5, 4)),
            Compressor = hasCompressor ? new(VolumeFlow.FromLitersPerSecond(1), random.Uniform(0.5, 0.9), 0.95, random.Uniform(0, 0.06)) : null,
            Load = hasCompressor && random.Whole(2) == 0 ? Power.FromWatts(random.Uniform(5, 80)) : null,
            Spaces = spaces,
            Limits = new()
            {
                FreezingMargin = random.Whole(3) == 0 ? TemperatureDelta.FromKelvins(random.Uniform(0, 5)) : null,
                GreatestDischargeTemperature = hasCompressor && random.Whole(2) == 0 ? Temperature.FromKelvins(random.Uniform(370, 480)) : null,
                GreatestPressureRatio = random.Whole(3) == 0 ? random.Uniform(5, 20) : null,
                LeastSuctionSuperheat = random.Whole(2) == 0 ? TemperatureDelta.FromKelvins(random.Uniform(0, 15)) : null,
                NoSecondLiquid = random.Whole(4) == 0,
                MostComponents = random.Whole(4) == 0 ? 2 : null,
                LeastInertFraction = random.Whole(6) == 0 ? random.Uniform(0.1, 0.6) : null,
                GreatestStandingPressure = spaces is null ? null : Pressure.FromBars(random.Uniform(3, 15)),
            },
            Goals = [new(random.Whole(2) == 0 ? BlendObjective.CapacityPerMole : BlendObjective.CapacityPerSuctionVolume)],
        };
    }
}
