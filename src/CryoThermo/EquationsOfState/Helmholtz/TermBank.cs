using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using CryoThermo.Substances;

namespace CryoThermo.EquationsOfState.Helmholtz;

/// <summary>
/// The terms of all functions of a multi-fluid mixture, the components' residual Helmholtz energies first and the departure functions after
/// them, all over the mixture's tau and delta. Immutable and thread-safe; what depends on temperature and composition lives in the caller's
/// scratch.
/// </summary>
/// <remarks>
/// Functions of equal exponents form a family: tau^t and delta^d exp(-delta^c) are computed once for all of them. For the density solver the
/// terms of equal density dependence are added up over all functions beforehand, so that a step costs a few vectors whatever the number of
/// components. Every term is n exp(t ln tau - b (tau - g)^2) exp(d ln delta - delta^c - eta (delta - epsilon)^2 - kappa delta).
/// Above its tau limit a function is continued linearly in tau, which leaves its residual internal energy as it is there: the high powers of
/// tau, made for far lower tau, otherwise swallow the liquid.
/// </remarks>
internal sealed class TermBank
{
    private const int Lanes = 8;

    private readonly int functionCount;
    private readonly Family[] families;
    private readonly double[] temperatureExponent;
    private readonly double[] temperatureSharpness;
    private readonly double[] temperatureCenter;
    private readonly double[] densityExponent;
    private readonly double[] decayExponent;
    private readonly long[] decayIndex;
    private readonly double[] sharpness;
    private readonly double[] center;
    private readonly double[] slope;
    private readonly int[] slotOfTerm;
    private readonly int slotLength;
    private readonly int decaySlotLength;
    private readonly double[] slotExponent;
    private readonly double[] slotDecay;
    private readonly long[] slotDecayIndex;
    private readonly double[] slotSharpness;
    private readonly double[] slotCenter;
    private readonly double[] slotSlope;
    private readonly (int Function, CriticalTermKernel Term)[] criticalTerms;
    private readonly double[] tauLimit;

    /// <summary>Gathers the terms.</summary>
    /// <param name="equations">Equations of the components.</param>
    /// <param name="departures">Departure functions.</param>
    /// <param name="tauLimits">The tau above which each function, the departure functions after the components, is continued linearly.</param>
    public TermBank(IReadOnlyList<HelmholtzEquation> equations, IReadOnlyList<DepartureFunction> departures, ReadOnlySpan<double> tauLimits)
    {
        functionCount = equations.Count + departures.Count;
        tauLimit = tauLimits.ToArray();
        List<PlainTerm[]> parts = [];
        List<int> owners = [];
        for (int i = 0; i < equations.Count; i++)
        {
            Add(i, [.. equations[i].DensityTerms.Select(PlainTerm.Of)]);
            Add(i, [.. equations[i].BellTerms.Select(PlainTerm.Of)]);
        }

        for (int k = 0; k < departures.Count; k++)
        {
            Add(equations.Count + k, [.. departures[k].DensityTerms.Select(PlainTerm.Of)]);
            Add(equations.Count + k, [.. departures[k].SkewedTerms.Select(PlainTerm.Of)]);
        }

        criticalTerms = [.. equations.SelectMany((e, i) => e.CriticalTerms.Select(t => (i, new CriticalTermKernel(t))))];

        // Families: the same exponents in the same order. Plain ones first, then bells.
        List<Family> made = [];
        List<PlainTerm> all = [];
        foreach (int[] members in GroupByExponents(parts, owners, tauLimit))
        {
            PlainTerm[] first = parts[members[0]];
            int length = (first.Length + Lanes - 1) / Lanes * Lanes;
            double[] coefficients = new double[members.Length * length];
            for (int m = 0; m < members.Length; m++)
            {
                for (int k = 0; k < first.Length; k++)
                {
                    coefficients[(m * length) + k] = parts[members[m]][k].Coefficient;
                }
            }

            made.Add(new(all.Count, length, first[0].IsBell, tauLimit[owners[members[0]]], [.. members.Select(m => owners[m])], coefficients));
            all.AddRange(first);
            while (all.Count < made[^1].Start + length)
            {
                all.Add(first[0] with { Coefficient = 0 });
            }
        }

        families = [.. made];
        Length = all.Count;
        temperatureExponent = [.. all.Select(t => t.TemperatureExponent)];
        temperatureSharpness = [.. all.Select(t => t.TemperatureSharpness)];
        temperatureCenter = [.. all.Select(t => t.TemperatureCenter)];
        densityExponent = [.. all.Select(t => t.DensityExponent)];
        decayExponent = [.. all.Select(t => (double)t.DecayExponent)];
        decayIndex = [.. all.Select(t => (long)t.DecayExponent)];
        sharpness = [.. all.Select(t => t.DensitySharpness)];
        center = [.. all.Select(t => t.DensityCenter)];
        slope = [.. all.Select(t => t.DensitySlope)];

        // Slots: one for each dependence on density.
        List<PlainTerm> slots = [];
        slotOfTerm = new int[Length];
        foreach (bool isBell in (ReadOnlySpan<bool>)[false, true])
        {
            Dictionary<PlainTerm, int> known = [];
            int begin = slots.Count;
            for (int k = 0; k < Length; k++)
            {
                if (all[k].IsBell != isBell)
                {
                    continue;
                }

                PlainTerm shape = all[k].WithDensityOnly();
                if (!known.TryGetValue(shape, out int slot))
                {
                    known[shape] = slot = slots.Count;
                    slots.Add(shape);
                }

                slotOfTerm[k] = slot;
            }

            while ((slots.Count - begin) % Lanes != 0)
            {
                slots.Add(slots[begin]);
            }

            if (!isBell)
            {
                decaySlotLength = slots.Count;
            }
        }

        slotLength = slots.Count;
        slotExponent = [.. slots.Select(t => t.DensityExponent)];
        slotDecay = [.. slots.Select(t => (double)t.DecayExponent)];
        slotDecayIndex = [.. slots.Select(t => (long)t.DecayExponent)];
        slotSharpness = [.. slots.Select(t => t.DensitySharpness)];
        slotCenter = [.. slots.Select(t => t.DensityCenter)];
        slotSlope = [.. slots.Select(t => t.DensitySlope)];

        void Add(int owner, PlainTerm[] terms)
        {
            if (terms.Length > 0)
            {
                parts.Add(terms);
                owners.Add(owner);
            }
        }
    }

    /// <summary>Number of terms with their padding.</summary>
    public int Length { get; }

    /// <summary>
    /// Doubles of scratch the bank needs: tau^t of each term and its derivative by ln(tau), the same of the weighted terms with the second
    /// derivative, the slots.
    /// </summary>
    public int ScratchLength => (5 * Length) + slotLength;

    /// <summary>Computes what depends on tau and composition.</summary>
    /// <param name="tau">Reducing temperature of the mixture over temperature.</param>
    /// <param name="weights">Weight of each function in alpha: mole fractions, then those of the departure functions.</param>
    /// <param name="scratch">Receives <see cref="ScratchLength"/> doubles.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void SetTau(double tau, ReadOnlySpan<double> weights, Span<double> scratch)
    {
        Span<double> powers = scratch[..Length];
        Span<double> powersByTau = scratch.Slice(Length, Length);
        Span<double> weighted = scratch.Slice(2 * Length, Length);
        Span<double> weightedByTau = scratch.Slice(3 * Length, Length);
        Span<double> weightedByTau2 = scratch.Slice(4 * Length, Length);
        Span<double> slots = scratch.Slice(5 * Length, slotLength);
        slots.Clear();
        double lnOfTau = Math.Log(tau);
        foreach (Family family in families)
        {
            bool isBeyond = tau > family.TauLimit;
            double own = isBeyond ? family.TauLimit : tau;
            double beyond = isBeyond ? (tau / own) - 1 : 0;
            Vector512<double> lnTau = Vector512.Create(isBeyond ? Math.Log(own) : lnOfTau);
            Vector512<double> vTau = Vector512.Create(own);
            Vector512<double> excess = Vector512.Create(beyond);
            int end = family.Start + family.Length;
            for (int k = family.Start; k < end; k += Lanes)
            {
                Vector512<double> t = Load(temperatureExponent, k);
                Vector512<double> exponent = t * lnTau;
                Vector512<double> second = Vector512<double>.Zero;
                if (family.IsBell)
                {
                    Vector512<double> y = vTau - Load(temperatureCenter, k);
                    Vector512<double> beta = Load(temperatureSharpness, k);
                    Vector512<double> twoBetaTau = (beta + beta) * vTau;
                    exponent -= beta * y * y;
                    t -= twoBetaTau * y;
                    second = twoBetaTau * (vTau + y);
                }

                Vector512<double> power = Vector512.Exp(exponent);
                Vector512<double> byTau = power * t;
                Vector512<double> byTau2 = power * ((t * t) - second);
                if (isBeyond)
                {
                    power += excess * byTau;
                    byTau += excess * byTau;
                    byTau2 = byTau;
                }

                Vector512<double> sum = Vector512<double>.Zero;
                for (int m = 0; m < family.Functions.Length; m++)
                {
                    sum = Vector512.FusedMultiplyAdd(
                        Vector512.Create(weights[family.Functions[m]]), Load(family.Coefficients, (m * family.Length) + k - family.Start), sum);
                }

                power.CopyTo(powers[k..]);
                byTau.CopyTo(powersByTau[k..]);
                (sum * power).CopyTo(weighted[k..]);
                (sum * byTau).CopyTo(weightedByTau[k..]);
                (sum * byTau2).CopyTo(weightedByTau2[k..]);
            }
        }

        for (int k = 0; k < slotOfTerm.Length; k++)
        {
            slots[slotOfTerm[k]] += weighted[k];
        }
    }

    /// <summary>alpha with three derivatives by ln(delta) at the tau and composition of <see cref="SetTau"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public IsothermSlope AlongIsotherm(double tau, double delta, ReadOnlySpan<double> weights, ReadOnlySpan<double> scratch)
    {
        ReadOnlySpan<double> slots = scratch.Slice(5 * Length, slotLength);
        Vector512<double> lnDelta = Vector512.Create(Math.Log(delta));
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> first = sum;
        Vector512<double> second = sum;
        Vector512<double> third = sum;
        for (int k = 0; k < decaySlotLength; k += Lanes)
        {
            Vector512<double> d = Load(slotExponent, k);
            Vector512<double> c = Load(slotDecay, k);
            Vector512<double> decay = Vector512.Shuffle(powers, Vector512.Create(slotDecayIndex.AsSpan(k, Lanes)));
            Vector512<double> v = Vector512.Create(slots.Slice(k, Lanes)) * Vector512.Exp(Vector512.FusedMultiplyAdd(d, lnDelta, -decay));
            Vector512<double> one = c * decay;
            Vector512<double> two = c * one;
            Vector512<double> l = d - one;
            Vector512<double> square = l * l;
            sum += v;
            first = Vector512.FusedMultiplyAdd(v, l, first);
            second = Vector512.FusedMultiplyAdd(v, square - two, second);
            third = Vector512.FusedMultiplyAdd(v, (l * (square - (Vector512.Create(3.0) * two))) - (c * two), third);
        }

        Vector512<double> vDelta = Vector512.Create(delta);
        for (int k = decaySlotLength; k < slotLength; k += Lanes)
        {
            Vector512<double> d = Load(slotExponent, k);
            Vector512<double> eta = Load(slotSharpness, k);
            Vector512<double> x = vDelta - Load(slotCenter, k);
            Vector512<double> fall = Load(slotSlope, k) * vDelta;
            Vector512<double> v = Vector512.Create(slots.Slice(k, Lanes)) * Vector512.Exp((d * lnDelta) - (eta * x * x) - fall);
            Vector512<double> twoEtaDelta = (eta + eta) * vDelta;
            Vector512<double> l = d - (twoEtaDelta * x) - fall;
            Vector512<double> two = (twoEtaDelta * (vDelta + x)) + fall;
            Vector512<double> three = (twoEtaDelta * ((Vector512.Create(3.0) * vDelta) + x)) + fall;
            Vector512<double> square = l * l;
            sum += v;
            first = Vector512.FusedMultiplyAdd(v, l, first);
            second = Vector512.FusedMultiplyAdd(v, square - two, second);
            third = Vector512.FusedMultiplyAdd(v, (l * (square - (Vector512.Create(3.0) * two))) - three, third);
        }

        IsothermSlope result = new(Vector512.Sum(sum), Vector512.Sum(first), Vector512.Sum(second), Vector512.Sum(third));
        return criticalTerms.Length == 0 ? result : WithCriticalTerms(result, tau, delta, weights);
    }

    /// <summary>
    /// alpha of the mixture with its derivatives to second order, and of each function its value and, on demand, its derivatives by ln(delta)
    /// and ln(tau).
    /// </summary>
    /// <param name="tau">The tau of <see cref="SetTau"/>.</param>
    /// <param name="delta">Density over the reducing density of the mixture.</param>
    /// <param name="weights">The weights of <see cref="SetTau"/>.</param>
    /// <param name="scratch">What <see cref="SetTau"/> left.</param>
    /// <param name="values">Receives the value of each function.</param>
    /// <param name="byDelta">Receives its derivative by ln(delta), may be empty together with <paramref name="byTau"/>.</param>
    /// <param name="byTau">Receives its derivative by ln(tau).</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public MixtureDerivatives At(
        double tau,
        double delta,
        ReadOnlySpan<double> weights,
        ReadOnlySpan<double> scratch,
        Span<double> values,
        Span<double> byDelta,
        Span<double> byTau)
    {
        ReadOnlySpan<double> powersOfTau = scratch[..Length];
        ReadOnlySpan<double> powersByTau = scratch.Slice(Length, Length);
        ReadOnlySpan<double> weighted = scratch.Slice(2 * Length, Length);
        ReadOnlySpan<double> weightedByTau = scratch.Slice(3 * Length, Length);
        ReadOnlySpan<double> weightedByTau2 = scratch.Slice(4 * Length, Length);
        bool wantsSlopes = !byDelta.IsEmpty;
        values[..functionCount].Clear();
        if (wantsSlopes)
        {
            byDelta[..functionCount].Clear();
            byTau[..functionCount].Clear();
        }

        double lnOfDelta = Math.Log(delta);
        Vector512<double> lnDelta = Vector512.Create(lnOfDelta);
        Vector512<double> vDelta = Vector512.Create(delta);
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> sumTau = sum;
        Vector512<double> sumDelta = sum;
        Vector512<double> sumTauTau = sum;
        Vector512<double> sumTauDelta = sum;
        Vector512<double> sumDeltaDelta = sum;
        const int MostBlocks = 8;
        Span<Vector512<double>> terms = stackalloc Vector512<double>[3 * MostBlocks];
        foreach (Family family in families)
        {
            for (int block = 0; block < family.Length; block += MostBlocks * Lanes)
            {
                int blocks = Math.Min(MostBlocks, (family.Length - block) / Lanes);
                for (int b = 0; b < blocks; b++)
                {
                    int k = family.Start + block + (b * Lanes);
                    Vector512<double> d = Load(densityExponent, k);
                    Vector512<double> l;
                    Vector512<double> lSecond;
                    Vector512<double> exponent;
                    if (family.IsBell)
                    {
                        Vector512<double> eta = Load(sharpness, k);
                        Vector512<double> x = vDelta - Load(center, k);
                        Vector512<double> fall = Load(slope, k) * vDelta;
                        Vector512<double> twoEtaDelta = (eta + eta) * vDelta;
                        exponent = (d * lnDelta) - (eta * x * x) - fall;
                        l = d - (twoEtaDelta * x) - fall;
                        lSecond = (twoEtaDelta * (vDelta + x)) + fall;
                    }
                    else
                    {
                        Vector512<double> c = Load(decayExponent, k);
                        Vector512<double> decay = Vector512.Shuffle(powers, Vector512.Create(decayIndex.AsSpan(k, Lanes)));
                        Vector512<double> cDecay = c * decay;
                        exponent = Vector512.FusedMultiplyAdd(d, lnDelta, -decay);
                        l = d - cDecay;
                        lSecond = c * cDecay;
                    }

                    Vector512<double> shape = Vector512.Exp(exponent);
                    Vector512<double> v = Vector512.Create(weighted.Slice(k, Lanes)) * shape;
                    Vector512<double> vt = Vector512.Create(weightedByTau.Slice(k, Lanes)) * shape;
                    sum += v;
                    sumTau += vt;
                    sumDelta = Vector512.FusedMultiplyAdd(v, l, sumDelta);
                    sumTauTau = Vector512.FusedMultiplyAdd(Vector512.Create(weightedByTau2.Slice(k, Lanes)), shape, sumTauTau);
                    sumTauDelta = Vector512.FusedMultiplyAdd(vt, l, sumTauDelta);
                    sumDeltaDelta = Vector512.FusedMultiplyAdd(v, (l * l) - lSecond, sumDeltaDelta);
                    Vector512<double> unit = Vector512.Create(powersOfTau.Slice(k, Lanes)) * shape;
                    terms[b] = unit;
                    if (wantsSlopes)
                    {
                        terms[MostBlocks + b] = unit * l;
                        terms[(2 * MostBlocks) + b] = Vector512.Create(powersByTau.Slice(k, Lanes)) * shape;
                    }
                }

                for (int m = 0; m < family.Functions.Length; m++)
                {
                    int function = family.Functions[m];
                    int from = (m * family.Length) + block;
                    Vector512<double> value = Vector512<double>.Zero;
                    for (int b = 0; b < blocks; b++)
                    {
                        value = Vector512.FusedMultiplyAdd(Load(family.Coefficients, from + (b * Lanes)), terms[b], value);
                    }

                    values[function] += Vector512.Sum(value);
                    if (!wantsSlopes)
                    {
                        continue;
                    }

                    Vector512<double> valueByDelta = Vector512<double>.Zero;
                    Vector512<double> valueByTau = Vector512<double>.Zero;
                    for (int b = 0; b < blocks; b++)
                    {
                        Vector512<double> n = Load(family.Coefficients, from + (b * Lanes));
                        valueByDelta = Vector512.FusedMultiplyAdd(n, terms[MostBlocks + b], valueByDelta);
                        valueByTau = Vector512.FusedMultiplyAdd(n, terms[(2 * MostBlocks) + b], valueByTau);
                    }

                    byDelta[function] += Vector512.Sum(valueByDelta);
                    byTau[function] += Vector512.Sum(valueByTau);
                }
            }
        }

        MixtureDerivatives result = new(
            Vector512.Sum(sum),
            Vector512.Sum(sumTau),
            Vector512.Sum(sumDelta),
            Vector512.Sum(sumTauTau),
            Vector512.Sum(sumTauDelta),
            Vector512.Sum(sumDeltaDelta));
        foreach ((int function, CriticalTermKernel term) in criticalTerms)
        {
            MixtureDerivatives part = Continued(term, function, tau, delta);
            double w = weights[function];
            values[function] += part.Alpha;
            if (wantsSlopes)
            {
                byDelta[function] += part.ByDelta;
                byTau[function] += part.ByTau;
            }

            result = new(
                result.Alpha + (w * part.Alpha),
                result.ByTau + (w * part.ByTau),
                result.ByDelta + (w * part.ByDelta),
                result.ByTauTau + (w * part.ByTauTau),
                result.ByTauDelta + (w * part.ByTauDelta),
                result.ByDeltaDelta + (w * part.ByDeltaDelta));
        }

        return result;
    }

    /// <summary>
    /// The limits of zero density at the tau and composition of <see cref="SetTau"/>: d(alpha)/d(delta), its derivative by ln(tau), and
    /// d2(alpha)/d(delta)2.
    /// </summary>
    public void Virials(double tau, ReadOnlySpan<double> weights, ReadOnlySpan<double> scratch, out double second, out double secondByTau, out double third)
    {
        ReadOnlySpan<double> weighted = scratch.Slice(2 * Length, Length);
        ReadOnlySpan<double> weightedByTau = scratch.Slice(3 * Length, Length);
        second = 0;
        secondByTau = 0;
        third = 0;

        // A term is w delta^d (1 + g1 delta + g2 delta^2 + ...): its derivatives at zero are read off the series.
        for (int k = 0; k < Length; k++)
        {
            double g1 = (decayIndex[k] == 1 ? -1 : 0) + (2 * sharpness[k] * center[k]) - slope[k];
            double g2 = (decayIndex[k] == 2 ? -1 : 0) - sharpness[k] + (0.5 * g1 * g1);
            double scale = Math.Exp(-sharpness[k] * center[k] * center[k]);
            double w = weighted[k] * scale;
            double first = densityExponent[k] switch { 0 => g1, 1 => 1, _ => 0 };
            second += w * first;
            secondByTau += weightedByTau[k] * scale * first;
            third += densityExponent[k] switch { 0 => 2 * w * g2, 1 => 2 * w * g1, 2 => 2 * w, _ => 0 };
        }

        // The non-analytic terms are smooth at zero density; the limit is taken where rounding is still negligible.
        const double Small = 1e-6;
        foreach ((int function, CriticalTermKernel term) in criticalTerms)
        {
            MixtureDerivatives part = Continued(term, function, tau, Small);
            double w = weights[function];
            double curvature = (part.ByDeltaDelta - part.ByDelta) / (Small * Small);
            second += w * ((part.ByDelta / Small) - (curvature * Small));
            secondByTau += w * part.ByTauDelta / Small;
            third += w * curvature;
        }
    }

    // Places of parts with the same exponents in the same order and the same limit; plain parts first, then bells.
    private static List<int[]> GroupByExponents(List<PlainTerm[]> parts, List<int> owners, double[] limits)
    {
        List<List<int>> groups = [];
        for (int p = 0; p < parts.Count; p++)
        {
            List<int>? group = groups.Find(g => limits[owners[g[0]]] == limits[owners[p]]
                && parts[g[0]].AsSpan().SequenceEqual(parts[p], PlainTerm.SameExponents));
            if (group is null)
            {
                groups.Add([p]);
            }
            else
            {
                group.Add(p);
            }
        }

        return [.. groups.OrderBy(g => parts[g[0]][0].IsBell).Select(g => g.ToArray())];
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Load(double[] values, int start) => Vector512.Create(values.AsSpan(start, Lanes));

    /// <summary>0, delta, delta^2 ... delta^7: what is subtracted in the exponent for c = 0 to 7.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> DecayPowers(double delta)
    {
        double square = delta * delta;
        double fourth = square * square;
        return Vector512.Create(0, delta, square, square * delta, fourth, fourth * delta, fourth * square, fourth * square * delta);
    }

    private IsothermSlope WithCriticalTerms(IsothermSlope analytic, double tau, double delta, ReadOnlySpan<double> weights)
    {
        // The third derivative only tells on which side of an inflection a density lies; a difference is good enough for that.
        const double Step = 1e-4;
        IsothermSlope sum = analytic;
        foreach ((int function, CriticalTermKernel term) in criticalTerms)
        {
            double w = weights[function];
            MixtureDerivatives at = Continued(term, function, tau, delta);
            MixtureDerivatives beyond = Continued(term, function, tau, delta * (1 + Step));
            sum = new(
                sum.Alpha + (w * at.Alpha),
                sum.First + (w * at.ByDelta),
                sum.Second + (w * at.ByDeltaDelta),
                sum.Third + (w * (beyond.ByDeltaDelta - at.ByDeltaDelta) / Step));
        }

        return sum;
    }

    // A non-analytic term, by logarithms. Its derivative by tau and twice by delta, which the continuation would need, is left out: above
    // the limit the term itself is far below rounding, exp(-beta (tau - 1)^2) with beta in the hundreds.
    private MixtureDerivatives Continued(CriticalTermKernel term, int function, double tau, double delta)
    {
        if (tau > tauLimit[function])
        {
            return default;
        }

        ResidualDerivatives part = term.At(tau, delta);
        return new(part.Alpha, part.ByTau, part.ByDelta, part.ByTauTau + part.ByTau, part.ByTauDelta, part.ByDeltaDelta + part.ByDelta);
    }

    /// <summary>Functions that differ in their coefficients only.</summary>
    /// <param name="Start">Place of the first term.</param>
    /// <param name="Length">Number of terms, a multiple of the lanes.</param>
    /// <param name="IsBell">Whether the terms are bells.</param>
    /// <param name="TauLimit">The tau above which they are continued linearly.</param>
    /// <param name="Functions">The functions.</param>
    /// <param name="Coefficients">Coefficients, functions x terms, row-major.</param>
    private sealed record Family(int Start, int Length, bool IsBell, double TauLimit, int[] Functions, double[] Coefficients);

    /// <summary>One term in the general form.</summary>
    private readonly record struct PlainTerm(
        double Coefficient,
        bool IsBell,
        double TemperatureExponent,
        double TemperatureSharpness,
        double TemperatureCenter,
        double DensityExponent,
        int DecayExponent,
        double DensitySharpness,
        double DensityCenter,
        double DensitySlope)
    {
        /// <summary>Equal but for the coefficient.</summary>
        public static IEqualityComparer<PlainTerm> SameExponents { get; } = EqualityComparer<PlainTerm>.Create(
            (a, b) => a with { Coefficient = 0 } == b with { Coefficient = 0 }, t => (t with { Coefficient = 0 }).GetHashCode());

        /// <summary>The same dependence on density with everything else left out.</summary>
        public PlainTerm WithDensityOnly() => this with { Coefficient = 0, TemperatureExponent = 0, TemperatureSharpness = 0, TemperatureCenter = 0 };

        public static PlainTerm Of(DensityTerm term) =>
            new(term.Coefficient, false, term.TemperatureExponent, 0, 0, term.DensityExponent, term.DecayExponent, 0, 0, 0);

        public static PlainTerm Of(BellTerm term) => new(
            term.Coefficient,
            true,
            term.TemperatureExponent,
            term.TemperatureSharpness,
            term.TemperatureCenter,
            term.DensityExponent,
            0,
            term.DensitySharpness,
            term.DensityCenter,
            0);

        /// <summary>The constant part of the decay, exp(beta gamma), goes into the coefficient.</summary>
        public static PlainTerm Of(SkewedTerm term) => new(
            term.Coefficient * Math.Exp(term.DensityDecay * term.DecayCenter),
            true,
            term.TemperatureExponent,
            0,
            0,
            term.DensityExponent,
            0,
            term.DensitySharpness,
            term.DensityCenter,
            term.DensityDecay);
    }
}
