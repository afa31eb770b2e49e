using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Insulation;

/// <summary>Questions the other way round: how good a vacuum, how much insulation for a wanted leak. Stateless and thread-safe.</summary>
public static class HeatLeakGoal
{
    private const int Steps = 60;

    /// <summary>The highest residual pressure at which the nominal leak into the cold is at most that wanted.</summary>
    /// <param name="wanted">Heat into the cold, above zero.</param>
    /// <param name="budget">The budget at a residual pressure; its leak does not fall as the pressure rises.</param>
    /// <param name="lowest">Best vacuum looked at; 1e-4 Pa where left out.</param>
    /// <param name="highest">Worst; 1 atm where left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakAnswer<Pressure> HighestPressure(Power wanted, Func<Pressure, HeatLeakBudget> budget, Pressure? lowest = null, Pressure? highest = null)
    {
        ArgumentNullException.ThrowIfNull(budget);
        double low = Guard.InRange(lowest?.Pascals ?? 1e-4, 1e-8, 1e5, "Pa absolute", nameof(lowest));
        double high = Guard.InRange(highest?.Pascals ?? 101_325, low * (1 + 1e-9), 1.1e5, "Pa absolute", nameof(highest));
        return Search(
            wanted,
            x => budget(Pressure.FromPascals(x)),
            high,
            low,
            x => Pressure.FromPascals(x),
            x => $"{x:G3} Pa ({1e-5 * x:G3} bar) absolute",
            "At the best vacuum looked at");
    }

    /// <summary>
    /// The least thickness at which the nominal leak into the cold is at most that wanted, the thinnest looked at first: on a thin pipe heat may rise with thickness before it
    /// falls.
    /// </summary>
    /// <param name="wanted">Heat into the cold, above zero.</param>
    /// <param name="budget">The budget at a thickness.</param>
    /// <param name="thinnest">Above zero.</param>
    /// <param name="thickest">Above that.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static HeatLeakAnswer<Length> LeastThickness(Power wanted, Func<Length, HeatLeakBudget> budget, Length thinnest, Length thickest)
    {
        ArgumentNullException.ThrowIfNull(budget);
        double low = Guard.InRange(thinnest.Meters, 1e-6, 10, "m", nameof(thinnest));
        double high = Guard.InRange(thickest.Meters, low * (1 + 1e-9), 10, "m", nameof(thickest));
        HeatLeakAnswer<Length> answer = Search(
            wanted, x => budget(Length.FromMeters(x)), low, high, x => Length.FromMeters(x), x => $"{1e3 * x:G4} mm", "With the best thickness looked at");
        double first = Leak(budget(Length.FromMeters(low)));
        double second = Leak(budget(Length.FromMeters(low * Math.Pow(high / low, 1.0 / Steps))));
        return second > first
            ? answer with { Explanation = answer.Explanation + " From the thinnest on, more insulation first lets in more heat: the critical radius has not been passed there." }
            : answer;
    }

    private static double Leak(HeatLeakBudget budget) => (double)budget.Total.Nominal.Watts;

    // Walks from start to end and narrows where the leak first comes down to what is wanted.
    private static HeatLeakAnswer<T> Search<T>(
        Power wanted, Func<double, HeatLeakBudget> budget, double start, double end, Func<double, T> quantity, Func<double, string> text, string best)
        where T : struct
    {
        double goal = Guard.InRange((double)wanted.Watts, 1e-9, 1e6, "W", nameof(wanted));
        double before = start;
        HeatLeakBudget least = budget(start);
        if (Leak(least) <= goal)
        {
            return new(true, quantity(start), least, $"Met already at {text(start)}, where the search starts: {Leak(least):G4} W.");
        }

        for (int i = 1; i <= Steps; i++)
        {
            double x = i == Steps ? end : start * Math.Pow(end / start, (double)i / Steps);
            HeatLeakBudget here = budget(x);
            if (Leak(here) <= goal)
            {
                (double a, double b) = BracketedRoot.Narrow(
                    y => Leak(budget(y)) - goal, before, Leak(budget(before)) - goal, x, Leak(here) - goal, (p, q) => Math.Abs(q - p) <= 1e-7 * Math.Abs(q));

                // The end of the bracket that keeps the goal.
                double found = Leak(budget(b)) <= goal ? b : a;
                HeatLeakBudget there = budget(found);
                return new(true, quantity(found), there, $"{text(found)}: {Leak(there):G4} W into the cold, of which '{Greatest(there).Name}' brings the most.");
            }

            least = Leak(here) < Leak(least) ? here : least;
            before = x;
        }

        HeatLeak[] alone = [.. least.Items.Where(i => i.ColdEnd.Equals(least.Cold, Temperature.FromKelvins(1e-9)) && (double)i.Heat.Nominal.Watts > goal)];
        string reason = alone.Length > 0
            ? string.Join(" and ", alone.Select(i => $"'{i.Name}' alone brings {(double)i.Heat.Nominal.Watts:G4} W"))
            : $"no item exceeds it alone; the greatest, '{Greatest(least).Name}', brings {(double)Greatest(least).Heat.Nominal.Watts:G4} W";
        return new(false, null, least, $"Not reachable: {goal:G4} W are wanted. {best} the leak is {Leak(least):G4} W: {reason}.");
    }

    private static HeatLeak Greatest(HeatLeakBudget budget) =>
        budget.Items.Where(i => i.ColdEnd.Equals(budget.Cold, Temperature.FromKelvins(1e-9))).OrderByDescending(i => i.Heat.Nominal.Watts).FirstOrDefault() ?? budget.Items[0];
}
