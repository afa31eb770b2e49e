using CryoThermo.Diagnostics;
using CryoThermo.IdealGas;
using UnitsNet;

namespace CryoThermo;

/// <summary>
/// The balance of the two spin forms of hydrogen, as ideal gas, from the rotational levels of the molecule (term values of Dabrowski,
/// Can. J. Phys. 62 (1984) 1639, from memory). Valid from 1 to 600 K.
/// </summary>
/// <remarks>
/// Hydrogen liquefied without a catalyst is three quarters ortho and converts slowly in the tank. The conversion releases more heat than
/// evaporation takes up, so that such liquid boils itself away within days: see <see cref="ConversionCaution"/>.
/// </remarks>
public static class OrthoParaHydrogen
{
    /// <summary>Para fraction of normal hydrogen.</summary>
    public const double NormalParaFraction = RotationalHydrogen.NormalParaFraction;

    /// <summary>What a builder must know before storing liquid hydrogen.</summary>
    public static Caution ConversionCaution { get; } = new(
        CautionSeverity.Danger,
        "Liquid hydrogen boils itself away",
        "Turning from normal to para hydrogen releases 527 kJ/kg at 20 K; evaporation takes up about 446 kJ/kg.",
        "Heat of conversion against heat of vaporisation at the normal boiling point.",
        "Liquid made without a conversion catalyst converts in the tank and raises the pressure of a closed vessel without limit. Keep every "
        + "vessel vented through relief devices sized for it; follow local codes and licensed practice.",
        new("rotational levels: Dabrowski, Can. J. Phys. 62 (1984) 1639; heat of vaporisation: common practice, no source", true, null));

    /// <summary>Mole fraction of para molecules in equilibrium.</summary>
    /// <param name="temperature">1 to 600 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static double EquilibriumParaFraction(Temperature temperature) =>
        RotationalHydrogen.EquilibriumParaFraction(Check(temperature), out _);

    /// <summary>Enthalpy of ortho less that of para hydrogen: the heat that the conversion of ortho molecules releases, per mole converted.</summary>
    /// <param name="temperature">1 to 600 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static MolarEnergy ConversionEnthalpy(Temperature temperature) =>
        MolarEnergy.FromJoulesPerMole(RotationalHydrogen.ConversionEnthalpy(Check(temperature)));

    /// <summary>Heat released when the para fraction changes at constant temperature, per mole of hydrogen; negative when it falls.</summary>
    /// <param name="fromParaFraction">Before, 0 to 1.</param>
    /// <param name="toParaFraction">After, 0 to 1.</param>
    /// <param name="temperature">1 to 600 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static MolarEnergy HeatReleased(double fromParaFraction, double toParaFraction, Temperature temperature)
    {
        double from = Guard.InRange(fromParaFraction, 0, 1, "mole fraction");
        double to = Guard.InRange(toParaFraction, 0, 1, "mole fraction");
        return MolarEnergy.FromJoulesPerMole((to - from) * RotationalHydrogen.ConversionEnthalpy(Check(temperature)));
    }

    /// <summary>Isobaric heat capacity of hydrogen that stays in equilibrium while its temperature changes.</summary>
    /// <param name="temperature">1 to 600 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static MolarEntropy EquilibriumHeatCapacity(Temperature temperature) =>
        MolarEntropy.FromJoulesPerMoleKelvin(RotationalHydrogen.EquilibriumHeatCapacity(Check(temperature)));

    private static double Check(Temperature temperature) =>
        Guard.InRange(temperature.Kelvins, RotationalHydrogen.LowestTemperature, RotationalHydrogen.HighestTemperature, "K", nameof(temperature));
}
