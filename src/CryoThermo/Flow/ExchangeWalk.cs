using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// Heat between a capillary and the stream alongside: along the known course of the capillary, whose temperature follows the heat taken up to
/// first order, the stream is walked from the inlet of the capillary; in counter-flow the temperature with which it leaves there is searched
/// until it has the given one at the other end.
/// </summary>
internal sealed class ExchangeWalk
{
    private const int Steps = 120;

    private readonly CapillaryExchange exchange;
    private readonly IsobarTable stream;
    private readonly double streamFlow;
    private readonly double arriving;
    private double leaving;

    public ExchangeWalk(CapillaryExchange exchange, double coldest, double warmest)
    {
        const double Margin = 5;
        this.exchange = exchange;
        WorkingFluid fluid = exchange.StreamInlet.Fluid;
        double own = exchange.StreamInlet.Temperature.Kelvins;
        double low = Math.Max(Math.Min(own, coldest) - Margin, fluid.Kernel.LowestTemperature);
        double high = Math.Min(Math.Max(own, warmest) + Margin, fluid.Kernel.HighestTemperature);
        stream = IsobarBuilder.Build(fluid.Kernel, fluid.Composition.Fractions, exchange.StreamInlet.Pressure.Pascals, low, high);
        streamFlow = exchange.StreamFlow.KilogramsPerSecond / fluid.Composition.MolarMass.KilogramsPerMole;
        arriving = exchange.StreamInlet.MolarEnthalpy.JoulesPerMole;
    }

    /// <summary>The stream where it leaves, after the last walk.</summary>
    public State StreamOutlet() => exchange.StreamInlet.Fluid.AtEnthalpy(exchange.StreamInlet.Pressure, MolarEnergy.FromJoulesPerMole(leaving));

    /// <summary>Heat taken up by the capillary from its inlet to each of even steps, J/kg of its flow.</summary>
    /// <param name="courses">Points of each stretch, positions from its inlet.</param>
    /// <param name="sections">The stretches.</param>
    /// <param name="heat">Heat taken up in these courses; null for none.</param>
    /// <param name="flow">Mass flow of the capillary, kg/s.</param>
    public double[] TakenUp(List<TubePoint>[] courses, IReadOnlyList<CapillarySection> sections, TubeHeat[]? heat, double flow)
    {
        List<TubePoint> course = [];
        List<double> taken = [];
        double before = 0;
        double sum = 0;
        for (int s = 0; s < courses.Length; s++)
        {
            foreach (TubePoint point in courses[s])
            {
                course.Add(point with { Position = before + point.Position });
                taken.Add(sum + (heat?[s].At(point.Position) ?? 0));
            }

            before += sections[s].Length.Meters;
            sum += heat?[s].At(sections[s].Length.Meters) ?? 0;
        }

        return TakenUp(course, taken, flow, before);
    }

    private double[] TakenUp(List<TubePoint> course, List<double> takenUp, double flow, double length)
    {
        double[] temperature = new double[Steps + 1];
        double[] warming = new double[Steps + 1];
        double[] known = new double[Steps + 1];
        int k = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double z = length * i / Steps;
            while (k < course.Count - 2 && course[k + 1].Position < z)
            {
                k++;
            }

            int next = Math.Min(k + 1, course.Count - 1);
            double span = course[next].Position - course[k].Position;
            double t = span > 0 ? Math.Clamp((z - course[k].Position) / span, 0, 1) : 0;
            temperature[i] = course[k].Temperature + (t * (course[next].Temperature - course[k].Temperature));
            warming[i] = course[k].TemperatureByEnthalpy + (t * (course[next].TemperatureByEnthalpy - course[k].TemperatureByEnthalpy));
            known[i] = takenUp[k] + (t * (takenUp[next] - takenUp[k]));
        }

        double[] found = new double[Steps + 1];
        if (!exchange.IsCounterFlow)
        {
            leaving = Walk(arriving);
            return found;
        }

        // The warmer it leaves at the inlet of the capillary, the warmer it was at the other end.
        double low = stream.MinEnthalpy;
        double high = stream.MaxEnthalpy;
        for (int i = 0; i < 60 && high - low > 1e-9 * (Math.Abs(high) + Math.Abs(low)); i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Walk(middle) > arriving ? (low, middle) : (middle, high);
        }

        leaving = 0.5 * (low + high);
        Walk(leaving);
        return found;

        // Enthalpy of the stream at the outlet of the capillary, from that at its inlet.
        double Walk(double enthalpy)
        {
            double step = length / Steps;
            double direction = exchange.IsCounterFlow ? -1 : 1;
            double h = enthalpy;
            found[0] = 0;
            for (int i = 0; i < Steps; i++)
            {
                // Heun.
                double first = Heat(i, found[i], h);
                double second = Heat(i + 1, found[i] - (first * step / flow), h + (direction * first * step / streamFlow));
                double passed = 0.5 * (first + second) * step;
                found[i + 1] = found[i] - (passed / flow);
                h += direction * passed / streamFlow;
            }

            return h;
        }

        // Heat from the capillary to the stream, W/m.
        double Heat(int i, double taken, double h)
        {
            double z = length * i / Steps;
            if (z < exchange.Start.Meters || z > (exchange.End?.Meters ?? double.PositiveInfinity))
            {
                return 0;
            }

            double own = temperature[i] + (warming[i] * (taken - known[i]));
            return exchange.ConductanceWattsPerMeterKelvin * (own - stream.TemperatureAtEnthalpy(Math.Clamp(h, stream.MinEnthalpy, stream.MaxEnthalpy)));
        }
    }
}
