namespace CryoThermo.Coolers.Rating;

/// <summary>What a recuperator does with a circulating mole, in a form that holds for states near those it was found at. SI, molar.</summary>
/// <param name="HighFall">Enthalpy that the high side loses, J/mol.</param>
/// <param name="LowRise">Enthalpy that the low side gains, J/mol.</param>
/// <param name="ThrottlePressureRatio">Pressure at the cold end of the high side over that at the warm end.</param>
/// <param name="ColdPressureRatio">Pressure at the cold end of the low side over that at the warm end, the suction.</param>
/// <param name="EnteringPressureRatio">Pressure over which the high side enters the exchange, over that of the warm end: below 1 where its drop is lumped before it.</param>
/// <param name="High">Slices of the high side, from the warm end.</param>
/// <param name="Low">Slices of the low side, from the warm end.</param>
internal record ColdBoxCourse(
    double HighFall,
    double LowRise,
    double ThrottlePressureRatio,
    double ColdPressureRatio,
    double EnteringPressureRatio,
    ContentPlace[] High,
    ContentPlace[] Low);
