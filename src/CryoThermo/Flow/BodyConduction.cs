using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>Heat conducted to the outlet of a throttle, beside what the throttle brings. Immutable and thread-safe.</summary>
/// <param name="Inlet">State before the throttle.</param>
/// <param name="Outlet">State behind it, without conduction.</param>
/// <param name="Flow">Molar flow.</param>
/// <param name="Refrigeration">What the throttle brings: the heat that the stream behind it takes up until it is as warm as before it; negative where throttling warms.</param>
/// <param name="Paths">Heat through each path.</param>
/// <param name="Notes">Where a conductivity was held beyond its range.</param>
public sealed record BodyConduction(
    State Inlet, State Outlet, MolarFlow Flow, Power Refrigeration, IReadOnlyList<PathHeat> Paths, IReadOnlyList<RangeNote> Notes)
{
    /// <summary>All of the heat.</summary>
    public Power Total => Power.FromWatts(Paths.Sum(p => (double)p.Heat.Watts));

    /// <summary>What of it comes from the surroundings: a heat leak in full.</summary>
    public Power FromSurroundings => Power.FromWatts(Paths.Where(p => p.Path.WarmEnd is not null).Sum(p => (double)p.Heat.Watts));

    /// <summary>All of the heat over what the throttle brings; null where it brings nothing.</summary>
    public double? Share => (double)Refrigeration.Watts > 0 ? (double)Total.Watts / (double)Refrigeration.Watts : null;

    /// <summary>In a builder's words.</summary>
    public string Statement => Share is { } share
        ? $"Body and stem conduct {(double)Total.Watts:G3} W to the cold side, {100 * share:G3} % of the {(double)Refrigeration.Watts:G3} W that throttling brings; {(double)FromSurroundings.Watts:G3} W of it come from the room and are lost in full."
        : $"Throttling brings no cooling here; body and stem conduct {(double)Total.Watts:G3} W to the outlet.";

    /// <summary>The paths as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        Statement,
        ["path", "warm end, K", "cold end, K", "heat, W", "of the cooling, %", "known within, %"],
        [
            .. Paths.Select(p => (IReadOnlyList<string>)
            [
                p.Path.Name,
                $"{p.WarmEnd.Kelvins:F1}",
                $"{Outlet.Temperature.Kelvins:F1}",
                $"{(double)p.Heat.Watts:G4}",
                Percent((double)p.Heat.Watts),
                $"{100 * p.UncertaintyShare:F0}",
            ]),
            ["all", string.Empty, $"{Outlet.Temperature.Kelvins:F1}", $"{(double)Total.Watts:G4}", Percent((double)Total.Watts), string.Empty],
        ]);

    private string Percent(double heat) => (double)Refrigeration.Watts > 0 ? $"{100 * heat / (double)Refrigeration.Watts:G3}" : "none";
}
