namespace CryoThermo.Machines;

/// <summary>Course of both streams at the faces of the segments of an exchanger, from the warm end to the cold end. SI.</summary>
/// <param name="segments">Number of segments.</param>
internal sealed class ExchangeProfile(int segments)
{
    /// <summary>Number of segments.</summary>
    public int Segments => segments;

    /// <summary>Enthalpy of the stream that is cooled at the faces, J/kg.</summary>
    public double[] HotEnthalpy { get; } = new double[segments + 1];

    /// <summary>Enthalpy of the stream that is warmed, J/kg.</summary>
    public double[] ColdEnthalpy { get; } = new double[segments + 1];

    /// <summary>Its pressure at the faces, Pa.</summary>
    public double[] HotPressure { get; } = new double[segments + 1];

    /// <summary>Its pressure at the faces, Pa.</summary>
    public double[] ColdPressure { get; } = new double[segments + 1];

    /// <summary>Its temperature at the faces, K.</summary>
    public double[] HotTemperature { get; } = new double[segments + 1];

    /// <summary>Its temperature at the faces, K.</summary>
    public double[] ColdTemperature { get; } = new double[segments + 1];

    /// <summary>Temperature of the wall in the middle of the segments, K.</summary>
    public double[] WallTemperature { get; } = new double[segments];

    /// <summary>Conductance from stream to stream of the segments, W/K.</summary>
    public double[] Conductance { get; } = new double[segments];

    /// <summary>Heat that the cold stream takes from the wall in the segments, W.</summary>
    public double[] Heat { get; } = new double[segments];

    /// <summary>Films and friction of the stream that is cooled in the middle of the segments.</summary>
    public ExchangeStream.Place[] Hot { get; } = new ExchangeStream.Place[segments];

    /// <summary>Films and friction of the stream that is warmed.</summary>
    public ExchangeStream.Place[] Cold { get; } = new ExchangeStream.Place[segments];

    /// <summary>Fall of enthalpy of the stream that is cooled, J/kg.</summary>
    public double HotFall => HotEnthalpy[0] - HotEnthalpy[^1];

    /// <summary>Whether conduction along the metal is left out.</summary>
    public bool IsWithoutAxialConduction { get; set; }

    /// <summary>Heat from the surroundings, W.</summary>
    public double AmbientHeat { get; set; }
}
