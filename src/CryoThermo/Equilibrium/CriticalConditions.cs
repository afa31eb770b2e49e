using CryoThermo.EquationsOfState;
using CryoThermo.Numerics;

namespace CryoThermo.Equilibrium;

/// <summary>
/// The conditions of a critical point of a mixture (Heidemann, Khalil, AIChE J. 26 (1980) 769), in the form with the smallest eigenvalue
/// (Michelsen, Mollerup, Thermodynamic Models: Fundamentals and Computational Aspects, 2nd ed. (2007), chapter 12): with
/// Q_ij = sqrt(z_i z_j) d(ln f_i)/d(n_j) at constant T and V, its smallest eigenvalue vanishes, and so does the third derivative of the
/// Helmholtz energy along the eigenvector. Second derivatives are the equation's own; the third is their difference along the direction.
/// Holds working memory: one thread.
/// </summary>
internal sealed class CriticalConditions
{
    /// <summary>Largest value of both conditions at a point that is reported.</summary>
    public const double Tolerance = 1e-8;

    private const int MaxIterations = 40;

    // Amounts move by this times sqrt(z): the error of the difference over four points is of fourth order, its rounding 1e-13.
    private const double DifferenceStep = 1e-3;
    private const double JacobianStep = 1e-5;

    private readonly MixtureKernel kernel;
    private readonly double[] z;
    private readonly int[] present;
    private readonly double[] rootZ;
    private readonly double[] scratch;
    private readonly double[] moved;
    private readonly double[] ln;
    private readonly double[] byT;
    private readonly double[] square;
    private readonly double[] q;
    private readonly double[] work;
    private double scratchTemperature;

    /// <summary>Prepares the conditions of a mixture.</summary>
    /// <param name="kernel">Equation of state.</param>
    /// <param name="z">Mole fractions; zeros allowed.</param>
    public CriticalConditions(MixtureKernel kernel, ReadOnlySpan<double> z)
    {
        this.kernel = kernel;
        this.z = z.ToArray();
        present = [.. Enumerable.Range(0, z.Length).Where(i => this.z[i] > 0)];
        rootZ = [.. present.Select(i => Math.Sqrt(this.z[i]))];
        scratch = new double[kernel.ScratchLength];
        moved = new double[z.Length];
        ln = new double[z.Length];
        byT = new double[z.Length];
        square = new double[z.Length * z.Length];
        q = new double[present.Length * present.Length];
        work = new double[present.Length * present.Length];
    }

    /// <summary>Number of components present; the length of a direction.</summary>
    public int Count => present.Length;

    /// <summary>Whether the mixture is stable against small changes at a temperature and molar volume; false also beyond the densities of the equation.</summary>
    public bool IsIntrinsicallyStable(double temperature, double volume) => Fill(temperature, volume) && Cholesky.Factor(q, Count, 0);

    /// <summary>Smallest eigenvalue and its vector; false beyond the densities of the equation.</summary>
    public bool TryEigenvalue(double temperature, double volume, double[] direction, out double eigenvalue)
    {
        eigenvalue = 0;
        if (!Fill(temperature, volume))
        {
            return false;
        }

        eigenvalue = SymmetricEigen.Smallest(q, Count, work, direction);
        return double.IsFinite(eigenvalue);
    }

    /// <summary>Both conditions. The direction on entry, unless zero, says which of the two opposite eigenvectors is meant.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="volume">m3/mol.</param>
    /// <param name="direction">Eigenvector, given and received.</param>
    /// <param name="eigenvalue">The smallest eigenvalue.</param>
    /// <param name="third">The third derivative along the direction, per mole and over R T.</param>
    public bool TryEvaluate(double temperature, double volume, double[] direction, out double eigenvalue, out double third)
    {
        third = 0;
        double[] meant = (double[])direction.Clone();
        if (!TryEigenvalue(temperature, volume, direction, out eigenvalue))
        {
            return false;
        }

        double along = 0;
        for (int i = 0; i < Count; i++)
        {
            along += meant[i] * direction[i];
        }

        if (along < 0)
        {
            for (int i = 0; i < Count; i++)
            {
                direction[i] = -direction[i];
            }
        }

        double step = DifferenceStep;
        for (int i = 0; i < Count; i++)
        {
            step = Math.Min(step, 0.2 * rootZ[i] / Math.Max(Math.Abs(direction[i]), 1e-300));
        }

        if (!TryAlong(volume, direction, step, out double plus)
            || !TryAlong(volume, direction, -step, out double minus)
            || !TryAlong(volume, direction, 2 * step, out double plusTwo)
            || !TryAlong(volume, direction, -2 * step, out double minusTwo))
        {
            return false;
        }

        third = ((8 * (plus - minus)) - (plusTwo - minusTwo)) / (12 * step);
        return double.IsFinite(third);
    }

    /// <summary>Newton on both conditions in ln T and ln V.</summary>
    /// <param name="temperature">K; start and result.</param>
    /// <param name="volume">m3/mol; start and result.</param>
    /// <param name="residual">The larger of both conditions reached.</param>
    public bool TrySolve(ref double temperature, ref double volume, out double residual)
    {
        const double LargestStep = 0.08;
        const double Fine = 1e-12;
        double t = temperature;
        double v = volume;
        double[] direction = new double[Count];
        residual = double.PositiveInfinity;
        double best = double.PositiveInfinity;
        (double T, double V) bestPlace = (t, v);
        int worse = 0;
        for (int iteration = 0; iteration < MaxIterations; iteration++)
        {
            if (!TryEvaluate(t, v, direction, out double b, out double c))
            {
                break;
            }

            residual = Math.Max(Math.Abs(b), Math.Abs(c));
            if (residual < best)
            {
                best = residual;
                bestPlace = (t, v);
                worse = 0;
            }
            else if (++worse > 5 || best < Tolerance)
            {
                break;
            }

            if (best < Fine)
            {
                break;
            }

            double[] near = (double[])direction.Clone();
            if (!TryEvaluate(t * (1 + JacobianStep), v, near, out double bHot, out double cHot)
                || !TryEvaluate(t * (1 - JacobianStep), v, near, out double bCold, out double cCold)
                || !TryEvaluate(t, v * (1 + JacobianStep), near, out double bWide, out double cWide)
                || !TryEvaluate(t, v * (1 - JacobianStep), near, out double bTight, out double cTight))
            {
                break;
            }

            double bT = (bHot - bCold) / (2 * JacobianStep);
            double cT = (cHot - cCold) / (2 * JacobianStep);
            double bV = (bWide - bTight) / (2 * JacobianStep);
            double cV = (cWide - cTight) / (2 * JacobianStep);
            double determinant = (bT * cV) - (bV * cT);
            double stepT = ((c * bV) - (b * cV)) / determinant;
            double stepV = ((b * cT) - (c * bT)) / determinant;
            if (!double.IsFinite(stepT) || !double.IsFinite(stepV))
            {
                break;
            }

            double scale = LargestStep / Math.Max(LargestStep, Math.Max(Math.Abs(stepT), Math.Abs(stepV)));
            t *= Math.Exp(scale * stepT);
            v *= Math.Exp(scale * stepV);
        }

        residual = best;
        if (!(best < Tolerance))
        {
            return false;
        }

        (temperature, volume) = bestPlace;
        return true;
    }

    /// <summary>Pressure at a temperature and molar volume, Pa, and its slope by volume.</summary>
    public double PressureAt(double temperature, double volume, out double byVolume)
    {
        SetTemperature(temperature);
        return kernel.Pressure(temperature, 1 / volume, z, scratch, out byVolume);
    }

    /// <summary>Whether no other phase lies below the tangent plane of the mixture at a temperature and molar volume.</summary>
    public bool IsStable(double temperature, double volume)
    {
        const double Clear = -1e-8;
        const double SameRoot = 0.01;
        SetTemperature(temperature);
        double p = kernel.LnFugacityAtDensity(temperature, 1 / volume, z, scratch, ln);
        if (!(p > 0))
        {
            return false;
        }

        Span<double> d = stackalloc double[z.Length];
        Span<double> trial = stackalloc double[z.Length];
        for (int i = 0; i < z.Length; i++)
        {
            d[i] = ln[i] - Math.Log(p) + (z[i] > 0 ? Math.Log(z[i]) : 0);
        }

        // Long equations have critical points between their spinodals too, and Gibbs energies there below any other: only a density outside the
        // outermost spinodals is a phase. The density of a critical point as a root of the pressure has few digits.
        Span<double> root = stackalloc double[z.Length];
        double liquid = kernel.LnFugacityCoefficients(temperature, p, z, DensityRoot.Liquid, scratch, root, out _);
        double vapor = kernel.LnFugacityCoefficients(temperature, p, z, DensityRoot.Vapor, scratch, root, out _);
        if (Math.Abs((liquid * volume) - 1) > SameRoot && Math.Abs((vapor * volume) - 1) > SameRoot)
        {
            return false;
        }

        return Count < 2
            || !StabilityAnalysis.FindUnstable(kernel, temperature, p, new TestedPhases(d, z, 1 / volume), scratch, trial, out _, out double distance, thorough: true)
            || distance >= Clear;
    }

    private bool TryAlong(double volume, double[] direction, double distance, out double sum)
    {
        sum = 0;
        double total = 0;
        z.CopyTo(moved, 0);
        for (int i = 0; i < Count; i++)
        {
            moved[present[i]] += distance * rootZ[i] * direction[i];
        }

        foreach (double amount in moved)
        {
            total += amount;
        }

        double temperature = scratchTemperature;
        double density = total / volume;
        for (int i = 0; i < moved.Length; i++)
        {
            moved[i] /= total;
        }

        if (!(density < kernel.DensityLimit(moved, scratch)))
        {
            return false;
        }

        kernel.LnFugacityDerivativesAtDensity(temperature, density, moved, scratch, ln, square, byT, out _);
        for (int i = 0; i < Count; i++)
        {
            int row = present[i];
            double ui = rootZ[i] * direction[i];
            sum += ui * ui / (total * moved[row]);
            for (int j = 0; j < Count; j++)
            {
                sum += ui * rootZ[j] * direction[j] * square[(row * z.Length) + present[j]] / total;
            }
        }

        return true;
    }

    private void SetTemperature(double temperature)
    {
        kernel.SetTemperature(temperature, scratch);
        scratchTemperature = temperature;
    }

    private bool Fill(double temperature, double volume)
    {
        SetTemperature(temperature);
        if (!(1 / volume < kernel.DensityLimit(z, scratch)))
        {
            return false;
        }

        kernel.LnFugacityDerivativesAtDensity(temperature, 1 / volume, z, scratch, ln, square, byT, out _);
        for (int i = 0; i < Count; i++)
        {
            for (int j = 0; j < Count; j++)
            {
                q[(i * Count) + j] = (rootZ[i] * rootZ[j] * square[(present[i] * z.Length) + present[j]]) + (i == j ? 1 : 0);
            }
        }

        return true;
    }
}
