namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>The Twu function with three constants of the substance itself, at all temperatures.</summary>
/// <param name="criticalTemperature">K.</param>
/// <param name="term">The constants.</param>
internal sealed class TwuAlpha(double criticalTemperature, TwuTerm term) : AlphaFunction
{
    /// <inheritdoc/>
    public override double SquareRoot(double temperature, out double first, out double second)
    {
        double root = Math.Sqrt(term.Alpha(temperature / criticalTemperature, out double alphaFirst, out double alphaSecond));
        first = 0.5 * alphaFirst / (root * criticalTemperature);
        second = ((0.5 * alphaSecond / (criticalTemperature * criticalTemperature)) - (first * first)) / root;
        return root;
    }
}
