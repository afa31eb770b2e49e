using CryoThermo.EquationsOfState.Cubic;
using CryoThermo.Equilibrium;
using CryoThermo.Substances;

namespace CryoThermo;

/// <summary>How a cubic equation is made from the constants of its substances.</summary>
/// <param name="Form">Which cubic.</param>
/// <param name="PairKind">Which interaction parameters belong to it.</param>
/// <param name="Alpha">Its temperature function for a substance.</param>
/// <param name="IsVolumeTranslated">Whether volumes are shifted.</param>
internal sealed record CubicRecipe(CubicForm Form, CubicModelKind PairKind, Func<Substance, AlphaFunction> Alpha, bool IsVolumeTranslated)
{
    /// <summary>What the equation takes of a substance.</summary>
    /// <param name="substance">The substance.</param>
    /// <param name="catalog">Where the quantum corrections of a spin form of hydrogen are found.</param>
    /// <param name="remark">Words on constants that are not those of the substance file; null for none.</param>
    public CubicComponent ComponentOf(Substance substance, SubstanceCatalog catalog, out string? remark)
    {
        remark = null;
        if (PairKind == CubicModelKind.PengRobinsonQuantumCorrected && catalog.QuantumCorrectionOf(substance) is { } quantum)
        {
            return QuantumCorrected(substance, quantum, out remark);
        }

        double shift = IsVolumeTranslated && substance.VolumeTranslation is { } translation
            ? (PairKind == CubicModelKind.SoaveRedlichKwong ? translation.SoaveRedlichKwong : translation.PengRobinson)
            : 0;
        return new(substance.CriticalTemperature, substance.CriticalPressure, substance.AcentricFactor, Alpha(substance), shift);
    }

    private CubicComponent QuantumCorrected(Substance substance, QuantumCorrectionParameters quantum, out string remark)
    {
        bool isOwn = substance.QuantumCorrection is not null;
        double tc = isOwn ? quantum.CriticalTemperature : substance.CriticalTemperature;
        double pc = isOwn ? quantum.CriticalPressure : substance.CriticalPressure;
        remark = $"{substance.Name}: covolume and temperature function with "
            + (isOwn ? "the critical point they were published for" : "the parameters of normal hydrogen and its own critical point")
            + $", {tc:G6} K and {pc / 1e5:G5} bar ({quantum.Provenance.Source.Publication})";
        CubicComponent component = new(
            tc,
            pc,
            substance.AcentricFactor,
            new TwuAlpha(tc, new(quantum.AlphaL, quantum.AlphaM, quantum.AlphaN)),
            VolumeShift: 0,
            new QuantumCovolume(quantum.CovolumeNumerator, quantum.CovolumeOffset, tc));
        return IsVolumeTranslated && substance.VolumeTranslation is { } translation
            ? component with { VolumeShift = ShiftOf(component, translation) }
            : component;
    }

    // The shift of a substance file belongs to the constant covolume: another one brings this liquid to the density that was fitted.
    private double ShiftOf(CubicComponent component, VolumeTranslation translation)
    {
        CubicMixture pure = new(Form, [component], [0]);
        Span<double> scratch = stackalloc double[pure.ScratchLength];
        return PureSaturation.TryPressure(pure, 0, translation.FittedTemperature, scratch, out _, out double liquid, out _)
            ? (1 / liquid) - (1 / translation.FittedMolarDensity)
            : 0;
    }
}
