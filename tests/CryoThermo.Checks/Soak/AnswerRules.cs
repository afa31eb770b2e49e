using CryoThermo.EquationsOfState;
using CryoThermo.Equilibrium;

namespace CryoThermo.Checks.Soak;

/// <summary>
/// The rules every answer of an isothermal flash keeps, recomputed from the reported temperature, pressure and phase compositions alone.
/// </summary>
public static class AnswerRules
{
    /// <summary>Largest allowed difference of ln fugacity between the phases.</summary>
    public const double FugacityTolerance = 1e-8;

    /// <summary>Largest allowed component imbalance, mole fraction.</summary>
    public const double BalanceTolerance = 1e-12;

    /// <summary>Largest allowed excess of the Gibbs energy over R T above the best single phase: rounding only.</summary>
    public const double GibbsTolerance = 1e-11;

    /// <summary>Most negative allowed tangent-plane distance of an answer that is not flagged.</summary>
    public const double TangentPlaneTolerance = 1e-9;

    /// <summary>Returns the first broken rule in words, or null; gives the largest ln fugacity difference.</summary>
    public static string? FirstBroken(SoakCase soak, State state, out double fugacityDifference)
    {
        fugacityDifference = 0;
        WorkingFluid fluid = soak.Fluid;
        MixtureKernel kernel = fluid.Kernel.Equation;
        double t = state.Temperature.Kelvins;
        double p = state.Pressure.Pascals;
        double[] z = [.. fluid.Composition.MoleFractions];
        int n = z.Length;
        if (state.Phases.Count is < 1 or > 3)
        {
            return $"{state.Phases.Count} phases";
        }

        double[] figures =
        [
            t, p, state.VaporFraction, state.VaporMassFraction, state.MolarEnthalpy.JoulesPerMole, state.MolarEntropy.JoulesPerMoleKelvin,
            state.MolarDensity.MolesPerCubicMeter, state.IsobaricHeatCapacity?.JoulesPerMoleKelvin ?? 0,
            .. state.Phases.SelectMany(f => f.Composition.MoleFractions),
            .. state.Phases.SelectMany(f => new[]
            {
                f.MolarDensity.MolesPerCubicMeter, f.MolarEnthalpy.JoulesPerMole, f.IsobaricHeatCapacity.JoulesPerMoleKelvin,
                f.IsochoricHeatCapacity.JoulesPerMoleKelvin, f.SpeedOfSound.MetersPerSecond, f.JouleThomsonCoefficientKelvinsPerBar,
            }),
        ];
        if (figures.Any(f => !double.IsFinite(f)))
        {
            return "a figure is not finite";
        }

        if (state.Phases.Any(f => f.Fraction is < 0 or > 1 || f.Composition.MoleFractions.Any(x => x is < 0 or > 1)))
        {
            return "a fraction lies outside 0 to 1";
        }

        for (int i = 0; i < n; i++)
        {
            double sum = state.Phases.Sum(f => f.Fraction * f.Composition.MoleFractions[i]);
            if (Math.Abs(sum - z[i]) > BalanceTolerance)
            {
                return $"balance of {fluid.Composition.Components[i].Name} off by {sum - z[i]:E2}";
            }
        }

        double[] scratch = new double[kernel.ScratchLength];
        kernel.SetTemperature(t, scratch);
        double[] lnPhi = new double[n];
        double single = MolarGibbs(kernel, t, p, z, scratch, lnPhi);
        double gibbs = 0;
        double[] first = new double[n];
        foreach (Phase phase in state.Phases)
        {
            double[] x = [.. phase.Composition.MoleFractions];
            gibbs += phase.Fraction * MolarGibbs(kernel, t, p, x, scratch, lnPhi);
            for (int i = 0; i < n; i++)
            {
                double lnFugacity = x[i] > 0 ? Math.Log(x[i]) + lnPhi[i] : 0;
                if (ReferenceEquals(phase, state.Phases[0]))
                {
                    first[i] = lnFugacity;
                }
                else if (z[i] > 0)
                {
                    fugacityDifference = Math.Max(fugacityDifference, Math.Abs(lnFugacity - first[i]));
                }
            }
        }

        if (!state.HasUnresolvedPhase && fugacityDifference > FugacityTolerance)
        {
            return $"ln fugacities differ by {fugacityDifference:E2}";
        }

        if (gibbs > single + GibbsTolerance)
        {
            return $"Gibbs energy over R T {gibbs - single:E2} above the best single phase";
        }

        return state.HasUnresolvedPhase ? null : BrokenTangentPlane(kernel, state, t, p, scratch, lnPhi);
    }

    private static string? BrokenTangentPlane(MixtureKernel kernel, State state, double t, double p, double[] scratch, double[] lnPhi)
    {
        if (state.Result.TangentPlaneDistance < -TangentPlaneTolerance)
        {
            return $"reported tangent-plane distance {state.Result.TangentPlaneDistance:E2} without a flag";
        }

        // Every start of the library's own test, from each phase of the answer as reported.
        int count = state.Phases.Count;
        for (int k = 0; k < count; k++)
        {
            double[] x = [.. state.Phases[k].Composition.MoleFractions];
            double density = kernel.LnFugacityCoefficients(t, p, x, DensityRoot.Stable, scratch, lnPhi, out _);
            double[] d = [.. x.Select((fraction, i) => fraction > 0 ? Math.Log(fraction) + lnPhi[i] : 0)];
            double[] other = count > 1 ? [.. state.Phases[(k + 1) % count].Composition.MoleFractions] : [];
            double otherDensity = count > 1 ? state.Phases[(k + 1) % count].MolarDensity.MolesPerCubicMeter : 0;
            double[] trial = new double[x.Length];
            TestedPhases tested = count > 1 ? new(d, x, density, other, otherDensity) : new(d, x, density);
            StabilityAnalysis.FindUnstable(kernel, t, p, tested, scratch, trial, out _, out double distance, thorough: true);
            if (distance < -TangentPlaneTolerance)
            {
                return $"tangent-plane distance {distance:E2} at {string.Join(' ', trial.Select(w => w.ToString("G6")))}";
            }
        }

        return null;
    }

    private static double MolarGibbs(MixtureKernel kernel, double t, double p, double[] x, double[] scratch, double[] lnPhi)
    {
        kernel.LnFugacityCoefficients(t, p, x, DensityRoot.Stable, scratch, lnPhi, out _);
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sum += x[i] > 0 ? x[i] * (Math.Log(x[i]) + lnPhi[i]) : 0;
        }

        return sum;
    }
}
