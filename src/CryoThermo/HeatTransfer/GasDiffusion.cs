using CryoThermo.Diagnostics;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// Diffusion coefficient of two gases at low pressure: D = 0.00143 T^1.75/(p M^(1/2) (v1^(1/3) + v2^(1/3))^2), cm2/s with p in bar and M = 2/(1/M1 + 1/M2) in
/// g/mol. Above about 20 bar it is too great. Stateless and thread-safe.
/// </summary>
public static class GasDiffusion
{
    private static readonly Source Correlation = new(
        "E. N. Fuller, P. D. Schettler, J. C. Giddings, Ind. Eng. Chem. 58 (5) (1966) 18, with the volumes of Fuller, Ensley and Giddings, J. Phys. Chem. 73 (1969) 3679",
        FromMemory: true,
        Verified: "measured pairs near room temperature within 8 %, kinetic theory with Lennard-Jones molecules at 80 K within 10 %");

    /// <summary>The coefficient of two substances of the shipped catalogue.</summary>
    /// <param name="first">Any spelling of a name.</param>
    /// <param name="second">Any spelling of another.</param>
    /// <param name="temperature">20 to 1500 K.</param>
    /// <param name="pressure">Absolute, 1 Pa to 50 bar.</param>
    /// <exception cref="ArgumentException">A name is unknown, both are the same, or no diffusion volume is known for one.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static DiffusionEstimate Of(string first, string second, Temperature temperature, Pressure pressure)
    {
        IReadOnlyList<Substance> pair = Composition.FromMoleFractions((first, 0.5), (second, 0.5)).Components;
        return Of(pair[0], pair[1], temperature, pressure);
    }

    internal static DiffusionEstimate Of(Substance first, Substance second, Temperature temperature, Pressure pressure)
    {
        double t = Guard.InRange(temperature.Kelvins, 20, 1500, "K", nameof(temperature));
        double p = Guard.InRange(pressure.Pascals, 1, 5e6, "Pa", nameof(pressure));
        (double Volume, string Basis) own = Known(first);
        (double Volume, string Basis) other = Known(second);
        double mass = 2 / ((1 / (1000 * first.MolarMass)) + (1 / (1000 * second.MolarMass)));
        double root = Math.Cbrt(own.Volume) + Math.Cbrt(other.Volume);
        double value = 1e-4 * 0.00143 * Math.Pow(t, 1.75) / (1e-5 * p * Math.Sqrt(mass) * root * root);
        return new(value, t >= 200 && p <= 5e5 ? 7 : p <= 2e6 ? 15 : 30, Correlation, [own.Basis, other.Basis]);
    }

    private static (double Volume, string Basis) Known(Substance substance) => DiffusionVolume.Of(substance)
        ?? throw new ArgumentException($"{substance.Name} has no diffusion volume here: they are known for noble and simple gases and for molecules of C, H, O, N, F, Cl and S.", nameof(substance));
}
