using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.HeatTransfer;

/// <summary>Heat that a bare pipe takes from a still room. Immutable and thread-safe.</summary>
/// <param name="Pipe">The pipe.</param>
/// <param name="Surface">Temperature of its surface.</param>
/// <param name="Room">Temperature of the room.</param>
/// <param name="WettingTemperature">Below it dew forms, or rime where it is below 0 degC.</param>
/// <param name="Convection">Natural convection at its surface.</param>
/// <param name="Radiation">Radiation to the room.</param>
/// <param name="HeatPerLength">Heat into a metre of pipe by convection and radiation; negative where the pipe is the warmer.</param>
/// <param name="MoistureHeatPerLength">Heat that settling moisture adds while the surface is bare, from the analogy of heat and mass; rime soon hinders it.</param>
public sealed record BarePipeResult(
    BarePipe Pipe,
    Temperature Surface,
    Temperature Room,
    Temperature WettingTemperature,
    NaturalConvectionResult Convection,
    RadiationResult Radiation,
    LinearPowerDensity HeatPerLength,
    LinearPowerDensity MoistureHeatPerLength)
{
    /// <summary>Below this a surface in open air counts as condensing air, K; the dew point of air at 1 atm is 81.7 K.</summary>
    private const double AirCondensationKelvins = 82;

    /// <summary>Convection and radiation together, for each area and kelvin.</summary>
    public HeatTransferCoefficient CombinedCoefficient => Convection.Coefficient + Radiation.Coefficient;

    /// <summary>What the cold surface does in air; empty when it is warmer than where dew forms and not hot.</summary>
    public IReadOnlyList<Caution> Cautions
    {
        get
        {
            List<Caution> cautions = [];
            string figure = $"surface at {Surface.DegreesCelsius:F0} degC, {(WettingTemperature.DegreesCelsius < 0 ? "rime" : "dew")} below {WettingTemperature.DegreesCelsius:F1} degC";
            if (Surface.Kelvins < AirCondensationKelvins)
            {
                cautions.Add(new(
                    CautionSeverity.Danger,
                    "Air condenses on the pipe",
                    $"surface at {Surface.Kelvins:F1} K",
                    $"air at 1 atm condenses below {AirCondensationKelvins} K, and its first liquid holds about half oxygen",
                    $"Keep grease, plastics and flammable insulation away from where it drips, and insulate. {Caution.Deference}",
                    new("dew point of air at 1 atm 81.7 K: Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331", FromMemory: true)));
            }

            if (Surface < WettingTemperature)
            {
                bool ice = Surface.DegreesCelsius < 0;
                cautions.Add(new(
                    ice ? CautionSeverity.Warning : CautionSeverity.Notice,
                    ice ? "Rime on the pipe" : "Dew on the pipe",
                    figure,
                    "a surface below the dew point takes moisture from the air",
                    ice
                        ? $"Bare skin freezes to it: guard it. Meltwater reaches what lies below, wiring included. Insulate with a vapour barrier. {Caution.Deference}"
                        : $"Keep the drip off wiring, or insulate with a vapour barrier. {Caution.Deference}",
                    MoistAir.Source));
            }

            if (Surface.DegreesCelsius > 60)
            {
                cautions.Add(new(
                    CautionSeverity.Warning,
                    "Hot pipe",
                    $"surface at {Surface.DegreesCelsius:F0} degC",
                    "bare metal above 60 degC burns skin within seconds",
                    $"Guard or insulate it. {Caution.Deference}",
                    new("common practice; ISO 13732-1 gives burn thresholds of bare metal near 60 to 65 degC for contact of a few seconds", FromMemory: true)));
            }

            return cautions;
        }
    }

    /// <summary>The figures as a table.</summary>
    public ResultTable ToTable() => new(
        $"Bare pipe of {Pipe.OuterDiameter.Millimeters:G4} mm at {Surface.Kelvins:F1} K in a room of {Room.DegreesCelsius:F1} degC",
        ["figure", "value"],
        [
            ["convection, W/(m2 K)", $"{Convection.Coefficient.WattsPerSquareMeterKelvin:F2}"],
            ["radiation, W/(m2 K)", $"{Radiation.Coefficient.WattsPerSquareMeterKelvin:F2}"],
            ["heat into a metre, W/m", $"{HeatPerLength.WattsPerMeter:F1}"],
            ["moisture adds at first, W/m", $"{MoistureHeatPerLength.WattsPerMeter:F1}"],
            ["dew or rime below, degC", $"{WettingTemperature.DegreesCelsius:F1}"],
        ]);
}
