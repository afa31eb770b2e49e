namespace CryoThermo.Coolers.Rating;

/// <summary>
/// What a pre-cooler makes of a stream, computed or carried over from streams nearby: where it is a machine, its own steady state is the dearest part of a state.
/// Immutable.
/// </summary>
internal class PreCooledStream
{
    /// <summary>Takes what is known.</summary>
    /// <param name="outlet">Temperature behind the pre-cooler, K.</param>
    public PreCooledStream(double outlet) => Outlet = outlet;

    /// <summary>Temperature behind the pre-cooler, K.</summary>
    public double Outlet { get; }

    /// <summary>Whether nothing is carried over.</summary>
    public virtual bool IsExact => true;

    /// <summary>The same, computed where that takes little.</summary>
    /// <param name="stream">Before the pre-cooler.</param>
    /// <param name="flow">mol/s.</param>
    public virtual PreCooledStream Renewed(State stream, double flow) => this;

    /// <summary>Tells of a stream that gives more than the pre-cooler carries anywhere; null where it carries it.</summary>
    /// <param name="stream">Before the pre-cooler.</param>
    /// <param name="flow">mol/s.</param>
    public virtual CoolerRefusedException? Overload(State stream, double flow) => null;

    /// <summary>The same computed; its outlet is that which the computation asks for.</summary>
    /// <param name="stream">Before the pre-cooler.</param>
    /// <param name="flow">mol/s.</param>
    /// <param name="outlet">Temperature behind it as taken, K.</param>
    public virtual PreCooledStream Exactly(State stream, double flow, double outlet) => this;
}
