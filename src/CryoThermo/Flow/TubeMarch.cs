namespace CryoThermo.Flow;

/// <summary>
/// Steady flow along a tube of one bore, phases at one velocity and in equilibrium: h + (G v)^2/2 = H and -dp = f G^2 v/(2 D) dz + G^2 dv.
/// Marched in pressure, dz/dp = -(2 D/(f G^2 v)) (1 + G^2 dv/dp), by Simpson's rule on each piece of the line. The flow chokes where
/// 1 + G^2 dv/dp vanishes: there the velocity is the equilibrium speed of sound.
/// </summary>
internal sealed class TubeMarch
{
    private const int Halvings = 60;
    private const double NoWidth = 1e-5;

    private readonly StateLine line;
    private readonly double flux;
    private readonly double bore;
    private readonly double relativeRoughness;
    private readonly TubeHeat? heat;
    private readonly Func<double, double, double> friction;

    /// <summary>Describes the march.</summary>
    /// <param name="line">States of the fluid near to those met.</param>
    /// <param name="flux">Mass flux G, kg/(m2 s).</param>
    /// <param name="bore">m.</param>
    /// <param name="relativeRoughness">Roughness over bore.</param>
    /// <param name="heat">Heat taken up along the tube; null for none.</param>
    /// <param name="friction">Darcy's factor over Reynolds number and relative roughness; null for Churchill's.</param>
    public TubeMarch(StateLine line, double flux, double bore, double relativeRoughness, TubeHeat? heat = null, Func<double, double, double>? friction = null)
    {
        this.line = line;
        this.flux = flux;
        this.bore = bore;
        this.relativeRoughness = relativeRoughness;
        this.heat = heat;
        this.friction = friction ?? FrictionFactor.ChurchillUnchecked;
    }

    /// <summary>Where the last march ended.</summary>
    public TubePoint End { get; private set; }

    /// <summary>Largest jump of the volume at the phase boundaries that the last march passed, relative.</summary>
    public double BoundaryJump { get; private set; }

    /// <summary>
    /// The static pressure just inside the inlet: the fluid speeds up from rest and loses a share of its velocity head. Null where it would
    /// reach the speed of sound there.
    /// </summary>
    /// <param name="resting">Pressure before it, Pa.</param>
    /// <param name="enthalpy">Total enthalpy, J/kg.</param>
    /// <param name="loss">Velocity heads lost.</param>
    public double? InletPressure(double resting, double enthalpy, double loss)
    {
        int first = line.PieceOf(resting);
        Piece piece = new(this, first, enthalpy, 0);
        double restingVolume = piece.A.Pressure == resting ? line.Nodes[first].Volume : piece.At(resting, 0).Volume;

        // From rest down to the first pressure at which the head is made up; the volume in the mean of both ends is exact to third order.
        double above = resting;
        for (int i = first; i < line.Nodes.Count - 1; i++)
        {
            piece = new(this, i, enthalpy, 0);
            if (piece.IsBoundary)
            {
                continue;
            }

            double bottom = piece.B.Pressure;
            if (bottom < above && Excess(piece, bottom) >= 0)
            {
                double below = bottom;
                for (int k = 0; k < Halvings && above - below > 1e-14 * resting; k++)
                {
                    double middle = 0.5 * (above + below);
                    (above, below) = Excess(piece, middle) >= 0 ? (above, middle) : (middle, below);
                }

                double p = 0.5 * (above + below);
                return piece.Margin(p) > 0 ? p : null;
            }

            if (piece.Margin(bottom) <= 0)
            {
                return null;
            }

            above = Math.Min(above, bottom);
        }

        return null;

        double Excess(in Piece inside, double p)
        {
            double v = inside.At(p, 0).Volume;
            return resting - p - ((1 + loss) * flux * flux * v * v / (restingVolume + v));
        }
    }

    /// <summary>Marches from a static pressure.</summary>
    /// <param name="pressure">Static pressure at the inlet of the tube, Pa.</param>
    /// <param name="enthalpy">Total enthalpy there, J/kg.</param>
    /// <param name="lowest">Pressure at which to stop, Pa.</param>
    /// <param name="length">Length of the tube, m; infinite to go on until one of the other ends.</param>
    /// <param name="points">Receives the points passed; null for none.</param>
    public TubeEnd Run(double pressure, double enthalpy, double lowest, double length, List<TubePoint>? points = null)
    {
        double position = 0;
        double above = pressure;
        BoundaryJump = 0;
        lowest = Math.Max(lowest, line.Nodes[^1].Pressure);
        for (int i = line.PieceOf(pressure); ; i++)
        {
            Piece piece = new(this, i, enthalpy, position);
            if (piece.IsBoundary && piece.B.Pressure > lowest)
            {
                // Both sides are moved to the enthalpy of the stream each by its own slope, so that the volume between them may jump.
                BoundaryJump = Math.Max(BoundaryJump, Math.Abs((piece.B.Volume / piece.A.Volume) - 1));
                above = Math.Min(above, piece.B.Pressure);
                continue;
            }

            if (position == 0 && points is { Count: 0 })
            {
                points.Add(piece.At(above, 0));
            }

            if (piece.Margin(above) <= 0)
            {
                // The slope jumps at a phase boundary: liquid chokes where it begins to boil.
                return Ended(piece.At(above, position), TubeEnd.Choked, points);
            }

            double bottom = Math.Max(lowest, piece.B.Pressure);
            bool isChoked = false;
            if (piece.Margin(bottom) <= 0)
            {
                double to = bottom;
                bottom = above;
                for (int k = 0; k < Halvings && bottom - to > 1e-14 * bottom; k++)
                {
                    double middle = 0.5 * (bottom + to);
                    (bottom, to) = piece.Margin(middle) > 0 ? (middle, to) : (bottom, middle);
                }

                isChoked = true;
            }

            double distance = piece.Distance(above, bottom);
            if (position + distance >= length)
            {
                double from = above;
                double to = bottom;
                for (int k = 0; k < Halvings && from - to > 1e-14 * from; k++)
                {
                    double middle = 0.5 * (from + to);
                    (from, to) = position + piece.Distance(above, middle) >= length ? (from, middle) : (middle, to);
                }

                return Ended(piece.At(0.5 * (from + to), length), TubeEnd.Length, points);
            }

            position += distance;
            above = bottom;
            if (isChoked || bottom <= lowest)
            {
                return Ended(piece.At(bottom, position), isChoked ? TubeEnd.Choked : TubeEnd.Pressure, points);
            }

            points?.Add(piece.At(bottom, position));
        }
    }

    private TubeEnd Ended(in TubePoint at, TubeEnd end, List<TubePoint>? points)
    {
        End = at;
        points?.Add(at);
        return end;
    }

    /// <summary>A node moved to the enthalpy that the stream has there.</summary>
    /// <param name="Pressure">Pa.</param>
    /// <param name="Volume">m3/kg.</param>
    /// <param name="Slope">dv/dp along the stream, m3/(kg Pa).</param>
    /// <param name="Temperature">K.</param>
    /// <param name="TemperatureSlope">dT/dp along the stream, K/Pa.</param>
    /// <param name="Node">The node.</param>
    private readonly record struct Corner(double Pressure, double Volume, double Slope, double Temperature, double TemperatureSlope, StateNode Node);

    private Corner CornerOf(StateNode node, double total, double heatSlope)
    {
        // v = v0 + v_h (H - G^2 v^2/2 - h0), the positive root.
        double square = flux * flux;
        double level = node.Volume + (node.VolumeByEnthalpy * (total - node.Enthalpy));
        double v = 2 * level / (1 + Math.Sqrt(Math.Max(0, 1 + (2 * square * node.VolumeByEnthalpy * level))));
        double reach = 2 * bore / (friction(flux * bore / node.Viscosity, relativeRoughness) * square * v);
        double taken = heatSlope * reach;
        double slope = (node.VolumeByPressure - (node.VolumeByEnthalpy * taken)) / (1 + (square * node.VolumeByEnthalpy * (v + taken)));
        double enthalpy = total - (0.5 * square * v * v);
        double enthalpySlope = (-taken * (1 + (square * slope))) - (square * v * slope);
        return new(
            node.Pressure,
            v,
            slope,
            node.Temperature + (node.TemperatureByEnthalpy * (enthalpy - node.Enthalpy)),
            node.TemperatureByPressure + (node.TemperatureByEnthalpy * enthalpySlope),
            node);
    }

    /// <summary>The stream between two nodes.</summary>
    private readonly struct Piece
    {
        private readonly TubeMarch march;
        private readonly double span;
        private readonly double inletEnthalpy;

        public Piece(TubeMarch march, int index, double enthalpy, double position)
        {
            this.march = march;
            inletEnthalpy = enthalpy;
            StateNode a = march.line.Nodes[index];
            StateNode b = march.line.Nodes[index + 1];
            span = b.Pressure - a.Pressure;
            if (march.heat is not { } heat)
            {
                A = march.CornerOf(a, enthalpy, 0);
                B = march.CornerOf(b, enthalpy, 0);
                return;
            }

            A = march.CornerOf(a, enthalpy + heat.At(position), heat.Slope(position));
            B = march.CornerOf(b, enthalpy + heat.At(position), heat.Slope(position));

            // Where the piece ends, and with it the heat taken up, follows from the piece itself.
            for (int i = 0; i < 3; i++)
            {
                double end = position + Math.Max(0, Distance(a.Pressure, b.Pressure));
                B = march.CornerOf(b, enthalpy + heat.At(end), heat.Slope(end));
            }
        }

        public Corner A { get; }

        public Corner B { get; }

        /// <summary>Whether it lies across a phase boundary, hardly longer than nothing.</summary>
        public bool IsBoundary => A.Node.State?.Phases.Length != B.Node.State?.Phases.Length && -span < NoWidth * A.Pressure;

        /// <summary>1 + G^2 dv/dp: one at rest, zero at the speed of sound.</summary>
        public double Margin(double p)
        {
            double t = (p - A.Pressure) / span;
            double straight = (B.Volume - A.Volume) / span;
            double slope = (6 * t * (1 - t) * straight) + ((1 - t) * (1 - (3 * t)) * A.Slope) + (t * ((3 * t) - 2) * B.Slope);
            return 1 + (march.flux * march.flux * slope);
        }

        public TubePoint At(double p, double position)
        {
            double t = (p - A.Pressure) / span;
            double v = Volume(p);
            double total = inletEnthalpy + (march.heat?.At(position) ?? 0);
            return new(
                position,
                p,
                total - (0.5 * march.flux * march.flux * v * v),
                Cubic(t, A.Temperature, B.Temperature, A.TemperatureSlope, B.TemperatureSlope),
                Straight(t, A.Node.TemperatureByEnthalpy, B.Node.TemperatureByEnthalpy),
                v,
                Straight(t, A.Node.VaporMassFraction, B.Node.VaporMassFraction));
        }

        /// <summary>Length between two pressures, m, by Simpson's rule.</summary>
        public double Distance(double above, double below)
        {
            double middle = 0.5 * (above + below);
            return (above - below) / 6 * (Gain(above) + (4 * Gain(middle)) + Gain(below));
        }

        // -dz/dp.
        private double Gain(double p)
        {
            double t = (p - A.Pressure) / span;
            double viscosity = Straight(t, A.Node.Viscosity, B.Node.Viscosity);
            double f = march.friction(march.flux * march.bore / viscosity, march.relativeRoughness);
            return 2 * march.bore * Margin(p) / (f * march.flux * march.flux * Volume(p));
        }

        private double Volume(double p) => Cubic((p - A.Pressure) / span, A.Volume, B.Volume, A.Slope, B.Slope);

        private static double Straight(double t, double a, double b) => a + (t * (b - a));

        private double Cubic(double t, double a, double b, double slopeA, double slopeB)
        {
            double u = 1 - t;
            return (u * u * ((1 + (2 * t)) * a)) + (t * t * (3 - (2 * t)) * b) + (t * u * span * ((u * slopeA) - (t * slopeB)));
        }
    }
}
