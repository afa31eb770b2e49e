using UnitsNet;

namespace CryoThermo;

/// <summary>A point of a phase envelope: two phases in equilibrium. Immutable and thread-safe.</summary>
public sealed class EnvelopePoint
{
    internal EnvelopePoint(
        double temperature,
        double pressure,
        EnvelopeBranch branch,
        double vaporFraction,
        Composition light,
        Composition heavy,
        double lightDensity,
        double heavyDensity,
        bool isStable)
    {
        Temperature = Temperature.FromKelvins(temperature);
        Pressure = Pressure.FromPascals(pressure);
        Branch = branch;
        VaporFraction = vaporFraction;
        LightComposition = light;
        HeavyComposition = heavy;
        LightMolarDensity = Molarity.FromMolesPerCubicMeter(lightDensity);
        HeavyMolarDensity = Molarity.FromMolesPerCubicMeter(heavyDensity);
        IsStable = isStable;
    }

    /// <summary>Temperature.</summary>
    public Temperature Temperature { get; }

    /// <summary>Absolute pressure.</summary>
    public Pressure Pressure { get; }

    /// <summary>Which phase forms.</summary>
    public EnvelopeBranch Branch { get; }

    /// <summary>Moles of the less dense phase over the whole: 1 on a dew line, 0 on a bubble line.</summary>
    public double VaporFraction { get; }

    /// <summary>Mole fractions of the less dense phase.</summary>
    public Composition LightComposition { get; }

    /// <summary>Mole fractions of the denser phase.</summary>
    public Composition HeavyComposition { get; }

    /// <summary>Molar density of the less dense phase.</summary>
    public Molarity LightMolarDensity { get; }

    /// <summary>Molar density of the denser phase.</summary>
    public Molarity HeavyMolarDensity { get; }

    /// <summary>Mole fractions of the first drop or bubble; null on a line of a vapour fraction between 0 and 1, where neither phase is the first of its kind.</summary>
    public Composition? IncipientComposition => VaporFraction switch
    {
        >= 1 => HeavyComposition,
        <= 0 => LightComposition,
        _ => null,
    };

    /// <summary>
    /// False where another phase has formed before: the point solves the equations of two phases, but it is not met on the way there. Most
    /// often a second liquid is in the way, and three phases lie nearby.
    /// </summary>
    public bool IsStable { get; }

    /// <inheritdoc/>
    public override string ToString() =>
        $"{Temperature.Kelvins:0.###} K, {Pressure.Bars:0.####} bar, {Branch}{(IsStable ? string.Empty : ", another phase forms before")}";
}
