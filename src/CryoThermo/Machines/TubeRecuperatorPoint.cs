using CryoThermo.HeatTransfer;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>Both streams of a recuperator of tubes at one place. Immutable and thread-safe.</summary>
/// <param name="Position">From the warm end.</param>
/// <param name="DutyFromColdEnd">Heat that the stream which is cooled gives between the cold end and this place.</param>
/// <param name="HotTemperature">Of the stream that is cooled.</param>
/// <param name="ColdTemperature">Of the stream that is warmed.</param>
/// <param name="HotPressure">Absolute.</param>
/// <param name="ColdPressure">Absolute.</param>
/// <param name="HotVaporMassFraction">kg/kg.</param>
/// <param name="ColdVaporMassFraction">kg/kg.</param>
/// <param name="HotCoefficient">Film coefficient.</param>
/// <param name="ColdCoefficient">Film coefficient.</param>
/// <param name="HotRegime">How the stream flows.</param>
/// <param name="ColdRegime">How the stream flows.</param>
public sealed record TubeRecuperatorPoint(
    Length Position,
    Power DutyFromColdEnd,
    Temperature HotTemperature,
    Temperature ColdTemperature,
    Pressure HotPressure,
    Pressure ColdPressure,
    double HotVaporMassFraction,
    double ColdVaporMassFraction,
    HeatTransferCoefficient HotCoefficient,
    HeatTransferCoefficient ColdCoefficient,
    FilmRegime HotRegime,
    FilmRegime ColdRegime);
