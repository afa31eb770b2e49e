using CryoThermo.Equilibrium;

namespace CryoThermo.Coolers.Rating;

/// <summary>What a space holds, mol of each component, by what it follows when the pressures move.</summary>
internal sealed class SpaceFilling(string name, int components)
{
    /// <summary>The space.</summary>
    public string Name => name;

    /// <summary>In gas at the low pressure, and what dissolves under it.</summary>
    public double[] LowGas { get; } = new double[components];

    /// <summary>In gas at the high pressure.</summary>
    public double[] HighGas { get; } = new double[components];

    /// <summary>In liquid.</summary>
    public double[] Liquid { get; } = new double[components];

    /// <summary>All of a component.</summary>
    public double Moles(int component) => LowGas[component] + HighGas[component] + Liquid[component];

    /// <summary>Adds what a volume holds of a stream in one state.</summary>
    /// <param name="state">The state of the stream.</param>
    /// <param name="volume">m3.</param>
    /// <param name="isHigh">Whether its gas follows the high pressure.</param>
    /// <param name="model">How vapour and liquid share the cross-section.</param>
    /// <param name="molarMasses">kg/mol of the components.</param>
    public void Add(EquilibriumResult state, double volume, bool isHigh, HoldUpModel model, ReadOnlySpan<double> molarMasses)
    {
        double[] gas = isHigh ? HighGas : LowGas;
        double vaporVolume = 0;
        double vaporMass = 0;
        double liquidVolume = 0;
        double liquidMass = 0;
        foreach (PhaseResult phase in state.Phases)
        {
            double mass = 0;
            for (int i = 0; i < components; i++)
            {
                mass += phase.MoleFractions[i] * molarMasses[i];
            }

            double own = phase.Fraction / phase.Figures.MolarDensity;
            if (phase.IsVapor)
            {
                vaporVolume += own;
                vaporMass += phase.Fraction * mass;
            }
            else
            {
                liquidVolume += own;
                liquidMass += phase.Fraction * mass;
            }
        }

        // Share of the cross-section that the vapour takes; liquids beside one another share theirs by their volumes in the stream.
        double share = vaporVolume == 0 ? 0 : 1;
        if (vaporVolume > 0 && liquidVolume > 0)
        {
            double densityRatio = Math.Min(1, vaporMass / vaporVolume * liquidVolume / liquidMass);
            double quality = vaporMass / (vaporMass + liquidMass);
            share = model == HoldUpModel.Slip ? Flow.VoidFraction.Zivi(quality, densityRatio) : Flow.VoidFraction.Homogeneous(quality, densityRatio);
        }

        foreach (PhaseResult phase in state.Phases)
        {
            double own = phase.Fraction / phase.Figures.MolarDensity;
            double taken = volume * (phase.IsVapor ? share * own / vaporVolume : (1 - share) * own / liquidVolume);
            double[] into = phase.IsVapor ? gas : Liquid;
            for (int i = 0; i < components; i++)
            {
                into[i] += taken * phase.Figures.MolarDensity * phase.MoleFractions[i];
            }
        }
    }
}
