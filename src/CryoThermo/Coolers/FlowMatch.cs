using CryoThermo.Diagnostics;
using CryoThermo.Machines;

namespace CryoThermo.Coolers;

/// <summary>
/// Flow and recuperator duty together, where the flow follows from the density at the compressor's suction. A warmer suction is thinner and so draws in less flow, on
/// which a conductance does more: the duty a mole is a fixed point of a rising map. Of several, the largest is taken, with the driest suction; substitution from the
/// greatest duty comes down to it.
/// </summary>
internal static class FlowMatch
{
    private const int Substitutions = 12;
    private const int ScanSteps = 100;

    /// <summary>Flow in mol/s and duty in J/mol.</summary>
    /// <param name="recuperator">The recuperator at a flow of one mole a second on both sides.</param>
    /// <param name="conductance">Conductance, W/K; may be infinite.</param>
    /// <param name="flowAt">Flow drawn in, mol/s, at a duty in J/mol.</param>
    /// <exception cref="ConvergenceException">The flow does not settle.</exception>
    public static (double Flow, double DutyPerMole) Solve(CounterFlowKernel recuperator, double conductance, Func<double, double> flowAt)
    {
        double last = 0;
        double Next(double duty) => last = recuperator.Duty(conductance / flowAt(duty), last);

        // The duty of a conductance is good to about 1e-9 of what is missing to the greatest; states are made to fit by flashes later.
        double tolerance = 1e-9 * Math.Max(1, recuperator.GreatestDuty);
        double before = recuperator.GreatestDuty;
        double now = Next(before);
        for (int iteration = 0; iteration < Substitutions; iteration++)
        {
            if (before - now <= tolerance)
            {
                return (flowAt(now), now);
            }

            double after = Next(now);
            double bend = now - after - (before - now);
            double guess = after + ((now - after) * (now - after) / bend);
            if (!(guess > 0 && guess < after))
            {
                (before, now) = (now, after);
                continue;
            }

            double next = Next(guess);
            if (next <= guess + tolerance)
            {
                (before, now) = (guess, next);
                continue;
            }

            double root = Crossing(duty => Next(duty) - duty, guess, next - guess, after, Next(after) - after, tolerance);
            return (flowAt(root), root);
        }

        // Substitution creeps where a wetter suction nearly settles too: step down to where the map first lies above.
        double upper = now;
        double atUpper = Next(upper) - upper;
        for (int step = 1; step <= ScanSteps; step++)
        {
            double lower = now * (1 - ((double)step / ScanSteps));
            double atLower = Next(lower) - lower;
            if (atLower >= 0)
            {
                double root = Crossing(duty => Next(duty) - duty, lower, atLower, upper, atUpper, tolerance);
                return (flowAt(root), root);
            }

            (upper, atUpper) = (lower, atLower);
        }

        throw new ConvergenceException(
            "flow of the cooler with its recuperator",
            $"cold end {recuperator.ColdInletTemperature:G6} K, conductance {conductance:G6} W/K",
            atUpper,
            "Liquid at the compressor suction makes the flow depend steeply on the recuperator; raise the conductance or lower the flow.");
    }

    /// <summary>Where a difference changes sign: halving and false position in turn (Illinois rule) until nothing changes.</summary>
    public static double Crossing(Func<double, double> difference, double a, double atA, double b, double atB, double tolerance)
    {
        double settled = 1e-13 * (Math.Abs(atA) + Math.Abs(atB));
        for (int iteration = 0; iteration < 200 && Math.Abs(b - a) > tolerance && Math.Abs(atB) > settled; iteration++)
        {
            double middle = iteration % 3 == 2 ? 0.5 * (a + b) : b - (atB * (b - a) / (atB - atA));
            double there = difference(middle);
            if (Math.Sign(there) == Math.Sign(atB))
            {
                atA *= iteration % 3 == 2 ? 1 : 0.5;
            }
            else
            {
                (a, atA) = (b, atB);
            }

            (b, atB) = (middle, there);
        }

        return b;
    }
}
