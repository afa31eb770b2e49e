using System.Diagnostics.CodeAnalysis;
using CryoThermo.Diagnostics;
using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;
using UnitsNet;

namespace CryoThermo;

/// <summary>Phase envelopes, critical points and states of given vapour fraction.</summary>
public sealed partial class WorkingFluid
{
    /// <summary>
    /// The boundary of the two-phase region in pressure and temperature from 1 kPa up: dew line, critical point and bubble line, or what the
    /// mixture has instead. Of a pure fluid its saturation line.
    /// </summary>
    /// <exception cref="ConvergenceException">No dew point and no bubble point was found to begin from.</exception>
    /// <exception cref="InvalidOperationException">The fluid is a mixture described as if it were pure.</exception>
    public PhaseEnvelope PhaseEnvelope() => PhaseEnvelope(1);

    /// <summary>The line of one vapour fraction in pressure and temperature.</summary>
    /// <param name="vaporFraction">Moles of vapour over the whole, 0 to 1; both ends give the boundary of the two-phase region.</param>
    /// <exception cref="ArgumentOutOfRangeException">The fraction is outside 0 to 1.</exception>
    /// <exception cref="ConvergenceException">No point of the line was found to begin from.</exception>
    /// <exception cref="InvalidOperationException">The fluid is a mixture described as if it were pure.</exception>
    public PhaseEnvelope PhaseEnvelope(double vaporFraction)
    {
        Guard.InRange(vaporFraction, 0, 1, "mol/mol");
        if (assembly.PseudoPure is not null)
        {
            throw new InvalidOperationException(
                $"{Composition.Components[0].Name} is a mixture described as if it were pure: its lines are known, but no phases on them. Make it a mixture of its components instead.");
        }

        return new(this, vaporFraction);
    }

    /// <summary>The boundary of the two-phase region; false instead of an exception when it cannot be begun.</summary>
    /// <param name="envelope">The envelope, or null.</param>
    public bool TryPhaseEnvelope([NotNullWhen(true)] out PhaseEnvelope? envelope)
    {
        try
        {
            envelope = PhaseEnvelope();
            return true;
        }
        catch (Exception error) when (error is ConvergenceException or InvalidOperationException)
        {
            envelope = null;
            return false;
        }
    }

    /// <summary>
    /// All critical points of the fluid at its composition within 0.26 to 4 of its pseudo-critical volume and from 0.35 of the lowest to 1.6 of
    /// the highest critical temperature of its components, hottest first; none where the two-phase region is open. Of a pure fluid that of
    /// its equation.
    /// </summary>
    public IReadOnlyList<CriticalPoint> CriticalPoints() => [.. CriticalPointFinder.Find(Kernel.Equation, Composition.Fractions).Select(PublicPoint)];

    /// <summary>The hottest critical point that is stable.</summary>
    /// <exception cref="ConvergenceException">The fluid has none at its composition, as where its two-phase region is open.</exception>
    public CriticalPoint CriticalPoint() => TryCriticalPoint(out CriticalPoint? point)
        ? point
        : throw new ConvergenceException(
            "Critical point",
            Composition.ToString(),
            double.PositiveInfinity,
            "The mixture may have none at this composition; its phase envelope then is open to high pressure, or the critical point is hidden by another phase and listed by CriticalPoints.");

    /// <summary>The hottest critical point that is stable; false where there is none.</summary>
    /// <param name="point">The point, or null.</param>
    public bool TryCriticalPoint([NotNullWhen(true)] out CriticalPoint? point)
    {
        point = CriticalPoints().FirstOrDefault(p => p.IsStable);
        return point is not null;
    }

    /// <summary>
    /// The state of given vapour fraction at a pressure, with a second liquid where there is one; at 0 and 1 the bubble and dew point.
    /// </summary>
    /// <param name="pressure">Absolute, as for <see cref="At"/>.</param>
    /// <param name="vaporFraction">Moles of vapour over the whole; 0 is the bubble point, 1 the dew point.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The fluid has no such state at this pressure, or the solve failed.</exception>
    public State AtVaporFraction(Pressure pressure, double vaporFraction) =>
        OfFraction(vaporFraction, IncipientPoint.Unknown.Temperature, 300, Check(pressure));

    /// <summary>
    /// The state of given vapour fraction at a temperature, on the branch that begins at low pressure, with a second liquid where there is
    /// one; at 0 and 1 the bubble and dew point.
    /// </summary>
    /// <param name="temperature">As for <see cref="At"/>.</param>
    /// <param name="vaporFraction">Moles of vapour over the whole; 0 is the bubble point, 1 the dew point.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    /// <exception cref="ConvergenceException">The fluid has no such state at this temperature, or the solve failed.</exception>
    public State AtVaporFraction(Temperature temperature, double vaporFraction) =>
        OfFraction(vaporFraction, IncipientPoint.Unknown.Pressure, Check(temperature), 1e5);

    /// <summary>The state of given vapour fraction at a pressure; false when there is none.</summary>
    /// <param name="pressure">Absolute.</param>
    /// <param name="vaporFraction">Moles of vapour over the whole.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtVaporFraction(Pressure pressure, double vaporFraction, [NotNullWhen(true)] out State? state) =>
        Try(() => AtVaporFraction(pressure, vaporFraction), out state);

    /// <summary>The state of given vapour fraction at a temperature; false when there is none.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="vaporFraction">Moles of vapour over the whole.</param>
    /// <param name="state">The state, or null.</param>
    public bool TryAtVaporFraction(Temperature temperature, double vaporFraction, [NotNullWhen(true)] out State? state) =>
        Try(() => AtVaporFraction(temperature, vaporFraction), out state);

    internal static CriticalPoint PublicPoint(CriticalPointFinder.Point point) => new(
        Temperature.FromKelvins(point.Temperature),
        Pressure.FromPascals(point.Pressure),
        Molarity.FromMolesPerCubicMeter(point.MolarDensity),
        point.IsStable);

    private State OfFraction(double vaporFraction, IncipientPoint.Unknown unknown, double t, double p)
    {
        Guard.InRange(vaporFraction, 0, 1, "mol/mol");
        int only = IncipientPoint.SingleComponent(Composition.Fractions);
        if (vaporFraction is 0 or 1 && (only < 0 || assembly.PseudoPure is not null))
        {
            return Incipient(vaporFraction == 0, unknown, t, p);
        }

        if (assembly.PseudoPure is not null)
        {
            throw new ArgumentOutOfRangeException(
                nameof(vaporFraction), vaporFraction, $"vaporFraction is {vaporFraction:G6}; of {Composition.Components[0].Name} only 0 and 1 are known. {BetweenLinesAdvice}");
        }

        bool seeksTemperature = unknown == IncipientPoint.Unknown.Temperature;
        EquilibriumResult? result = only >= 0
            ? BoilingPure(only, vaporFraction, seeksTemperature, t, p)
            : VaporFractionPoint.Find(Kernel, Composition.Fractions, vaporFraction, unknown, seeksTemperature ? p : t);
        return result is not null
            ? new(this, result)
            : throw new ConvergenceException(
                "State of given vapor fraction",
                $"{Composition} at {(seeksTemperature ? $"p = {p / 1e5:G9} bar" : $"T = {t:G9} K")}, vapor fraction {vaporFraction:G6}",
                double.PositiveInfinity,
                "The fluid may be above its critical point there, or two-phase with less or more vapor only; its phase envelope shows where it boils.");
    }

    private EquilibriumResult? BoilingPure(int only, double fraction, bool seeksTemperature, double t, double p)
    {
        MixtureKernel equation = Kernel.Equation;
        Span<double> scratch = stackalloc double[equation.ScratchLength];
        bool exists = seeksTemperature
            ? PureSaturation.TryTemperature(equation, only, p, scratch, out t, out _, out _)
            : PureSaturation.TryPressure(equation, only, t, scratch, out p, out _, out _);
        if (!exists || !(p >= LowestVaporPressure) || t < Kernel.LowestTemperature)
        {
            return null;
        }

        equation.SetTemperature(t, scratch);
        PhaseFigures liquid = Kernel.Phase(t, p, Composition.Fractions, DensityRoot.Liquid, scratch);
        PhaseFigures vapor = Kernel.Phase(t, p, Composition.Fractions, DensityRoot.Vapor, scratch);
        return CaloricFlash.Boiling(t, p, Composition.Fractions, liquid, vapor, fraction);
    }
}
