using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>
/// How to charge a machine from bottles: least volatile component first, with the grams of each and the gauge reading after it, real gas.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// All gas shares one pressure and one composition; each volume has its temperature: sum of V rho(T, p, z) is the amount. A component alone
/// in the machine is computed with its pure equation, several with the model of the wanted fluid. The order follows the normal boiling (or
/// sublimation) temperature. Wait for the machine to come back to its temperatures before reading a gauge: filling warms or cools it.
/// </remarks>
public sealed class ChargeRecipe
{
    private ChargeRecipe(ChargeRequest request, FillSequence sequence, double[] added, ChargeStep[] steps)
    {
        Request = request;
        Steps = steps;
        Added = added;
        double[] contents = sequence.Contents(sequence.FillCount - 1, added);
        FinalFluid = sequence.FluidAfter(sequence.FillCount - 1, added);
        TotalAmount = AmountOfSubstance.FromMoles(contents.Sum());
        Foreign = [.. sequence.Components.Skip(sequence.FillCount).Select((c, i) => new ForeignGas(c, contents[sequence.FillCount + i] / contents.Sum()))];
        Cautions = ChargeCautions.Of(this);
        Remarks = CollectRemarks(sequence);
    }

    /// <summary>What this was computed from.</summary>
    public ChargeRequest Request { get; }

    /// <summary>The steps in the order of filling.</summary>
    public IReadOnlyList<ChargeStep> Steps { get; }

    /// <summary>Everything in the machine at the end.</summary>
    public AmountOfSubstance TotalAmount { get; }

    /// <summary>The gas in the machine at the end, residual gas included.</summary>
    public WorkingFluid FinalFluid { get; }

    /// <summary>Gases that were in the machine and are not wanted; the wanted composition holds among the others.</summary>
    public IReadOnlyList<ForeignGas> Foreign { get; }

    /// <summary>Absolute pressure at the end.</summary>
    public Pressure FinalPressure => Steps[^1].AbsolutePressure;

    /// <summary>What can hurt people or the machine.</summary>
    public IReadOnlyList<Caution> Cautions { get; }

    /// <summary>What the figures leave out.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>Amounts filled, mol, in the order of the steps.</summary>
    internal double[] Added { get; }

    /// <summary>Computes the recipe.</summary>
    /// <param name="request">What is wanted.</param>
    /// <exception cref="ArgumentException">The request names neither or both of final pressure and amount, or a pressure out of the range of the model.</exception>
    /// <exception cref="ChargeRefusedException">A limit stops it; the message names the limit and its figures.</exception>
    public static ChargeRecipe Solve(ChargeRequest request) =>
        TrySolve(request, out ChargeRecipe? recipe, out ChargeRefusal? refusal) ? recipe : throw new ChargeRefusedException(refusal);

    /// <summary>Computes the recipe; false and the limit where one stops it.</summary>
    /// <param name="request">What is wanted.</param>
    /// <param name="recipe">The recipe, or null.</param>
    /// <param name="refusal">The limit, or null.</param>
    /// <exception cref="ArgumentException">The request names neither or both of final pressure and amount, or a pressure out of the range of the model.</exception>
    public static bool TrySolve(
        ChargeRequest request, [NotNullWhen(true)] out ChargeRecipe? recipe, [NotNullWhen(false)] out ChargeRefusal? refusal)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.FinalPressure is null == request.Amount is null)
        {
            throw new ArgumentException(
                $"Give either {nameof(ChargeRequest.FinalPressure)} or {nameof(ChargeRequest.Amount)}; {(request.Amount is null ? "neither" : "both")} is given.", nameof(request));
        }

        recipe = null;
        (Substance Component, double Fraction)[] wanted = [.. request.Wanted.Composition.Components
            .Zip(request.Wanted.Composition.MoleFractions)
            .Where(c => c.Second > 0)
            .OrderByDescending(c => BoilingKelvins(c.First))];
        FillSequence sequence = new(request.Wanted, request.Volumes, [.. wanted.Select(w => w.Component)], request.Residual);
        refusal = TryTotal(request, sequence, wanted, out double total);
        if (refusal is not null)
        {
            return false;
        }

        double[] added = new double[wanted.Length];
        for (int i = 0; i < added.Length; i++)
        {
            double needed = total * wanted[i].Fraction;
            added[i] = needed - sequence.Residual[i];
            if (added[i] < -1e-12 * total)
            {
                refusal = new(
                    ChargeLimit.NegativeAmount,
                    wanted[i].Component,
                    null,
                    null,
                    null,
                    $"Negative amount: {needed:G6} mol of {wanted[i].Component.Name} are wanted, but the machine holds {sequence.Residual[i]:G6} mol already. Recover part of its contents, or charge more.");
                return false;
            }

            added[i] = Math.Max(0, added[i]);
        }

        ChargeStep[] steps = new ChargeStep[added.Length];
        for (int step = 0; step < steps.Length; step++)
        {
            refusal = TryStep(request, sequence, added, step, out ChargeStep? done);
            if (refusal is not null)
            {
                return false;
            }

            steps[step] = done!;
        }

        recipe = new(request, sequence, added, steps);
        return true;
    }

    /// <summary>The recipe as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Charge: {Request.Wanted.Composition} to {Steps[^1].Gauge}",
        ["step", "component", "close by", "mass, g", "amount, mol", "absolute, Pa", "absolute, bar", "gauge, bar", "partial pressures, bar absolute", "real less ideal, bar", "bottle gives, bar absolute", "bottle before, kg", "bottle after, kg"],
        [.. Steps.Select((s, i) => (IReadOnlyList<string>)
        [
            $"{i + 1}",
            s.Component.Name,
            s.Control == ChargeControl.Mass ? "scale" : "gauge",
            $"{s.Mass.Grams:F2}",
            $"{s.Amount.Moles:F5}",
            $"{s.AbsolutePressure.Pascals:F0}",
            $"{s.AbsolutePressure.Bars:F4}",
            $"{s.Gauge.Reading.Bars:F4}",
            $"{s.IdealPressure.Bars:F4}",
            $"{s.Deviation.Bars:+0.0000;-0.0000;0.0000}",
            s.BottlePressure is { } bottle ? $"{bottle.Bars:F3}" : "not stated",
            s.BottleWeightBefore is { } before ? $"{before.Kilograms:F3}" : "not stated",
            s.BottleWeightAfter is { } after ? $"{after.Kilograms:F3}" : "not stated",
        ])]);

    internal static double BoilingKelvins(Substance substance) =>
        substance.NormalBoilingTemperature ?? substance.SublimationTemperature ?? (0.6 * substance.CriticalTemperature);

    /// <summary>Where a gas would condense in the machine; null when all of it stays a gas.</summary>
    internal static ChargeRefusal? Condenses(FillSequence sequence, WorkingFluid gas, Substance component, double pressure, bool endsBefore)
    {
        foreach (double t in sequence.Temperatures)
        {
            Temperature temperature = Temperature.FromKelvins(t);
            if (!IsCondensed(gas, temperature, pressure, out double? dew, out string? liquid) && !endsBefore)
            {
                continue;
            }

            string at = dew is { } known ? $"above {known / 1e5:G6} bar absolute" : "below that pressure";
            return new(
                ChargeLimit.Condensation,
                component,
                sequence.PlaceOf(t),
                Pressure.FromPascals(pressure),
                dew is { } limit ? Pressure.FromPascals(limit) : null,
                $"Condensation in the vessel: filling {component.Name} would bring {gas.Composition} to {pressure / 1e5:G6} bar absolute, but in {sequence.PlaceOf(t)} at {t:F2} K ({t - 273.15:F2} degC) drops form {at}{(liquid is null ? string.Empty : $", mostly {liquid}")}. Warm that volume, charge less, or leave some of it out.");
        }

        return null;
    }

    /// <summary>What condenses at a temperature and pressure: the name of the most abundant component of the drops; null for a gas.</summary>
    internal static string? Condensed(WorkingFluid gas, Temperature temperature, double pressure) =>
        IsCondensed(gas, temperature, pressure, out _, out string? liquid) ? liquid : null;

    private static bool IsCondensed(WorkingFluid gas, Temperature temperature, double pressure, out double? dew, out string? liquid)
    {
        liquid = null;
        dew = null;
        State state = gas.At(temperature, Pressure.FromPascals(pressure));
        bool several = state.Phases.Count > 1 || state.HasUnresolvedPhase;
        if (!several && state.Phases[0].Kind == PhaseKind.Vapor)
        {
            return false;
        }

        // One dense phase: a liquid when it lies past a dew point, a dense gas when there is none at this temperature.
        if (gas.TryDewPoint(temperature, out State? first))
        {
            dew = first.Pressure.Pascals;
        }

        if (!several && !(dew <= pressure))
        {
            return false;
        }

        Composition drops = state.Phases.OrderByDescending(p => p.MolarDensity.MolesPerCubicMeter).First().Composition;
        int most = drops.MoleFractions.Index().MaxBy(x => x.Item).Index;
        liquid = drops.Components[most].Name;
        dew = dew <= pressure ? dew : null;
        return true;
    }

    // Total of the wanted components, mol, what is already there of them included.
    private static ChargeRefusal? TryTotal(ChargeRequest request, FillSequence sequence, (Substance Component, double Fraction)[] wanted, out double total)
    {
        if (request.Amount is { } amount)
        {
            total = amount.Moles;
            return null;
        }

        double pressure = Guard.InRange(
            request.FinalPressure!.Value.Pascals, sequence.LowestPressure, sequence.HighestPressure, "Pa absolute", nameof(ChargeRequest.FinalPressure));
        double foreign = 0;
        foreach (double moles in sequence.Residual[wanted.Length..])
        {
            foreign += moles;
        }

        // The foreign part shifts the composition, and with it the amount: the total is where wanted plus foreign fill the machine. The
        // balance rises with the total up to rounding, so a bracket holds it.
        double[] z = new double[sequence.Components.Count];
        double Missing(double candidate)
        {
            double whole = candidate + foreign;
            for (int i = 0; i < z.Length; i++)
            {
                z[i] = (i < wanted.Length ? candidate * wanted[i].Fraction : sequence.Residual[i]) / whole;
            }

            return whole - sequence.AmountAt(pressure, z);
        }

        if (foreign == 0)
        {
            for (int i = 0; i < z.Length; i++)
            {
                z[i] = wanted[i].Fraction;
            }

            total = sequence.AmountAt(pressure, z);
            return null;
        }

        double low = 0;
        double high = double.PositiveInfinity;
        total = Math.Max(-Missing(1e-12 * Math.Max(foreign, 1)), 1e-9 * foreign);
        for (int i = 0; i < 200; i++)
        {
            double miss = Missing(total);
            if (Math.Abs(miss) <= 5e-14 * (total + foreign))
            {
                return null;
            }

            low = miss < 0 ? total : low;
            high = miss > 0 ? total : high;
            double next = total - miss;
            if (!(next > low && next < high))
            {
                next = double.IsFinite(high) ? 0.5 * (low + high) : 2 * total;
            }

            if (high < 1e-9 * foreign)
            {
                break;
            }

            total = next;
        }

        if (high < 1e-9 * foreign)
        {
            return new(
                ChargeLimit.NegativeAmount,
                wanted[^1].Component,
                null,
                request.FinalPressure,
                request.Residual!.Pressure,
                $"Negative amount: the machine holds {foreign:G6} mol of gases that are not wanted at {request.Residual!.Pressure.Bars:G6} bar absolute; at {pressure / 1e5:G6} bar absolute no room is left. Evacuate it first.");
        }

        throw new ConvergenceException(
            "Amount of a charge beside residual gas",
            $"{request.Wanted.Composition} to {pressure / 1e5:G9} bar absolute beside {foreign:G6} mol",
            Math.Abs(Missing(total)) / (total + foreign),
            "Give the amount instead of the pressure, or evacuate first.");
    }

    private static ChargeRefusal? TryStep(ChargeRequest request, FillSequence sequence, double[] added, int step, out ChargeStep? done)
    {
        done = null;
        Substance component = sequence.Components[step];
        bool held = sequence.TryPressure(step, added, out double pressure);
        WorkingFluid gas = sequence.FluidAfter(step, added);
        if (Condenses(sequence, gas, component, pressure, endsBefore: !held) is { } condensed)
        {
            return condensed;
        }

        Pressure reached = Pressure.FromPascals(pressure);
        if (request.AllowedPressure is { } allowed && pressure > allowed.Pascals)
        {
            return new(
                ChargeLimit.AllowedPressure,
                component,
                null,
                reached,
                allowed,
                $"Allowed pressure: filling {component.Name} would bring the machine to {reached.Bars:G6} bar absolute; {allowed.Bars:G6} bar absolute are allowed.");
        }

        AmountOfSubstance amount = AmountOfSubstance.FromMoles(added[step]);
        Mass mass = Mass.FromKilograms(added[step] * component.MolarMass);
        GasBottle? bottle = request.Bottles.FirstOrDefault(b => b.Fluid.Composition.Components[0].Identity.Equals(component.Identity));
        Pressure? gives = null;
        if (bottle is not null && added[step] > 0)
        {
            gives = bottle.PressureAfter(amount);
            if (gives is null || (bottle.GrossWeight is { } gross && mass.Kilograms >= gross.Kilograms))
            {
                return new(
                    ChargeLimit.BottleContents,
                    component,
                    null,
                    null,
                    null,
                    $"Bottle contents: {mass.Grams:G6} g of {component.Name} are needed; the bottle ({bottle}) holds less.");
            }

            if (pressure >= gives.Value.Pascals)
            {
                string why = bottle.Kind == BottleKind.Liquefied
                    ? $"the vapour pressure at {bottle.Temperature.Kelvins:F2} K ({bottle.Temperature.DegreesCelsius:F2} degC)"
                    : "after what is drawn";
                return new(
                    ChargeLimit.BottlePressure,
                    component,
                    null,
                    reached,
                    gives,
                    $"Bottle pressure: the machine would have to rise to {reached.Bars:G6} bar absolute while filling {component.Name}, but its bottle gives {gives.Value.Bars:G6} bar absolute only, {why}.");
            }
        }

        done = new(
            component,
            bottle?.Kind == BottleKind.Liquefied ? ChargeControl.Mass : ChargeControl.Gauge,
            amount,
            mass,
            reached,
            GaugePressure.FromAbsolute(reached, request.LocalAtmosphere),
            Pressure.FromPascals(sequence.IdealPartialPressure(step, added[step])),
            Pressure.FromPascals(sequence.IdealPressure(step, added)),
            gas.Composition,
            gives ?? bottle?.Pressure,
            bottle?.GrossWeight,
            bottle?.GrossWeight is { } before ? before - mass : null);
        return null;
    }

    private List<string> CollectRemarks(FillSequence sequence)
    {
        List<string> remarks = [];
        string[] without = [.. Steps.Where(s => s.BottlePressure is null && s.Amount.Moles > 0).Select(s => s.Component.Name)];
        if (without.Length > 0)
        {
            remarks.Add($"No bottle is described for {string.Join(", ", without)}: whether it gives the pressure is not judged.");
        }

        if (Request.AllowedPressure is null)
        {
            remarks.Add("No allowed pressure of the machine is stated: it is not judged.");
        }

        if (Foreign.Count > 0)
        {
            remarks.Add($"Gases from before stay in the charge: {string.Join(", ", Foreign.Select(f => $"{f.Component.Name} {1e6 * f.MoleFraction:G4} ppm (mole)"))}. The wanted composition holds among the others.");
        }

        string[] estimated = [.. FinalFluid.Pedigree.EstimatedPairs.Select(p => $"{p.First}-{p.Second}")];
        if (estimated.Length > 0)
        {
            remarks.Add($"Interaction estimated, not measured, for {string.Join(", ", estimated)}: see the pedigree of the fluid for its error band.");
        }

        if (sequence.Temperatures.Count > 1)
        {
            remarks.Add("The volumes differ in temperature: the gas is taken as equally mixed in all of them. Let the machine's compressor or time mix it before a sample is drawn.");
        }

        remarks.Add("What dissolves in oil is not counted: add it by weight, or read the pressure after it has settled.");
        return remarks;
    }
}
