namespace CryoThermo.Coolers.Rating;

/// <summary>What the exchangers about a phase separator do with its streams, in a form that holds for states near those it was found at. SI, molar.</summary>
/// <param name="VaporFall">Enthalpy that the vapour stream loses in the warm exchanger, J a mole of it.</param>
/// <param name="LiquidFall">The same of the liquid stream, J a mole of it.</param>
/// <param name="ColdFall">Enthalpy that the vapour stream loses in the cold exchanger, J a mole of it; negative where its return warms it.</param>
/// <param name="ThrottlePressureRatio">Pressure in separator and high side over that before its pressure drop.</param>
/// <param name="ColdPressureRatio">Pressure in the low side over the suction's.</param>
/// <param name="Vapor">Slices of the vapour stream in the warm exchanger, from its warm end.</param>
/// <param name="Liquid">Slices of the liquid stream there.</param>
/// <param name="Return">Slices of the mixed return there.</param>
/// <param name="Cold">Slices of both sides of the cold exchanger, from its warm end.</param>
/// <param name="HighFall">Enthalpy that both streams lose in the warm exchanger, J a mole that circulates.</param>
internal sealed record SeparatedCourse(
    double VaporFall,
    double LiquidFall,
    double ColdFall,
    double HighFall,
    double ThrottlePressureRatio,
    double ColdPressureRatio,
    ContentPlace[] Vapor,
    ContentPlace[] Liquid,
    ContentPlace[] Return,
    ContentPlace[] Cold)
    : ColdBoxCourse(HighFall, HighFall, ThrottlePressureRatio, ColdPressureRatio, ThrottlePressureRatio, Vapor, Return);
