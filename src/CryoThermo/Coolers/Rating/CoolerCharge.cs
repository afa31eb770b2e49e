using CryoThermo.Coolers.Charging;
using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>What was filled into a cooler: everything, not what circulates. Immutable and thread-safe.</summary>
public sealed class CoolerCharge
{
    /// <summary>Names fluid and amount.</summary>
    /// <param name="fluid">Composition of the whole charge, with the model to compute with.</param>
    /// <param name="amount">How much, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The amount is out of its range.</exception>
    public CoolerCharge(WorkingFluid fluid, AmountOfSubstance amount)
    {
        ArgumentNullException.ThrowIfNull(fluid);
        Guard.InRange(amount.Moles, 1e-9, 1e9, "mol", nameof(amount));
        Fluid = fluid;
        Amount = amount;
    }

    /// <summary>Composition of the whole charge.</summary>
    public WorkingFluid Fluid { get; }

    /// <summary>How much.</summary>
    public AmountOfSubstance Amount { get; }

    /// <summary>Its mass.</summary>
    public Mass Mass => Mass.FromKilograms(Amount.Moles * Fluid.Composition.MolarMass.KilogramsPerMole);

    /// <summary>The charge of a recipe.</summary>
    /// <param name="recipe">The recipe.</param>
    public static CoolerCharge Of(ChargeRecipe recipe)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        return new(recipe.FinalFluid, recipe.TotalAmount);
    }

    /// <summary>The charge with more of a component.</summary>
    /// <param name="component">A component of the charge.</param>
    /// <param name="share">Of its amount, above -1.</param>
    /// <exception cref="ArgumentException">The charge has no such component.</exception>
    internal CoolerCharge WithMore(string component, double share)
    {
        Composition composition = Fluid.Composition;
        int index = composition.IndexOf(component);
        if (index < 0)
        {
            throw new ArgumentException($"component is '{component}'; the charge holds {composition}.", nameof(component));
        }

        double[] moles = [.. composition.MoleFractions.Select((z, i) => Amount.Moles * z * (i == index ? 1 + share : 1))];
        double total = moles.Sum();
        return new(Fluid.WithFractions([.. moles.Select(m => m / total)]), AmountOfSubstance.FromMoles(total));
    }

    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{Amount.Moles:G4} mol ({1000 * Mass.Kilograms:G4} g) of {Fluid}");
}
