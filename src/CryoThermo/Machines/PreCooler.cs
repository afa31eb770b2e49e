using CryoThermo.Diagnostics;
using CryoThermo.Equilibrium;
using CryoThermo.Numerics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A vapour-compression stage that cools a stream: compressor, condenser, throttle and evaporator with a refrigerant of its own, pure or a blend with glide. Evaporating
/// pressure, condensing pressure and flow follow from the parts. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The throttle keeps the superheat (an expansion valve, or a capillary fitted to it), the charge keeps the subcooling. The evaporator is counter-flow at one pressure, a
/// conductance spread evenly over the heat's path; suction and liquid line lose neither pressure nor heat. At a suction pressure the condenser fixes the condensing
/// pressure (the conductance needed falls as it rises), and the evaporator fixes the suction pressure (the conductance needed rises with it). Parts so large that a stream comes within
/// a hundredth of a kelvin of the other are taken to reach that.
/// </remarks>
public sealed class PreCooler
{
    private const double LowestEvaporatingPascals = 2000;

    /// <summary>The condensing pressure stays below this share of the critical one, where heat curves are still those of condensing.</summary>
    private const double HighestShareOfCritical = 0.95;

    /// <summary>Puts the parts together.</summary>
    /// <param name="refrigerant">Pure or a blend.</param>
    /// <param name="compressor">The compressor.</param>
    /// <param name="condenser">The condenser.</param>
    /// <param name="evaporatorConductanceWattsPerKelvin">UA from the stream to the refrigerant, above zero to 1e6 W/K.</param>
    /// <param name="superheat">Suction gas above its dew point, 0 to 60 K.</param>
    /// <param name="subcooling">Liquid below its bubble point at the condenser's outlet, 0 to 40 K.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    public PreCooler(
        WorkingFluid refrigerant,
        Compressor compressor,
        AmbientCooler condenser,
        double evaporatorConductanceWattsPerKelvin,
        TemperatureDelta superheat,
        TemperatureDelta subcooling = default)
    {
        ArgumentNullException.ThrowIfNull(refrigerant);
        ArgumentNullException.ThrowIfNull(compressor);
        ArgumentNullException.ThrowIfNull(condenser);
        EvaporatorConductanceWattsPerKelvin = Guard.InRange(evaporatorConductanceWattsPerKelvin, 1e-6, 1e6, "W/K");
        Guard.InRange(superheat.Kelvins, 0, 60, "K", nameof(superheat));
        Guard.InRange(subcooling.Kelvins, 0, 40, "K", nameof(subcooling));
        Refrigerant = refrigerant;
        Compressor = compressor;
        Condenser = condenser;
        Superheat = superheat;
        Subcooling = subcooling;
    }

    /// <summary>Pure or a blend.</summary>
    public WorkingFluid Refrigerant { get; }

    /// <summary>The compressor.</summary>
    public Compressor Compressor { get; }

    /// <summary>The condenser.</summary>
    public AmbientCooler Condenser { get; }

    /// <summary>UA from the stream to the refrigerant, W/K.</summary>
    public double EvaporatorConductanceWattsPerKelvin { get; }

    /// <summary>Suction gas above its dew point.</summary>
    public TemperatureDelta Superheat { get; }

    /// <summary>Liquid below its bubble point at the condenser's outlet.</summary>
    public TemperatureDelta Subcooling { get; }

    /// <summary>Cools a stream.</summary>
    /// <param name="stream">The stream before the evaporator.</param>
    /// <param name="flow">Above zero.</param>
    /// <param name="medium">Temperature of the air or water of the condenser; heat of the shell goes there too.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is out of its range.</exception>
    /// <exception cref="PreCoolerRefusedException">There is no steady state; the message says which part is in the way.</exception>
    /// <exception cref="ConvergenceException">None was found.</exception>
    public PreCoolerResult Cool(State stream, MolarFlow flow, Temperature medium)
    {
        ArgumentNullException.ThrowIfNull(stream);
        double moles = Guard.Positive(flow.MolesPerSecond, "mol/s", nameof(flow));
        return new Solver(this, stream, moles, medium).Solve();
    }

    /// <summary>Needed over needed and given, less a half: from -0.5 to 0.5, zero where the conductance is the one given.</summary>
    private static double Share(double needed, double given) => double.IsInfinity(needed) ? 0.5 : (needed / (needed + given)) - 0.5;

    private sealed class Solver
    {
        private readonly PreCooler machine;
        private readonly State stream;
        private readonly double moles;
        private readonly Temperature medium;
        private readonly double condenserConductance;
        private readonly double mediumRate;
        private readonly double highest;
        private readonly double lowestCondensing;
        private readonly double lowestEvaporating;
        private IsobarTable? streamTable;
        private double lastHigh;

        public Solver(PreCooler machine, State stream, double moles, Temperature medium)
        {
            this.machine = machine;
            this.stream = stream;
            this.moles = moles;
            this.medium = medium;
            (condenserConductance, mediumRate) = machine.Condenser.Against(medium);
            WorkingFluid refrigerant = machine.Refrigerant;
            Temperature coldest = Temperature.FromKelvins(medium.Kelvins + machine.Subcooling.Kelvins + 0.01);
            if (!refrigerant.TryBubblePoint(coldest, out State? bubble))
            {
                throw new PreCoolerRefusedException(
                    PreCoolerObstacle.CondenserTooSmall,
                    $"{refrigerant.Composition} has no bubble point at {coldest.Kelvins:F2} K ({coldest.DegreesCelsius:F1} degC), the temperature of the medium and the subcooling: it does not condense there. Take a refrigerant with a higher critical temperature, or colder water.");
            }

            lowestCondensing = bubble.Pressure.Pascals;
            double critical = refrigerant.TryCriticalPoint(out CriticalPoint? point) ? point.Pressure.Pascals : 0.5 * refrigerant.Kernel.HighestPressure;
            highest = HighestShareOfCritical * critical;
            if (lowestCondensing >= highest)
            {
                throw new PreCoolerRefusedException(
                    PreCoolerObstacle.CondenserTooSmall,
                    $"{refrigerant.Composition} condenses at {lowestCondensing / 1e5:G5} bar against a medium of {medium.DegreesCelsius:F1} degC, too near its critical pressure of {critical / 1e5:G5} bar for a condenser. Take a refrigerant with a higher critical temperature, or colder water.");
            }

            // Where the refrigerant still has a dew point within its model.
            double dewLowest = refrigerant.TryDewPoint(Temperature.FromKelvins(refrigerant.Kernel.LowestTemperature + 0.5), out State? dew) ? 1.01 * dew.Pressure.Pascals : 0;
            lowestEvaporating = Math.Max(LowestEvaporatingPascals, dewLowest);
        }

        public PreCoolerResult Solve()
        {
            WorkingFluid refrigerant = machine.Refrigerant;
            double warmest = stream.Temperature.Kelvins - machine.Superheat.Kelvins - 0.01;
            if (!(refrigerant.TryDewPoint(Pressure.FromPascals(lowestEvaporating), out State? coldest) && coldest.Temperature.Kelvins < warmest))
            {
                throw new PreCoolerRefusedException(
                    PreCoolerObstacle.StreamTooCold,
                    $"The stream enters at {stream.Temperature.Kelvins:F2} K; {refrigerant.Composition} with {machine.Superheat.Kelvins:F1} K of superheat leaves warmer than that even at {lowestEvaporating / 1e5:G3} bar absolute.");
            }

            bool capped = !refrigerant.TryDewPoint(Temperature.FromKelvins(warmest), out State? atStream) || atStream.Pressure.Pascals > 0.98 * lowestCondensing;
            double low = Math.Log(lowestEvaporating);
            double high = Math.Log(capped ? 0.98 * lowestCondensing : atStream!.Pressure.Pascals);
            if (high <= low)
            {
                throw new PreCoolerRefusedException(
                    PreCoolerObstacle.MediumTooCold,
                    $"{refrigerant.Composition} condenses at {lowestCondensing / 1e5:G4} bar absolute against a medium of {medium.Kelvins:F2} K, below the lowest evaporating pressure of {lowestEvaporating / 1e5:G4} bar.");
            }

            double atLow = Evaporator(low);
            if (atLow > 0)
            {
                throw new PreCoolerRefusedException(
                    PreCoolerObstacle.EvaporatorTooSmall,
                    $"The evaporator with {machine.EvaporatorConductanceWattsPerKelvin:G4} W/K is too small for the compressor: the suction pressure would fall below {lowestEvaporating / 1e5:G3} bar absolute.");
            }

            double atHigh = Evaporator(high);
            if (atHigh < 0)
            {
                // Up to a hundredth of a kelvin below the stream: more conductance does not count any more.
                return capped
                    ? throw new PreCoolerRefusedException(
                        PreCoolerObstacle.MediumTooCold,
                        $"The stream of {stream.Temperature.Kelvins:F2} K boils the refrigerant at up to the pressure at which the medium of {medium.Kelvins:F2} K condenses it ({lowestCondensing / 1e5:G4} bar absolute), and the compressor of {machine.Compressor.SweptVolumeFlow.LitersPerSecond:G4} L/s still takes less: cool the stream with that medium first, or take a larger compressor.")
                    : Finish(high, true);
            }

            // The lower end: there the evaporator has at least what it needs.
            (double at, _) = BracketedRoot.Narrow(Evaporator, low, atLow, high, atHigh, (x, y) => Math.Abs(y - x) <= 1e-11);
            for (double lower = 0; ; lower = Math.Max(1e-10, 10 * lower))
            {
                try
                {
                    return Finish(at - lower, false);
                }
                catch (ConvergenceException) when (lower < 1e-7)
                {
                    // Where the streams touch, rounding of the condensing pressure decides about it: a hair lower the evaporator has what it needs.
                }
            }
        }

        /// <summary>Whether the evaporator needs more than it has at a suction pressure; a condenser that cannot keep up counts as too much.</summary>
        private double Evaporator(double logarithm)
        {
            State suction = Suction(logarithm);
            double? condensing = CondensingPressure(suction);
            if (condensing is null)
            {
                return 0.5;
            }

            if (condensing <= 0)
            {
                return -0.5;
            }

            State liquid = Liquid(Pressure.FromPascals(condensing.Value - machine.Condenser.PressureDrop.Pascals));
            double refrigerant;
            try
            {
                refrigerant = FlowOf(suction, Pressure.FromPascals(condensing.Value));
            }
            catch (ArgumentOutOfRangeException)
            {
                // The condensing pressure is the one from which on the compressor gives up.
                return -0.5;
            }

            CounterFlowKernel? kernel = Exchange(suction, liquid, refrigerant);
            return kernel is null
                ? 0.5
                : Share(kernel.Conductance(refrigerant * (suction.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole), machine.EvaporatorConductanceWattsPerKelvin);
        }

        private PreCoolerResult Finish(double logarithm, bool isHighest)
        {
            State suction = Suction(logarithm);
            double? found = CondensingPressure(suction);
            if (found is null)
            {
                throw CondenserTooSmall(suction);
            }

            if (found <= 0)
            {
                throw GivesUp(suction);
            }

            Pressure discharge = Pressure.FromPascals(found.Value);
            CompressorResult compression = Compress(suction, discharge);
            State start = machine.Condenser.AtWorkingPressure(compression.Discharge);
            State liquid = Liquid(start.Pressure);
            double refrigerant = compression.MolarFlow.MolesPerSecond;
            double rejected = refrigerant * (start.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole;
            double duty = refrigerant * (suction.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole;
            CounterFlowKernel? kernel = Exchange(suction, liquid, refrigerant);
            double needed = kernel?.Conductance(duty) ?? double.PositiveInfinity;
            if (!isHighest && !(Math.Abs(Share(needed, machine.EvaporatorConductanceWattsPerKelvin)) <= 1e-5))
            {
                // A jump instead of a root: where a little more suction pressure is too much for the condenser, or a little less for the compressor. Else the streams
                // touch: the needed conductance grows without end within the last digits of the pressure, and what the evaporator has beyond does not count.
                State above = Suction(logarithm + 1e-6);
                if (CondensingPressure(above) is null)
                {
                    throw CondenserTooSmall(above);
                }

                State below = Suction(logarithm - 1e-6);
                if (CondensingPressure(below) <= 0)
                {
                    throw GivesUp(below);
                }
            }

            if (kernel is null || !(needed <= machine.EvaporatorConductanceWattsPerKelvin * (1 + 1e-4)))
            {
                throw NotFound(suction);
            }

            CounterFlowKernel rejecting = AmbientCooler.Kernel(start, refrigerant, medium, mediumRate);
            if (!(rejecting.Conductance(rejected) <= condenserConductance * (1 + 1e-4)))
            {
                // Not met but jumped over: a little higher the compressor gives up.
                _ = Compress(suction, 1.0001 * discharge);
                throw NotFound(suction);
            }

            AmbientCoolerResult condensing = machine.Condenser.Result(
                compression.Discharge, liquid, refrigerant, rejected, medium, condenserConductance, mediumRate, rejecting.Pinch(Math.Min(rejected, rejecting.GreatestDuty)).Approach);
            State afterThrottle = Throttle.Expand(liquid, suction.Pressure);
            State outlet = stream.Fluid.AtEnthalpy(stream.Pressure, MolarEnergy.FromJoulesPerMole(stream.MolarEnthalpy.JoulesPerMole - (duty / moles)));
            return new(
                stream, outlet, MolarFlow.FromMolesPerSecond(moles), compression, condensing, afterThrottle, Recuperator.Of(kernel, duty, needed), medium.Kelvins);
        }

        private PreCoolerRefusedException CondenserTooSmall(State suction) => new(
            PreCoolerObstacle.CondenserTooSmall,
            $"The condenser with {condenserConductance:G4} W/K against {medium.DegreesCelsius:F1} degC cannot reject the heat: at {suction.Pressure.Bars:G4} bar in the evaporator the condensing pressure would pass {highest / 1e5:G4} bar absolute ({100 * HighestShareOfCritical:F0} % of the critical one). Take a larger condenser, colder air or water, or a smaller compressor.");

        /// <summary>The compressor itself tells why: the ratio is too much for its clearance, or the discharge too hot.</summary>
        private Exception GivesUp(State suction)
        {
            double least = Math.Max(lowestCondensing, suction.Pressure.Pascals * 1.001) + machine.Condenser.PressureDrop.Pascals;
            try
            {
                _ = machine.Compressor.Compress(suction, Pressure.FromPascals(least));
                return NotFound(suction);
            }
            catch (ArgumentOutOfRangeException error)
            {
                return new PreCoolerRefusedException(
                    error.Message.Contains("hotter", StringComparison.Ordinal) ? PreCoolerObstacle.DischargeTooHot : PreCoolerObstacle.EvaporatorTooSmall,
                    $"The evaporator with {machine.EvaporatorConductanceWattsPerKelvin:G4} W/K draws the suction pressure down to {suction.Pressure.Bars:G4} bar absolute, where the compressor gives up: {error.Message}");
            }
        }

        private ConvergenceException NotFound(State suction) => new(
            "pre-cooler",
            $"{machine.Refrigerant.Composition}, stream {stream.Temperature.Kelvins:G6} K, medium {medium.Kelvins:G6} K, near {suction.Pressure.Bars:G6} bar at the suction",
            double.PositiveInfinity,
            "The needed conductance jumps across the given one: the pinch lies where a phase boundary of the stream or the refrigerant does. Change the superheat or a conductance a little.");

        private State Suction(double logarithm)
        {
            State dew = machine.Refrigerant.DewPoint(Pressure.FromPascals(Math.Exp(logarithm)));
            return machine.Superheat.Kelvins > 1e-6 ? machine.Refrigerant.At(dew.Temperature + machine.Superheat, dew.Pressure) : dew;
        }

        private State Liquid(Pressure pressure)
        {
            State bubble = machine.Refrigerant.BubblePoint(pressure);
            return machine.Subcooling.Kelvins > 1e-6 ? machine.Refrigerant.At(bubble.Temperature - machine.Subcooling, pressure) : bubble;
        }

        private double FlowOf(State suction, Pressure discharge) =>
            machine.Compressor.SweptVolumeFlow.CubicMetersPerSecond
            * Compressor.Fill(machine.Compressor.Filling, suction, discharge, out _, out _)
            * suction.MolarDensity.MolesPerCubicMeter;

        private CompressorResult Compress(State suction, Pressure discharge)
        {
            try
            {
                return machine.Compressor.Compress(suction, discharge);
            }
            catch (ArgumentOutOfRangeException error)
            {
                throw new PreCoolerRefusedException(PreCoolerObstacle.DischargeTooHot, error.Message);
            }
        }

        /// <summary>Absolute discharge pressure at which the condenser is just large enough; null where none below the limit is; zero where the compressor gives up before.</summary>
        private double? CondensingPressure(State suction)
        {
            double drop = machine.Condenser.PressureDrop.Pascals;
            double low = Math.Log(Math.Max(lowestCondensing, suction.Pressure.Pascals * 1.001) + drop);
            double high = Math.Log(highest + drop);
            bool gaveUp = false;
            double atLow = Condense(low);
            if (gaveUp)
            {
                return 0;
            }

            if (atLow < 0)
            {
                // The liquid leaves a hundredth of a kelvin above the medium: more conductance does not count any more.
                return Math.Exp(low);
            }

            // Near the answer for a suction pressure close by.
            if (lastHigh > low && lastHigh < high)
            {
                double step = 0.01;
                double near = Condense(lastHigh);
                (double a, double b, double fa, double fb) = (lastHigh, lastHigh, near, near);
                while (near > 0 ? fb > 0 : fa < 0)
                {
                    if (near > 0)
                    {
                        (a, fa) = (b, fb);
                        b = Math.Min(high, b + step);
                        fb = Condense(b);
                        if (b >= high && fb > 0)
                        {
                            return null;
                        }
                    }
                    else
                    {
                        (b, fb) = (a, fa);
                        a = Math.Max(low, a - step);
                        fa = a <= low ? atLow : Condense(a);
                    }

                    step *= 3;
                }

                (low, atLow, high) = (a, fa, b);
                return Root(low, atLow, high, fb);
            }

            double atHigh = Condense(high);
            return atHigh > 0 ? null : Root(low, atLow, high, atHigh);

            double? Root(double from, double atFrom, double to, double atTo)
            {
                if (atFrom == 0 || atTo == 0)
                {
                    lastHigh = atFrom == 0 ? from : to;
                    return Math.Exp(lastHigh);
                }

                // The upper end: there the condenser has at least what it needs.
                (_, lastHigh) = BracketedRoot.Narrow(Condense, from, atFrom, to, atTo, (x, y) => Math.Abs(y - x) <= 1e-11);
                return Math.Exp(lastHigh);
            }

            double Condense(double logarithm)
            {
                Pressure discharge = Pressure.FromPascals(Math.Exp(logarithm));
                CompressorResult result;
                try
                {
                    result = machine.Compressor.Compress(suction, discharge);
                }
                catch (ArgumentOutOfRangeException)
                {
                    // No flow, no heat to reject: with rising pressure the flow vanishes before that, so that the answer lies below.
                    gaveUp = true;
                    return -0.5;
                }

                State start = machine.Condenser.AtWorkingPressure(result.Discharge);
                State liquid = Liquid(start.Pressure);
                if (liquid.Temperature.Kelvins <= medium.Kelvins)
                {
                    return 0.5;
                }

                double refrigerant = result.MolarFlow.MolesPerSecond;
                double duty = refrigerant * (start.MolarEnthalpy - liquid.MolarEnthalpy).JoulesPerMole;
                return Share(AmbientCooler.Kernel(start, refrigerant, medium, mediumRate).Conductance(duty), condenserConductance);
            }
        }

        /// <summary>Stream against boiling refrigerant; null where the refrigerant enters warmer than the stream, or leaves so.</summary>
        private CounterFlowKernel? Exchange(State suction, State liquid, double refrigerant)
        {
            double warm = stream.Temperature.Kelvins;
            State entering = Throttle.Expand(liquid, suction.Pressure);
            if (entering.Temperature.Kelvins >= warm || suction.Temperature.Kelvins >= warm)
            {
                return null;
            }

            double margin = Math.Max(1e-3, 1e-3 * (warm - entering.Temperature.Kelvins));
            IsobarTable cold = machine.Refrigerant.Isobar(
                suction.Pressure, Temperature.FromKelvins(entering.Temperature.Kelvins - margin), Temperature.FromKelvins(warm + margin)).Table;
            if (streamTable is null || streamTable.MinTemperature > entering.Temperature.Kelvins - margin)
            {
                double lowest = Math.Max(stream.Fluid.Kernel.LowestTemperature, entering.Temperature.Kelvins - Math.Max(margin, 5));
                streamTable = stream.Fluid.Isobar(stream.Pressure, Temperature.FromKelvins(lowest), Temperature.FromKelvins(warm + margin)).Table;
            }

            return new(
                streamTable,
                moles,
                Math.Clamp(stream.MolarEnthalpy.JoulesPerMole, streamTable.MinEnthalpy, streamTable.MaxEnthalpy),
                cold,
                refrigerant,
                Math.Clamp(liquid.MolarEnthalpy.JoulesPerMole, cold.MinEnthalpy, cold.MaxEnthalpy));
        }
    }
}
