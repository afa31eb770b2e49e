using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// How to bring a charge back to what is wanted without taking any of it out: grams of which component, or the advice to recover and refill.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Wanted total N and mole fractions z, present amounts a: the addition is N z - a where that is nowhere negative. Where a component is too
/// much for N, N is raised until it is diluted to within the tolerance, and what is left of N is shared so that the composition is nearest to z
/// with nothing taken out. When the pressure that needs is above the allowed one, no addition helps.
/// </remarks>
public sealed class TopUpAdvice
{
    private TopUpAdvice(TopUpAction action, IReadOnlyList<TopUpAddition> additions, WorkingFluid result, Pressure pressure, string reason, WorkingFluid present, IReadOnlyList<Caution> cautions)
    {
        Action = action;
        Additions = additions;
        Result = result;
        FinalPressure = pressure;
        Reason = reason;
        Present = present;
        Cautions = cautions;
    }

    /// <summary>What to do.</summary>
    public TopUpAction Action { get; }

    /// <summary>What to add in the order of filling, least volatile first; empty unless <see cref="Action"/> is <see cref="TopUpAction.Add"/>.</summary>
    public IReadOnlyList<TopUpAddition> Additions { get; }

    /// <summary>The charge after the additions; for <see cref="TopUpAction.RecoverAndRefill"/> what the least addition within tolerance would give.</summary>
    public WorkingFluid Result { get; }

    /// <summary>Absolute pressure after the additions; for <see cref="TopUpAction.RecoverAndRefill"/> the pressure they would need.</summary>
    public Pressure FinalPressure { get; }

    /// <summary>Why, with the figures.</summary>
    public string Reason { get; }

    /// <summary>What is taken as being in the machine.</summary>
    public WorkingFluid Present { get; }

    /// <summary>What can hurt people or the machine.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>Advice for a charge whose composition was measured.</summary>
    /// <param name="request">The wanted charge with its final pressure; its allowed pressure bounds the dilution (its final pressure where none is stated); bottles are not judged.</param>
    /// <param name="present">What is in the machine.</param>
    /// <param name="pressure">Absolute pressure in the machine, at the temperatures of the request's volumes.</param>
    /// <param name="tolerance">How far a mole fraction may stray from the wanted one, 0.0001 to 0.2.</param>
    /// <exception cref="ArgumentException">The request has no final pressure.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the present charge is no gas at the pressure.</exception>
    public static TopUpAdvice ForComposition(ChargeRequest request, Composition present, Pressure pressure, double tolerance = 0.01)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(present);
        Guard.Positive(pressure.Pascals, "Pa absolute", nameof(pressure));
        Guard.InRange(tolerance, 1e-4, 0.2, "mol/mol");
        if (request.FinalPressure is not { } final)
        {
            throw new ArgumentException($"A top-up needs {nameof(ChargeRequest.FinalPressure)}.", nameof(request));
        }

        (Substance Component, double Fraction)[] wanted = [.. request.Wanted.Composition.Components
            .Zip(request.Wanted.Composition.MoleFractions)
            .Where(c => c.Second > 0)
            .OrderByDescending(c => ChargeRecipe.BoilingKelvins(c.First))];
        FillSequence sequence = new(request.Wanted, request.Volumes, [.. wanted.Select(w => w.Component)], new(present, pressure));
        WorkingFluid now = sequence.ResidualFluid!;
        if (ChargeRecipe.Condenses(sequence, now, wanted[0].Component, pressure.Pascals, endsBefore: false) is { } condensed)
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressure), pressure, $"pressure is {pressure.Bars:G6} bar absolute; the present charge is no gas there in {condensed.Place}, so that its pressure does not tell its amount. Warm the machine and read again.");
        }

        double[] a = [.. sequence.Residual];
        double[] z = [.. a.Select((_, i) => i < wanted.Length ? wanted[i].Fraction : 0)];
        double Held(double[] n) => sequence.AmountAt(final.Pascals, [.. n.Select(x => x / n.Sum())]);
        double total = Held(z.Sum() > 0 ? z : a);
        double least = LeastTotal(a, z, tolerance);
        double target = Math.Max(total, least);
        double[] contents = Nearest(a, z, target);
        if (least <= total)
        {
            // The composition may differ from the wanted one by up to the tolerance: then the pressure, not the amount, is as wanted.
            for (int i = 0; i < 20; i++)
            {
                target = Math.Max(least, Held(contents));
                contents = Nearest(a, z, target);
            }
        }

        double[] add = [.. contents.Select((n, i) => Math.Max(0, n - a[i])).Take(wanted.Length)];
        WorkingFluid result = sequence.FluidAfter(wanted.Length - 1, add);
        bool held = sequence.TryPressure(wanted.Length - 1, add, out double reached);
        double allowed = (request.AllowedPressure ?? final).Pascals;
        ChargeRefusal? drops = ChargeRecipe.Condenses(sequence, result, wanted[0].Component, reached, endsBefore: !held);
        List<Caution> cautions = [];
        ChargeCautions.Venting(result.Composition, cautions);
        cautions.InsertRange(0, Safety.CautionRules.Assess(ChargeCautions.CircuitOf(result.Composition, pressure, Pressure.FromPascals(Math.Max(reached, pressure.Pascals * 1.000001)), request.LocalAtmosphere, request.Volumes, request.ReliefSetting)));

        int worst = Enumerable.Range(0, a.Length).MaxBy(i => a[i] / (z[i] + tolerance));
        string most = $"{sequence.Components[worst].Name} ({100 * a[worst] / a.Sum():F2} % (mole) present, {100 * z[worst]:F2} % wanted)";
        if (drops is not null || reached > allowed * (1 + 1e-9))
        {
            string why = drops?.Message ?? $"it would take {reached / 1e5:F3} bar absolute, {allowed / 1e5:F3} bar absolute are allowed";
            return new(
                TopUpAction.RecoverAndRefill,
                [],
                result,
                Pressure.FromPascals(reached),
                $"Recover and refill: there is too much of {most}; to dilute it to within {100 * tolerance:G3} % (mole) by adding the others, {why}.",
                now,
                cautions);
        }

        if (add.Sum() <= 1e-9 * a.Sum() || (least <= a.Sum() && pressure.Pascals >= final.Pascals * (1 - 1e-6)))
        {
            return new(TopUpAction.Leave, [], now, pressure, "The charge is as wanted within the tolerance.", now, cautions);
        }

        List<TopUpAddition> additions = [];
        for (int step = 0; step < wanted.Length; step++)
        {
            // After step j the machine holds what was there and the first j + 1 additions.
            Pressure after = Pressure.FromPascals(sequence.Pressure(step, add));
            if (add[step] > 1e-9 * target)
            {
                additions.Add(new(
                    wanted[step].Component,
                    AmountOfSubstance.FromMoles(a[step]),
                    AmountOfSubstance.FromMoles(add[step]),
                    Mass.FromKilograms(add[step] * wanted[step].Component.MolarMass),
                    after,
                    GaugePressure.FromAbsolute(after, request.LocalAtmosphere)));
            }
        }

        string how = reached > final.Pascals * (1 + 1e-6)
            ? $"There is too much of {most}: the charge is raised to {reached / 1e5:F3} bar absolute, above the {final.Bars:F3} wanted, to dilute it."
            : $"The additions bring the charge to {reached / 1e5:F3} bar absolute, each mole fraction within {100 * Enumerable.Range(0, a.Length).Max(i => Math.Abs((contents[i] / contents.Sum()) - z[i])):F2} % (mole) of the wanted one.";
        return new(TopUpAction.Add, additions, result, Pressure.FromPascals(reached), how, now, cautions);
    }

    /// <summary>
    /// Advice from one measured pressure: what is left is guessed from the kind of leak. A leak from the whole charge leaves its composition;
    /// for the others give the path of the leak. A guess: have the gas analysed where it matters.
    /// </summary>
    /// <param name="request">As for <see cref="ForComposition"/>.</param>
    /// <param name="pressure">Absolute pressure in the machine, all of the charge being a gas, at the temperatures of the request's volumes.</param>
    /// <param name="leak">What the leak leaves (<see cref="LeakPath.Follow"/>); null for a leak from the whole charge.</param>
    /// <param name="tolerance">How far a mole fraction may stray from the wanted one, 0.0001 to 0.2.</param>
    /// <exception cref="ArgumentException">The request has no final pressure.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range, or the path of the leak does not reach the pressure.</exception>
    public static TopUpAdvice ForPressure(ChargeRequest request, Pressure pressure, LeakPath? leak = null, double tolerance = 0.01)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (leak is null)
        {
            return ForComposition(request, request.Wanted.Composition, pressure, tolerance);
        }

        LeakPoint point = leak.AtPressure(request.Volumes, pressure) ?? throw new ArgumentOutOfRangeException(
            nameof(pressure),
            pressure,
            $"pressure is {pressure.Bars:G6} bar absolute; the machine does not stand at it anywhere along the leak, which is followed from 0 to {100 * leak.Points[^1].LostFraction:F0} % lost.");
        return ForComposition(request, point.Remaining.Composition, pressure, tolerance);
    }

    /// <summary>The additions as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"{Action}: {Reason}",
        ["component", "present, mol", "add, mol", "add, g", "afterwards absolute, bar", "afterwards gauge, bar"],
        [.. Additions.Select(x => (IReadOnlyList<string>)
        [
            x.Component.Name,
            $"{x.Present.Moles:F5}",
            $"{x.Amount.Moles:F5}",
            $"{x.Mass.Grams:F2}",
            $"{x.AbsolutePressure.Bars:F4}",
            $"{x.Gauge.Reading.Bars:F4}",
        ])]);

    /// <summary>
    /// The least total for which amounts n >= a with |n/N - z| up to the tolerance exist: a_i up to (z_i + d) N, and the sum of the lower
    /// bounds max(a_i, (z_i - d) N) up to N. The second rises slower than N, so a bisection finds where it is met.
    /// </summary>
    internal static double LeastTotal(double[] a, double[] z, double tolerance)
    {
        double least = Math.Max(a.Sum(), a.Select((n, i) => n / (z[i] + tolerance)).Max());
        double Excess(double total) => a.Select((n, i) => Math.Max(n, (z[i] - tolerance) * total)).Sum() - total;
        if (Excess(least) <= 1e-14 * least)
        {
            return least;
        }

        double low = least;
        double high = 2 * least;
        while (Excess(high) > 0 && high < 1e9 * least)
        {
            (low, high) = (high, 2 * high);
        }

        for (int i = 0; i < 100; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Excess(middle) > 0 ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>Amounts of a total nearest to N z in the sum of squares with n >= a: n = max(a, N z - s), the shift s by bisection.</summary>
    internal static double[] Nearest(double[] a, double[] z, double total)
    {
        double[] At(double shift) => [.. a.Select((n, i) => Math.Max(n, (z[i] * total) - (z[i] > 0 ? shift : 0)))];
        double low = 0;
        double high = total;
        for (int i = 0; i < 200 && high - low > 1e-16 * total; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = At(middle).Sum() > total ? (middle, high) : (low, middle);
        }

        return At(0.5 * (low + high));
    }
}
