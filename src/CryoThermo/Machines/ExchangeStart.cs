using CryoThermo.Numerics;

namespace CryoThermo.Machines;

/// <summary>
/// Where an exchanger of tubes is solved from: both streams along the heat exchanged instead of along the length. Without heat from outside and along the wall a duty tells
/// both enthalpies everywhere, and the length it needs is an integral of one sign, so that no bend of the streams and no pinch is in the way. SI.
/// </summary>
internal sealed class ExchangeStart
{
    /// <summary>Relative bracket of the duty.</summary>
    private const double Narrow = 1e-12;

    private readonly ExchangeStream hot;
    private readonly ExchangeStream cold;
    private readonly ExchangeWall wall;
    private readonly double hotFlow;
    private readonly double[] hotKnown;
    private readonly double[] coldKnown;
    private readonly List<double> heat = [];
    private readonly List<double> position = [];

    /// <summary>Prepares for streams whose passages are set.</summary>
    public ExchangeStart(ExchangeStream hot, ExchangeStream cold, ExchangeWall wall, double hotFlow)
    {
        this.hot = hot;
        this.cold = cold;
        this.wall = wall;
        this.hotFlow = hotFlow;
        hotKnown = [.. hot.KnownEnthalpies];
        coldKnown = [.. cold.KnownEnthalpies];
    }

    /// <summary>Writes the course for a length.</summary>
    public void Fill(ExchangeProfile profile, double length)
    {
        double most = Math.Min(
            hotFlow * Math.Abs(hot.InletEnthalpy - hot.FarthestEnthalpy), cold.Flow * Math.Abs(cold.FarthestEnthalpy - cold.InletEnthalpy));
        double duty = BracketedRoot.Narrow(
            q => (length / (length + LengthFor(q))) - 0.5, 0, 0.5, most, (length / (length + LengthFor(most))) - 0.5, (a, b) => b - a <= Narrow * most).Low;
        LengthFor(duty);
        int k = 0;
        double dz = length / profile.Segments;
        double whole = position[^1];
        for (int i = 0; i <= profile.Segments; i++)
        {
            double z = i * dz * (whole / length);
            while (k < position.Count - 2 && position[k + 1] < z)
            {
                k++;
            }

            double span = position[k + 1] - position[k];
            double x = heat[k] + (span > 0 ? Math.Clamp((z - position[k]) / span, 0, 1) * (heat[k + 1] - heat[k]) : 0);
            profile.HotEnthalpy[i] = hot.InletEnthalpy - (x / hotFlow);
            profile.ColdEnthalpy[i] = cold.InletEnthalpy + ((duty - x) / cold.Flow);
            profile.HotPressure[i] = hot.CoursePressure(profile.HotEnthalpy[i]);
            profile.ColdPressure[i] = cold.CoursePressure(profile.ColdEnthalpy[i]);
        }

        for (int i = 0; i < profile.Segments; i++)
        {
            double middle = 0.5 * (profile.HotEnthalpy[i] + profile.HotEnthalpy[i + 1]);
            double coldMiddle = 0.5 * (profile.ColdEnthalpy[i] + profile.ColdEnthalpy[i + 1]);
            double warmer = hot.Temperature(middle, hot.CoursePressure(middle), out _);
            double colder = cold.Temperature(coldMiddle, cold.CoursePressure(coldMiddle), out _);
            (double toHot, double toCold) = Resistances(0.5 * (warmer + colder), profile.HotEnthalpy[i], profile.HotEnthalpy[i + 1], profile.ColdEnthalpy[i], profile.ColdEnthalpy[i + 1]);
            profile.WallTemperature[i] = colder + ((warmer - colder) * toCold / (toHot + toCold));
        }
    }

    // Length for a duty, infinite where the streams would cross; leaves the positions over the heat exchanged from the warm end on.
    private double LengthFor(double duty)
    {
        heat.Clear();
        position.Clear();
        double coldOutlet = cold.InletEnthalpy + (duty / cold.Flow);
        heat.Add(0);
        heat.Add(duty);
        heat.AddRange(hotKnown.Select(h => hotFlow * (hot.InletEnthalpy - h)).Where(x => x > 0 && x < duty));
        heat.AddRange(coldKnown.Select(h => cold.Flow * (coldOutlet - h)).Where(x => x > 0 && x < duty));
        heat.Sort();
        position.Add(0);
        double hotEnthalpy = hot.InletEnthalpy;
        double coldEnthalpy = coldOutlet;
        double warmer = hot.Temperature(hotEnthalpy, hot.CoursePressure(hotEnthalpy), out _);
        double colder = cold.Temperature(coldEnthalpy, cold.CoursePressure(coldEnthalpy), out _);
        double before = warmer - colder;
        for (int i = 1; i < heat.Count; i++)
        {
            double hotAfter = hot.InletEnthalpy - (heat[i] / hotFlow);
            double coldAfter = coldOutlet - (heat[i] / cold.Flow);
            double warmerAfter = hot.Temperature(hotAfter, hot.CoursePressure(hotAfter), out _);
            double colderAfter = cold.Temperature(coldAfter, cold.CoursePressure(coldAfter), out _);
            double after = warmerAfter - colderAfter;
            if (!(before > 0 && after > 0))
            {
                return double.PositiveInfinity;
            }

            (double toHot, double toCold) = Resistances(0.25 * (warmer + colder + warmerAfter + colderAfter), hotEnthalpy, hotAfter, coldAfter, coldEnthalpy);
            position.Add(position[^1] + ((toHot + toCold) * (heat[i] - heat[i - 1]) / ExchangeSolver.Mean(before, after, out _, out _)));
            (hotEnthalpy, coldEnthalpy, warmer, colder, before) = (hotAfter, coldAfter, warmerAfter, colderAfter, after);
        }

        return position[^1];
    }

    private (double ToHot, double ToCold) Resistances(double temperature, double hotFirst, double hotSecond, double coldFirst, double coldSecond) => wall.Resistances(
        temperature,
        hot.Over(hotFirst, hotSecond, hot.CoursePressure(0.5 * (hotFirst + hotSecond))).Conductance,
        cold.Over(coldFirst, coldSecond, cold.CoursePressure(0.5 * (coldFirst + coldSecond))).Conductance);
}
