using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>How the whole follows temperature and pressure with its phases in equilibrium. SI, molar.</summary>
/// <remarks>
/// With g the differences of ln phi against a reference phase and H the Hessian of the Gibbs energy over R T in the amounts, matter moves by
/// -H^-1 dg. It carries R T^2 g_T of enthalpy and -R T g_p of volume (from the definition of the fugacity coefficient).
/// </remarks>
/// <param name="HeatCapacity">dh/dT at constant pressure, J/(mol K).</param>
/// <param name="VolumeByTemperature">dv/dT at constant pressure, m3/(mol K).</param>
/// <param name="VolumeByPressure">dv/dp at constant temperature, m3/(mol Pa).</param>
internal readonly record struct EquilibriumDerivatives(double HeatCapacity, double VolumeByTemperature, double VolumeByPressure)
{
    /// <summary>Computes them; false where temperature and pressure do not vary independently (a pure fluid boiling, three phases of two components).</summary>
    public static bool TryCompute(FluidKernel fluid, EquilibriumResult state, out EquilibriumDerivatives derivatives)
    {
        PhaseResult[] phases = state.Phases;
        double heat = 0;
        double byTemperature = 0;
        double byPressure = 0;
        foreach (PhaseResult phase in phases)
        {
            double volume = phase.Fraction / phase.Figures.MolarDensity;
            heat += phase.Fraction * phase.Figures.IsobaricHeatCapacity;
            byTemperature += volume * phase.Figures.Expansion;
            byPressure -= volume * phase.Figures.Compressibility;
        }

        derivatives = new(heat, byTemperature, byPressure);
        if (phases.Length == 1)
        {
            return true;
        }

        if (!double.IsFinite(state.Totals.EquilibriumHeatCapacity))
        {
            return false;
        }

        MixtureKernel kernel = fluid.Equation;
        int n = kernel.ComponentCount;
        int others = phases.Length - 1;
        int size = others * n;
        double[] held = new double[phases.Length * n];
        double[] byT = new double[phases.Length * n];
        double[] byP = new double[phases.Length * n];
        double[][] pull = new double[phases.Length][];
        double[] lnPhi = new double[n];
        double[] scratch = new double[kernel.ScratchLength];
        kernel.SetTemperature(state.Temperature, scratch);
        for (int p = 0; p < phases.Length; p++)
        {
            PhaseResult phase = phases[p];
            pull[p] = new double[n * n];
            kernel.LnFugacityDerivatives(
                state.Temperature, state.Pressure, phase.MoleFractions, phase.Figures.Root, scratch, lnPhi, pull[p], byT.AsSpan(p * n, n), byP.AsSpan(p * n, n), out _);
            for (int k = 0; k < n * n; k++)
            {
                pull[p][k] = (pull[p][k] - 1) / phase.Fraction;
            }

            for (int i = 0; i < n; i++)
            {
                held[(p * n) + i] = phase.Fraction * phase.MoleFractions[i];
            }
        }

        // For each component the phase that holds most of it is the reference; unknowns are scaled by the roots of the amounts.
        int[] reference = [.. Enumerable.Range(0, n).Select(i => Enumerable.Range(0, phases.Length).MaxBy(p => held[(p * n) + i]))];
        double[] matrix = new double[size * size];
        double[] rightT = new double[size];
        double[] rightP = new double[size];
        double[] root = new double[size];
        for (int a = 0; a < size; a++)
        {
            int i = a % n;
            int p = PhaseOf(reference[i], a / n);
            root[a] = Math.Sqrt(held[(p * n) + i]);
            rightT[a] = root[a] * (byT[(p * n) + i] - byT[(reference[i] * n) + i]);
            rightP[a] = root[a] * (byP[(p * n) + i] - byP[(reference[i] * n) + i]);
            for (int b = 0; b <= a; b++)
            {
                int j = b % n;
                int q = PhaseOf(reference[j], b / n);
                double coupling = (p == q ? pull[p][(i * n) + j] : 0)
                    - (p == reference[j] ? pull[p][(i * n) + j] : 0)
                    - (reference[i] == q ? pull[q][(i * n) + j] : 0)
                    + (reference[i] == reference[j] ? pull[reference[i]][(i * n) + j] : 0);
                double ideal = i == j && held[(reference[i] * n) + i] > 0 ? root[a] * root[b] / held[(reference[i] * n) + i] : 0;
                matrix[(a * size) + b] = (root[a] * coupling * root[b]) + ideal + (a == b ? 1 : 0);
                matrix[(b * size) + a] = matrix[(a * size) + b];
            }
        }

        double[] movedByT = [.. rightT];
        double[] movedByP = [.. rightP];
        if (!Cholesky.Factor(matrix, size, 0))
        {
            return false;
        }

        Cholesky.Solve(matrix, size, movedByT);
        Cholesky.Solve(matrix, size, movedByP);
        double rt = kernel.GasConstant * state.Temperature;
        double tt = 0;
        double tp = 0;
        double pp = 0;
        for (int a = 0; a < size; a++)
        {
            tt += rightT[a] * movedByT[a];
            tp += rightP[a] * movedByT[a];
            pp += rightP[a] * movedByP[a];
        }

        derivatives = new(heat + (rt * state.Temperature * tt), byTemperature - (rt * tp), byPressure - (rt * pp));
        return true;
    }

    private static int PhaseOf(int reference, int other) => other < reference ? other : other + 1;
}
