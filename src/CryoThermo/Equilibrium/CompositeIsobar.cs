namespace CryoThermo.Equilibrium;

/// <summary>
/// The isobar of two streams that run side by side at one temperature without mixing: enthalpy and entropy are the sums over the streams, each taken by its share.
/// </summary>
internal static class CompositeIsobar
{
    /// <summary>Nodes of the two isobars nearer than this, K, differ by rounding only and are drawn together: the enthalpy between them becomes a jump.</summary>
    private const double NarrowestPiece = 1e-11;

    /// <summary>
    /// Adds two isobars over the temperatures that both cover. Every node of either is a node of the sum, and the pieces between are the sums of the cubics, exact to rounding.
    /// </summary>
    /// <param name="a">One isobar.</param>
    /// <param name="shareA">Its moles over those that the sum counts by; above zero.</param>
    /// <param name="b">The other isobar, at the same pressure.</param>
    /// <param name="shareB">Its moles over those that the sum counts by; above zero.</param>
    /// <exception cref="ArgumentException">A share is not above zero, the pressures differ, or no temperature is covered by both.</exception>
    public static IsobarTable Sum(IsobarTable a, double shareA, IsobarTable b, double shareB)
    {
        Diagnostics.Guard.Positive(shareA, "mol/mol");
        Diagnostics.Guard.Positive(shareB, "mol/mol");
        double bottom = Math.Max(a.MinTemperature, b.MinTemperature);
        double top = Math.Min(a.MaxTemperature, b.MaxTemperature);
        if (a.Pressure != b.Pressure || !(top > bottom))
        {
            throw new ArgumentException(
                $"The isobars are of {a.Pressure:G9} and {b.Pressure:G9} Pa and cover {a.MinTemperature:G6} to {a.MaxTemperature:G6} and {b.MinTemperature:G6} to {b.MaxTemperature:G6} K; they must have one pressure and temperatures in common.",
                nameof(b));
        }

        List<double> places = [bottom, top];
        Collect(a, bottom, top, places);
        Collect(b, bottom, top, places);
        places.Sort();

        List<double> temperature = [];
        List<double> enthalpy = [];
        List<double> entropy = [];
        List<double> start = [];
        List<double> end = [];
        List<PhaseRegion> region = [];
        int first = 0;
        while (first < places.Count)
        {
            int last = first;
            while (last + 1 < places.Count && places[last + 1] - places[last] <= NarrowestPiece)
            {
                last++;
            }

            double below = places[first];
            double above = places[last];
            if (temperature.Count > 0)
            {
                int i = a.SegmentAtTemperature(below, above: false);
                int j = b.SegmentAtTemperature(below, above: false);
                double from = temperature[^1];
                start.Add((shareA * Slope(a, i, from)) + (shareB * Slope(b, j, from)));
                end.Add((shareA * Slope(a, i, below)) + (shareB * Slope(b, j, below)));
                region.Add(Region(a.Regions[i], b.Regions[j]));
                Add(Below(a, below), Below(b, below));
            }

            (double H, double S) atA = Above(a, above);
            (double H, double S) atB = Above(b, above);
            double upper = (shareA * atA.H) + (shareB * atB.H);
            if (temperature.Count == 0)
            {
                Add(atA, atB);
            }
            else if (upper > enthalpy[^1] && last + 1 < places.Count)
            {
                start.Add(0);
                end.Add(0);
                region.Add(PhaseRegion.ConstantTemperatureBoiling);
                temperature[^1] = above;
                Add(atA, atB);
            }

            first = last + 1;

            void Add((double H, double S) ofA, (double H, double S) ofB)
            {
                temperature.Add(above);
                enthalpy.Add((shareA * ofA.H) + (shareB * ofB.H));
                entropy.Add((shareA * ofA.S) + (shareB * ofB.S));
            }
        }

        return new(a.Pressure, [.. temperature], [.. enthalpy], [.. entropy], [.. start], [.. end], [.. region]);
    }

    private static void Collect(IsobarTable table, double bottom, double top, List<double> places)
    {
        foreach (double t in table.NodeTemperatures)
        {
            if (t > bottom && t < top)
            {
                places.Add(t);
            }
        }
    }

    private static double Slope(IsobarTable table, int segment, double t)
    {
        table.SegmentAt(segment).Expand(t, out _, out double slope, out _, out _);
        return slope;
    }

    /// <summary>Enthalpy and entropy just below a temperature; at a node the node's own.</summary>
    private static (double H, double S) Below(IsobarTable table, double t)
    {
        int i = table.SegmentAtTemperature(t, above: false);
        double h = table.NodeTemperatures[i + 1] == t ? table.NodeEnthalpies[i + 1] : table.EnthalpyBelow(t);
        return (h, table.EntropyAtEnthalpy(h));
    }

    /// <summary>Enthalpy and entropy just above a temperature; at a node the node's own.</summary>
    private static (double H, double S) Above(IsobarTable table, double t)
    {
        int i = table.SegmentAtTemperature(t, above: true);
        double h = table.NodeTemperatures[i + 1] == t ? table.NodeEnthalpies[i + 1] : table.NodeTemperatures[i] == t ? table.NodeEnthalpies[i] : table.Enthalpy(t);
        return (h, table.EntropyAtEnthalpy(h));
    }

    /// <summary>One name for the phases of both streams: that of the stream with more of them, a liquid beside a vapour as such.</summary>
    private static PhaseRegion Region(PhaseRegion a, PhaseRegion b)
    {
        PhaseRegion[] byCount = [PhaseRegion.UnresolvedPhases, PhaseRegion.TwoLiquidsVapor, PhaseRegion.ThreeLiquids, PhaseRegion.LiquidVapor, PhaseRegion.TwoLiquids];
        foreach (PhaseRegion region in byCount)
        {
            if (a == region || b == region)
            {
                return region;
            }
        }

        return a == b ? a : PhaseRegion.LiquidVapor;
    }
}
