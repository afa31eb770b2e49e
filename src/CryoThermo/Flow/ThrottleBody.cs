using CryoThermo.Diagnostics;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// The metal of a throttle that conducts heat to its cold outlet: body, stem, connecting tubes, as parallel paths of bars in series. Each by
/// the integral of the conductivity, (A/L) times the integral of k dT. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Heat from the inlet stream to the outlet stream stays in the throttle: inlet plus outlet keep their enthalpy, but the outlet is that much
/// warmer where it leaves, and the seat sees a warmer stream. Heat from a stem that ends in the room is a heat leak in full.
/// </remarks>
public sealed class ThrottleBody
{
    /// <summary>How far above the range of a metal its last conductivity is held, K.</summary>
    private const double HeldKelvins = 30;

    /// <summary>Describes a throttle.</summary>
    /// <param name="paths">One or more, side by side, with different names.</param>
    /// <exception cref="ArgumentException">There is no path, or two have one name.</exception>
    public ThrottleBody(params IReadOnlyList<ConductionPath> paths)
    {
        ArgumentNullException.ThrowIfNull(paths);
        if (paths.Count == 0)
        {
            throw new ArgumentException("paths is empty; at least one is needed.", nameof(paths));
        }

        if (paths.Select(p => p.Name).Distinct(StringComparer.Ordinal).Count() < paths.Count)
        {
            throw new ArgumentException($"Two paths have one name: {string.Join(", ", paths.Select(p => p.Name))}.", nameof(paths));
        }

        Paths = [.. paths];
    }

    /// <summary>The paths.</summary>
    public IReadOnlyList<ConductionPath> Paths { get; }

    /// <summary>The heat conducted to the outlet, beside what the throttle brings.</summary>
    /// <param name="inlet">State before the throttle.</param>
    /// <param name="outletPressure">Absolute, below that.</param>
    /// <param name="flow">Molar flow, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range, or a temperature out of the range of a metal.</exception>
    /// <exception cref="ConvergenceException">A state was not found.</exception>
    public BodyConduction Assess(State inlet, Pressure outletPressure, MolarFlow flow)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        double n = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        Guard.InRange(outletPressure.Pascals, double.Epsilon, inlet.Pressure.Pascals, "Pa absolute", nameof(outletPressure));
        State outlet = inlet.Fluid.AtEnthalpy(outletPressure, inlet.MolarEnthalpy);
        double brings = n * (inlet.Fluid.At(inlet.Temperature, outletPressure).MolarEnthalpy - inlet.MolarEnthalpy).JoulesPerMole;
        List<RangeNote> notes = [];
        PathHeat[] heats = [.. Paths.Select(p => Through(p, p.WarmEnd ?? inlet.Temperature, outlet.Temperature, notes))];
        return new(inlet, outlet, flow, Power.FromWatts(brings), heats, notes);
    }

    /// <summary>The heat through one path between two temperatures.</summary>
    /// <param name="path">The path.</param>
    /// <param name="warmEnd">Temperature of its warm end.</param>
    /// <param name="coldEnd">Temperature of its cold end.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature is out of the range of a metal.</exception>
    public static PathHeat HeatThrough(ConductionPath path, Temperature warmEnd, Temperature coldEnd) => Through(path, warmEnd, coldEnd, []);

    private static PathHeat Through(ConductionPath path, Temperature warmEnd, Temperature coldEnd, List<RangeNote> notes)
    {
        ArgumentNullException.ThrowIfNull(path);
        (double warm, double cold) = (warmEnd.Kelvins, coldEnd.Kelvins);
        double uncertainty = path.Bars.Max(b => b.Material.UncertaintyShare);
        if (warm < cold)
        {
            PathHeat back = Through(path, coldEnd, warmEnd, notes);
            return new(path, warmEnd, Power.FromWatts(-(double)back.Heat.Watts), uncertainty);
        }

        foreach (ConductionBar bar in path.Bars)
        {
            double held = bar.Material.Highest.Kelvins + (bar.Material.Highest.Kelvins < 300 ? 0 : HeldKelvins);
            if (!(cold >= bar.Material.Lowest.Kelvins && warm <= held))
            {
                throw new ArgumentOutOfRangeException(
                    nameof(path),
                    path.Name,
                    $"Path '{path.Name}' runs from {warm:G6} to {cold:G6} K; the conductivity of {bar.Material.Name} is known from {bar.Material.Lowest.Kelvins:G6} to {bar.Material.Highest.Kelvins:G6} K.{(bar.Material.Remark is { } remark ? " " + remark : string.Empty)}");
            }

            if (warm > bar.Material.Highest.Kelvins)
            {
                notes.Add(new($"Conductivity of {bar.Material.Name}", $"{warm:G6} K lies above {bar.Material.Highest.Kelvins:G6} K; the conductivity there is held."));
            }
        }

        if (warm == cold)
        {
            return new(path, warmEnd, Power.Zero, uncertainty);
        }

        // In series the heat is one, and the temperatures between follow from the warm end on.
        double most = path.Bars.Min(b => b.CrossSection.SquareMeters / b.Length.Meters * b.Material.IntegralHeld(cold, warm));
        double Miss(double heat)
        {
            double t = warm;
            foreach (ConductionBar bar in path.Bars)
            {
                double wanted = heat * bar.Length.Meters / bar.CrossSection.SquareMeters;
                if (bar.Material.IntegralHeld(cold, t) <= wanted)
                {
                    // It would be colder than the cold end: by how much heat tells as well.
                    return bar.Material.IntegralHeld(cold, t) - wanted;
                }

                double from = t;
                t = BracketedRoot.Solve(x => bar.Material.IntegralHeld(x, from) - wanted, cold, from);
            }

            return t - cold;
        }

        double watts = path.Bars.Count == 1 ? most : BracketedRoot.Solve(Miss, 0, most * (1 + 1e-12));
        return new(path, warmEnd, Power.FromWatts(watts), uncertainty);
    }
}
