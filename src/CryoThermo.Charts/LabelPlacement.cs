namespace CryoThermo.Charts;

/// <summary>Finds room for a label: the place nearest to a point where its box covers no curve. All lengths are fractions of the data area.</summary>
internal static class LabelPlacement
{
    private const int Steps = 60;
    private const double Clearance = 0.015;

    /// <summary>Centre of the label's box.</summary>
    /// <param name="x">The point's place across, 0 left to 1 right.</param>
    /// <param name="y">The point's place upwards, 0 bottom to 1 top.</param>
    /// <param name="width">The box's width.</param>
    /// <param name="height">The box's height.</param>
    /// <param name="curves">Curves to keep clear of, each as points joined by straight lines.</param>
    public static (double X, double Y) Near(double x, double y, double width, double height, IReadOnlyList<(double X, double Y)[]> curves)
    {
        double halfWidth = (width / 2) + Clearance;
        double halfHeight = (height / 2) + Clearance;
        (double X, double Y) best = (0.5, 0.5);
        double bestCost = double.PositiveInfinity;
        for (int column = 0; column <= Steps; column++)
        {
            for (int row = 0; row <= Steps; row++)
            {
                double centreX = halfWidth + ((1 - (2 * halfWidth)) * column / Steps);
                double centreY = halfHeight + ((1 - (2 * halfHeight)) * row / Steps);

                // A covered curve costs more than any distance inside the unit square.
                double cost = Math.Sqrt(Math.Pow(centreX - x, 2) + Math.Pow(centreY - y, 2))
                    + (10 * Covered(curves, centreX, centreY, halfWidth, halfHeight));
                if (cost < bestCost)
                {
                    bestCost = cost;
                    best = (centreX, centreY);
                }
            }
        }

        return best;
    }

    private static int Covered(IReadOnlyList<(double X, double Y)[]> curves, double centreX, double centreY, double halfWidth, double halfHeight)
    {
        int covered = 0;
        foreach ((double X, double Y)[] curve in curves)
        {
            for (int i = 0; i + 1 < curve.Length; i++)
            {
                if (Crosses(curve[i], curve[i + 1], centreX, centreY, halfWidth, halfHeight))
                {
                    covered++;
                }
            }
        }

        return covered;
    }

    // Clips the segment against the box; something left means that it crosses.
    private static bool Crosses((double X, double Y) from, (double X, double Y) to, double centreX, double centreY, double halfWidth, double halfHeight)
    {
        double enter = 0;
        double leave = 1;
        return Clip(from.X - centreX, to.X - from.X, halfWidth, ref enter, ref leave)
            && Clip(from.Y - centreY, to.Y - from.Y, halfHeight, ref enter, ref leave);
    }

    private static bool Clip(double start, double change, double half, ref double enter, ref double leave)
    {
        if (change == 0)
        {
            return Math.Abs(start) <= half;
        }

        double first = (-half - start) / change;
        double second = (half - start) / change;
        enter = Math.Max(enter, Math.Min(first, second));
        leave = Math.Min(leave, Math.Max(first, second));
        return enter <= leave;
    }
}
