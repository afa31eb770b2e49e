namespace CryoThermo.Coolers.Rating;

/// <summary>States round the cold box of a cooler.</summary>
/// <param name="Course">What the exchangers do.</param>
/// <param name="ColdOutlet">The stream that leaves the cold head.</param>
/// <param name="Suction">The stream towards the compressor.</param>
/// <param name="ThrottleInlet">The stream before the throttle.</param>
/// <param name="Separated">What a phase separator parts; null without one.</param>
internal sealed record BoxStates(ColdBoxCourse Course, State ColdOutlet, State Suction, State ThrottleInlet, SeparatedStreams? Separated);
