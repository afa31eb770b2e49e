using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// Air that condenses on a cold surface, and liquefied air that boils off: the oxygen in it, by the library's own blend of nitrogen, oxygen and argon. Stateless
/// and thread-safe.
/// </summary>
public static class AirCondensate
{
    // Dry air: ISO 2533 (from memory), the rest counted as nitrogen.
    private const double OxygenInAir = 0.2095;
    private const double ArgonInAir = 0.0093;

    private const int BoilingSteps = 400;

    private static readonly Lazy<WorkingFluid> DryAir = new(() => WorkingFluid.Mixture(
        ("nitrogen", 1 - OxygenInAir - ArgonInAir), ("oxygen", OxygenInAir), ("argon", ArgonInAir)));

    private static readonly Lazy<CondensedAir> AtStandardAtmosphere = new(() => Compute(Pressure.FromPascals(101325)));

    /// <summary>Where air begins to condense and what of it does.</summary>
    /// <param name="atmosphere">Absolute, 0.3 to 1.2 bar; null for one standard atmosphere.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range.</exception>
    public static CondensedAir First(Pressure? atmosphere = null)
    {
        if (atmosphere is not { } pressure || pressure.Pascals == 101325)
        {
            return AtStandardAtmosphere.Value;
        }

        Guard.InRange(pressure.Bars, 0.3, 1.2, "bar absolute", nameof(atmosphere));
        return Compute(pressure);
    }

    /// <summary>
    /// Oxygen in liquefied air when a share of it is left, mole fraction: it boils off in an open vessel, the vapour in equilibrium with the liquid leaves (Lord Rayleigh,
    /// Phil. Mag. 4 (1902) 521).
    /// </summary>
    /// <param name="shareLeft">Moles of liquid left over those at first, above 0 to 1.</param>
    /// <param name="first">Oxygen in the liquid at first, mole fraction; null for all of air liquefied, 0.2095.</param>
    /// <param name="atmosphere">Absolute, 0.3 to 1.2 bar; null for one standard atmosphere.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static double OxygenLeft(double shareLeft, double? first = null, Pressure? atmosphere = null)
    {
        Guard.InRange(shareLeft, 1e-3, 1, "(share)");
        double oxygen = first is { } given ? Guard.InRange(given, 1e-3, 0.999, "(mole fraction)", nameof(first)) : OxygenInAir;
        Pressure pressure = atmosphere ?? Pressure.FromPascals(101325);
        Guard.InRange(pressure.Bars, 0.3, 1.2, "bar absolute", nameof(atmosphere));

        // d(n x) = y dn for each component, by Heun's method in ln n.
        double argon = ArgonInAir * (1 - oxygen) / (1 - OxygenInAir);
        double step = Math.Log(shareLeft) / BoilingSteps;
        for (int i = 0; i < BoilingSteps && shareLeft < 1; i++)
        {
            (double o1, double a1) = Slopes(oxygen, argon);
            (double o2, double a2) = Slopes(Math.Clamp(oxygen + (step * o1), 1e-6, 1 - 2e-6), Math.Max(0, argon + (step * a1)));
            oxygen = Math.Clamp(oxygen + (0.5 * step * (o1 + o2)), 1e-6, 1 - 2e-6);
            argon = Math.Clamp(argon + (0.5 * step * (a1 + a2)), 0, 1 - oxygen - 1e-6);
        }

        return oxygen;

        (double Oxygen, double Argon) Slopes(double o, double a)
        {
            State boiling = DryAir.Value.WithFractions([1 - o - a, o, a]).BubblePoint(pressure);
            Phase vapor = boiling.Phases.First(p => p.Kind == PhaseKind.Vapor);
            return (vapor.Composition["oxygen"] - o, vapor.Composition["argon"] - a);
        }
    }

    private static CondensedAir Compute(Pressure pressure)
    {
        State dew = DryAir.Value.DewPoint(pressure);
        Phase liquid = dew.Phases.First(p => p.Kind == PhaseKind.Liquid);
        return new(dew.Temperature, liquid.Composition["oxygen"], liquid.Composition["argon"]);
    }
}
