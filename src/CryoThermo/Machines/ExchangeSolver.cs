using CryoThermo.Diagnostics;
using CryoThermo.Numerics;

namespace CryoThermo.Machines;

/// <summary>
/// Counter-flow of two streams with a wall between them, in segments of equal length: enthalpy of both streams, axial conduction in the wall, heat from the surroundings and
/// falling pressures, by Newton's method over all segments at once. In a segment the streams differ by the logarithmic mean, so that constant properties without axial
/// conduction are exact for any number of segments. Kinetic energy is left out. SI.
/// </summary>
internal sealed class ExchangeSolver
{
    private const int MostIterations = 800;
    private const int PatientIterations = 25;
    private static readonly double[] LeakStages = [0, 0.02, 0.1, 0.25, 0.5, 0.75, 1];
    private const double FirstInertia = 1;
    private const double CrossingTolerance = 0.01;

    /// <summary>Heat from outside over the heat of the hot stream, beyond which it is named as the cause where nothing is found.</summary>
    private const double MuchHeat = 0.1;
    private const double LeastInertia = 1e-3;
    private const double MostInertia = 1e4;
    private const double LargeChange = 0.05;
    private const double SmallChange = 0.02;
    private const int MostWithoutPressure = 15;

    // Balances over the flow times the span of enthalpy; pressures relative.
    private const double Closed = 1e-8;
    private const double ClosedPressures = 1e-5;
    private const int MostCuts = 10;
    private const double LeastGain = 1e-4;
    private const double FarthestStep = 0.3;
    private const double Settled = 1e-9;

    /// <summary>Pressure falls no lower while iterating, as a share of that at the inlet.</summary>
    private const double LeastPressureShare = 0.05;

    /// <summary>Beyond this (a - b)/(a + b) of the differences at the faces the logarithmic mean passes into a decay that also holds for crossed streams.</summary>
    private const double SteepestShare = 0.9;

    /// <summary>Below this the series of the mean is exact to rounding.</summary>
    private const double FlatShare = 1e-3;

    private readonly ExchangeStream hot;
    private readonly ExchangeStream cold;
    private readonly ExchangeWall wall;
    private readonly int segments;
    private readonly BandedSystem system;
    private readonly double[] direction;
    private readonly double[] axial;
    private double lastChange;
    private bool hasPressureDrop = true;
    private double leakShare = 1;

    /// <summary>Prepares the solve.</summary>
    public ExchangeSolver(ExchangeStream hot, ExchangeStream cold, ExchangeWall wall, int segments)
    {
        this.hot = hot;
        this.cold = cold;
        this.wall = wall;
        this.segments = segments;
        system = new(3 * segments, 5, 5);
        direction = new double[3 * segments];
        axial = new double[segments];
    }

    /// <summary>Solves for a length.</summary>
    /// <param name="length">m.</param>
    /// <param name="hotShare">Flow of the hot stream over the flow given.</param>
    /// <param name="filmSide">-1 for films at the low end of their uncertainty, +1 for the high end, 0 for neither.</param>
    /// <param name="frictionSide">The same for friction.</param>
    /// <param name="start">A solution near to it; null where there is none.</param>
    /// <returns>The solution; where a pressure runs out, what it came to: see <see cref="IsWithoutPressure"/>.</returns>
    /// <exception cref="ConvergenceException">It does not converge.</exception>
    public ExchangeProfile Solve(double length, double hotShare = 1, int filmSide = 0, int frictionSide = 0, ExchangeProfile? start = null)
    {
        hasPressureDrop = true;
        hot.SetPassages(length, hotShare, filmSide, frictionSide);
        cold.SetPassages(length, 1, filmSide, frictionSide);
        ExchangeProfile profile = new(segments);

        // From one without conduction along the metal no way leads back: answers that change from one kind to the other do not settle.
        bool isWithoutConduction = start is { IsWithoutAxialConduction: true };
        if (start is not null && !isWithoutConduction)
        {
            Copy(start, profile);
            if (TrySolve(profile, length, hotShare) && !Crosses(profile))
            {
                return profile;
            }
        }

        ExchangeStart beginning = new(hot, cold, wall, hotShare * hot.Flow);
        beginning.Fill(profile, length);
        if (!isWithoutConduction && ((TrySolve(profile, length, hotShare) && !Crosses(profile)) || IsWithoutPressure(profile)))
        {
            return profile;
        }

        if (wall.AmbientConductance > 0)
        {
            return SolveWithGrowingLeak(beginning, length, hotShare);
        }

        // Far beyond what a pinch leaves, or with both streams boiling at one temperature each: the course without conduction along the metal, which is exact as far as that goes.
        beginning.Fill(profile, length);
        Finish(profile, length / segments);
        for (int i = 0; i <= segments; i++)
        {
            // As the course has them: the next round takes the pressures found.
            profile.HotTemperature[i] = hot.Temperature(profile.HotEnthalpy[i], hot.CoursePressure(profile.HotEnthalpy[i]), out _);
            profile.ColdTemperature[i] = cold.Temperature(profile.ColdEnthalpy[i], cold.CoursePressure(profile.ColdEnthalpy[i]), out _);
        }

        profile.IsWithoutAxialConduction = true;
        return profile;
    }

    private ExchangeProfile SolveWithGrowingLeak(ExchangeStart beginning, double length, double hotShare)
    {
        ExchangeProfile profile = new(segments);
        beginning.Fill(profile, length);
        foreach (double share in LeakStages)
        {
            leakShare = share;
            bool isSolved = TrySolve(profile, length, hotShare);
            leakShare = 1;
            if (!isSolved && !IsWithoutPressure(profile))
            {
                throw Refused(length, hotShare);
            }
        }

        return profile;
    }

    // Without heat from outside the streams cannot cross; a segment may step over a bend.
    private bool Crosses(ExchangeProfile x)
    {
        if (wall.AmbientConductance > 0)
        {
            return false;
        }

        for (int i = 0; i <= segments; i++)
        {
            if (x.HotTemperature[i] < x.ColdTemperature[i] - CrossingTolerance)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Solves for a length with both pressures held at those of the inlets, and puts into the result how they would fall along it.</summary>
    /// <param name="length">m.</param>
    /// <exception cref="ConvergenceException">It does not converge.</exception>
    public ExchangeProfile SolveWithoutPressureDrop(double length)
    {
        ExchangeProfile profile = new(segments);
        hot.SetPassages(length);
        cold.SetPassages(length);
        new ExchangeStart(hot, cold, wall, hot.Flow).Fill(profile, length);
        hasPressureDrop = false;
        bool isSolved = TrySolve(profile, length, 1);
        hasPressureDrop = true;
        if (!isSolved)
        {
            throw Refused(length, 1);
        }

        Pressures(profile, length / segments);
        return profile;
    }

    private ConvergenceException Refused(double length, double hotShare)
    {
        double hotInlet = hot.Temperature(hot.InletEnthalpy, hot.InletPressure, out _);
        double coldInlet = cold.Temperature(cold.InletEnthalpy, cold.InletPressure, out _);
        double leak = wall.AmbientConductance * length * Math.Max(0, wall.AmbientTemperature - (0.5 * (hotInlet + coldInlet)));
        double share = leak / (hotShare * hot.Flow * Math.Abs(hot.FarthestEnthalpy - hot.InletEnthalpy));
        return new(
            "Exchanger of tubes",
            $"hot {hot.InletPressure:G9} Pa, {hot.InletEnthalpy:G9} J/kg, {hot.Flow * hotShare:G9} kg/s; cold {cold.InletPressure:G9} Pa, {cold.InletEnthalpy:G9} J/kg, {cold.Flow:G9} kg/s; {length:G9} m",
            lastChange,
            share > MuchHeat
                ? FormattableString.Invariant($"Heat from outside is about {100 * share:F0} % of what the stream that is cooled can give: insulate better, or take fewer metres.")
                : "Report this case; a neighbouring length or flow will work.");
    }

    private bool TrySolve(ExchangeProfile x, double length, double hotShare)
    {
        double dz = length / segments;
        double hotFlow = hotShare * hot.Flow;
        double coldFlow = cold.Flow;
        double span = Math.Abs(hot.FarthestEnthalpy - hot.InletEnthalpy);
        double coldSpan = Math.Abs(cold.FarthestEnthalpy - cold.InletEnthalpy);
        ExchangeProfile first = new(segments);
        Copy(x, first);
        double inertia = 0;
        int withoutPressure = 0;
        for (int iteration = 0; iteration < MostIterations; iteration++)
        {
            double moved = Pressures(x, dz);
            double merit = Assemble(x, dz, hotFlow, coldFlow);
            withoutPressure = IsWithoutPressure(x) ? withoutPressure + 1 : 0;
            if (withoutPressure > MostWithoutPressure)
            {
                return false;
            }

            // Balances that close settle it as well: close to a pinch a stream may lie a little further along or back.
            bool isClosed = merit <= Closed * hotFlow * span && moved <= ClosedPressures;

            // Where Newton's method gets nowhere, as in a front of boiling that must travel along the exchanger, the streams go on as in time, by steps that change them little.
            if (iteration == PatientIterations)
            {
                inertia = FirstInertia;
                Copy(first, x);
                continue;
            }

            for (int i = 0; i < segments && inertia > 0; i++)
            {
                system[3 * i, 3 * i] -= inertia * hotFlow;
                system[(3 * i) + 1, (3 * i) + 1] += inertia * coldFlow;
            }

            if (!system.Solve())
            {
                return false;
            }

            system.Right.CopyTo(direction, 0);
            double largest = 0;
            for (int i = 0; i < segments; i++)
            {
                largest = Math.Max(largest, Math.Max(Math.Abs(direction[3 * i]) / span, Math.Abs(direction[(3 * i) + 1]) / coldSpan));
            }

            if (!double.IsFinite(largest))
            {
                return false;
            }

            lastChange = Math.Max(largest, moved);
            if (isClosed)
            {
                Finish(x, dz);
                return true;
            }

            if (inertia > 0 && largest > LargeChange && inertia < MostInertia)
            {
                inertia *= 4;
                continue;
            }

            inertia = largest < SmallChange ? (inertia > LeastInertia ? 0.5 * inertia : 0) : inertia;

            // Far steps are cut, and such that do not bring the balances closer: at a phase boundary the streams bend.
            double step = Math.Min(1, FarthestStep / largest);
            Move(x, step);
            for (int cut = 0; cut < MostCuts && largest > Settled && iteration < PatientIterations; cut++)
            {
                Films(x);
                if (Assemble(x, dz, hotFlow, coldFlow) < merit * (1 - (LeastGain * step)))
                {
                    break;
                }

                Move(x, -0.5 * step);
                step *= 0.5;
            }

            if (lastChange <= Settled && inertia == 0)
            {
                Finish(x, dz);
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether a pressure stands where it is held from falling further: nothing is solved then.</summary>
    public bool IsWithoutPressure(ExchangeProfile x) =>
        x.HotPressure.Min() <= LeastPressureShare * hot.InletPressure || x.ColdPressure.Min() <= LeastPressureShare * cold.InletPressure;

    private void Move(ExchangeProfile x, double step)
    {
        for (int i = 0; i < segments; i++)
        {
            x.HotEnthalpy[i + 1] += step * direction[3 * i];
            x.ColdEnthalpy[i] += step * direction[(3 * i) + 1];
            x.WallTemperature[i] += step * direction[(3 * i) + 2];
        }
    }

    private void Films(ExchangeProfile x)
    {
        for (int i = 0; i < segments; i++)
        {
            x.Hot[i] = hot.Over(x.HotEnthalpy[i], x.HotEnthalpy[i + 1], 0.5 * (x.HotPressure[i] + x.HotPressure[i + 1]));
            x.Cold[i] = cold.Over(x.ColdEnthalpy[i], x.ColdEnthalpy[i + 1], 0.5 * (x.ColdPressure[i] + x.ColdPressure[i + 1]));
        }
    }

    // Pressures at the faces from the states last found; tells the largest relative change.
    private double Pressures(ExchangeProfile x, double dz)
    {
        if (!hasPressureDrop)
        {
            Array.Fill(x.HotPressure, hot.InletPressure);
            Array.Fill(x.ColdPressure, cold.InletPressure);
            Films(x);
            return 0;
        }

        double moved = 0;
        double volume = hot.Volume(x.HotEnthalpy[0], x.HotPressure[0]);
        double p = hot.InletPressure;
        x.HotPressure[0] = p;
        for (int i = 0; i < segments; i++)
        {
            ExchangeStream.Place middle = hot.Over(x.HotEnthalpy[i], x.HotEnthalpy[i + 1], 0.5 * (x.HotPressure[i] + x.HotPressure[i + 1]));
            double after = hot.Volume(x.HotEnthalpy[i + 1], x.HotPressure[i + 1]);
            p -= (dz * middle.Gradient) + (hot.MassFlux * hot.MassFlux * (after - volume));
            p = Math.Max(p, LeastPressureShare * hot.InletPressure);
            moved = Math.Max(moved, Math.Abs(p - x.HotPressure[i + 1]) / p);
            x.HotPressure[i + 1] = p;
            x.Hot[i] = middle;
            volume = after;
        }

        volume = cold.Volume(x.ColdEnthalpy[segments], x.ColdPressure[segments]);
        p = cold.InletPressure;
        x.ColdPressure[segments] = p;
        for (int i = segments - 1; i >= 0; i--)
        {
            ExchangeStream.Place middle = cold.Over(x.ColdEnthalpy[i], x.ColdEnthalpy[i + 1], 0.5 * (x.ColdPressure[i] + x.ColdPressure[i + 1]));
            double after = cold.Volume(x.ColdEnthalpy[i], x.ColdPressure[i]);
            p -= (dz * middle.Gradient) + (cold.MassFlux * cold.MassFlux * (after - volume));
            p = Math.Max(p, LeastPressureShare * cold.InletPressure);
            moved = Math.Max(moved, Math.Abs(p - x.ColdPressure[i]) / p);
            x.ColdPressure[i] = p;
            x.Cold[i] = middle;
            volume = after;
        }

        return moved;
    }

    // Root of the sum of squares of what the balances are off, W. Unknowns of segment i: enthalpy of the hot stream behind it, that of the cold stream behind it (on its warm side), temperature of its wall.
    private double Assemble(ExchangeProfile x, double dz, double hotFlow, double coldFlow)
    {
        system.Clear();
        for (int i = 0; i < segments; i++)
        {
            axial[i] = wall.AxialConductance(x.WallTemperature[i]);
        }

        double squares = 0;
        double hotTemperature = hot.Temperature(x.HotEnthalpy[0], x.HotPressure[0], out double hotSlope);
        double coldTemperature = cold.Temperature(x.ColdEnthalpy[0], x.ColdPressure[0], out double coldSlope);
        for (int i = 0; i < segments; i++)
        {
            double hotAfter = hot.Temperature(x.HotEnthalpy[i + 1], x.HotPressure[i + 1], out double hotSlopeAfter);
            double coldAfter = cold.Temperature(x.ColdEnthalpy[i + 1], x.ColdPressure[i + 1], out double coldSlopeAfter);
            Resistances(x, i, dz, out double toHot, out double toCold);
            double u = 1 / (toHot + toCold);
            double hotFilmSlope = Slope(x.Hot[i], dz);
            double coldFilmSlope = Slope(x.Cold[i], dz);
            double mean = Mean(hotTemperature - coldTemperature, hotAfter - coldAfter, out double byWarm, out double byCold);

            // Axial conduction: what the hot stream gives is more than what the cold one takes by what leaves the segment along the wall.
            double toWarmEnd = i > 0 ? 0.5 * (axial[i - 1] + axial[i]) / dz : 0;
            double toColdEnd = i < segments - 1 ? 0.5 * (axial[i] + axial[i + 1]) / dz : 0;
            double leaving = (i > 0 ? toWarmEnd * (x.WallTemperature[i] - x.WallTemperature[i - 1]) : 0)
                + (i < segments - 1 ? toColdEnd * (x.WallTemperature[i] - x.WallTemperature[i + 1]) : 0);
            double taken = u * (mean - (leaving * toHot));
            double ambient = leakShare * wall.AmbientConductance * dz;
            double toHotStream = ambient * wall.AmbientShareToHot;
            double toColdStream = ambient - toHotStream;
            int row = 3 * i;
            double hotLeak = toHotStream * (wall.AmbientTemperature - (0.5 * (hotTemperature + hotAfter)));
            double coldLeak = toColdStream * (wall.AmbientTemperature - (0.5 * (coldTemperature + coldAfter)));
            system.Right[row] = -((hotFlow * (x.HotEnthalpy[i] - x.HotEnthalpy[i + 1])) - taken - leaving + hotLeak);
            system.Right[row + 1] = -((coldFlow * (x.ColdEnthalpy[i] - x.ColdEnthalpy[i + 1])) - taken - coldLeak);
            system.Right[row + 2] = -(x.WallTemperature[i] - (0.5 * (coldTemperature + coldAfter)) - (taken * toCold));

            double wallOff = u * system.Right[row + 2];
            squares += (system.Right[row] * system.Right[row]) + (system.Right[row + 1] * system.Right[row + 1]) + (wallOff * wallOff);

            // d(taken) by the enthalpies at both faces, which also change the films in the middle, and by the wall temperatures.
            double byHotFilm = -u * (taken + leaving) * hotFilmSlope;
            double byColdFilm = -u * taken * coldFilmSlope;
            double wallByColdFilm = taken * coldFilmSlope;
            double hotWarm = (u * byWarm * hotSlope) + (byHotFilm * x.Hot[i].ConductanceByFirst);
            double hotCold = (u * byCold * hotSlopeAfter) + (byHotFilm * x.Hot[i].ConductanceBySecond);
            double coldWarm = (-u * byWarm * coldSlope) + (byColdFilm * x.Cold[i].ConductanceByFirst);
            double coldCold = (-u * byCold * coldSlopeAfter) + (byColdFilm * x.Cold[i].ConductanceBySecond);
            double byLeaving = -u * toHot;
            if (i > 0)
            {
                system[row, row - 3] += hotFlow - hotWarm - (0.5 * toHotStream * hotSlope);
                system[row + 1, row - 3] -= hotWarm;
                system[row + 2, row - 3] -= toCold * hotWarm;
                AddWall(row - 1, -toWarmEnd);
            }

            system[row, row] += -hotFlow - hotCold - (0.5 * toHotStream * hotSlopeAfter);
            system[row + 1, row] -= hotCold;
            system[row + 2, row] -= toCold * hotCold;
            system[row, row + 1] -= coldWarm;
            system[row + 1, row + 1] += coldFlow - coldWarm + (0.5 * toColdStream * coldSlope);
            system[row + 2, row + 1] -= (toCold * coldWarm) + (0.5 * coldSlope) + (wallByColdFilm * x.Cold[i].ConductanceByFirst);
            AddWall(row + 2, toWarmEnd + toColdEnd);
            system[row + 2, row + 2] += 1;
            if (i < segments - 1)
            {
                system[row, row + 4] -= coldCold;
                system[row + 1, row + 4] += -coldFlow - coldCold + (0.5 * toColdStream * coldSlopeAfter);
                system[row + 2, row + 4] -= (toCold * coldCold) + (0.5 * coldSlopeAfter) + (wallByColdFilm * x.Cold[i].ConductanceBySecond);
                AddWall(row + 5, -toColdEnd);
            }

            hotTemperature = hotAfter;
            hotSlope = hotSlopeAfter;
            coldTemperature = coldAfter;
            coldSlope = coldSlopeAfter;

            void AddWall(int column, double leavingByWall)
            {
                system[row, column] -= (byLeaving + 1) * leavingByWall;
                system[row + 1, column] -= byLeaving * leavingByWall;
                system[row + 2, column] -= toCold * byLeaving * leavingByWall;
            }
        }

        return Math.Sqrt(squares);
    }

    private void Resistances(ExchangeProfile x, int i, double dz, out double toHot, out double toCold)
    {
        (toHot, toCold) = wall.Resistances(x.WallTemperature[i], x.Hot[i].Conductance, x.Cold[i].Conductance);
        toHot /= dz;
        toCold /= dz;
    }

    // How the resistance of a film changes with its conductance; the share of the metal around a joint is left out.
    private static double Slope(in ExchangeStream.Place place, double dz) => -1 / (place.Conductance * place.Conductance * dz);

    private void Finish(ExchangeProfile x, double dz)
    {
        Pressures(x, dz);
        for (int i = 0; i <= segments; i++)
        {
            x.HotTemperature[i] = hot.Temperature(x.HotEnthalpy[i], x.HotPressure[i], out _);
            x.ColdTemperature[i] = cold.Temperature(x.ColdEnthalpy[i], x.ColdPressure[i], out _);
        }

        double share = wall.AmbientShareToHot;
        x.AmbientHeat = 0;
        for (int i = 0; i < segments; i++)
        {
            Resistances(x, i, dz, out double toHot, out double toCold);
            double coldMean = 0.5 * (x.ColdTemperature[i] + x.ColdTemperature[i + 1]);
            double hotMean = 0.5 * (x.HotTemperature[i] + x.HotTemperature[i + 1]);
            x.Conductance[i] = 1 / (toHot + toCold);
            x.Heat[i] = (x.WallTemperature[i] - coldMean) / toCold;
            x.AmbientHeat += wall.AmbientConductance * dz * (wall.AmbientTemperature - (share * hotMean) - ((1 - share) * coldMean));
        }
    }

    /// <summary>Logarithmic mean of two differences with its derivatives; where one is far smaller or of the other sign, a smooth continuation.</summary>
    internal static double Mean(double a, double b, out double byA, out double byB)
    {
        double half = 0.5 * (a + b);
        if (half == 0)
        {
            byA = 0;
            byB = 0;
            return 0;
        }

        double d = (a - b) / (a + b);
        double size = Math.Abs(d);
        double f;
        double slope;
        if (size < FlatShare)
        {
            f = 1 - (d * d / 3);
            slope = -2 * d / 3;
        }
        else if (size <= SteepestShare)
        {
            double t = Math.Atanh(d);
            f = d / t;
            slope = (1 / t) - (d / ((1 - (d * d)) * t * t));
        }
        else
        {
            double t = Math.Atanh(SteepestShare);
            double edge = SteepestShare / t;
            double rate = ((1 / t) - (SteepestShare / ((1 - (SteepestShare * SteepestShare)) * t * t))) / edge;
            f = edge * Math.Exp(rate * (size - SteepestShare));
            slope = rate * f * Math.Sign(d);
        }

        double sum = a + b;
        byA = (0.5 * f) + (half * slope * 2 * b / (sum * sum));
        byB = (0.5 * f) - (half * slope * 2 * a / (sum * sum));
        return half * f;
    }

    private static void Copy(ExchangeProfile from, ExchangeProfile to)
    {
        from.HotEnthalpy.CopyTo(to.HotEnthalpy, 0);
        from.ColdEnthalpy.CopyTo(to.ColdEnthalpy, 0);
        from.HotPressure.CopyTo(to.HotPressure, 0);
        from.ColdPressure.CopyTo(to.ColdPressure, 0);
        from.WallTemperature.CopyTo(to.WallTemperature, 0);
    }
}
