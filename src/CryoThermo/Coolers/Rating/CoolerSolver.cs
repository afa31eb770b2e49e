using CryoThermo.Diagnostics;
using CryoThermo.Machines;
using CryoThermo.Numerics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// Finds the circulation of a cooler at a cold temperature: both pressures and the circulating composition at which throttle and compressor carry the same flow and the
/// spaces hold the charge. States are taken at a guess; from how their flows and contents move with the pressures follows the next.
/// </summary>
/// <remarks>
/// What a space holds of a component in gas goes as its mole fraction and the pressure, in liquid as its mole fraction; the flow of the compressor as the suction pressure
/// and the filling of its cylinder; that of the throttle as a power of the high pressure. What these leave out is learned from step to step.
/// </remarks>
internal sealed class CoolerSolver
{
    /// <summary>Suction pressure below which a charge counts as too small, Pa.</summary>
    public const double LowestSuction = 2000;

    /// <summary>Discharge over suction pressure below which the throttle counts as too wide.</summary>
    public const double LeastRatio = 1.02;

    /// <summary>Of a state on fine isobars: what flows, contents or temperatures may miss where none closer is found.</summary>
    public const double Settled = 1e-4;

    private const int MostRounds = 80;

    /// <summary>States that one search of a rating may take, those with a second liquid counted as several: hard ones take some hundreds.</summary>
    private const int MostEvaluations = 1500;
    private const int CrowdedState = 8;
    private const int MostRetreats = 14;
    private const int MostClosings = 6;
    private const int ClosingsCarried = 4;
    private const double MostStep = 0.6;

    /// <summary>How well the flow of a throttle is known by its own computation, relative.</summary>
    private const double ThrottleTolerance = 1e-5;
    private const double TemperatureScale = 50;

    /// <summary>Of the points of a curve: what flows, contents or temperatures may miss where no circulation closer is found.</summary>
    private const double PassedOver = 3e-3;

    /// <summary>Rounds without a better state after which the search begins again, or is given up.</summary>
    private const int MostWorse = 4;

    private readonly Cooler cooler;
    private readonly CoolerCharge charge;
    private readonly WorkingFluid charged;
    private readonly double[] amounts;
    private readonly double total;
    private readonly double room;
    private readonly CoolerCircuit circuit;
    private readonly SecantSystem secants;
    private int evaluations;

    public CoolerSolver(Cooler cooler, CoolerCharge charge, Temperature ambient)
    {
        this.cooler = cooler;
        this.charge = charge;
        charged = charge.Fluid;
        total = charge.Amount.Moles;
        amounts = [.. charged.Composition.MoleFractions.Select(z => z * total)];
        room = ambient.Kelvins;
        circuit = CoolerCircuit.Of(cooler, charge, room);
        secants = new(Unknowns);
    }

    /// <summary>States, flows and contents at a guess.</summary>
    public CoolerCircuit Circuit => circuit;

    /// <summary>The cooler.</summary>
    public Cooler Cooler => cooler;

    /// <summary>The room, K.</summary>
    public double Room => room;

    /// <summary>The charge by component, mol.</summary>
    public double[] Amounts => amounts;

    /// <summary>Another with what this has learned, for a thread of its own.</summary>
    public CoolerSolver Copy()
    {
        CoolerSolver copy = new(cooler, charge, Temperature.FromKelvins(room));
        copy.secants.CopyFrom(secants);
        return copy;
    }

    /// <summary>Heat that leaks into the cold head, W.</summary>
    /// <exception cref="CoolerRefusedException">It is not known so cold.</exception>
    public double Leak(double cold)
    {
        try
        {
            return cold < room - 1e-6
                ? cooler.LeakFactor * cooler.Leaks.Sum(l => l.Between(Temperature.FromKelvins(cold), Temperature.FromKelvins(room)).Nominal)
                : 0;
        }
        catch (ArgumentException error)
        {
            throw CoolerRefusedException.Of(error, CoolerObstacle.LeakNotKnown, FormattableString.Invariant($"The heat leak is not known with the cold head at {cold:F1} K and the room at {room:F1} K: "));
        }
    }

    /// <summary>Cooling left for the load, W.</summary>
    public double Net(CoolerPoint point) => (cooler.CoolingFactor * point.Gross) - Leak(point.Cold);

    /// <summary>Amounts, mol, that the spaces hold in a state taken as it is.</summary>
    public double[] ContentsAt(double cold, CoolerGuess guess)
    {
        CoolerPoint point = Evaluate(cold, guess, null, isFrozen: false, isCoarse: false, isVerified: true);
        return [.. Enumerable.Range(0, amounts.Length).Select(i => point.Fillings.Sum(f => f.Moles(i)))];
    }

    /// <summary>Temperature to which the pre-cooler brings the stream of a circulation found without it, K.</summary>
    public double WarmEndOf(CoolerPoint without) =>
        cooler.PreCooling is { } pre ? CoolerCircuit.PreCooled(() => pre.Cool(without.AfterCooler, without.Flow, room, null)).Outlet : without.Guess.AfterCooler;

    /// <summary>What the pre-cooler makes of the stream, computed where that takes little; null without one.</summary>
    public PreCooledStream? PreCooledAnew(CoolerPoint point) => point.PreCooled is { } cooled ? CoolerCircuit.PreCooled(() => cooled.Renewed(point.AfterCooler, point.Flow)) : null;

    /// <summary>What the pre-cooler makes of the stream, computed; null without one.</summary>
    /// <exception cref="CoolerRefusedException">The pre-cooler has no steady state with the stream.</exception>
    /// <exception cref="ConvergenceException">None was found.</exception>
    public PreCooledStream? PreCooledExactly(CoolerPoint point) =>
        point.PreCooled is { } cooled ? CoolerCircuit.PreCooled(() => cooled.Exactly(point.AfterCooler, point.Flow, point.WarmEnd.Temperature.Kelvins)) : null;

    /// <summary>Refuses a charge that the machine at rest holds at no pressure to run with.</summary>
    public void CheckCharge()
    {
        double volume = cooler.TotalVolume;
        if (!charged.TryAtDensity(Temperature.FromKelvins(room), Molarity.FromMolesPerCubicMeter(total / volume), out State? standing))
        {
            throw new CoolerRefusedException(
                CoolerObstacle.ChargeTooLarge, FormattableString.Invariant($"{total:G4} mol do not fit into {1000 * volume:G4} L: the model has no pressure for them at {room:F1} K. Fill less, or add a buffer."));
        }

        double pressure = standing.Pressure.Pascals;
        if (pressure < 2 * LowestSuction)
        {
            throw new CoolerRefusedException(
                CoolerObstacle.ChargeTooSmall,
                FormattableString.Invariant($"{total:G4} mol in {1000 * volume:G4} L stand at {pressure / 1e5:G3} bar absolute; the suction would fall below {LowestSuction / 1e5:G3} bar. Fill more."));
        }

        if (pressure > 0.5 * charged.Kernel.HighestPressure)
        {
            throw new CoolerRefusedException(
                CoolerObstacle.ChargeTooLarge, FormattableString.Invariant($"{total:G4} mol in {1000 * volume:G4} L stand at {pressure / 1e5:G4} bar absolute at {room:F1} K. Fill less, or add a buffer."));
        }
    }

    /// <summary>A first guess from the volumes alone.</summary>
    public CoolerGuess FirstGuess()
    {
        double standing = total * SubstanceReader.GasConstant * room / cooler.TotalVolume;
        double low = Math.Clamp(0.5 * standing, 2 * LowestSuction, 0.02 * charged.Kernel.HighestPressure);
        double high = Math.Min(6 * low, 0.1 * charged.Kernel.HighestPressure);
        double after = room + 5;
        double flow = cooler.Compressor.SweptVolumeFlow.CubicMetersPerSecond * 0.6 * low / (SubstanceReader.GasConstant * room);
        return circuit.Started(new(low, high, [.. charged.Composition.MoleFractions], flow, after, after));
    }

    /// <summary>The circulation at a cold temperature.</summary>
    /// <param name="cold">K.</param>
    /// <param name="first">A guess.</param>
    /// <param name="near">A circulation nearby; null for none.</param>
    /// <param name="isCoarse">Whether coarse isobars are enough.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="CoolerRefusedException">The cooler does not run so.</exception>
    /// <exception cref="ConvergenceException">No circulation was found.</exception>
    public CoolerPoint Solve(double cold, CoolerGuess first, CoolerPoint? near, bool isCoarse, double tolerance)
    {
        if (near is null)
        {
            return Iterate(cold, first, near, null, isCoarse, tolerance, isBrief: false);
        }

        try
        {
            return SolveSoon(cold, first, near, isCoarse, tolerance);
        }
        catch (ConvergenceException)
        {
            return CirculationPath.To(this, near, cold, tolerance);
        }
    }

    /// <summary>The circulation at a cold temperature near another, given up where it is not soon found.</summary>
    /// <param name="cold">K.</param>
    /// <param name="first">A guess.</param>
    /// <param name="near">A circulation nearby.</param>
    /// <param name="isCoarse">Whether coarse isobars are enough.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="CoolerRefusedException">The cooler does not run so.</exception>
    /// <exception cref="ConvergenceException">No circulation was found.</exception>
    public CoolerPoint SolveSoon(double cold, CoolerGuess first, CoolerPoint near, bool isCoarse, double tolerance)
    {
        try
        {
            return Iterate(cold, first, near, null, isCoarse, tolerance, isBrief: true);
        }
        catch (ConvergenceException)
        {
            secants.Restart();
            throw;
        }
    }

    /// <summary>The circulation at a cold temperature on fine isobars, from one nearby, of this cooler or of one hardly different.</summary>
    public CoolerPoint SolveFrom(double cold, CoolerPoint near, double tolerance) => Solve(cold, near.Guess, near, isCoarse: false, tolerance);

    /// <summary>The circulation whose cooling covers leak and load, sought from one nearby.</summary>
    /// <param name="cold">Cold temperature to begin at, K.</param>
    /// <param name="first">A guess.</param>
    /// <param name="near">A circulation nearby.</param>
    /// <param name="target">Load, and how cooling less leak moves with the cold temperature.</param>
    /// <param name="isCoarse">Whether coarse isobars are enough.</param>
    /// <param name="tolerance">Relative, of flows, contents and temperatures.</param>
    /// <exception cref="CoolerRefusedException">The cooler does not run so.</exception>
    /// <exception cref="ConvergenceException">No circulation was found.</exception>
    public CoolerPoint SolveLoad(double cold, CoolerGuess first, CoolerPoint near, LoadTarget target, bool isCoarse, double tolerance)
    {
        try
        {
            return Iterate(cold, first, near, target, isCoarse, tolerance, isBrief: true);
        }
        catch (ConvergenceException) when (!isCoarse)
        {
            secants.Restart();
            return CirculationPath.Refined(this, near, target.Load, tolerance);
        }
    }

    /// <summary>The same circulation with the course of the recuperator held: closes flows, contents and load to the last digits.</summary>
    /// <exception cref="ConvergenceException">It does not close.</exception>
    public CoolerPoint Polish(CoolerPoint point, LoadTarget? target, double tolerance)
    {
        CoolerPoint verified = point;
        for (int round = 0; round < MostClosings; round++)
        {
            // The flow of the throttle is held as well; where its inlet moved it is computed anew.
            verified = WithThrottle(CirculationPath.Closed(this, verified, target?.Load, tolerance, isComputed: round >= ClosingsCarried));
            if (Math.Abs(verified.FlowMiss) <= ThrottleTolerance)
            {
                return verified;
            }
        }

        throw Stuck(verified, point.Cold);
    }

    private CoolerPoint Iterate(double cold, CoolerGuess first, CoolerPoint? start, LoadTarget? target, bool isCoarse, double tolerance, bool isBrief)
    {
        int n = Unknowns;
        Span<double> values = stackalloc double[n];
        Span<double> valuesBefore = stackalloc double[n];
        Span<double> step = stackalloc double[n];
        CoolerGuess guess = first;
        double at = cold;
        CoolerPoint? last = null;
        CoolerPoint? best = null;
        int retreats = 0;
        bool isVerified = false;
        int worse = 0;
        double share = 1;
        double leastMiss = double.PositiveInfinity;
        for (int round = 0; round < MostRounds; round++)
        {
            CoolerPoint point;
            try
            {
                point = isVerified ? WithThrottle(last!) : Evaluate(at, guess, last ?? start, isFrozen: false, isCoarse, isVerified: false);
                isVerified = false;
            }
            catch (Exception error) when (error is CoolerRefusedException or ConvergenceException && retreats < MostRetreats)
            {
                retreats++;
                guess = last is null ? Retreat(guess, retreats, start, error) : Between(last.Guess, guess, 0.5);
                at = last is null ? at : 0.5 * (last.Cold + at);
                continue;
            }

            Misses(point, target, values);
            double miss = Math.Max(point.Miss, Math.Abs(values[^1]));
            if (last is not null)
            {
                // What was learned holds from state to state; the steps as made, since retreats shorten them.
                for (int i = 0; i < n; i++)
                {
                    valuesBefore[i] = values[i] - valuesBefore[i];
                }

                Difference(last.Guess, guess, step);
                step[^1] = (at - last.Cold) / TemperatureScale;
                secants.Learn(step, valuesBefore);
            }

            values.CopyTo(valuesBefore);

            // A flow computed again counts anew: what was found with one carried over may be less good.
            bool isBetter = miss < leastMiss || (point.Passage.Flow is not null && best?.Passage.Flow is null);
            leastMiss = isBetter ? miss : leastMiss;
            worse = isBetter ? 0 : worse + 1;
            best = isBetter ? point : best;
            last = point;
            if (point.Passage.Flow is not null
                && Math.Abs(point.FlowMiss) <= Math.Max(tolerance, ThrottleTolerance)
                && Math.Max(Math.Max(point.ContentMiss, point.Drift), Math.Abs(values[^1])) <= tolerance)
            {
                return point;
            }

            if (miss <= tolerance)
            {
                // Once more at the same place, the flow of the throttle by its own computation.
                isVerified = true;
                continue;
            }

            if (worse >= MostWorse)
            {
                // Begin again from the best, with shorter steps.
                if (isBrief)
                {
                    break;
                }

                worse = 0;
                last = best;
                Misses(best!, target, values);
                values.CopyTo(valuesBefore);
                share = Math.Max(0.15, 0.6 * share);
                secants.Restart();
            }

            secants.Step(values, step);
            if (target is null)
            {
                // Held here, though what was learned on the way to a load would move it.
                step[^1] = 0;
            }

            double most = 0;
            for (int i = 0; i < n; i++)
            {
                most = Math.Max(most, Math.Abs(step[i]));
            }

            double scale = share * Math.Min(1, MostStep / Math.Max(most, 1e-300));
            guess = Moved(last!.Guess, step, scale);
            at = last.Cold + (scale * step[^1] * TemperatureScale);
        }

        // On the way a state this good is passed over; where more liquids coexist than the model resolves, figures are not smooth to more. On fine isobars flows and contents are
        // closed to the last digits with the recuperator held; then this is how well that fits.
        return leastMiss <= (isCoarse ? PassedOver : Settled) ? best! : throw Stuck(best, cold);
    }

    /// <summary>Unknowns: logarithms of both pressures, of the flow and of the mole fractions, temperatures over their usual size.</summary>
    private int Unknowns => amounts.Length + 6;

    private void Misses(CoolerPoint point, LoadTarget? target, Span<double> values)
    {
        Difference(point.Guess, Next(point), values);
        values[^1] = target is { } sought ? (sought.Load - Net(point)) / sought.WattsPerKelvin / TemperatureScale : 0;
    }

    private static void Difference(CoolerGuess from, CoolerGuess to, Span<double> step)
    {
        step[0] = Math.Log(to.Low / from.Low);
        step[1] = Math.Log(to.High / from.High);
        step[2] = Math.Log(to.Flow / from.Flow);
        step[3] = (to.AfterCooler - from.AfterCooler) / TemperatureScale;
        step[4] = (to.WarmEnd - from.WarmEnd) / TemperatureScale;
        for (int i = 0; i < from.Fractions.Length; i++)
        {
            step[5 + i] = from.Fractions[i] > 0 && to.Fractions[i] > 0 ? Math.Log(to.Fractions[i] / from.Fractions[i]) : 0;
        }
    }

    private CoolerGuess Moved(CoolerGuess from, ReadOnlySpan<double> step, double scale)
    {
        double low = Math.Max(LowestSuction, from.Low * Math.Exp(scale * step[0]));
        double high = Math.Clamp(from.High * Math.Exp(scale * step[1]), LeastRatio * low, 0.98 * charged.Kernel.HighestPressure);
        double[] z = new double[amounts.Length];
        double all = 0;
        for (int i = 0; i < z.Length; i++)
        {
            z[i] = from.Fractions[i] * Math.Exp(scale * step[5 + i]);
            all += z[i];
        }

        for (int i = 0; i < z.Length; i++)
        {
            z[i] /= all;
        }

        return new(
            low,
            high,
            z,
            from.Flow * Math.Exp(scale * step[2]),
            from.AfterCooler + (scale * step[3] * TemperatureScale),
            from.WarmEnd + (scale * step[4] * TemperatureScale));
    }

    // Where nothing settles, back to where something did: a lower pressure would leave less still.
    private static CoolerGuess Retreat(CoolerGuess guess, int retreats, CoolerPoint? start, Exception error) => start is not null && error is CoolerRefusedException { Obstacle: CoolerObstacle.NothingToSeparate }
        ? Between(start.Guess, guess, 0.5)
        : retreats % 2 == 1
        ? guess with { High = Math.Max(1.2 * guess.Low, 0.7 * guess.High) }
        : guess with { Low = Math.Max(1.5 * LowestSuction, 0.8 * guess.Low) };

    /// <summary>A guess on the line through two others: the first at share 0, the second at 1.</summary>
    public static CoolerGuess Between(CoolerGuess a, CoolerGuess b, double share)
    {
        double[] z = [.. a.Fractions.Zip(b.Fractions, (x, y) => x > 0 && y > 0 ? Mean(x, y) : x)];
        double all = z.Sum();
        return new(
            Mean(a.Low, b.Low),
            Mean(a.High, b.High),
            [.. z.Select(x => x / all)],
            Mean(a.Flow, b.Flow),
            a.AfterCooler + (share * (b.AfterCooler - a.AfterCooler)),
            a.WarmEnd + (share * (b.WarmEnd - a.WarmEnd)));

        double Mean(double x, double y) => x * Math.Pow(y / x, share);
    }

    private Exception Stuck(CoolerPoint? best, double cold)
    {
        if (best is null)
        {
            return new ConvergenceException("circulation of the cooler", FormattableString.Invariant($"cold end {cold:F2} K"), double.PositiveInfinity, "No states were found at any pressure tried.");
        }

        CoolerGuess at = best.Guess;
        return at.Low <= 1.05 * LowestSuction
            ? new CoolerRefusedException(
                CoolerObstacle.ChargeTooSmall,
                FormattableString.Invariant($"With {total:G4} mol the suction pressure falls to {at.Low / 1e5:G3} bar absolute with the cold end at {cold:F1} K: fill more, or take less volume."))
            : at.High <= 1.05 * LeastRatio * at.Low
            ? new CoolerRefusedException(
                CoolerObstacle.ThrottleTooLarge,
                FormattableString.Invariant($"The throttle lets through what the compressor delivers at a pressure ratio of {at.High / at.Low:F3}: take a smaller opening."))
            : new ConvergenceException(
                "circulation of the cooler",
                FormattableString.Invariant($"cold end {cold:F2} K, {at.Low / 1e5:G4} and {at.High / 1e5:G4} bar absolute"),
                best.Miss,
                "Change charge or throttle a little; several circulations may lie close together there.");
    }

    /// <summary>States, flows and contents at a guess.</summary>
    public CoolerPoint Evaluate(double cold, CoolerGuess guess, CoolerPoint? last, bool isFrozen, bool isCoarse, bool isVerified, State? coldOutlet = null)
    {
        if (++evaluations > MostEvaluations)
        {
            throw new ConvergenceException(
                "circulation of the cooler", FormattableString.Invariant($"cold end {cold:F2} K, {guess.Low / 1e5:G4} and {guess.High / 1e5:G4} bar absolute"), double.PositiveInfinity, FormattableString.Invariant($"Given up after {MostEvaluations} states. Change charge or throttle a little."));
        }

        CoolerPoint point = circuit.Evaluate(cold, guess, last, isFrozen, isCoarse, isVerified, coldOutlet);

        // With a second liquid beside vapour behind the throttle states take many times as long.
        evaluations += point.EvaporatorInlet.Phases.Count > 2 || point.EvaporatorInlet.HasUnresolvedPhase ? CrowdedState - 1 : 0;
        return point;
    }

    // The same with the flow of the throttle by its own computation.
    private CoolerPoint WithThrottle(CoolerPoint point) => circuit.WithThrottle(point);

    /// <summary>The next guess: where flows and contents would fit if they moved as taken.</summary>
    private CoolerGuess Next(CoolerPoint point)
    {
        CoolerGuess at = point.Guess;
        int n = amounts.Length;
        double[] lowGas = new double[n];
        double[] highGas = new double[n];
        double[] liquid = new double[n];
        foreach (SpaceFilling filling in point.Fillings)
        {
            for (int i = 0; i < n; i++)
            {
                lowGas[i] += filling.LowGas[i];
                highGas[i] += filling.HighGas[i];
                liquid[i] += filling.Liquid[i];
            }
        }

        CompressorResult compression = point.Compression;
        CylinderFilling cylinder = cooler.Compressor.Filling;
        double exponent = compression.ReexpansionExponent ?? 1.2;
        double densityRatio = Math.Pow(compression.PressureRatio, 1 / exponent);
        double filled = cylinder.VolumetricEfficiency(densityRatio);
        double lowest = Math.Log(LowestSuction / at.Low);
        double ratio = at.High / at.Low;
        double power = point.ThrottleInlet.VaporFraction > 0 ? 1 : 0.6;

        double LowStep(double high)
        {
            // Rises in u: throttle less compressor falls.
            double Miss(double u)
            {
                double now = cylinder.VolumetricEfficiency(Math.Max(1, densityRatio * Math.Exp((high - u) / exponent)));
                return point.FlowMiss + (power * high) - u - (now > 0 ? Math.Log(now / filled) : -50);
            }

            double a = -MostStep;
            double b = MostStep;
            for (int i = 0; i < 50; i++)
            {
                double middle = 0.5 * (a + b);
                (a, b) = Miss(middle) > 0 ? (middle, b) : (a, middle);
            }

            return Math.Max(0.5 * (a + b), lowest);
        }

        double Excess(double high)
        {
            double low = Math.Exp(LowStep(high));
            double up = Math.Exp(high);
            double sum = 0;
            for (int i = 0; i < n; i++)
            {
                double content = (lowGas[i] * low) + (highGas[i] * up) + liquid[i];
                sum += content > 0 ? amounts[i] * at.Fractions[i] / content : 0;
            }

            return Math.Log(sum);
        }

        // Contents rise with the high pressure, and so does the low one: the excess falls.
        double least = -MostStep;
        double most = MostStep;
        for (int i = 0; i < 50; i++)
        {
            double middle = 0.5 * (least + most);
            (least, most) = Excess(middle) > 0 ? (middle, most) : (least, middle);
        }

        double w = 0.5 * (least + most);
        double u = LowStep(w);
        double reach = Math.Log(LeastRatio / ratio);
        w = Math.Max(w, u + reach);
        w = Math.Min(w, Math.Log(0.98 * charged.Kernel.HighestPressure / at.High));
        return With(u, w);

        CoolerGuess With(double low, double up)
        {
            double[] z = new double[n];
            double all = 0;
            for (int i = 0; i < n; i++)
            {
                double content = (lowGas[i] * Math.Exp(low)) + (highGas[i] * Math.Exp(up)) + liquid[i];
                z[i] = content > 0 ? amounts[i] * at.Fractions[i] / content : at.Fractions[i];
                all += z[i];
            }

            for (int i = 0; i < n; i++)
            {
                z[i] /= all;
            }

            return new(at.Low * Math.Exp(low), at.High * Math.Exp(up), z, point.Flow * Math.Exp(low), point.NextAfterCooler, point.NextWarmEnd);
        }
    }
}
