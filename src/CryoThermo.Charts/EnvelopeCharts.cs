namespace CryoThermo.Charts;

/// <summary>Charts of phase envelopes.</summary>
public static class EnvelopeCharts
{
    /// <summary>Pressure against temperature of an envelope with critical points, cricondentherm and cricondenbar.</summary>
    /// <param name="envelope">The boundary of the two-phase region.</param>
    /// <param name="qualityLines">Lines of a vapour fraction between 0 and 1 of the same fluid; may be empty.</param>
    /// <exception cref="ArgumentException">A quality line is of another composition.</exception>
    public static PhaseEnvelopeChart PressureTemperature(this PhaseEnvelope envelope, params ReadOnlySpan<PhaseEnvelope> qualityLines) => new(envelope, qualityLines);
}
