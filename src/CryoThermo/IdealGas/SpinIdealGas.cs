using CryoThermo.Diagnostics;

namespace CryoThermo.IdealGas;

/// <summary>
/// Two forms of one substance as ideal gases on one scale, in a share that is frozen or follows the temperature. With an equilibrium share
/// enthalpy and entropy stay consistent because the share is the one at which the Gibbs energies of these same two gases balance.
/// Immutable and thread-safe.
/// </summary>
internal sealed class SpinIdealGas : IdealGasModel
{
    private readonly OffsetGas first;
    private readonly OffsetGas second;
    private readonly double gasConstant;
    private readonly double? frozenShare;

    /// <summary>Takes two gases with what must be added to each to count from the common zero.</summary>
    /// <param name="first">The first form.</param>
    /// <param name="second">The second form.</param>
    /// <param name="gasConstant">J/(mol K).</param>
    /// <param name="frozenShare">Mole fraction of the second form; null for equilibrium.</param>
    public SpinIdealGas(OffsetGas first, OffsetGas second, double gasConstant, double? frozenShare)
    {
        this.first = first;
        this.second = second;
        this.gasConstant = gasConstant;
        this.frozenShare = frozenShare;
    }

    /// <inheritdoc/>
    public override void Evaluate(double temperature, out double heatCapacity, out double enthalpy, out double entropy)
    {
        first.Evaluate(temperature, out double cp1, out double h1, out double s1);
        second.Evaluate(temperature, out double cp2, out double h2, out double s2);
        double x2 = SecondShare(temperature, out _);
        double x1 = 1 - x2;
        heatCapacity = (x1 * cp1) + (x2 * cp2);
        enthalpy = (x1 * h1) + (x2 * h2);
        entropy = (x1 * s1) + (x2 * s2) - (gasConstant * (XLnX(x1) + XLnX(x2)));
    }

    /// <summary>Mole fraction of the second form and its temperature derivative, 1/K.</summary>
    public double SecondShare(double temperature, out double byTemperature)
    {
        if (frozenShare is { } share)
        {
            byTemperature = 0;
            return share;
        }

        first.Evaluate(temperature, out _, out double h1, out double s1);
        second.Evaluate(temperature, out _, out double h2, out double s2);
        double rt = gasConstant * temperature;
        double ratio = Math.Exp(((s2 - s1) / gasConstant) - ((h2 - h1) / rt));
        double x2 = ratio / (1 + ratio);
        byTemperature = x2 / (1 + ratio) * (h2 - h1) / (rt * temperature);
        return x2;
    }

    /// <inheritdoc/>
    public override double ConversionHeatCapacity(double temperature)
    {
        SecondShare(temperature, out double slope);
        first.Evaluate(temperature, out _, out double h1, out _);
        second.Evaluate(temperature, out _, out double h2, out _);
        return slope * (h2 - h1);
    }

    /// <inheritdoc/>
    public override RangeNote? NoteFor(double temperature) => first.Gas.NoteFor(temperature);

    private static double XLnX(double x) => x > 0 ? x * Math.Log(x) : 0;

    /// <summary>An ideal gas and what must be added to its enthalpy (J/mol) and entropy (J/(mol K)).</summary>
    internal sealed record OffsetGas(IdealGasFunction Gas, double EnthalpyOffset, double EntropyOffset)
    {
        public void Evaluate(double temperature, out double heatCapacity, out double enthalpy, out double entropy)
        {
            Gas.Evaluate(temperature, out heatCapacity, out double h, out double s);
            enthalpy = h + EnthalpyOffset;
            entropy = s + EntropyOffset;
        }
    }
}
