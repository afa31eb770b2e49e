using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>
/// What conduction along the wall costs a counter-flow exchanger: its ineffectiveness, one less the effectiveness, with and without it. Constant heat
/// capacities and film coefficients, wall insulated at its ends. Immutable and thread-safe.
/// </summary>
/// <param name="TransferUnits">UA over the lesser capacity rate, film to film.</param>
/// <param name="CapacityRatio">Lesser over greater capacity rate.</param>
/// <param name="ConductionParameter">Conductance of the wall from end to end over the lesser capacity rate.</param>
/// <param name="Ineffectiveness">One less the effectiveness, with conduction.</param>
/// <param name="IneffectivenessWithoutConduction">The same without conduction.</param>
public sealed record AxialConductionLoss(
    double TransferUnits, double CapacityRatio, double ConductionParameter, double Ineffectiveness, double IneffectivenessWithoutConduction)
{
    /// <summary>Share of the greatest duty that conduction along the wall takes away, 0 to 1.</summary>
    public double LostShare => Ineffectiveness - IneffectivenessWithoutConduction;

    /// <summary>Where it comes from and how sure it is.</summary>
    public static Source Source { get; } = new(
        "exact solution of the three coupled energy equations, derived here; for equal capacity rates P. G. Kroeger, Adv. Cryog. Eng. 12 (1967) 363",
        FromMemory: true,
        Verified: "exact for constant properties: Kroeger's closed form and a finite-difference solution agree; properties that vary along the exchanger are not in it");

    /// <summary>Solves the exchanger.</summary>
    /// <param name="transferUnits">UA over the lesser capacity rate, 1e-3 to 1e4; UA from both film coefficients in series.</param>
    /// <param name="capacityRatio">Lesser over greater capacity rate, 1e-3 to 1.</param>
    /// <param name="conductionParameter">Zero, or 1e-9 to 1e3: see <see cref="ParameterOf"/>.</param>
    /// <param name="hotIsLesser">Whether the hot stream has the lesser capacity rate.</param>
    /// <param name="hotOverColdFilm">Film conductance hA of the hot stream over that of the cold stream, 1e-3 to 1e3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static AxialConductionLoss Of(
        double transferUnits, double capacityRatio, double conductionParameter, bool hotIsLesser = true, double hotOverColdFilm = 1)
    {
        Guard.InRange(transferUnits, 1e-3, 1e4, "transfer units");
        Guard.InRange(capacityRatio, 1e-3, 1, "of the greater capacity rate");
        Guard.InRange(hotOverColdFilm, 1e-3, 1e3, "of the cold film conductance");
        double without = AxialConduction.WithoutConduction(transferUnits, capacityRatio);
        if (conductionParameter == 0)
        {
            return new(transferUnits, capacityRatio, 0, without, without);
        }

        Guard.InRange(conductionParameter, 1e-9, 1e3, "of the lesser capacity rate");
        double hotRate = hotIsLesser ? 1 : 1 / capacityRatio;
        double coldRate = hotIsLesser ? 1 / capacityRatio : 1;
        AxialConduction exact = new(
            transferUnits * (1 + hotOverColdFilm), transferUnits * (1 + (1 / hotOverColdFilm)), hotRate, coldRate, conductionParameter);
        return new(transferUnits, capacityRatio, conductionParameter, hotIsLesser ? exact.HotIneffectiveness : exact.ColdIneffectiveness, without);
    }

    /// <summary>The conduction parameter of a wall: what it conducts from end to end per kelvin, with the mean conductivity between the end temperatures, over a capacity rate.</summary>
    /// <param name="wall">Length and cross-section of all metal along the exchanger.</param>
    /// <param name="warmEnd">Within the range of the metal.</param>
    /// <param name="coldEnd">Within the range of the metal, below the warm end.</param>
    /// <param name="lesserCapacityRateWattsPerKelvin">Flow times heat capacity of the stream where that is less, W/K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public static double ParameterOf(ConductionBar wall, Temperature warmEnd, Temperature coldEnd, double lesserCapacityRateWattsPerKelvin)
    {
        ArgumentNullException.ThrowIfNull(wall);
        Guard.Positive(lesserCapacityRateWattsPerKelvin, "W/K");
        double span = Guard.Positive(warmEnd.Kelvins - coldEnd.Kelvins, "K above the cold end", nameof(warmEnd));
        return wall.Material.ConductivityIntegralWattsPerMeter(coldEnd, warmEnd) * wall.CrossSection.SquareMeters
            / (span * wall.Length.Meters * lesserCapacityRateWattsPerKelvin);
    }
}
