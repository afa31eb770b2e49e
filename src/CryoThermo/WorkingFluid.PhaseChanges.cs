using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>Where phases appear and vanish along isobars and isotherms.</summary>
public sealed partial class WorkingFluid
{
    /// <summary>
    /// Every change of phases along an isobar, from cold to warm, each solved where the tangent-plane distance of the phase that appears or
    /// vanishes is zero. Found by flashes 4 K apart: two changes that lie closer, with the same phases outside both, may be missed. That a
    /// single phase passes from liquid-like to vapour-like is none.
    /// </summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="lowest">Where to begin.</param>
    /// <param name="highest">Where to end.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or the span is empty; or the model has no fluid phase somewhere.</exception>
    /// <exception cref="InvalidOperationException">The fluid is a mixture described as if it were pure.</exception>
    public IReadOnlyList<PhaseChange> PhaseChanges(Pressure pressure, Temperature lowest, Temperature highest)
    {
        double p = Check(pressure);
        double low = Check(lowest);
        double high = Check(highest);
        RequireSpan(low, high, "K", nameof(highest));
        return ChangesOf(IncipientPoint.Unknown.Temperature, p, low, high);
    }

    /// <summary>
    /// Every change of phases along an isotherm, from low to high pressure; as along an isobar, by flashes at pressures a factor of 1.28 apart.
    /// </summary>
    /// <param name="temperature">As for <see cref="At"/>.</param>
    /// <param name="lowest">Where to begin, absolute.</param>
    /// <param name="highest">Where to end, absolute.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or the span is empty; or the model has no fluid phase somewhere.</exception>
    /// <exception cref="InvalidOperationException">The fluid is a mixture described as if it were pure.</exception>
    public IReadOnlyList<PhaseChange> PhaseChanges(Temperature temperature, Pressure lowest, Pressure highest)
    {
        double t = Check(temperature);
        double low = Check(lowest);
        double high = Check(highest);
        RequireSpan(low, high, "Pa", nameof(highest));
        return ChangesOf(IncipientPoint.Unknown.Pressure, t, low, high);
    }

    private static void RequireSpan(double low, double high, string unit, string parameter)
    {
        if (!(high > low))
        {
            throw new ArgumentOutOfRangeException(parameter, high, $"{parameter} is {high:G9} {unit}; it must lie above lowest, {low:G9} {unit}.");
        }
    }

    private PhaseChange[] ChangesOf(IncipientPoint.Unknown unknown, double given, double low, double high)
    {
        if (assembly.PseudoPure is not null)
        {
            throw new InvalidOperationException(
                $"{Composition.Components[0].Name} is a mixture described as if it were pure: its lines are known, but no phases on them. Make it a mixture of its components instead.");
        }

        return [.. new PhaseChangeFinder(Kernel, Composition.Fractions, unknown, given).Find(low, high).Select(change => new PhaseChange(this, change))];
    }

    // The first vapour beside two liquids, or the first drop where that of the equations is not the first; null where neither is found, or where a
    // fourth phase exists. Without a place near it, the first vapour is searched over the whole range.
    private EquilibriumResult? Split(bool bubble, IncipientPoint.Unknown unknown, double given, double? near)
    {
        PhaseChangeFinder finder = new(Kernel, Composition.Fractions, unknown, given);
        try
        {
            EquilibriumResult? found = (near is { } place ? finder.Incipient(bubble, place) : bubble ? finder.FirstVapor() : null)?.State;
            return found is { StillUnstable: false } ? found : null;
        }
        catch (ArgumentOutOfRangeException)
        {
            // The equations of a mixture have no fluid phase on the way.
            return null;
        }
    }
}
