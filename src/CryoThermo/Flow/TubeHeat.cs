namespace CryoThermo.Flow;

/// <summary>Heat taken up by the stream along a tube, on even steps of its length. J/kg of the stream.</summary>
internal sealed class TubeHeat
{
    private readonly double[] takenUp;
    private readonly double step;

    /// <summary>Creates the course.</summary>
    /// <param name="takenUp">Heat taken up from the inlet to each step, J/kg, from 0 at the inlet.</param>
    /// <param name="length">Length of the tube, m.</param>
    public TubeHeat(double[] takenUp, double length)
    {
        this.takenUp = takenUp;
        step = length / (takenUp.Length - 1);
    }

    /// <summary>Heat taken up from the inlet to a position, J/kg.</summary>
    public double At(double position)
    {
        double place = Math.Clamp(position / step, 0, takenUp.Length - 1);
        int i = Math.Min((int)place, takenUp.Length - 2);
        return takenUp[i] + ((place - i) * (takenUp[i + 1] - takenUp[i]));
    }

    /// <summary>Heat taken up a length at a position, J/(kg m).</summary>
    public double Slope(double position)
    {
        int i = Math.Clamp((int)(position / step), 0, takenUp.Length - 2);
        return (takenUp[i + 1] - takenUp[i]) / step;
    }
}
