using CryoThermo.Equilibrium;
using CryoThermo.Equilibrium.Solids;
using CryoThermo.Machines;
using CryoThermo.Safety;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>
/// Evaluates blends of one problem by one model. The kernels are built once for all components at hand; a blend is a set of mole fractions.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Fine evaluations walk isobars with a node at every phase boundary. Quick ones look at the difference and its slope every few kelvins and
/// close in on each minimum by the tangents from both sides; a dip narrower than the grid is seen by the fine ones only.
/// </remarks>
internal sealed class BlendEvaluator
{
    private const double GridStep = 6;
    private const double SideStep = 0.4;
    private const double MinimumTolerance = 0.02;
    private const int MostMinima = 7;

    private readonly WorkingFluid fluid;
    private readonly FluidKernel kernel;
    private readonly SolidMixture solids;
    private readonly bool wantsLowest;
    private readonly bool wantsConductance;
    private readonly bool wantsWork;
    private readonly bool wantsSuction;
    private readonly BlendConstraintKind? relaxed;
    private readonly bool[] isOxidiser;
    private readonly bool[] isFuel;

    /// <summary>Builds the kernels.</summary>
    /// <param name="problem">The problem, checked.</param>
    /// <param name="model">The model.</param>
    /// <param name="weights">Weights of the goals; null for those of the problem.</param>
    /// <param name="relaxed">A limit whose violation counts a fiftieth: the search then finds by how much it would have to give way alone.</param>
    public BlendEvaluator(BlendProblem problem, FluidModel model, IReadOnlyList<double>? weights = null, BlendConstraintKind? relaxed = null)
    {
        this.relaxed = relaxed;
        Problem = problem;
        double share = 1.0 / problem.Components.Count;
        WorkingFluid equal = WorkingFluid.Mixture([.. problem.Components.Select(c => (c.Substance, share))]);
        fluid = ReferenceEquals(model, FluidModel.Recommended) ? equal : equal.WithModel(model);
        kernel = fluid.Kernel;
        Diagnostics.Guard.InRange(problem.ColdKelvins, kernel.LowestTemperature, kernel.HighestTemperature, $"K by the {fluid.Model}", nameof(BlendProblem.ColdTemperature));
        solids = new(kernel, fluid.Composition.Components);

        // What no record tells of counts as fuel.
        Flammability[] alone = [.. problem.Components.Select(c => Flammability.Of([new SubstanceShare(c.Substance, 1)]))];
        isOxidiser = [.. alone.Select(f => f.OxidiserFraction > 0)];
        isFuel = [.. alone.Select(f => f.HasFuel || f.Unknown.Count > 0)];
        Weights = weights is null ? [.. problem.Goals.Select(g => g.Weight)] : [.. weights];
        wantsLowest = problem.Goals.Any(g => g.Objective == BlendObjective.LowestTemperature);
        wantsConductance = problem.Goals.Any(g => g.Objective == BlendObjective.CapacityPerConductance);
        wantsWork = problem.Goals.Any(g => g.Objective == BlendObjective.PercentOfCarnot) || problem.Compressor is { ClearanceShare: > 0 }
            || problem.Limits.GreatestDischargeTemperature is not null;
        wantsSuction = wantsWork || problem.Compressor is not null || problem.Limits.LeastSuctionSuperheat is not null
            || problem.Goals.Any(g => g.Objective == BlendObjective.CapacityPerSuctionVolume);
    }

    private BlendEvaluator(BlendEvaluator other, double[] weights)
    {
        Problem = other.Problem;
        fluid = other.fluid;
        kernel = other.kernel;
        solids = other.solids;
        wantsLowest = other.wantsLowest;
        wantsConductance = other.wantsConductance;
        wantsWork = other.wantsWork;
        wantsSuction = other.wantsSuction;
        relaxed = other.relaxed;
        isOxidiser = other.isOxidiser;
        isFuel = other.isFuel;
        Weights = weights;
    }

    public BlendProblem Problem { get; }

    /// <summary>Weights of the goals.</summary>
    public double[] Weights { get; }

    public IReadOnlyList<Substance> Substances => fluid.Composition.Components;

    public FluidModel Model => fluid.Model;

    /// <summary>The same with other weights.</summary>
    public BlendEvaluator WithWeights(double[] weights) => new(this, weights);

    /// <summary>A blend as a fluid of this model, all components at hand in it.</summary>
    public WorkingFluid FluidOf(IReadOnlyList<double> fractions) => fluid.WithFractions([.. fractions]);

    /// <summary>
    /// Leaves out the oxidisers or the fuels, whichever has the lesser greatest amount: blends without both are two faces of the range that a
    /// random point never meets by itself.
    /// </summary>
    public void LeaveOutFuelOrOxidiser(Span<double> amounts)
    {
        double oxidiser = 0;
        double fuel = 0;
        for (int i = 0; i < amounts.Length; i++)
        {
            oxidiser = isOxidiser[i] ? Math.Max(oxidiser, amounts[i]) : oxidiser;
            fuel = isFuel[i] ? Math.Max(fuel, amounts[i]) : fuel;
        }

        if (oxidiser > 0 && fuel > 0)
        {
            bool[] leftOut = oxidiser < fuel ? isOxidiser : isFuel;
            for (int i = 0; i < amounts.Length; i++)
            {
                amounts[i] = leftOut[i] ? 0 : amounts[i];
            }
        }
    }

    /// <summary>The evaluation; null where a state did not converge.</summary>
    public BlendFigures? TryEvaluate(double[] z, double low, double high, bool fine)
    {
        try
        {
            return Evaluate(z, low, high, fine);
        }
        catch (Exception e) when (e is Diagnostics.ConvergenceException or ArgumentException or InvalidOperationException)
        {
            // A single odd blend must not end a search of thousands; the caller counts these.
            return null;
        }
    }

    /// <summary>The full evaluation of a candidate.</summary>
    public BlendEvaluation Report(BlendCandidate candidate)
    {
        double sum = candidate.MoleFractions.Sum();
        double[] z = [.. candidate.MoleFractions.Select(x => x / sum)];
        return Report(Evaluate(z, candidate.LowPressure.Pascals, candidate.HighPressure.Pascals, fine: true, all: true));
    }

    /// <summary>Figures as a public evaluation.</summary>
    public BlendEvaluation Report(BlendFigures f)
    {
        bool isPriced = true;
        bool isPure = true;
        double price = 0;
        double impurity = 0;
        for (int i = 0; i < f.Fractions.Length; i++)
        {
            if (f.Fractions[i] <= 0)
            {
                continue;
            }

            BlendComponent component = Problem.Components[i];
            isPriced &= component.PricePerKilogram is not null;
            isPure &= component.Purity is not null;
            price += f.Fractions[i] * Substances[i].MolarMass * (component.PricePerKilogram ?? 0);
            impurity += f.Fractions[i] * (1 - (component.Purity ?? 1));
        }

        return new(
            new([.. f.Fractions], Pressure.FromPascals(f.Low), Pressure.FromPascals(f.High)),
            Model.Name,
            MolarEnergy.FromJoulesPerMole(f.Capacity),
            Temperature.FromKelvins(f.PinchTemperature),
            f.Pinch,
            f.PerSuctionVolume / 1000,
            MolarEnergy.FromJoulesPerMole(f.Work),
            Problem.Compressor is null ? WorkBasis.Isothermal : WorkBasis.IsentropicEfficiency,
            f.PercentOfCarnot,
            double.IsNaN(f.LowestTemperature) ? null : Temperature.FromKelvins(f.LowestTemperature),
            double.IsNaN(f.PerConductance) ? null : f.PerConductance,
            double.IsNaN(f.Cooling) ? null : Power.FromWatts(f.Cooling),
            Temperature.FromKelvins(f.SuctionTemperature),
            double.IsNaN(f.DischargeTemperature) ? null : Temperature.FromKelvins(f.DischargeTemperature),
            [.. f.Margins.Select(m => new ConstraintMargin(m.Kind, m.Value, m.Limit, m.Margin, m.Unit))],
            isPriced ? price : null,
            isPure ? impurity : null);
    }

    /// <summary>Evaluates a blend.</summary>
    /// <param name="z">Mole fractions of all components at hand.</param>
    /// <param name="low">Pa.</param>
    /// <param name="high">Pa.</param>
    /// <param name="fine">True for isobars within their stated error bound.</param>
    /// <param name="all">True to compute also what no goal asks for.</param>
    public BlendFigures Evaluate(double[] z, double low, double high, bool fine, bool all = false)
    {
        if (!fine && !wantsConductance && IncipientPoint.SingleComponent(z) < 0)
        {
            return EvaluateQuickly(z, low, high);
        }

        double bottom = Math.Max(wantsLowest ? Problem.LowestKelvins : Problem.ColdKelvins, kernel.LowestTemperature);
        IsobarTable lowTable = IsobarBuilder.Build(kernel, z, low, bottom, Problem.WarmKelvins);
        IsobarTable highTable = IsobarBuilder.Build(kernel, z, high, bottom, Problem.WarmKelvins);
        double approach = Problem.ApproachKelvins;
        LeastPoint[] minima = Minima(lowTable, highTable);
        double inlet = Math.Min(highTable.Enthalpy(Problem.WarmKelvins), highTable.MaxEnthalpy);
        double twoLiquids = TwoLiquidWidth(lowTable, Problem.ColdKelvins) + TwoLiquidWidth(highTable, Problem.ColdKelvins);
        return Complete(
            new(z, low, high, minima, inlet, twoLiquids, t => lowTable.Enthalpy(t) - highTable.Enthalpy(Math.Min(t + approach, highTable.MaxTemperature))),
            all,
            needed => Lowest(lowTable, highTable, needed),
            capacity => PerConductance(lowTable, highTable, capacity));
    }

    /// <summary>The sides of each minimum of a quick evaluation.</summary>
    public MinimumSides[] SidesOf(BlendFigures f)
    {
        double top = Problem.WarmKelvins - Problem.ApproachKelvins;
        MinimumSides[] sides = new MinimumSides[f.Minima.Length];
        for (int k = 0; k < sides.Length; k++)
        {
            double t = f.Minima[k].Temperature;
            bool isEnd = t >= top || t <= Problem.ColdKelvins;
            DifferenceAt left = Solve(f.Fractions, f.Low, f.High, isEnd ? t : Math.Max(Problem.ColdKelvins, t - SideStep));
            sides[k] = new(left, isEnd ? left : Solve(f.Fractions, f.Low, f.High, Math.Min(top, t + SideStep)));
        }

        return sides;
    }

    /// <summary>A blend so near to another that its minima follow from the sides of that one's; null where a state did not converge.</summary>
    public BlendFigures? TryEvaluateNear(BlendFigures at, MinimumSides[] sides, double[] z, double low, double high)
    {
        if (wantsConductance)
        {
            return TryEvaluate(z, low, high, fine: false);
        }

        try
        {
            LeastPoint[] minima = new LeastPoint[sides.Length];
            for (int k = 0; k < minima.Length; k++)
            {
                MinimumSides side = sides[k];
                double left = Solve(z, low, high, side.Left.Temperature).Difference - side.Left.Difference;
                double right = side.Right.Temperature == side.Left.Temperature ? left : Solve(z, low, high, side.Right.Temperature).Difference - side.Right.Difference;
                minima[k] = new(at.Minima[k].Temperature, at.Minima[k].Difference + side.Change(left, right));
            }

            double inlet = EnthalpyAt(z, high, Problem.WarmKelvins).Enthalpy;
            double twoLiquids = at.Margins.FirstOrDefault(m => m.Kind == BlendConstraintKind.SecondLiquid).Value;
            return Complete(
                new(z, low, high, minima, inlet, twoLiquids, t => Solve(z, low, high, t).Difference),
                false,
                _ => LowestNear(at, z, low, high),
                _ => double.NaN);
        }
        catch (Exception e) when (e is Diagnostics.ConvergenceException or ArgumentException or InvalidOperationException)
        {
            return null;
        }
    }

    private double LowestNear(BlendFigures at, double[] z, double low, double high)
    {
        if (double.IsNaN(at.LowestTemperature))
        {
            return double.NaN;
        }

        DifferenceAt before = Solve(at.Fractions, at.Low, at.High, at.LowestTemperature);
        DifferenceAt after = Solve(z, low, high, at.LowestTemperature);
        return before.Slope > 0 ? at.LowestTemperature - ((after.Difference - before.Difference) / before.Slope) : at.LowestTemperature;
    }

    private BlendFigures EvaluateQuickly(double[] z, double low, double high)
    {
        double cold = Problem.ColdKelvins;
        double top = Problem.WarmKelvins - Problem.ApproachKelvins;
        DifferenceAt[] grid = Grid(z, low, high, cold, top);
        LeastPoint[] minima = Minima(z, low, high, grid);
        double inlet = EnthalpyAt(z, high, Problem.WarmKelvins).Enthalpy;
        double twoLiquids = grid.Count(g => g.HasTwoLiquids) * (grid[1].Temperature - grid[0].Temperature);
        return Complete(
            new(z, low, high, minima, inlet, twoLiquids, t => Solve(z, low, high, t).Difference),
            false,
            needed => Lowest(z, low, high, needed, grid),
            _ => double.NaN);
    }

    private DifferenceAt[] Grid(double[] z, double low, double high, double from, double to)
    {
        int steps = Math.Max(2, (int)Math.Ceiling((to - from) / GridStep));
        DifferenceAt[] grid = new DifferenceAt[steps + 1];
        for (int i = 0; i <= steps; i++)
        {
            grid[i] = Solve(z, low, high, from + ((to - from) * i / steps));
        }

        return grid;
    }

    private BlendFigures Complete(in Walked walked, bool all, Func<double, double> lowestAt, Func<double, double> perConductanceOf)
    {
        double[] z = walked.Fractions;
        double low = walked.Low;
        double high = walked.High;
        double cold = Problem.ColdKelvins;
        double ambient = Problem.AmbientKelvins;
        LeastPoint least = walked.Minima.MinBy(m => m.Difference);
        double capacity = least.Difference;
        PinchLocation pinch = least.Temperature >= Problem.WarmKelvins - Problem.ApproachKelvins ? PinchLocation.WarmEnd
            : least.Temperature <= cold ? PinchLocation.ColdEnd
            : PinchLocation.Inside;
        EquilibriumResult? suction = !(wantsSuction || all) ? null
            : ambient > Problem.WarmKelvins + 0.01 ? kernel.At(ambient, low, z)
            : CaloricFlash.Solve(kernel, CaloricVariable.Enthalpy, low, walked.InletEnthalpy + Math.Max(capacity, 0), z, Problem.WarmKelvins - 5);
        double density = suction is null ? double.NaN : 1 / suction.Totals.Volume;
        double volumetric = Problem.Compressor?.FullVolumetricEfficiency ?? 1;
        double work = double.NaN;
        double discharge = double.NaN;
        if (suction is not null && (wantsWork || all))
        {
            work = Work(z, low, high, suction, density, out volumetric, out discharge);
        }

        double perVolume = capacity * density * volumetric;
        double flow = Problem.Compressor is { } swept ? swept.SweptVolumeFlow.CubicMetersPerSecond * volumetric * density : double.NaN;
        double cooling = flow * capacity;
        double percent = 100 * capacity * ((ambient / cold) - 1) / work;
        double lowest = wantsLowest ? lowestAt(Problem.Load is { } load && flow > 0 ? (double)load.Watts / flow : 0) : double.NaN;
        double perConductance = (wantsConductance || all) && Problem.ApproachKelvins > 0 && capacity > 0 ? perConductanceOf(capacity) : double.NaN;
        MarginFigure[] margins = Margins(z, low, high, capacity, cooling, suction, walked.TwoLiquidWidth, discharge);
        double violation = 0;
        foreach (MarginFigure margin in margins)
        {
            violation += Math.Max(0, -margin.Scaled);
        }

        double[] logs = new double[Problem.Goals.Count];
        double merit = 0;
        for (int i = 0; i < logs.Length; i++)
        {
            double value = Problem.Goals[i].Objective switch
            {
                BlendObjective.CapacityPerMole => capacity,
                BlendObjective.CapacityPerSuctionVolume => perVolume,
                BlendObjective.PercentOfCarnot => percent,
                BlendObjective.LowestTemperature => 1 / lowest,
                _ => perConductance,
            };
            logs[i] = value > 0 ? Math.Log(value) : double.NegativeInfinity;
            merit += Weights[i] > 0 ? Weights[i] * logs[i] : 0;
        }

        return new()
        {
            Fractions = z,
            Low = low,
            High = high,
            Minima = walked.Minima,
            Capacity = capacity,
            PinchTemperature = least.Temperature,
            Pinch = pinch,
            Difference = walked.Difference,
            PerSuctionVolume = perVolume,
            Work = work,
            PercentOfCarnot = percent,
            LowestTemperature = lowest,
            PerConductance = perConductance,
            Cooling = cooling,
            SuctionTemperature = suction?.Temperature ?? double.NaN,
            DischargeTemperature = discharge,
            Margins = margins,
            Violation = violation,
            Merit = merit,
            GoalLogs = logs,
        };
    }

    /// <summary>ln of the fluid's over the solid's fugacity, the largest of all components at both pressures from a temperature up; minus 50 where nothing can freeze.</summary>
    public double LargestLnSaturation(double[] z, double low, double high, double from)
    {
        const double Nothing = -50;
        double bound = 0;
        double[] lnAmounts = new double[z.Length];
        for (int i = 0; i < z.Length; i++)
        {
            lnAmounts[i] = Math.Log(z[i]);
            if (z[i] > 0 && solids[i] is { } solid)
            {
                bound = Math.Max(bound, solid.Bound(high));
            }
        }

        from = Math.Max(from, kernel.LowestTemperature);
        bound = Math.Min(bound, Problem.WarmKelvins);
        double worst = Nothing;
        double[] values = new double[z.Length];
        for (double t = from; t < bound; t += Math.Max(4, 0.34 * (bound - from)))
        {
            foreach (double p in (ReadOnlySpan<double>)[low, high])
            {
                solids.LnSaturation(t, p, z, lnAmounts, values);
                worst = Math.Max(worst, values.Max());
            }
        }

        return worst;
    }

    private static double TwoLiquidWidth(IsobarTable table, double cold)
    {
        double width = 0;
        for (int i = 0; i < table.Regions.Length; i++)
        {
            if (table.Regions[i] is PhaseRegion.TwoLiquids or PhaseRegion.TwoLiquidsVapor or PhaseRegion.ThreeLiquids
                or PhaseRegion.UnresolvedPhases or PhaseRegion.ConstantTemperatureThreePhases)
            {
                double start = Math.Max(cold, table.NodeTemperatures[i]);
                double end = table.NodeTemperatures[i + 1];
                width += end > start ? end - start : table.Regions[i] == PhaseRegion.ConstantTemperatureThreePhases && end >= cold ? 0.01 : 0;
            }
        }

        return width;
    }

    /// <summary>The local minima of the difference between cold end and warm end, from the warm end down.</summary>
    private LeastPoint[] Minima(IsobarTable low, IsobarTable high)
    {
        double cold = Problem.ColdKelvins;
        double approach = Problem.ApproachKelvins;
        double top = Problem.WarmKelvins - approach;
        List<LeastPoint> all =
        [
            new(top, low.EnthalpyBelow(top) - Math.Min(high.Enthalpy(Math.Min(top + approach, high.MaxTemperature)), high.MaxEnthalpy)),
        ];
        IsobarPairWalk walk = new(low, 1, high, 1, approach, cold, top);
        while (walk.MoveNext())
        {
            DifferencePiece piece = walk.Current;
            if (piece.TryInnerMinimum(out double t, out double value))
            {
                all.Add(new(t, value));
            }

            // At the cold end itself both streams count as vapour, as in the cycle limit.
            all.Add(piece.Start <= cold
                ? new(cold, low.Enthalpy(cold) - high.Enthalpy(cold + approach))
                : new(piece.Start, piece.LeastAtStart));
        }

        List<LeastPoint> found = [];
        for (int i = 0; i < all.Count; i++)
        {
            bool isLeast = (i == 0 || all[i].Difference <= all[i - 1].Difference) && (i + 1 == all.Count || all[i].Difference < all[i + 1].Difference);
            if (isLeast)
            {
                found.Add(all[i]);
            }
        }

        return Lowest(found);
    }

    /// <summary>The same from a grid, whose first point is the cold end.</summary>
    private LeastPoint[] Minima(double[] z, double low, double high, DifferenceAt[] grid)
    {
        const int Halvings = 2;
        List<LeastPoint> found = [];
        if (grid[0].Slope >= 0)
        {
            found.Add(new(grid[0].Temperature, grid[0].Difference));
        }

        if (grid[^1].Slope <= 0)
        {
            found.Add(new(grid[^1].Temperature, grid[^1].Difference));
        }

        double least = grid.Min(g => g.Difference);
        double ceiling = least + Math.Max(400, 0.6 * Math.Abs(least));
        for (int i = 1; i < grid.Length; i++)
        {
            Between(grid[i - 1], grid[i], Halvings);
        }

        if (found.Count == 0)
        {
            DifferenceAt lowest = grid.MinBy(g => g.Difference);
            found.Add(new(lowest.Temperature, lowest.Difference));
        }

        return Lowest(found);

        void Between(in DifferenceAt a, in DifferenceAt b, int halvings)
        {
            if (a.Slope < 0 && b.Slope > 0)
            {
                found.Add(CloseIn(a, b));
                return;
            }

            // Both slopes have one sign but the values run the other way: a minimum and a maximum lie between.
            bool hides = (a.Slope < 0 && b.Slope <= 0 && b.Difference > a.Difference) || (a.Slope >= 0 && b.Slope > 0 && b.Difference < a.Difference);
            if (hides && halvings > 0)
            {
                DifferenceAt middle = Solve(z, low, high, 0.5 * (a.Temperature + b.Temperature));
                Between(a, middle, halvings - 1);
                Between(middle, b, halvings - 1);
            }
        }

        LeastPoint CloseIn(DifferenceAt a, DifferenceAt b)
        {
            const int Steps = 12;
            DifferenceAt best = a.Difference < b.Difference ? a : b;
            for (int step = 0; step < Steps; step++)
            {
                double width = b.Temperature - a.Temperature;
                double x = (b.Difference - a.Difference - (b.Slope * width)) / (a.Slope - b.Slope);
                double bound = a.Difference + (a.Slope * x);
                if (best.Difference - bound < MinimumTolerance || bound > ceiling)
                {
                    break;
                }

                DifferenceAt middle = Solve(z, low, high, a.Temperature + Math.Clamp(x, 0.03 * width, 0.97 * width));
                best = middle.Difference < best.Difference ? middle : best;
                (a, b) = middle.Slope < 0 ? (middle, b) : (a, middle);
            }

            return new(best.Temperature, best.Difference);
        }
    }

    private static LeastPoint[] Lowest(List<LeastPoint> found) =>
        [.. found.OrderBy(m => m.Difference).Take(MostMinima).OrderByDescending(m => m.Temperature)];

    private DifferenceAt Solve(double[] z, double low, double high, double t)
    {
        (double lowEnthalpy, double lowSlope, bool lowSplits) = EnthalpyAt(z, low, t);
        (double highEnthalpy, double highSlope, bool highSplits) = EnthalpyAt(z, high, t + Problem.ApproachKelvins);
        return new(t, lowEnthalpy - highEnthalpy, lowSlope - highSlope, lowSplits || highSplits);
    }

    private (double Enthalpy, double Slope, bool HasTwoLiquids) EnthalpyAt(double[] z, double pressure, double t)
    {
        int n = z.Length;
        Span<double> scratch = stackalloc double[kernel.Equation.ScratchLength];
        PhaseSplit split = new(stackalloc double[n], stackalloc double[n], stackalloc double[n]);
        CaloricFigures figures = kernel.Flash(t, pressure, z, scratch, ref split);
        return (figures.Enthalpy, figures.EquilibriumHeatCapacity, split.StillUnstable || split.PhaseCount == 3 || (split.PhaseCount == 2 && !split.LightIsVapor));
    }

    /// <summary>As for isobars, from the grid and flashes below it.</summary>
    private double Lowest(double[] z, double low, double high, double needed, DifferenceAt[] grid)
    {
        DifferenceAt above = grid[^1];
        if (above.Difference < needed)
        {
            return double.NaN;
        }

        double bottom = Math.Max(Problem.LowestKelvins, kernel.LowestTemperature);
        IEnumerable<DifferenceAt> down = grid.Reverse().Skip(1);
        if (bottom < grid[0].Temperature)
        {
            down = down.Concat(Grid(z, low, high, bottom, grid[0].Temperature).Reverse().Skip(1));
        }

        foreach (DifferenceAt point in down)
        {
            if (point.Difference < needed)
            {
                return Crossing(point, above);
            }

            above = point;
        }

        return bottom;

        double Crossing(DifferenceAt under, DifferenceAt over)
        {
            for (int i = 0; i < 40 && over.Temperature - under.Temperature > 1e-6; i++)
            {
                double newton = over.Temperature - ((over.Difference - needed) / over.Slope);
                double width = over.Temperature - under.Temperature;
                double t = i % 3 != 2 && newton > under.Temperature + (1e-4 * width) && newton < over.Temperature
                    ? Math.Min(newton - Math.Min(1e-7, 0.1 * width), over.Temperature - (1e-4 * width))
                    : 0.5 * (under.Temperature + over.Temperature);
                DifferenceAt middle = Solve(z, low, high, t);
                (under, over) = middle.Difference < needed ? (middle, over) : (under, middle);
            }

            return over.Temperature;
        }
    }

    private double Work(double[] z, double low, double high, EquilibriumResult suction, double density, out double volumetric, out double discharge)
    {
        if (Problem.Compressor is not { } compressor)
        {
            volumetric = 1;
            discharge = double.NaN;
            double t0 = Problem.AmbientKelvins;
            CaloricFigures before = kernel.At(t0, low, z).Totals;
            CaloricFigures after = kernel.At(t0, high, z).Totals;
            return (t0 * (before.Entropy - after.Entropy)) - (before.Enthalpy - after.Enthalpy);
        }

        double guess = suction.Temperature * Math.Pow(high / low, 0.15);
        EquilibriumResult reversible = CaloricFlash.Solve(kernel, CaloricVariable.Entropy, high, suction.Totals.Entropy, z, guess);
        double work = (reversible.Totals.Enthalpy - suction.Totals.Enthalpy) / compressor.IsentropicEfficiency;
        discharge = CaloricFlash.Solve(
            kernel, CaloricVariable.Enthalpy, high, suction.Totals.Enthalpy + work, z, reversible.Temperature + (0.1 * (reversible.Temperature - suction.Temperature))).Temperature;
        double expansion = 1 / (density * reversible.Totals.Volume);
        volumetric = Math.Max(0, compressor.FullVolumetricEfficiency - (compressor.ClearanceShare * (expansion - 1)));
        return work;
    }

    /// <summary>The highest temperature below which the difference falls under what is needed; the bottom of the tables where none does, NaN where the warm end does.</summary>
    private double Lowest(IsobarTable low, IsobarTable high, double needed)
    {
        double approach = Problem.ApproachKelvins;
        double top = Problem.WarmKelvins - approach;
        double bottom = low.MinTemperature;
        double above = top;
        if (low.EnthalpyBelow(top) - Math.Min(high.Enthalpy(Math.Min(top + approach, high.MaxTemperature)), high.MaxEnthalpy) < needed)
        {
            return double.NaN;
        }

        IsobarPairWalk walk = new(low, 1, high, 1, approach, bottom, top);
        while (walk.MoveNext())
        {
            DifferencePiece piece = walk.Current;
            if (piece.TryInnerMinimum(out double t, out double value) && value < needed)
            {
                return Crossing(piece, needed, t, above);
            }

            if (piece.ValueAtStart < needed)
            {
                return Crossing(piece, needed, piece.Start, above);
            }

            if (piece.LeastAtStart < needed)
            {
                return piece.Start;
            }

            above = piece.Start;
        }

        return bottom;

        static double Crossing(in DifferencePiece piece, double needed, double under, double over)
        {
            for (int i = 0; i < 60; i++)
            {
                double middle = 0.5 * (under + over);
                (under, over) = piece.Value(middle) < needed ? (middle, over) : (under, middle);
            }

            return over;
        }
    }

    private double PerConductance(IsobarTable low, IsobarTable high, double capacity)
    {
        CounterFlowKernel recuperator = CounterFlowKernel.FromInletTemperatures(high, 1, Problem.WarmKelvins, low, 1, Problem.ColdKelvins);
        double duty = capacity + Math.Min(high.Enthalpy(Problem.WarmKelvins), high.MaxEnthalpy) - low.Enthalpy(Problem.ColdKelvins);
        double conductance = duty > 0 ? recuperator.Conductance(Math.Min(duty, recuperator.GreatestDuty)) : double.NaN;
        return conductance > 0 && double.IsFinite(conductance) ? capacity / conductance : double.NaN;
    }

    private MarginFigure[] Margins(
        double[] z,
        double low,
        double high,
        double capacity,
        double cooling,
        EquilibriumResult? suction,
        double twoLiquidWidth,
        double discharge)
    {
        BlendLimits limits = Problem.Limits;
        List<MarginFigure> found = [AtLeast(BlendConstraintKind.ColdTemperatureReached, capacity, 1, 100, "J/mol")];
        if (Problem.Load is { } load)
        {
            double watts = (double)load.Watts;
            found.Add(AtLeast(BlendConstraintKind.Load, cooling, watts, 0.2 * watts, "W"));
        }

        if (isOxidiser.Contains(true) && isFuel.Contains(true))
        {
            // A condensed fuel with a liquid oxidiser is an explosive: no goal is worth it.
            double oxidiser = 0;
            double fuel = 0;
            for (int i = 0; i < z.Length; i++)
            {
                oxidiser += isOxidiser[i] ? z[i] : 0;
                fuel += isFuel[i] ? z[i] : 0;
            }

            found.Add(AtMost(BlendConstraintKind.FuelWithOxidiser, Math.Min(oxidiser, fuel), 0, 0.02, "mol/mol"));
        }

        if (limits.FreezingMargin is { } freezing)
        {
            double worst = LargestLnSaturation(z, low, high, Problem.ColdKelvins - freezing.Kelvins);
            found.Add(AtMost(BlendConstraintKind.Freezing, worst, 0, 0.2, "ln of the saturation ratio"));
        }

        if (limits.GreatestDischargeTemperature is { } hottest)
        {
            found.Add(AtMost(BlendConstraintKind.DischargeTemperature, discharge, hottest.Kelvins, 10, "K"));
        }

        if (limits.GreatestPressureRatio is { } ratio)
        {
            found.Add(AtMost(BlendConstraintKind.PressureRatio, high / low, ratio, 0.1 * ratio, "Pa/Pa"));
        }

        if (limits.GreatestStandingPressure is { } standing)
        {
            double limit = standing.Pascals;
            found.Add(AtMost(BlendConstraintKind.StandingPressure, StandingPressure(z, low, high), limit, 0.1 * limit, "Pa"));
        }

        if (limits.MustNotBurn || limits.LeastInertFraction is not null)
        {
            SubstanceShare[] shares = [.. Substances.Select((s, i) => new SubstanceShare(s.Name, z[i]))];
            Flammability fire = Flammability.Of(shares);

            // What no record tells of counts as fuel.
            double unknown = shares.Where(s => fire.Unknown.Contains(s.Substance)).Sum(s => s.MoleFraction);
            if (limits.MustNotBurn)
            {
                double index = (fire.Index ?? 0) + (100 * unknown) + (fire.HasFuel && fire.OxidiserFraction > 0 ? 1 + fire.OxidiserFraction : 0);
                found.Add(AtMost(BlendConstraintKind.Flammability, index, 1, 0.2, "sum of ISO 10156"));
            }

            if (limits.LeastInertFraction is { } inert)
            {
                found.Add(AtLeast(BlendConstraintKind.InertFraction, Math.Max(0, 1 - fire.FuelFraction - unknown), inert, 0.05, "mol/mol"));
            }
        }

        if (limits.LeastSuctionSuperheat is { } superheat)
        {
            // Among two phases the superheat is below zero; how far is told by the liquid. Without a dew point nothing condenses.
            const double NeverCondenses = 200;
            double value = suction!.VaporFraction < 1 - 1e-9
                ? -50 * (1 - suction.VaporFraction)
                : fluid.WithFractions(z).TryDewPoint(Pressure.FromPascals(low), out State? dew) ? suction.Temperature - dew.Temperature.Kelvins : NeverCondenses;
            found.Add(AtLeast(BlendConstraintKind.SuctionSuperheat, value, superheat.Kelvins, 5, "K"));
        }

        if (limits.NoSecondLiquid)
        {
            found.Add(AtMost(BlendConstraintKind.SecondLiquid, twoLiquidWidth, 0, 5, "K"));
        }

        if (limits.MostComponents is { } most)
        {
            found.Add(AtMost(BlendConstraintKind.ComponentCount, z.Count(x => x > 0), most, 1, "components"));
        }

        const double Relief = 50;
        return [.. found.Select(m => m.Kind == relaxed ? m with { Scale = Relief * m.Scale } : m)];

        static MarginFigure AtLeast(BlendConstraintKind kind, double value, double limit, double scale, string unit) => Of(kind, value, limit, value - limit, scale, unit);

        static MarginFigure AtMost(BlendConstraintKind kind, double value, double limit, double scale, string unit) => Of(kind, value, limit, limit - value, scale, unit);

        static MarginFigure Of(BlendConstraintKind kind, double value, double limit, double margin, double scale, string unit) =>
            double.IsFinite(value) ? new(kind, value, limit, margin, scale, unit) : throw new InvalidOperationException($"{kind} has no figure.");
    }

    private double StandingPressure(double[] z, double low, double high)
    {
        const int Steps = 4;
        MachineSpaces spaces = Problem.Spaces!;
        double ambient = Problem.AmbientKelvins;
        double amount = (spaces.WarmLow.CubicMeters * Density(ambient, low)) + (spaces.WarmHigh.CubicMeters * Density(ambient, high))
            + (spaces.ColdHead.CubicMeters * Density(Problem.ColdKelvins, low));
        for (int i = 0; i < Steps; i++)
        {
            double t = Problem.ColdKelvins + ((Problem.WarmKelvins - Problem.ColdKelvins) * (i + 0.5) / Steps);
            amount += ((spaces.RecuperatorLow.CubicMeters * Density(t, low)) + (spaces.RecuperatorHigh.CubicMeters * Density(t, high))) / Steps;
        }

        return VolumeFlash.AtDensity(kernel, ambient, amount / spaces.Total.CubicMeters, z).Pressure;

        double Density(double t, double p) => 1 / kernel.At(t, p, z).Totals.Volume;
    }

    /// <summary>What a walk along both streams gives.</summary>
    private readonly record struct Walked(
        double[] Fractions, double Low, double High, LeastPoint[] Minima, double InletEnthalpy, double TwoLiquidWidth, Func<double, double> Difference);
}
