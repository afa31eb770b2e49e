using CryoThermo.EquationsOfState.Cubic;

namespace CryoThermo.Checks.Accuracy;

/// <summary>alpha = Tr^-1/2 of Redlich, Kwong, Chem. Rev. 44 (1949) 233; the library ships no such model, its kernel is checked with it.</summary>
internal sealed class RedlichKwongAlpha(double criticalTemperature) : AlphaFunction
{
    public override double SquareRoot(double temperature, out double first, out double second)
    {
        double root = Math.Pow(temperature / criticalTemperature, -0.25);
        first = -0.25 * root / temperature;
        second = 0.3125 * root / (temperature * temperature);
        return root;
    }
}
