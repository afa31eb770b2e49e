using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>What a motor takes. Immutable and thread-safe.</summary>
/// <param name="Electrical">Electrical power.</param>
/// <param name="Current">Current in each line.</param>
/// <param name="MotorHeat">Heat of a motor outside the gas; zero where the compressor's efficiency counts from the terminals, since that heat goes into the gas and the shell.</param>
/// <param name="StartingCurrent">With the shaft held: as stated, or 5 to 8 times the running current.</param>
/// <param name="StartingSource">Where the starting current comes from.</param>
public sealed record MotorDraw(Power Electrical, ElectricCurrent Current, Power MotorHeat, FigureBand<ElectricCurrent> StartingCurrent, Source StartingSource);
