namespace CryoThermo.Machines;

/// <summary>What lies between two streams of an exchanger of tubes. SI, over length.</summary>
internal abstract class ExchangeWall
{
    /// <summary>From the surroundings, W/(m K).</summary>
    public double AmbientConductance { get; init; }

    /// <summary>K.</summary>
    public double AmbientTemperature { get; init; }

    /// <summary>Which share of that goes to the stream that is cooled; the rest goes to the other.</summary>
    public double AmbientShareToHot { get; init; }

    /// <summary>Resistances from the middle of the wall to both streams, m K/W.</summary>
    /// <param name="temperature">Of the wall, K.</param>
    /// <param name="hotFilm">Film coefficient times perimeter of the stream that is cooled, W/(m K).</param>
    /// <param name="coldFilm">That of the other.</param>
    public abstract (double ToHot, double ToCold) Resistances(double temperature, double hotFilm, double coldFilm);

    /// <summary>Conductivity times cross-section of all metal along it, W m/K.</summary>
    /// <param name="temperature">Of the wall, K.</param>
    public abstract double AxialConductance(double temperature);
}
