namespace CryoThermo.Machines;

/// <summary>Where in a counter-flow exchanger, or along a throttle cycle, the limiting temperature lies.</summary>
public enum PinchLocation
{
    /// <summary>At the warm end.</summary>
    WarmEnd,

    /// <summary>Between the ends.</summary>
    Inside,

    /// <summary>At the cold end.</summary>
    ColdEnd,
}
