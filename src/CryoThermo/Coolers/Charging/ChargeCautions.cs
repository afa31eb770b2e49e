using System.Text.RegularExpressions;
using CryoThermo.Diagnostics;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>Cautions of charging: those of the circuit, and those of bottles, venting and pressure tests.</summary>
internal static partial class ChargeCautions
{
    /// <summary>Cautions of a recipe, the gravest first.</summary>
    public static IReadOnlyList<Caution> Of(ChargeRecipe recipe)
    {
        ChargeRequest request = recipe.Request;
        Pressure lowest = request.Residual?.Pressure ?? Pressure.FromPascals(1);
        if (recipe.Steps[0].AbsolutePressure.Pascals < recipe.FinalPressure.Pascals)
        {
            lowest = recipe.Steps[0].AbsolutePressure;
        }

        List<Caution> cautions =
        [
            .. CautionRules.Assess(CircuitOf(recipe.FinalFluid.Composition, lowest, recipe.FinalPressure, request.LocalAtmosphere, request.Volumes, request.ReliefSetting)),
        ];
        OverPressure(recipe, cautions);
        Venting(recipe.FinalFluid.Composition, cautions);
        return [.. cautions.OrderByDescending(c => c.Severity)];
    }

    /// <summary>A machine at rest as a circuit: its cold parts are warm, its one pressure stands for the high side.</summary>
    public static Circuit CircuitOf(
        Composition charge, Pressure lowest, Pressure highest, Pressure atmosphere, IReadOnlyList<MachineVolume> volumes, Pressure? relief)
    {
        List<SubstanceShare> shares = [.. charge.Components.Zip(charge.MoleFractions)
            .Where(c => c.Second > 0 && !(c.Second < Flammability.LeastOxidiser && HazardTable.TryFind(c.First.Name, out SubstanceHazard? hazard) && hazard.Behaviour == FireBehaviour.Oxidiser))
            .Select(c => new SubstanceShare(c.First.Name, c.Second))];
        double sum = shares.Sum(s => s.MoleFraction);

        // The rules want two pressures in order; a machine at rest has one.
        double low = Math.Min(lowest.Pascals, highest.Pascals * (1 - 1e-9));
        return new()
        {
            Contents = [.. shares.Select(s => s with { MoleFraction = s.MoleFraction / sum })],
            LowPressure = Pressure.FromPascals(low),
            HighPressure = highest,
            LocalAtmosphere = atmosphere,
            ColdestSurface = volumes.MinBy(v => v.Temperature.Kelvins)!.Temperature,
            HighPressureReliefSetting = relief,
            ColdLiquidCanBeShutIn = false,
        };
    }

    /// <summary>Adds the caution of venting a charge that holds fluorinated gases.</summary>
    public static void Venting(Composition charge, List<Caution> cautions)
    {
        string[] fluorinated = [.. charge.Components.Zip(charge.MoleFractions)
            .Where(c => c.Second > 0 && c.First.Identity.Formula is { } formula && Fluorine().IsMatch(formula))
            .Select(c => c.First.Name)];
        if (fluorinated.Length > 0)
        {
            cautions.Add(new(
                CautionSeverity.Warning,
                "Fluorinated gas: recover, do not vent",
                $"the charge holds {string.Join(", ", fluorinated)}",
                "fluorinated greenhouse gases must not be vented on purpose, also not to correct a charge (threshold: any share above 0 %)",
                $"Recover into a bottle meant for it, by a person certified for it; weigh what comes out. {Caution.Deference}",
                new Source("Regulation (EU) 2024/573; US Clean Air Act section 608, 40 CFR 82 subpart F", FromMemory: true)));
        }
    }

    /// <summary>Adds the caution of a test gas that burns or feeds a fire.</summary>
    public static void TestGas(Composition gas, List<Caution> cautions)
    {
        Flammability fire = Flammability.Of([.. gas.Components.Zip(gas.MoleFractions).Select(c => new SubstanceShare(c.First.Name, c.Second))]);
        if (fire.MustBeTreatedAsFuel || fire.OxidiserFraction > 0)
        {
            cautions.Add(new(
                CautionSeverity.Danger,
                "Test gas that burns or feeds a fire",
                $"{100 * fire.FuelFraction:F1} % (mole) flammable, {100 * fire.OxidiserFraction:F1} % (mole) oxidiser",
                "leak and strength tests are made with inert gas (threshold: any flammable or oxidising component)",
                $"Take nitrogen or helium. {Caution.Deference}",
                Source.CommonPractice));
        }
    }

    private static void OverPressure(ChargeRecipe recipe, List<Caution> cautions)
    {
        Pressure? allowed = recipe.Request.AllowedPressure ?? recipe.Request.ReliefSetting;
        GasBottle[] above = [.. recipe.Request.Bottles.Where(b => b.Pressure.Pascals > (allowed ?? recipe.FinalPressure).Pascals)];
        if (above.Length == 0)
        {
            return;
        }

        GasBottle highest = above.MaxBy(b => b.Pressure.Pascals)!;
        string against = allowed is { } limit ? $"{limit.Bars:G4} bar absolute the machine is allowed" : $"the {recipe.FinalPressure.Bars:G4} bar absolute wanted";
        cautions.Add(new(
            CautionSeverity.Danger,
            "Bottle pressure above that of the machine",
            $"{string.Join(", ", above.Select(b => b.Substance))}: up to {highest.Pressure.Bars:G4} bar absolute in the bottle against {against}",
            "a bottle that can bring the machine above its rating needs a pressure regulator and a relief device between them (threshold: bottle pressure above the machine's)",
            $"Fill through a regulator and a relief device set below the rating of the weakest part, by a needle valve, never by the bottle valve alone. {Caution.Deference}",
            Source.CommonPractice));
    }

    // F as an element: not the beginning of Fe, Fr, Fm, Fl.
    [GeneratedRegex("C.*F(?![a-z])|F(?![a-z]).*C(?![a-z])|SF6|NF3", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Fluorine();
}
