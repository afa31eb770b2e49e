namespace CryoThermo.Design;

/// <summary>
/// A minimum seen from both sides. Where two branches meet in an edge, that edge moves with the blend; its value follows from both branches:
/// with slopes a &lt; 0 to the left and b > 0 to the right it changes by (b dLeft - a dRight)/(b - a).
/// </summary>
/// <param name="Left">Just colder.</param>
/// <param name="Right">Just warmer; the same point at an end of the range.</param>
internal readonly record struct MinimumSides(DifferenceAt Left, DifferenceAt Right)
{
    /// <summary>Change of the minimum when the branches change by so much, J/mol.</summary>
    public double Change(double left, double right)
    {
        double a = Math.Min(Left.Slope, 0);
        double b = Math.Max(Right.Slope, 0);
        return b - a > 1e-9 ? ((b * left) - (a * right)) / (b - a) : 0.5 * (left + right);
    }
}
