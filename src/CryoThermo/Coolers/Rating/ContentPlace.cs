namespace CryoThermo.Coolers.Rating;

/// <summary>A slice of one side of a recuperator, for what it holds.</summary>
/// <param name="VolumeShare">Of the volume of the side; all slices together 1.</param>
/// <param name="HeatShare">Heat exchanged between the warm end and the middle of the slice, over all of it.</param>
/// <param name="PressureRatio">Pressure there over that at the warm end of the side.</param>
internal readonly record struct ContentPlace(double VolumeShare, double HeatShare, double PressureRatio);
