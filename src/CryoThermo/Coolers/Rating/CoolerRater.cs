using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>Walks a cooler from warm to cold and finds where its cooling meets a load.</summary>
/// <remarks>
/// At given pressures, flow and composition the cooling of a recuperative throttle cooler never falls as the cold end grows warmer; only what the charge and the throttle do on
/// the way makes it. The walk therefore ends where the cooling no longer covers the leak: no further state is sought below.
/// </remarks>
internal sealed class CoolerRater
{
    private const double WalkTolerance = 5e-4;
    private const double LeastBracket = 0.01;
    private const double FineTolerance = 2e-5;
    private const double PolishedTolerance = 1e-10;
    private const double WarmestBelowWarmEnd = 8;
    private const double Step = 22;
    private const double PreCoolingStep = 12;
    private const double LeastStep = 2;
    private const double Beyond = 1.25;
    private const int MostPoints = 80;
    private const int MostPathPoints = 200;
    private const double NearEnough = 4;

    /// <summary>Tolerance beside a pre-cooler that is a machine, and how well the temperature behind it then fits its own computation, K.</summary>
    private const double PreCooledTolerance = 3e-6;
    private const double PreCooledKelvins = 1e-3;

    /// <summary>How far off it may be at the points of a curve, K.</summary>
    private const double PreCooledFar = 0.2;
    private const int MostClosings = 12;

    private readonly Cooler cooler;
    private readonly CoolerCharge charge;
    private readonly Temperature ambient;
    private readonly CoolerSolver solver;
    private readonly List<CoolerPoint> walked = [];
    private readonly List<string> remarks = [];
    private bool isCutShort;

    public CoolerRater(Cooler cooler, CoolerCharge charge, Temperature ambient)
    {
        this.cooler = cooler;
        this.charge = charge;
        this.ambient = ambient;
        solver = new(cooler, charge, ambient);
    }

    public CoolerRating Rate(double load)
    {
        Walk();
        (double Load, CoolerPoint Warm, CoolerPoint Cold)[] crossings =
        [
            .. Crossings(load).Select(c => (load, c.Warm, c.Cold)),
            .. load > 0 ? Crossings(0).Where(c => Net(c.Warm) > 0).Take(1).Select(c => (0.0, c.Warm, c.Cold)) : [],
        ];
        CoolerState?[] found = new CoolerState?[crossings.Length];
        Exception?[] failures = new Exception?[crossings.Length];
        Parallel.For(0, crossings.Length, i =>
        {
            (double sought, CoolerPoint warm, CoolerPoint cold) = crossings[i];
            try
            {
                CoolerSolver own = solver.Copy();
                found[i] = new(cooler, own, Meet(own, warm, cold, sought), ambient.Kelvins, Net(warm) > sought);
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException or ArgumentException)
            {
                failures[i] = error;
            }
        });
        for (int i = 0; i < crossings.Length; i++)
        {
            if (failures[i] is { } failure)
            {
                remarks.Add(FormattableString.Invariant($"The steady state with {crossings[i].Load:G4} W between {crossings[i].Cold.Cold:F1} and {crossings[i].Warm.Cold:F1} K was not found to the last digits: {failure.Message}"));
            }
        }

        CoolerState[] states = [.. found.Where((f, i) => f is not null && crossings[i].Load.Equals(load)).Select(f => f!)];
        CoolerState? reached = states.FirstOrDefault(s => s.IsStable);
        CoolerState? noLoad = load == 0 ? reached : found.Where((_, i) => crossings[i].Load == 0).FirstOrDefault();
        CoolerObstacle? obstacle = null;
        if (reached is null)
        {
            double most = walked.Max(Net);
            Exception[] lost = [.. failures.Where((f, i) => f is not null && crossings[i].Load.Equals(load)).Select(f => f!)];
            obstacle = lost.Length > 0
                ? lost.All(f => f is CoolerRefusedException { Obstacle: CoolerObstacle.PreCooler }) ? CoolerObstacle.PreCooler : CoolerObstacle.NotFound
                : most < 0 ? CoolerObstacle.NoCooling : most < load ? CoolerObstacle.LoadTooLarge : isCutShort && Net(walked[^1]) > load ? CoolerObstacle.NotFound : null;
            remarks.Add(obstacle switch
            {
                CoolerObstacle.PreCooler => "The pre-cooler does not carry the stream with the load: see above.",
                CoolerObstacle.NotFound when lost.Length == 0 => FormattableString.Invariant($"The cooler carries the load down to {walked[^1].Cold:F1} K; where it no longer does is not told: see above."),
                CoolerObstacle.NotFound => "No steady state with the load is told: see above.",
                CoolerObstacle.NoCooling => FormattableString.Invariant($"Nothing gets cold: the leak is more than the cooling at every cold temperature looked at ({walked[^1].Cold:F1} to {walked[0].Cold:F1} K)."),
                CoolerObstacle.LoadTooLarge => FormattableString.Invariant($"The load of {load:G4} W is more than is left at any cold temperature looked at; the most is {most:G4} W."),
                _ => FormattableString.Invariant($"The cooler carries the load at every cold temperature looked at, down to {walked[^1].Cold:F1} K."),
            });
        }

        return new(
            cooler, charge, ambient, Power.FromWatts(load), states, reached, noLoad, [.. walked.Select(Curve)], obstacle, remarks);
    }

    /// <summary>The circulation at a cold temperature, come to from warm.</summary>
    public CoolerPoint PointAt(double cold, double tolerance)
    {
        CoolerPoint point = Start();
        while (point.Cold - Step > cold)
        {
            point = solver.Solve(point.Cold - Step, point.Guess, point, isCoarse: true, WalkTolerance);
        }

        return Fitted(solver, solver.SolveFrom(cold, point, tolerance), p => solver.SolveFrom(cold, p, PreCooledTolerance));
    }

    /// <summary>Cooling left for the load, W.</summary>
    public double Net(CoolerPoint point) => solver.Net(point);

    /// <summary>The circulations from warm to cold.</summary>
    public IReadOnlyList<CoolerPoint> Walked()
    {
        Walk();
        return walked;
    }

    /// <summary>The circulation at a cold temperature among those walked, to the last digits.</summary>
    /// <param name="cold">K.</param>
    /// <param name="near">One found so before; null for none.</param>
    public CoolerPoint Exact(double cold, CoolerPoint? near)
    {
        CoolerSolver own = solver.Copy();
        if (near is null || Math.Abs(near.Cold - cold) > NearEnough)
        {
            int i = Math.Clamp(walked.FindIndex(p => p.Cold <= cold), 1, walked.Count - 1);
            (CoolerPoint warm, CoolerPoint below) = (walked[i - 1], walked[i]);
            CoolerGuess guess = CoolerSolver.Between(below.Guess, warm.Guess, (cold - below.Cold) / (warm.Cold - below.Cold));
            near = own.Solve(cold, guess, cold - below.Cold < warm.Cold - cold ? below : warm, isCoarse: true, WalkTolerance);
        }

        return Closed(own, own.SolveFrom(cold, near, FineTolerance), null);
    }

    /// <summary>The state of a circulation that the cooler comes back to.</summary>
    public CoolerState StateOf(CoolerPoint point) => new(cooler, solver, point, ambient.Kelvins, isStable: true);

    private void Walk()
    {
        CoolerPoint point = Start();
        walked.Add(point);
        double step = Step;
        double lowest = charge.Fluid.Kernel.LowestTemperature + 5;
        while (walked.Count < MostPoints && Net(point) >= 0 && point.Cold - LeastStep > lowest)
        {
            double next = Math.Max(lowest, point.Cold - Math.Min(step, ToZero()));
            try
            {
                _ = solver.Leak(next);
                point = Renewed(solver.SolveSoon(next, Ahead(next), point, isCoarse: true, WalkTolerance));
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
            {
                if (error is ConvergenceException && Path(next))
                {
                    point = walked[^1];
                    step = LeastStep;
                    continue;
                }

                step *= 0.5;
                if (step < LeastStep)
                {
                    isCutShort = error is ConvergenceException;
                    remarks.Add(FormattableString.Invariant($"Below {point.Cold:F1} K the curve is not followed: {error.Message}"));
                    return;
                }

                continue;
            }

            walked.Add(point);
            step = Math.Min(Step, 1.5 * step);
        }

        if (walked.Count >= MostPoints && Net(point) > 0)
        {
            isCutShort = true;
            remarks.Add(FormattableString.Invariant($"Below {point.Cold:F1} K the curve is not followed: {walked.Count} states on the way are as many as are looked at."));
        }
    }

    // Along the path of circulations where a search at a given cold temperature fails, as far as that temperature; false where it does not get on.
    private bool Path(double cold)
    {
        CoolerPoint from = walked[^1];
        try
        {
            foreach (CoolerPoint point in CirculationPath.Colder(solver.Copy(), from, WalkTolerance))
            {
                _ = solver.Leak(point.Cold);
                walked.Add(point);
                if (point.Cold <= cold || Net(point) < 0 || walked.Count > MostPathPoints)
                {
                    break;
                }
            }
        }
        catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
        {
            // As far as it got.
        }

        return walked[^1] != from;
    }

    // With what the pre-cooler does carried over from far, once more with what it does there.
    private CoolerPoint Renewed(CoolerPoint point)
    {
        PreCooledStream? anew = solver.PreCooledAnew(point);
        point = point with { PreCooled = anew };
        return anew is not null && Math.Abs(anew.Outlet - point.NextWarmEnd) > PreCooledFar
            ? solver.Solve(point.Cold, point.Guess, point, isCoarse: true, WalkTolerance)
            : point;
    }

    // A little beyond where the cooling would no longer cover the leak if it fell on as between the last two points.
    private double ToZero()
    {
        if (walked.Count < 2)
        {
            return Step;
        }

        CoolerPoint last = walked[^1];
        CoolerPoint before = walked[^2];
        double slope = (Net(before) - Net(last)) / (before.Cold - last.Cold);
        return slope > 0 ? Math.Max(LeastStep, Beyond * Net(last) / slope) : Step;
    }

    // The warmest point: without pre-cooler first, whose outlet is not known before the flow is.
    private CoolerPoint Start()
    {
        solver.CheckCharge();
        if (cooler.PreCooling is null)
        {
            return First(solver);
        }

        // A separator is left out on the way: before the pre-cooler works nothing may settle in it.
        CoolerSolver plain = new(cooler.Joined with { PreCooling = null }, charge, ambient);
        CoolerPoint without = First(plain);
        double cooled = solver.WarmEndOf(without);

        // In steps: behind a pre-cooler the high side may hold far more.
        CoolerPoint near = without with { PreCooled = null };
        for (double at = without.Guess.WarmEnd; at > cooled;)
        {
            at = Math.Max(cooled, at - PreCoolingStep);
            CoolerSolver partly = new(cooler.Joined with { PreCooling = PreCooling.To(Temperature.FromKelvins(at)) }, charge, ambient);
            try
            {
                near = partly.SolveSoon(at - WarmestBelowWarmEnd, near.Guess with { WarmEnd = at }, near, isCoarse: true, WalkTolerance) with { PreCooled = null };
            }
            catch (ConvergenceException)
            {
                near = CirculationPath.PreCooled(plain, near, cooled, WarmestBelowWarmEnd, WalkTolerance);
                break;
            }
        }

        for (int attempt = 0; ; attempt++)
        {
            try
            {
                return solver.Solve(cooled - WarmestBelowWarmEnd - (10 * attempt), near.Guess with { WarmEnd = cooled }, near, isCoarse: true, WalkTolerance);
            }
            catch (CoolerRefusedException error) when (error.Obstacle == CoolerObstacle.NoCooling && attempt < 6)
            {
                // The pre-cooler came out colder than expected.
            }
        }
    }

    // The warmest point of a cooler without pre-cooler; where liquid floods it, from one with less of the charge.
    private CoolerPoint First(CoolerSolver own)
    {
        CoolerGuess guess = own.FirstGuess();
        double cold = Math.Min(guess.AfterCooler, ambient.Kelvins) - WarmestBelowWarmEnd;
        try
        {
            return own.Solve(cold, guess, null, isCoarse: true, WalkTolerance);
        }
        catch (ConvergenceException)
        {
            foreach (double share in (double[])[0.3, 0.1, 0.03, 0.01])
            {
                try
                {
                    CoolerSolver little = new(own.Cooler, new(charge.Fluid, share * charge.Amount), ambient);
                    return CirculationPath.Charged(own, little.Evaluate(cold, little.FirstGuess(), null, isFrozen: false, isCoarse: true, isVerified: true), share, WalkTolerance);
                }
                catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
                {
                    // With less.
                }
            }

            throw;
        }
    }

    // Both pressures and composition as they went from the point before.
    private CoolerGuess Ahead(double cold)
    {
        CoolerPoint last = walked[^1];
        if (walked.Count < 2)
        {
            return last.Guess;
        }

        CoolerPoint before = walked[^2];
        double share = Math.Clamp((cold - last.Cold) / (last.Cold - before.Cold), 0, 1);
        return CoolerSolver.Between(last.Guess, before.Guess, -share);
    }

    private IEnumerable<(CoolerPoint Warm, CoolerPoint Cold)> Crossings(double load)
    {
        for (int i = 1; i < walked.Count; i++)
        {
            if (Net(walked[i - 1]) > load != Net(walked[i]) > load)
            {
                yield return (walked[i - 1], walked[i]);
            }
        }
    }

    private CoolerPoint Meet(CoolerSolver own, CoolerPoint warm, CoolerPoint cold, double load)
    {
        double Miss(CoolerPoint point) => Net(point) - load;
        if (warm.PreCooled?.Overload(warm.AfterCooler, warm.Flow) is { } overload && cold.PreCooled?.Overload(cold.AfterCooler, cold.Flow) is not null)
        {
            throw overload;
        }

        double slope = (Net(warm) - Net(cold)) / (warm.Cold - cold.Cold);
        if (slope > 0 && warm.Cold > cold.Cold + LeastBracket)
        {
            double t = Math.Clamp(cold.Cold - (Miss(cold) / slope), cold.Cold + (0.02 * (warm.Cold - cold.Cold)), warm.Cold - (0.02 * (warm.Cold - cold.Cold)));
            CoolerPoint near = t - cold.Cold < warm.Cold - t ? cold : warm;
            try
            {
                // Straight to the load.
                CoolerPoint coarse = own.SolveLoad(t, CoolerSolver.Between(cold.Guess, warm.Guess, (t - cold.Cold) / (warm.Cold - cold.Cold)), near, new(load, slope), isCoarse: true, WalkTolerance);
                if (coarse.Cold >= cold.Cold && coarse.Cold <= warm.Cold)
                {
                    coarse = coarse with { PreCooled = own.PreCooledExactly(coarse) };
                    return Closed(own, own.SolveLoad(coarse.Cold, coarse.Guess, coarse, new(load, slope), isCoarse: false, FineTolerance), new(load, slope));
                }
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException)
            {
                // Along the path.
            }
        }

        CoolerSolver patient = solver.Copy();
        CoolerPoint met = CirculationPath.Meet(patient, warm, load, FineTolerance, WalkTolerance);
        met = met with { PreCooled = patient.PreCooledExactly(met) };
        return Closed(patient, met, new(load, Math.Max(1, met.Gross) / 50));
    }

    /// <summary>A circulation to the last digits, with the pre-cooler's own computation for its stream.</summary>
    private static CoolerPoint Closed(CoolerSolver own, CoolerPoint fine, LoadTarget? target) => Fitted(
        own,
        own.Polish(fine, target, PolishedTolerance),
        p => own.Polish(
            target is { } load ? own.SolveLoad(p.Cold, p.Guess, p, load, isCoarse: false, PreCooledTolerance) : own.SolveFrom(p.Cold, p, PreCooledTolerance), target, PolishedTolerance));

    // Until the pre-cooler, computed for the stream, asks for the outlet taken; on the way what it was carried over with gets better.
    private static CoolerPoint Fitted(CoolerSolver own, CoolerPoint point, Func<CoolerPoint, CoolerPoint> again)
    {
        for (int round = 0; ; round++)
        {
            if (own.PreCooledExactly(point) is not { } exact)
            {
                return point;
            }

            double miss = Math.Abs(exact.Outlet - point.WarmEnd.Temperature.Kelvins);
            point = point with { PreCooled = exact };
            if (miss <= PreCooledKelvins)
            {
                return point;
            }

            if (round == MostClosings)
            {
                throw new ConvergenceException(
                    "pre-cooler of the cooler",
                    FormattableString.Invariant($"cold end {point.Cold:F2} K, pre-cooled to {point.WarmEnd.Temperature.Kelvins:F3} K"),
                    miss,
                    "Change the pre-cooler or the charge a little; two steady states may lie close together there.");
            }

            point = again(point);
        }
    }

    private CoolerCurvePoint Curve(CoolerPoint point) => new(
        Temperature.FromKelvins(point.Cold),
        Power.FromWatts(point.Gross),
        Power.FromWatts(Net(point)),
        Pressure.FromPascals(point.Guess.Low),
        Pressure.FromPascals(point.Guess.High),
        point.Compression.MolarFlow,
        point.Compression.Power,
        point.Compression.Discharge.Temperature,
        point.Fluid.Composition,
        Math.Exp(point.FlowMiss) - 1);
}
