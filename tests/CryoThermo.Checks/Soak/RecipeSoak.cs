using CryoThermo.Coolers.Charging;
using UnitsNet;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// Random charge recipes: solved, or refused naming the limit. A solved one closes by flashes of its own and its readings give its
/// composition back; a refused one is checked against the limit it names.
/// </summary>
public static class RecipeSoak
{
    private const double BalanceTolerance = 1e-10;

    private static readonly string[] Substances =
    [
        "nitrogen", "argon", "methane", "ethylene", "ethane", "propylene", "propane", "isobutane", "n-butane", "isopentane", "R-14", "R-23", "R-134a", "krypton", "neon", "hydrogen",
    ];

    /// <summary>Of a refused case the limit stands where other kinds have the number of phases: 0 solved, 1 bottle, 2 condensation, 3 amounts or allowed pressure.</summary>
    public static SoakOutcome Run(int seed, int number)
    {
        ChargeRequest request = Create(seed, number, out string inputs);
        if (!ChargeRecipe.TrySolve(request, out ChargeRecipe? recipe, out ChargeRefusal? refusal))
        {
            string? wrong = Wrong(request, refusal);
            return new(
                wrong is null ? null : $"{inputs}: {refusal.Message} But {wrong}",
                refusal.Limit switch
                {
                    ChargeLimit.BottlePressure or ChargeLimit.BottleContents => 1,
                    ChargeLimit.Condensation => 2,
                    _ => 3,
                },
                false,
                0);
        }

        double worst = 0;
        double wanted = 0;
        foreach (ChargeStep step in recipe.Steps)
        {
            WorkingFluid gas = WorkingFluid.Mixture(step.Contents);
            double held = 0;
            foreach (MachineVolume volume in request.Volumes)
            {
                State state = gas.At(volume.Temperature, step.AbsolutePressure);
                if (state.Phases.Count > 1)
                {
                    return new($"{inputs}: after {step.Component.Name} {volume.Name} holds {state.PhaseDescription} at {step.AbsolutePressure.Pascals:R} Pa", 0, false, 0);
                }

                held += volume.Volume.CubicMeters * state.MolarDensity.MolesPerCubicMeter;
            }

            // What was filled and what was there before, by the composition the step reports: the component's amount over its share.
            double share = step.Contents[step.Component.Name];
            double before = request.Residual is { } residual ? Residual(request, residual) * residual.Composition[step.Component.Name] : 0;
            double amount = (step.Amount.Moles + before) / share;
            worst = Math.Max(worst, Math.Abs((held / amount) - 1));
            wanted += step.Amount.Moles;
            if (step.BottlePressure is { } bottle && step.Amount.Moles > 0 && step.AbsolutePressure >= bottle)
            {
                return new($"{inputs}: {step.AbsolutePressure} in the machine, {bottle} in the bottle of {step.Component.Name}", 0, false, 0);
            }
        }

        if (!(worst < BalanceTolerance))
        {
            return new($"{inputs}: amounts close to {worst:E2} only", 0, false, worst);
        }

        if (recipe.Steps.Any(s => !(s.Amount.Moles > 0)))
        {
            return new(null, 0, false, worst);
        }

        ChargeReading[] readings = [.. recipe.Steps.Select((s, i) => new ChargeReading(s.Component.Name, i % 2 == 0 ? s.Gauge : null, i % 2 == 1 ? s.Mass : null))];
        ChargeEstimate estimate = ChargeEstimate.FromReadings(
            request.Wanted, request.Volumes, readings, new() { GaugeReadingShare = 0.01, Weighing = Mass.FromGrams(2) }, request.Residual);
        double miss = estimate.Components.Max(c => Math.Abs(c.MoleFraction - recipe.FinalFluid.Composition[c.Component.Name]));
        return miss < 1e-8
            ? new(null, 0, false, worst)
            : new($"{inputs}: the readings give a composition off by {miss:E2}", 0, false, worst);
    }

    // A refusal must be true of the case.
    private static string? Wrong(ChargeRequest request, ChargeRefusal refusal)
    {
        if (!refusal.Message.StartsWith(
            refusal.Limit switch
            {
                ChargeLimit.BottlePressure => "Bottle pressure:",
                ChargeLimit.BottleContents => "Bottle contents:",
                ChargeLimit.Condensation => "Condensation in the vessel:",
                ChargeLimit.NegativeAmount => "Negative amount:",
                _ => "Allowed pressure:",
            },
            StringComparison.Ordinal))
        {
            return "the message does not name the limit.";
        }

        switch (refusal.Limit)
        {
            case ChargeLimit.BottlePressure:
                return refusal.Reached >= refusal.Allowed ? null : "the bottle gives enough.";
            case ChargeLimit.AllowedPressure:
                return refusal.Reached > request.AllowedPressure ? null : "the pressure is allowed.";
            case ChargeLimit.Condensation:
                return request.Volumes.Any(v => v.Name == refusal.Place) && !(refusal.Allowed > refusal.Reached) ? null : "place or dew pressure is wrong.";
            case ChargeLimit.NegativeAmount:
                return request.Residual is not null ? null : "nothing was in the machine.";
            default:
                return null;
        }
    }

    private static double Residual(ChargeRequest request, ResidualContents residual)
    {
        WorkingFluid gas = WorkingFluid.Mixture(residual.Composition);
        return request.Volumes.Sum(v => v.Volume.CubicMeters * gas.At(v.Temperature, residual.Pressure).MolarDensity.MolesPerCubicMeter);
    }

    private static ChargeRequest Create(int seed, int number, out string inputs)
    {
        CaseRandom random = new(seed, number);
        int count = 1 + random.Whole(6);
        string[] pool = [.. Substances];
        for (int i = 0; i < count; i++)
        {
            int pick = i + random.Whole(pool.Length - i);
            (pool[i], pool[pick]) = (pool[pick], pool[i]);
        }

        double[] x = new double[count];
        random.Simplex(x, 1);
        (string, double)[] blend = [.. x.Select((fraction, i) => (pool[i], fraction))];
        MachineVolume[] volumes = [.. Enumerable.Range(0, 1 + random.Whole(4)).Select(i =>
            new MachineVolume($"space {i + 1}", Volume.FromLiters(Math.Pow(10, random.Uniform(-1, 1.3))), Temperature.FromKelvins(random.Uniform(268, 328))))];
        double pressure = 1e4 * Math.Pow(300, random.Uniform());
        Temperature bottles = Temperature.FromKelvins(random.Uniform(273, 303));
        List<GasBottle> at = [];
        foreach ((string substance, _) in blend)
        {
            if (random.Whole(4) == 0)
            {
                continue;
            }

            double full = random.Uniform(5e5, 2e7);
            WorkingFluid pure = WorkingFluid.Pure(substance);
            at.Add(bottles.Kelvins < pure.Kernel.Equation.CriticalTemperature(0)
                ? GasBottle.Liquefied(substance, bottles)
                : GasBottle.Compressed(substance, bottles, Pressure.FromPascals(full), random.Whole(2) == 0 ? Volume.FromLiters(random.Uniform(1, 20)) : null));
        }

        ResidualContents? residual = random.Whole(4) switch
        {
            0 => ResidualContents.Air(Pressure.FromPascals(Math.Pow(10, random.Uniform(0, 5)))),
            1 => new(Composition.FromMoleFractions((pool[0], 1)), Pressure.FromPascals(Math.Pow(10, random.Uniform(2, 4.8)))),
            _ => null,
        };
        Pressure? allowed = random.Whole(3) == 0 ? Pressure.FromPascals(random.Uniform(1e6, 3e6)) : null;
        inputs = $"seed {seed} case {number}: {string.Join(" ", blend.Select(b => $"{b.Item1} {b.Item2:R}"))}, {string.Join("; ", volumes.Select(v => $"{v.Volume.CubicMeters:R} m3 {v.Temperature.Kelvins:R} K"))}, "
            + $"{pressure:R} Pa, bottles at {bottles.Kelvins:R} K ({string.Join("; ", at)}), residual {residual?.Composition} {residual?.Pressure.Pascals:R} Pa, allowed {allowed?.Pascals:R} Pa";
        return new()
        {
            Wanted = WorkingFluid.Mixture(blend),
            Volumes = volumes,
            LocalAtmosphere = Pressure.FromPascals(random.Uniform(7e4, 1.04e5)),
            FinalPressure = Pressure.FromPascals(pressure),
            Bottles = at,
            Residual = residual,
            AllowedPressure = allowed,
        };
    }
}
