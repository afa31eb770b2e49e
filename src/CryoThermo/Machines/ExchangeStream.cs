using CryoThermo.Equilibrium;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Numerics;

namespace CryoThermo.Machines;

/// <summary>
/// One stream of an exchanger of tubes: its states over enthalpy along the course of pressure it was last found to have, with film coefficient, friction and
/// hold-up at each. Off that course the temperature is corrected to first order in the pressure. SI. Not thread-safe while it is rebuilt.
/// </summary>
internal sealed class ExchangeStream
{
    /// <summary>A line takes 25 to 2 000 nodes over this stretch of places.</summary>
    private const double Span = 2;

    /// <summary>Step of temperature within which the trapezium of the slopes must hold, K; the cubic pieces are better by two orders.</summary>
    private const double TemperatureTolerance = 0.05;

    /// <summary>How much farther than from inlet to inlet temperature a line reaches, as a share of that: falling pressure shifts the enthalpies.</summary>
    private const double Beyond = 0.02;

    /// <summary>Films and friction are computed so many times as densely as states.</summary>
    private const int Between = 6;

    /// <summary>And so many times next to where a phase appears or goes.</summary>
    private const int AtBoundary = 12;

    /// <summary>Shorter pieces lie across a phase boundary.</summary>
    private const double LeastPiece = 1e-4;

    /// <summary>Shorter stretches take the figures in their middle.</summary>
    private const double LeastStretch = 1e-7;

    private readonly Source? source;
    private readonly double perEnthalpy;
    private readonly double firstEnthalpy;
    private StateLine line;
    private double[] place = [];
    private double[] temperature = [];
    private double[] byPressure = [];
    private double[] slopeAtStart = [];
    private double[] slopeAtEnd = [];
    private double[] nodePlace = [];
    private Node[] nodes = [];
    private Sums[] sums = [];

    /// <summary>Prepares a stream with its pressure held at that of the inlet.</summary>
    /// <param name="inlet">State where it enters.</param>
    /// <param name="flow">kg/s in all passages together.</param>
    /// <param name="passage">One of the passages.</param>
    /// <param name="passages">Number of equal passages side by side.</param>
    /// <param name="direction">Whether the stream is heated or cooled.</param>
    /// <param name="farthest">Temperature that it may come to, K.</param>
    /// <param name="behind">Temperature on the other side of that of the inlet that heat from outside may bring it to, K; that of the inlet where it does not.</param>
    public ExchangeStream(State inlet, double flow, PassageKernel passage, int passages, HeatDirection direction, double farthest, double behind)
    {
        State first = behind == inlet.Result.Temperature ? inlet : inlet.Fluid.At(UnitsNet.Temperature.FromKelvins(behind), inlet.Pressure);
        source = new(inlet.Fluid, first.Result, passage, passages, direction);
        Flow = flow;
        InletPressure = inlet.Result.Pressure;
        InletEnthalpy = inlet.SpecificEnthalpy.JoulesPerKilogram;
        double last = inlet.Fluid.At(UnitsNet.Temperature.FromKelvins(farthest), inlet.Pressure).SpecificEnthalpy.JoulesPerKilogram;
        FarthestEnthalpy = last + (Beyond * (last - InletEnthalpy));
        firstEnthalpy = first.SpecificEnthalpy.JoulesPerKilogram;
        perEnthalpy = Span / (FarthestEnthalpy - firstEnthalpy);
        line = LineAlong(source, _ => InletPressure, null);
        Tabulate();
    }

    /// <summary>A stream of given states with the same film, friction and content everywhere.</summary>
    /// <param name="states">Its states.</param>
    /// <param name="flow">kg/s.</param>
    /// <param name="everywhere">Film, friction and content.</param>
    public ExchangeStream(StateLine states, double flow, in Place everywhere)
    {
        line = states;
        Flow = flow;
        StateNode first = states.Nodes[0];
        InletPressure = first.Pressure;
        InletEnthalpy = first.Enthalpy;
        firstEnthalpy = first.Enthalpy;
        FarthestEnthalpy = states.Nodes[^1].Enthalpy;
        perEnthalpy = states.Nodes[^1].Place / (FarthestEnthalpy - InletEnthalpy);
        Tabulate();
        for (int i = 0; i < nodes.Length; i++)
        {
            nodes[i] = nodes[i] with
            {
                Conductance = everywhere.Conductance,
                Gradient = everywhere.Gradient,
                Content = everywhere.Content,
                Regime = everywhere.Regime,
            };
        }

        AddUp();
    }

    /// <summary>kg/s.</summary>
    public double Flow { get; }

    /// <summary>Pa.</summary>
    public double InletPressure { get; }

    /// <summary>J/kg.</summary>
    public double InletEnthalpy { get; }

    /// <summary>Enthalpy at the end of the line, J/kg.</summary>
    public double FarthestEnthalpy { get; }

    /// <summary>Why the line ends before that; null where it does not.</summary>
    public string? Obstacle => line.Obstacle;

    /// <summary>Enthalpy where the line truly ends, J/kg.</summary>
    public double ReachedEnthalpy => line.Nodes[^1].Enthalpy;

    /// <summary>Mass flux in a passage, kg/(m2 s).</summary>
    public double MassFlux { get; private set; }

    /// <summary>Builds the states anew along a course of pressure.</summary>
    /// <param name="pressureAt">Pa over enthalpy in J/kg.</param>
    public void Rebuild(Func<double, double> pressureAt)
    {
        if (source is not null)
        {
            line = LineAlong(source, pressureAt, line);
            Tabulate();
        }
    }

    /// <summary>Computes films and friction again for passages of a length.</summary>
    /// <param name="length">m.</param>
    /// <param name="share">Flow over the flow given.</param>
    /// <param name="filmSide">-1 for films at the low end of their uncertainty, +1 for the high end, 0 for neither.</param>
    /// <param name="frictionSide">The same for friction.</param>
    public void SetPassages(double length, double share = 1, int filmSide = 0, int frictionSide = 0)
    {
        if (source is not { Passage: { } passage } given)
        {
            return;
        }

        MassFlux = share * Flow / (given.Passages * passage.FlowArea);
        double perimeter = given.Passages * passage.HeatedPerimeter;
        for (int i = 0; i < nodes.Length; i++)
        {
            StreamProperties p = nodes[i].Properties;
            FilmFigures film = passage.Film(p, MassFlux, given.Direction, length, 0);
            double density = p.Quality switch
            {
                0 => p.Liquid.Density,
                1 => p.Vapor.Density,
                _ => p.Liquid.Density + (passage.VoidFraction(p, MassFlux) * (p.Vapor.Density - p.Liquid.Density)),
            };
            nodes[i] = nodes[i] with
            {
                Conductance = film.Coefficient * perimeter * (1 + (filmSide * film.RelativeUncertainty)),
                Gradient = passage.FrictionGradient(p, MassFlux) * (1 + (frictionSide * passage.FrictionUncertainty(p, MassFlux))),
                Content = density * given.Passages * passage.FlowArea,
                Regime = film.Regime,
            };
        }

        AddUp();
    }

    /// <summary>Pressure of the course at an enthalpy, Pa.</summary>
    public double CoursePressure(double enthalpy)
    {
        int i = PieceOf(place, enthalpy, out double u);
        return line.Nodes[i].Pressure + (u * (line.Nodes[i + 1].Pressure - line.Nodes[i].Pressure));
    }

    /// <summary>Temperature, K, and its slope in enthalpy at a held pressure, K kg/J.</summary>
    public double Temperature(double enthalpy, double pressure, out double slope)
    {
        int i = PieceOf(place, enthalpy, out double u);
        double h = line.Nodes[i + 1].Enthalpy - line.Nodes[i].Enthalpy;
        double rise = temperature[i + 1] - temperature[i];
        double d0 = slopeAtStart[i] * h;
        double d1 = slopeAtEnd[i] * h;
        double c2 = (3 * rise) - (2 * d0) - d1;
        double c3 = d0 + d1 - (2 * rise);
        double onCourse;
        if (u is < 0 or > 1)
        {
            double end = u < 0 ? 0 : 1;
            double endSlope = u < 0 ? d0 : d1;
            onCourse = temperature[u < 0 ? i : i + 1] + ((u - end) * endSlope);
            slope = endSlope / h;
        }
        else
        {
            onCourse = temperature[i] + (u * (d0 + (u * (c2 + (u * c3)))));
            slope = (d0 + (u * ((2 * c2) + (3 * u * c3)))) / h;
        }

        double fall = line.Nodes[i + 1].Pressure - line.Nodes[i].Pressure;
        double off = pressure - line.Nodes[i].Pressure - (u * fall);
        double bend = byPressure[i + 1] - byPressure[i];
        double rate = byPressure[i] + (u * bend);
        slope += ((bend * off) - (rate * fall)) / h;
        return onCourse + (rate * off);
    }

    /// <summary>Enthalpies at which films and temperatures are known, from the inlet on, J/kg.</summary>
    public IEnumerable<double> KnownEnthalpies => nodePlace.Select(EnthalpyAt);

    /// <summary>Homogeneous volume at an enthalpy, m3/kg; it grows as the pressure falls below the course.</summary>
    public double Volume(double enthalpy, double pressure)
    {
        int i = PieceOf(nodePlace, enthalpy, out double u);
        u = Math.Clamp(u, 0, 1);
        return Mixed(nodes[i].Volume, nodes[i + 1].Volume, u) * Swelling(i, u, pressure);
    }

    /// <summary>
    /// Means of film, friction and content over a stretch of enthalpy, which do not bend where the figures do, so that Newton's method does not swing there.
    /// </summary>
    public Place Over(double first, double second, double pressure)
    {
        int i = PieceOf(nodePlace, 0.5 * (first + second), out double u);
        u = Math.Clamp(u, 0, 1);
        Node a = nodes[i];
        Node b = nodes[i + 1];
        Sums from = SumAt(first);
        Sums to = SumAt(second);
        double span = to.Place - from.Place;
        double conductance;
        double gradient;
        double content;
        double byFirst;
        double bySecond;
        if (Math.Abs(span) > LeastStretch)
        {
            conductance = (to.Conductance - from.Conductance) / span;
            gradient = (to.Gradient - from.Gradient) / span;
            content = (to.Content - from.Content) / span;
            byFirst = perEnthalpy * (conductance - from.ConductanceThere) / span;
            bySecond = perEnthalpy * (to.ConductanceThere - conductance) / span;
        }
        else
        {
            conductance = Mixed(a.Conductance, b.Conductance, u);
            gradient = Mixed(a.Gradient, b.Gradient, u);
            content = Mixed(a.Content, b.Content, u);
            byFirst = 0.5 * perEnthalpy * (b.Conductance - a.Conductance) / (nodePlace[i + 1] - nodePlace[i]);
            bySecond = byFirst;
        }

        double swelling = Swelling(i, u, pressure);
        return new(
            conductance,
            gradient * swelling,
            content / swelling,
            Mixed(a.Properties.Quality, b.Properties.Quality, u),
            (u < 0.5 ? a : b).Regime,
            byFirst,
            bySecond);
    }

    // Gas thins with its pressure, and its friction grows as much; liquid does neither.
    private double Swelling(int i, double u, double pressure)
    {
        double thinner = Mixed(nodes[i].Pressure, nodes[i + 1].Pressure, u) / pressure;
        return 1 + (Mixed(nodes[i].Properties.Quality, nodes[i + 1].Properties.Quality, u) * (thinner - 1));
    }

    // Integrals over the place from the first node on; beyond the ends the figures stay.
    private Sums SumAt(double enthalpy)
    {
        int i = PieceOf(nodePlace, enthalpy, out double u);
        double width = nodePlace[i + 1] - nodePlace[i];
        Node a = nodes[i];
        Node b = nodes[i + 1];
        Sums before = sums[i];
        double within = Math.Clamp(u, 0, 1);
        double beyond = (u - within) * width;
        double conductance = Mixed(a.Conductance, b.Conductance, within);
        return new(
            nodePlace[i] + (u * width),
            before.Conductance + (0.5 * within * width * (a.Conductance + conductance)) + (beyond * conductance),
            before.Gradient + (0.5 * within * width * (a.Gradient + Mixed(a.Gradient, b.Gradient, within))) + (beyond * Mixed(a.Gradient, b.Gradient, within)),
            before.Content + (0.5 * within * width * (a.Content + Mixed(a.Content, b.Content, within))) + (beyond * Mixed(a.Content, b.Content, within)),
            conductance);
    }

    private void AddUp()
    {
        sums = new Sums[nodes.Length];
        for (int i = 1; i < nodes.Length; i++)
        {
            double half = 0.5 * (nodePlace[i] - nodePlace[i - 1]);
            Sums before = sums[i - 1];
            Node a = nodes[i - 1];
            Node b = nodes[i];
            sums[i] = new(
                nodePlace[i],
                before.Conductance + (half * (a.Conductance + b.Conductance)),
                before.Gradient + (half * (a.Gradient + b.Gradient)),
                before.Content + (half * (a.Content + b.Content)),
                b.Conductance);
        }
    }

    private static double Mixed(double x, double y, double u) => x + (u * (y - x));

    private int PieceOf(double[] place, double enthalpy, out double u)
    {
        double s = (enthalpy - firstEnthalpy) * perEnthalpy;
        int low = 0;
        int high = place.Length - 2;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (place[middle + 1] >= s)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        u = (s - place[low]) / (place[low + 1] - place[low]);
        return low;
    }

    private StateLine LineAlong(Source from, Func<double, double> pressureAt, StateLine? last) => StateLine.Along(
        from.Fluid, PhaseViscosity.Of(from.Fluid), from.Inlet, s => (pressureAt(EnthalpyAt(s)), EnthalpyAt(s)), Span, TemperatureTolerance, last);

    private double EnthalpyAt(double s) => firstEnthalpy + (s / perEnthalpy);

    private void Tabulate()
    {
        IReadOnlyList<StateNode> states = line.Nodes;
        int n = states.Count;
        place = [.. states.Select(s => s.Place)];
        temperature = [.. states.Select(s => s.Temperature)];
        byPressure = [.. states.Select(s => s.TemperatureByPressure)];

        // Across a phase boundary the slope in pressure jumps, since the boundary moves; a jump of the temperature off the course would stop Newton's method.
        for (int i = 0; i < n - 1; i++)
        {
            if (place[i + 1] - place[i] < LeastPiece)
            {
                double mean = 0.5 * (byPressure[i] + byPressure[i + 1]);
                byPressure[i] = mean;
                byPressure[i + 1] = mean;
            }
        }

        slopeAtStart = new double[n - 1];
        slopeAtEnd = new double[n - 1];
        for (int i = 0; i < n - 1; i++)
        {
            double course = (states[i + 1].Pressure - states[i].Pressure) / (states[i + 1].Enthalpy - states[i].Enthalpy);
            slopeAtStart[i] = states[i].TemperatureByEnthalpy + (course * states[i].TemperatureByPressure);
            slopeAtEnd[i] = states[i + 1].TemperatureByEnthalpy + (course * states[i + 1].TemperatureByPressure);
        }

        TabulateNodes(s => source is null ? default : PassageStream.StreamPropertiesOf(new State(source.Fluid, s.State!)));
    }

    // Friction and films bend more than the properties they come from: these are interpolated by cubic pieces, phase by phase.
    private void TabulateNodes(Func<StateNode, StreamProperties> propertiesOf)
    {
        IReadOnlyList<StateNode> states = line.Nodes;
        StreamProperties[] known = [.. states.Select(propertiesOf)];
        List<double> places = [];
        List<Node> found = [];
        int first = 0;
        while (first < states.Count)
        {
            int last = first;
            while (last + 1 < states.Count
                && states[last + 1].Place - states[last].Place > LeastPiece
                && (known[last + 1].Quality == known[last].Quality || (known[last + 1].IsTwoPhase && known[last].IsTwoPhase)))
            {
                last++;
            }

            AddRun(first, last);
            first = last + 1;
        }

        nodePlace = [.. places];
        nodes = [.. found];

        void AddRun(int from, int to)
        {
            double[] run = [.. Enumerable.Range(from, to - from + 1).Select(i => states[i].Place)];
            double[][] figures = [.. Enumerable.Range(from, run.Length).Select(i => Figures(known[i]))];
            MonotoneCubic[] pieces = to == from
                ? []
                : [.. Enumerable.Range(0, figures[0].Length).Select(k => new MonotoneCubic(run, [.. figures.Select(f => f[k])]))];
            MonotoneCubic? volume = to == from ? null : new(run, [.. Enumerable.Range(from, run.Length).Select(i => states[i].Volume)]);
            for (int i = from; i <= to; i++)
            {
                Add(states[i].Place, known[i], states[i].Volume, states[i].Pressure);
                bool isFirst = i == from && i > 0 && known[i].IsTwoPhase;
                bool isLast = i + 1 == to && to + 1 < states.Count && known[i].IsTwoPhase;
                int pieceNodes = isFirst || isLast ? AtBoundary : Between;
                for (int k = 1; k < pieceNodes && i < to; k++)
                {
                    double u = Graded((double)k / pieceNodes, isFirst, isLast);
                    double at = Mixed(states[i].Place, states[i + 1].Place, u);
                    Add(at, Of([.. pieces.Select(p => p.At(at))], known[i]), volume!.At(at), Mixed(states[i].Pressure, states[i + 1].Pressure, u));
                }
            }
        }

        void Add(double at, in StreamProperties p, double volume, double pressure)
        {
            places.Add(at);
            found.Add(new Node { Properties = p, Volume = volume, Pressure = pressure });
        }
    }

    // Friction of two phases ends at the dew point as the cube root of what is left of the liquid, and films bend there: nodes at equal steps of that root.
    private static double Graded(double share, bool atStart, bool atEnd) => (atStart, atEnd) switch
    {
        (true, true) => share < 0.5 ? 4 * Math.Pow(share, 3) : 1 - (4 * Math.Pow(1 - share, 3)),
        (true, false) => Math.Pow(share, 3),
        (false, true) => 1 - Math.Pow(1 - share, 3),
        _ => share,
    };

    // In the order in which Of takes them.
    private static double[] Figures(in StreamProperties p) =>
    [
        p.Quality, p.SurfaceTension, p.SensibleShare, p.LatentHeat, p.ReducedPressure,
        p.Liquid.Density, p.Liquid.Viscosity, p.Liquid.Conductivity, p.Liquid.HeatCapacity,
        p.Vapor.Density, p.Vapor.Viscosity, p.Vapor.Conductivity, p.Vapor.HeatCapacity,
    ];

    private static StreamProperties Of(double[] figures, in StreamProperties near) => new(
        near.IsTwoPhase ? figures[0] : near.Quality,
        new(figures[5], figures[6], figures[7], figures[8]),
        new(figures[9], figures[10], figures[11], figures[12]),
        figures[1],
        figures[2],
        figures[3],
        figures[4],
        near.MolarMass);

    /// <summary>What belongs to a stretch of the stream, as its mean. SI, over length, all passages together.</summary>
    /// <param name="Conductance">Film coefficient times perimeter, W/(m K).</param>
    /// <param name="Gradient">Of the pressure, by friction, Pa/m.</param>
    /// <param name="Content">kg/m.</param>
    /// <param name="Quality">Vapour mass fraction.</param>
    /// <param name="Regime">How the stream flows.</param>
    /// <param name="ConductanceByFirst">Slope of the conductance in the enthalpy where the stretch begins.</param>
    /// <param name="ConductanceBySecond">Slope of the conductance in the enthalpy where it ends.</param>
    internal readonly record struct Place(
        double Conductance,
        double Gradient,
        double Content,
        double Quality,
        FilmRegime Regime,
        double ConductanceByFirst = 0,
        double ConductanceBySecond = 0);

    private readonly record struct Sums(double Place, double Conductance, double Gradient, double Content, double ConductanceThere);

    private sealed record Source(WorkingFluid Fluid, EquilibriumResult Inlet, PassageKernel Passage, int Passages, HeatDirection Direction);

    private readonly record struct Node
    {
        public StreamProperties Properties { get; init; }

        public double Volume { get; init; }

        public double Pressure { get; init; }

        public double Conductance { get; init; }

        public double Gradient { get; init; }

        public double Content { get; init; }

        public FilmRegime Regime { get; init; }
    }
}
