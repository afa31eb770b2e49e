using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using CryoThermo.Substances;
using static CryoThermo.EquationsOfState.Helmholtz.TermLanes;

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
    private const int Lanes = TermLanes.Count;
    private const int MostBlocks = 8;

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
    private readonly int[] slotStart;
    private readonly int[] slotTerms;
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
        List<bool> isPadding = [];
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
            isPadding.AddRange(first.Select(_ => false));
            while (all.Count < made[^1].Start + length)
            {
                all.Add(first[0] with { Coefficient = 0 });
                isPadding.Add(true);
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
        int[] slotOfTerm = new int[Length];
        Array.Fill(slotOfTerm, -1);
        foreach (bool isBell in (ReadOnlySpan<bool>)[false, true])
        {
            Dictionary<PlainTerm, int> known = [];
            int begin = slots.Count;
            for (int k = 0; k < Length; k++)
            {
                if (all[k].IsBell != isBell || isPadding[k])
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
        slotStart = new int[slotLength + 1];
        List<int> ordered = [];
        for (int slot = 0; slot < slotLength; slot++)
        {
            slotStart[slot] = ordered.Count;
            ordered.AddRange(Enumerable.Range(0, Length).Where(k => slotOfTerm[k] == slot));
        }

        slotStart[slotLength] = ordered.Count;
        slotTerms = [.. ordered];
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

    /// <summary>Doubles of scratch the bank needs: the terms at a tau, weighted and added up over functions, and the slots.</summary>
    public int ScratchLength => Length + slotLength;

    /// <summary>Prepares <see cref="AlongIsotherm"/>: computes what depends on tau and composition.</summary>
    /// <param name="tau">Reducing temperature of the mixture over temperature.</param>
    /// <param name="weights">Weight of each function in alpha: mole fractions, then those of the departure functions.</param>
    /// <param name="scratch">Receives <see cref="ScratchLength"/> doubles.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void SetTau(double tau, ReadOnlySpan<double> weights, Span<double> scratch)
    {
        Span<double> weighted = scratch[..Length];
        foreach (Family family in families)
        {
            TauPlace place = new(tau, family.TauLimit);
            int end = family.Start + family.Length;
            for (int k = family.Start; k < end; k += Lanes)
            {
                Vector512<double> t = Load(temperatureExponent, k);
                Vector512<double> exponent = t * place.Logarithm;
                if (family.IsBell)
                {
                    Vector512<double> y = place.Tau - Load(temperatureCenter, k);
                    Vector512<double> beta = Load(temperatureSharpness, k);
                    exponent -= beta * y * y;
                    t -= (beta + beta) * place.Tau * y;
                }

                Vector512<double> power = Exp(exponent);
                if (place.IsBeyond)
                {
                    power += place.Excess * power * t;
                }

                (Weight(family, k, weights) * power).CopyTo(weighted[k..]);
            }
        }

        Span<double> slots = scratch.Slice(Length, slotLength);
        ReadOnlySpan<int> starts = slotStart;
        ReadOnlySpan<int> members = slotTerms;
        for (int slot = 0; slot < slots.Length; slot++)
        {
            double sum = 0;
            foreach (int k in members[starts[slot]..starts[slot + 1]])
            {
                sum += weighted[k];
            }

            slots[slot] = sum;
        }
    }

    /// <summary>alpha with three derivatives by ln(delta) at the tau and composition of <see cref="SetTau"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public IsothermSlope AlongIsotherm(double tau, double delta, ReadOnlySpan<double> weights, ReadOnlySpan<double> scratch)
    {
        ReadOnlySpan<double> slots = scratch.Slice(Length, slotLength);
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
            Vector512<double> decay = Pick(powers, Vector512.Create(slotDecayIndex.AsSpan(k, Lanes)));
            Vector512<double> v = Vector512.Create(slots.Slice(k, Lanes)) * Exp(Vector512.FusedMultiplyAdd(d, lnDelta, -decay));
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
            Vector512<double> v = Vector512.Create(slots.Slice(k, Lanes)) * Exp((d * lnDelta) - (eta * x * x) - fall);
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
    /// alpha of the mixture with its derivatives by ln(delta) and ln(tau), and of each function its value: what fugacities need. Nothing need
    /// be prepared.
    /// </summary>
    /// <param name="tau">Reducing temperature of the mixture over temperature.</param>
    /// <param name="delta">Density over the reducing density of the mixture.</param>
    /// <param name="weights">Weight of each function in alpha.</param>
    /// <param name="values">Receives the value of each function.</param>
    /// <param name="byTau">d(alpha)/d(ln tau).</param>
    /// <param name="byDelta">d(alpha)/d(ln delta).</param>
    /// <returns>alpha.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public double FirstAt(double tau, double delta, ReadOnlySpan<double> weights, Span<double> values, out double byTau, out double byDelta)
    {
        values[..functionCount].Clear();
        Vector512<double> lnDelta = Vector512.Create(Math.Log(delta));
        Vector512<double> vDelta = Vector512.Create(delta);
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> sumTau = sum;
        Vector512<double> sumDelta = sum;
        Span<Vector512<double>> terms = stackalloc Vector512<double>[MostBlocks];
        foreach (Family family in families)
        {
            TauPlace place = new(tau, family.TauLimit);
            for (int block = 0; block < family.Length; block += MostBlocks * Lanes)
            {
                int blocks = Math.Min(MostBlocks, (family.Length - block) / Lanes);
                for (int b = 0; b < blocks; b++)
                {
                    int k = family.Start + block + (b * Lanes);
                    Vector512<double> t = Load(temperatureExponent, k);
                    Vector512<double> d = Load(densityExponent, k);
                    Vector512<double> exponent = t * place.Logarithm;
                    Vector512<double> l;
                    if (family.IsBell)
                    {
                        Vector512<double> y = place.Tau - Load(temperatureCenter, k);
                        Vector512<double> beta = Load(temperatureSharpness, k);
                        t -= (beta + beta) * place.Tau * y;
                        Vector512<double> eta = Load(sharpness, k);
                        Vector512<double> x = vDelta - Load(center, k);
                        Vector512<double> fall = Load(slope, k) * vDelta;
                        exponent += (d * lnDelta) - (beta * y * y) - (eta * x * x) - fall;
                        l = d - ((eta + eta) * vDelta * x) - fall;
                    }
                    else
                    {
                        Vector512<double> decay = Pick(powers, Vector512.Create(decayIndex.AsSpan(k, Lanes)));
                        exponent = Vector512.FusedMultiplyAdd(d, lnDelta, exponent - decay);
                        l = d - (Load(decayExponent, k) * decay);
                    }

                    Vector512<double> unit = Exp(exponent);
                    Vector512<double> unitByTau = unit * t;
                    if (place.IsBeyond)
                    {
                        unit += place.Excess * unitByTau;
                        unitByTau += place.Excess * unitByTau;
                    }

                    Vector512<double> weight = Weight(family, k, weights);
                    Vector512<double> v = weight * unit;
                    sum += v;
                    sumTau = Vector512.FusedMultiplyAdd(weight, unitByTau, sumTau);
                    sumDelta = Vector512.FusedMultiplyAdd(v, l, sumDelta);
                    terms[b] = unit;
                }

                for (int m = 0; m < family.Functions.Length; m++)
                {
                    values[family.Functions[m]] += Dot(family.Coefficients, (m * family.Length) + block, terms[..blocks]);
                }
            }
        }

        double alpha = Vector512.Sum(sum);
        byTau = Vector512.Sum(sumTau);
        byDelta = Vector512.Sum(sumDelta);
        foreach ((int function, CriticalTermKernel term) in criticalTerms)
        {
            MixtureDerivatives part = Continued(term, function, tau, delta);
            values[function] += part.Alpha;
            alpha += weights[function] * part.Alpha;
            byTau += weights[function] * part.ByTau;
            byDelta += weights[function] * part.ByDelta;
        }

        return alpha;
    }

    /// <summary>
    /// alpha of the mixture with its derivatives to second order, and of each function its value and, on demand, its derivatives by ln(delta)
    /// and ln(tau). Nothing need be prepared.
    /// </summary>
    /// <param name="tau">Reducing temperature of the mixture over temperature.</param>
    /// <param name="delta">Density over the reducing density of the mixture.</param>
    /// <param name="weights">Weight of each function in alpha.</param>
    /// <param name="values">Receives the value of each function.</param>
    /// <param name="byDelta">Receives its derivative by ln(delta), may be empty together with <paramref name="byTau"/>.</param>
    /// <param name="byTau">Receives its derivative by ln(tau).</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public MixtureDerivatives At(
        double tau,
        double delta,
        ReadOnlySpan<double> weights,
        Span<double> values,
        Span<double> byDelta,
        Span<double> byTau)
    {
        bool wantsSlopes = !byDelta.IsEmpty;
        values[..functionCount].Clear();
        if (wantsSlopes)
        {
            byDelta[..functionCount].Clear();
            byTau[..functionCount].Clear();
        }

        Vector512<double> lnDelta = Vector512.Create(Math.Log(delta));
        Vector512<double> vDelta = Vector512.Create(delta);
        Vector512<double> powers = DecayPowers(delta);
        Vector512<double> sum = Vector512<double>.Zero;
        Vector512<double> sumTau = sum;
        Vector512<double> sumDelta = sum;
        Vector512<double> sumTauTau = sum;
        Vector512<double> sumTauDelta = sum;
        Vector512<double> sumDeltaDelta = sum;
        Span<Vector512<double>> terms = stackalloc Vector512<double>[3 * MostBlocks];
        foreach (Family family in families)
        {
            TauPlace place = new(tau, family.TauLimit);
            for (int block = 0; block < family.Length; block += MostBlocks * Lanes)
            {
                int blocks = Math.Min(MostBlocks, (family.Length - block) / Lanes);
                for (int b = 0; b < blocks; b++)
                {
                    int k = family.Start + block + (b * Lanes);
                    Vector512<double> t = Load(temperatureExponent, k);
                    Vector512<double> d = Load(densityExponent, k);
                    Vector512<double> exponent = t * place.Logarithm;
                    Vector512<double> tSecond = Vector512<double>.Zero;
                    Vector512<double> l;
                    Vector512<double> lSecond;
                    if (family.IsBell)
                    {
                        Vector512<double> y = place.Tau - Load(temperatureCenter, k);
                        Vector512<double> beta = Load(temperatureSharpness, k);
                        Vector512<double> twoBetaTau = (beta + beta) * place.Tau;
                        t -= twoBetaTau * y;
                        tSecond = twoBetaTau * (place.Tau + y);
                        Vector512<double> eta = Load(sharpness, k);
                        Vector512<double> x = vDelta - Load(center, k);
                        Vector512<double> fall = Load(slope, k) * vDelta;
                        Vector512<double> twoEtaDelta = (eta + eta) * vDelta;
                        exponent += (d * lnDelta) - (beta * y * y) - (eta * x * x) - fall;
                        l = d - (twoEtaDelta * x) - fall;
                        lSecond = (twoEtaDelta * (vDelta + x)) + fall;
                    }
                    else
                    {
                        Vector512<double> c = Load(decayExponent, k);
                        Vector512<double> decay = Pick(powers, Vector512.Create(decayIndex.AsSpan(k, Lanes)));
                        Vector512<double> cDecay = c * decay;
                        exponent = Vector512.FusedMultiplyAdd(d, lnDelta, exponent - decay);
                        l = d - cDecay;
                        lSecond = c * cDecay;
                    }

                    Vector512<double> unit = Exp(exponent);
                    Vector512<double> unitByTau = unit * t;
                    Vector512<double> unitByTau2 = unit * ((t * t) - tSecond);
                    if (place.IsBeyond)
                    {
                        unit += place.Excess * unitByTau;
                        unitByTau += place.Excess * unitByTau;
                        unitByTau2 = unitByTau;
                    }

                    Vector512<double> weight = Weight(family, k, weights);
                    Vector512<double> v = weight * unit;
                    Vector512<double> vt = weight * unitByTau;
                    sum += v;
                    sumTau += vt;
                    sumDelta = Vector512.FusedMultiplyAdd(v, l, sumDelta);
                    sumTauTau = Vector512.FusedMultiplyAdd(weight, unitByTau2, sumTauTau);
                    sumTauDelta = Vector512.FusedMultiplyAdd(vt, l, sumTauDelta);
                    sumDeltaDelta = Vector512.FusedMultiplyAdd(v, (l * l) - lSecond, sumDeltaDelta);
                    terms[b] = unit;
                    terms[MostBlocks + b] = unit * l;
                    terms[(2 * MostBlocks) + b] = unitByTau;
                }

                for (int m = 0; m < family.Functions.Length; m++)
                {
                    int function = family.Functions[m];
                    int from = (m * family.Length) + block;
                    values[function] += Dot(family.Coefficients, from, terms[..blocks]);
                    if (wantsSlopes)
                    {
                        byDelta[function] += Dot(family.Coefficients, from, terms.Slice(MostBlocks, blocks));
                        byTau[function] += Dot(family.Coefficients, from, terms.Slice(2 * MostBlocks, blocks));
                    }
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
    /// The limits of zero density: d(alpha)/d(delta), its derivative by ln(tau), and d2(alpha)/d(delta)2.
    /// </summary>
    public void Virials(double tau, ReadOnlySpan<double> weights, out double second, out double secondByTau, out double third)
    {
        second = 0;
        secondByTau = 0;
        third = 0;

        // A term is w delta^d (1 + g1 delta + g2 delta^2 + ...): its derivatives at zero are read off the series.
        foreach (Family family in families)
        {
            double own = Math.Min(tau, family.TauLimit);
            double excess = (tau / own) - 1;
            for (int k = 0; k < family.Length; k++)
            {
                int at = family.Start + k;
                double weight = 0;
                for (int m = 0; m < family.Functions.Length; m++)
                {
                    weight += weights[family.Functions[m]] * family.Coefficients[(m * family.Length) + k];
                }

                double y = own - temperatureCenter[at];
                double t = temperatureExponent[at] - (2 * temperatureSharpness[at] * own * y);
                double power = weight * Math.Pow(own, temperatureExponent[at])
                    * Math.Exp((-temperatureSharpness[at] * y * y) - (sharpness[at] * center[at] * center[at]));
                double w = power * (1 + (excess * t));
                double g1 = (decayIndex[at] == 1 ? -1 : 0) + (2 * sharpness[at] * center[at]) - slope[at];
                double g2 = (decayIndex[at] == 2 ? -1 : 0) - sharpness[at] + (0.5 * g1 * g1);
                double first = densityExponent[at] switch { 0 => g1, 1 => 1, _ => 0 };
                second += w * first;
                secondByTau += power * t * (1 + excess) * first;
                third += densityExponent[at] switch { 0 => 2 * w * g2, 1 => 2 * w * g1, 2 => 2 * w, _ => 0 };
            }
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

    // Weighted coefficients of eight terms, added up over the functions of a family.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Weight(Family family, int k, ReadOnlySpan<double> weights)
    {
        int[] functions = family.Functions;
        double[] coefficients = family.Coefficients;
        int place = k - family.Start;
        Vector512<double> sum = Load(coefficients, place) * Vector512.Create(weights[functions[0]]);
        for (int m = 1; m < functions.Length; m++)
        {
            place += family.Length;
            sum = Vector512.FusedMultiplyAdd(Load(coefficients, place), Vector512.Create(weights[functions[m]]), sum);
        }

        return sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Dot(double[] coefficients, int from, ReadOnlySpan<Vector512<double>> terms)
    {
        Vector512<double> sum = Load(coefficients, from) * terms[0];
        for (int b = 1; b < terms.Length; b++)
        {
            sum = Vector512.FusedMultiplyAdd(Load(coefficients, from + (b * Lanes)), terms[b], sum);
        }

        return Vector512.Sum(sum);
    }

    /// <summary>Where a tau lies relative to the limit of a family.</summary>
    private readonly struct TauPlace
    {
        public TauPlace(double tau, double limit)
        {
            IsBeyond = tau > limit;
            double own = IsBeyond ? limit : tau;
            Tau = Vector512.Create(own);
            Logarithm = Vector512.Create(Math.Log(own));
            Excess = Vector512.Create(IsBeyond ? (tau / own) - 1 : 0);
        }

        public bool IsBeyond { get; }

        /// <summary>The tau at which the terms are evaluated.</summary>
        public Vector512<double> Tau { get; }

        public Vector512<double> Logarithm { get; }

        /// <summary>How far beyond the limit the tau lies, relative.</summary>
        public Vector512<double> Excess { get; }
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
