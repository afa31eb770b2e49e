using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Flow;

/// <summary>
/// Frictionless flow without heat or slip, all phases at one speed and in equilibrium: from rest at the inlet along its isentrope the mass flux at
/// a pressure p is G = rho sqrt(2 (h0 - h)), and the greatest G on the way chokes (homogeneous equilibrium model; Starkman, Schrock, Neusen and
/// Maneely, J. Basic Eng. 86 (1964) 247, from memory). For gas, liquid that flashes, and inlets of several phases. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Short restrictions pass more of a liquid near its bubble point than this: there is no time to boil. The greatest flux lies where the
/// speed reaches the equilibrium speed of sound, or at a phase boundary where that drops at once (a bubble point). On isentropes that dry out again
/// there can be two such places; the greater one counts.
/// </remarks>
public sealed class HomogeneousNozzle
{
    /// <summary>Each step of the search for choking goes to this share of the pressure; after the first place found, to the second.</summary>
    private const double Step = 0.8;
    private const double FurtherStep = 0.6;

    /// <summary>After the first place that chokes, a further one is searched to this share of the inlet pressure.</summary>
    private const double FurtherSearch = 0.05;

    /// <summary>Without one the search ends at this share: a gas chokes near one half, a liquid at its bubble point.</summary>
    private const double SearchEnd = 1e-4;

    /// <summary>Below this share of the inlet pressure as drop, the enthalpy difference is the integral of v dp by the trapezoidal rule: no digits are lost.</summary>
    private const double SmallDrop = 1e-5;

    /// <summary>
    /// Width of the last bracket of the throat pressure over the pressure drop: at a phase boundary, where the flux has a kink, and elsewhere, where it is flat.
    /// </summary>
    private const double KinkTolerance = 1e-9;
    private const double FlatTolerance = 1e-5;

    private readonly double entropy;
    private readonly double enthalpy;
    private readonly double volume;
    private readonly double molarMass;
    private readonly double pressure;
    private readonly bool isPure;

    // What the search has found so far; extended under the lock.
    private readonly Lock gate = new();
    private readonly List<(double LogPressure, double LogTemperature)> anchors;
    private readonly List<Point> maxima = [];
    private double searchedTo;
    private double lastExcess = double.NegativeInfinity;
    private bool hasEnded;
    private EquilibriumResult near;

    /// <summary>Takes the inlet, at rest.</summary>
    /// <param name="inlet">State before the nozzle.</param>
    public HomogeneousNozzle(State inlet)
    {
        ArgumentNullException.ThrowIfNull(inlet);
        Inlet = inlet;
        entropy = inlet.MolarEntropy.JoulesPerMoleKelvin;
        enthalpy = inlet.MolarEnthalpy.JoulesPerMole;
        volume = inlet.Result.Totals.Volume;
        molarMass = inlet.Fluid.Composition.MolarMass.KilogramsPerMole;
        pressure = inlet.Pressure.Pascals;
        isPure = IncipientPoint.SingleComponent(inlet.Fluid.Composition.Fractions) >= 0;
        searchedTo = pressure;
        near = inlet.Result;
        anchors = [(Math.Log(pressure), Math.Log(inlet.Temperature.Kelvins))];
    }

    /// <summary>State before the nozzle.</summary>
    public State Inlet { get; }

    /// <summary>The choked flow.</summary>
    /// <exception cref="ConvergenceException">The model ends before the flow chokes.</exception>
    public NozzleFlow Choked => TryChoked(out NozzleFlow? choked)
        ? choked
        : throw new ConvergenceException(
            "Choked flow", $"{Inlet.Fluid} from {Inlet}", 1, "The model has no states on the isentrope down to where it chokes.");

    /// <summary>The flow to a back pressure: the greatest flux between inlet and there.</summary>
    /// <param name="backPressure">Absolute, above zero, not above that of the inlet.</param>
    /// <exception cref="ArgumentOutOfRangeException">The back pressure is out of its range.</exception>
    /// <exception cref="ConvergenceException">The flow does not choke before, and the model has no state at the back pressure on the isentrope.</exception>
    public NozzleFlow FlowTo(Pressure backPressure)
    {
        double back = Guard.InRange(backPressure.Pascals, double.Epsilon, pressure, "Pa absolute", nameof(backPressure));
        if (back == pressure)
        {
            return new(MassFlux.Zero, Inlet, false);
        }

        lock (gate)
        {
            Search(back);
            Point? greatest = maxima.Where(m => m.Pressure >= back).MaxBy(m => m.Flux);
            if (greatest is not null && back < searchedTo)
            {
                return Result(greatest, true);
            }

            Point at = At(back) ?? throw new ConvergenceException(
                "Nozzle flow",
                $"{Inlet.Fluid} from {Inlet} to {back / 1e5:G6} bar",
                1,
                "The model has no state there on the isentrope of the inlet; take a higher back pressure.");
            return greatest is not null && greatest.Flux >= at.Flux ? Result(greatest, true) : Result(at, false);
        }
    }

    /// <summary>The choked flow; false where the model ends before.</summary>
    /// <param name="choked">The flow, or null.</param>
    public bool TryChoked([NotNullWhen(true)] out NozzleFlow? choked)
    {
        lock (gate)
        {
            Search(0);
            choked = maxima.Count > 0 ? Result(maxima.MaxBy(m => m.Flux)!, true) : null;
            return choked is not null;
        }
    }

    private static NozzleFlow Result(Point point, bool choked) => new(MassFlux.FromKilogramsPerSecondPerSquareMeter(point.Flux), point.State, choked);

    // Looks for every place where the speed passes that of sound, from high to low pressure, at least down to a back pressure.
    private void Search(double back)
    {
        while (!hasEnded && searchedTo > back)
        {
            double end = Math.Max((maxima.Count > 0 ? FurtherSearch : SearchEnd) * pressure, Inlet.Fluid.Kernel.LowestPressure);
            double next = Math.Max(searchedTo * (maxima.Count > 0 ? FurtherStep : Step), end);
            if (next >= searchedTo || At(next) is not { } point)
            {
                hasEnded = true;
                break;
            }

            anchors.Add((Math.Log(next), Math.Log(point.State.Temperature.Kelvins)));
            double excess = Excess(point);
            if (lastExcess < 0 && excess >= 0)
            {
                maxima.Add(Throat(searchedTo, lastExcess, next, excess));
            }

            (searchedTo, lastExcess) = (next, excess);
        }
    }

    private Point Throat(double above, double aboveExcess, double below, double belowExcess)
    {
        Dictionary<double, Point> found = [];
        double ExcessAt(double p)
        {
            found[p] = At(p) ?? throw new ConvergenceException(
                "Choked flow", $"{Inlet.Fluid} from {Inlet}", 1, $"No state was found at {p:G6} Pa on its isentrope.");
            return Excess(found[p]);
        }

        bool IsNarrow(double high, double low)
        {
            bool kink = !found.TryGetValue(high, out Point? a) || !found.TryGetValue(low, out Point? b)
                || (a.State.Phases.Count != b.State.Phases.Count && !a.State.HasUnresolvedPhase && !b.State.HasUnresolvedPhase);
            return high - low <= Math.Max((kink ? KinkTolerance : FlatTolerance) * (pressure - high), 4e-15 * high);
        }

        // At the inlet itself the speed is zero; any negative value stands for its logarithm.
        (double high, double low) = BracketedRoot.Narrow(ExcessAt, above, Math.Max(aboveExcess, -10), below, belowExcess, IsNarrow);
        return found.GetValueOrDefault(high) ?? found.GetValueOrDefault(low) ?? At(high)!;
    }

    private static double Excess(Point point) => Math.Log(point.Speed / point.SpeedOfSound);

    private Point? At(double p)
    {
        EquilibriumResult result;
        try
        {
            result = OnIsentrope(p, Math.Exp(LogTemperatureNear(Math.Log(p))));
        }
        catch (Exception error) when (error is ArgumentOutOfRangeException or ConvergenceException)
        {
            return null;
        }

        double drop = pressure - p;
        double work = drop > SmallDrop * pressure ? enthalpy - result.Totals.Enthalpy : 0.5 * drop * (volume + result.Totals.Volume);
        double speed = Math.Sqrt(2 * Math.Max(work, 0) / molarMass);
        return new(p, new(Inlet.Fluid, result), speed, molarMass / result.Totals.Volume * speed, () => SlopeSpeed(p, result));
    }

    // Along the isentrope ln T is nearly straight in ln p: between the anchors about it, or beyond the last two.
    private double LogTemperatureNear(double logPressure)
    {
        if (anchors.Count == 1)
        {
            return anchors[0].LogTemperature;
        }

        int i = anchors.FindIndex(1, a => a.LogPressure <= logPressure);
        i = i < 0 ? anchors.Count - 1 : i;
        (double x0, double y0) = anchors[i - 1];
        (double x1, double y1) = anchors[i];
        return y0 + ((y1 - y0) * (logPressure - x0) / (x1 - x0));
    }

    // A blend by Newton steps from the phases of the last state on the isentrope, or from a guess; the entropy flash, which brackets, where they fail, and for a pure fluid,
    // which boils at one temperature.
    private EquilibriumResult OnIsentrope(double p, double guess)
    {
        FluidKernel kernel = Inlet.Fluid.Kernel;
        ReadOnlySpan<double> z = Inlet.Fluid.Composition.Fractions;
        EquilibriumResult found = (isPure ? null : CaloricFlash.Near(kernel, CaloricVariable.Entropy, p, entropy, z, guess, near, out _))
            ?? CaloricFlash.Solve(kernel, CaloricVariable.Entropy, p, entropy, z, guess);
        near = found;
        return found;
    }

    // Where the equilibrium speed of sound is not defined: from two isentropic volumes close by.
    private double SlopeSpeed(double p, EquilibriumResult result)
    {
        const double Shift = 1e-5;
        EquilibriumResult below = CaloricFlash.Solve(
            Inlet.Fluid.Kernel, CaloricVariable.Entropy, p * (1 - Shift), entropy, Inlet.Fluid.Composition.Fractions, result.Temperature);
        double slope = (below.Totals.Volume - result.Totals.Volume) / (p * Shift);
        return result.Totals.Volume / Math.Sqrt(Math.Max(slope, double.Epsilon) * molarMass);
    }

    private sealed record Point(double Pressure, State State, double Speed, double Flux, Func<double> Fallback)
    {
        public double SpeedOfSound => State.EquilibriumSpeedOfSound?.MetersPerSecond ?? Fallback();
    }
}
