namespace CryoThermo.Coolers.Rating;

/// <summary>What a phase separator parts.</summary>
/// <param name="Arriving">The whole stream as it enters the vessel.</param>
/// <param name="VaporShare">Moles of vapour over all.</param>
/// <param name="Vapor">The vapour, at its dew point.</param>
/// <param name="Liquid">The liquid, at its bubble point; several liquids together.</param>
internal sealed record SeparatedStreams(State Arriving, double VaporShare, State Vapor, State Liquid);
