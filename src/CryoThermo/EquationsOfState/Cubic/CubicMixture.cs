namespace CryoThermo.EquationsOfState.Cubic;

/// <summary>
/// A mixture under a two-parameter cubic with one-fluid mixing a = sum x_i x_j sqrt(a_i a_j)(1 - k_ij), b = sum x_i b_i.
/// Derivatives are analytic, in the amounts-and-volume form of Michelsen, Mollerup, Thermodynamic Models: Fundamentals
/// and Computational Aspects, 2nd ed. (2007), chapter 3: F(T, V, n) = A_res/(R T) = -n g(V, B) - D f(V, B)/T.
/// A constant volume shift (Peneloux, Rauzy, Freze, Fluid Phase Equilib. 8 (1982) 7) moves volumes and enthalpies but
/// cancels from phase equilibrium. A component may have a covolume that depends on temperature; then so does B, and F
/// depends on temperature through T, D(T) and B(T). A pair may have a binary parameter that is linear in 1/T,
/// k(T) = k + c (298.15 K/T - 1); the matrix of 1 - k(T) then stands in the scratch, and in a constant field where none has.
/// </summary>
internal sealed class CubicMixture : MixtureKernel
{
    private const double UsualLowestTemperature = 10;

    // Where a binary parameter that depends on temperature has its constant value, K.
    private const double ReferenceTemperature = 298.15;

    // Just above the lambda point of helium, 2.1768 K of 5.1953 K, and close to the triple point of hydrogen, 13.957 K of 33.19 K. Colder the rising
    // covolume makes the heat capacity of compressed hydrogen negative.
    private const double LowestReducedTemperature = 0.42;

    // A root that is not a thousand times the error of its polynomial, and a double root, whose slope vanishes, are walked to from outside.
    private const double SmallestByPolynomial = 1e-6;
    private const double RepeatedRootMargin = 1e-6;

    private readonly CubicForm form;
    private readonly CubicComponent[] components;
    private readonly int count;
    private readonly double gasConstant;
    private readonly double[] criticalCovolume;
    private readonly double[] rootOfCriticalAttraction;
    private readonly double[] oneMinusKij;
    private readonly double[] inverseCoefficients;
    private readonly bool hasInteractionSlopes;
    private readonly int interactionStart;
    private readonly double[] volumeShift;
    private readonly bool shifted;
    private readonly bool hasCovolumeFunction;
    private readonly double deltaDifference;
    private readonly double deltaSum;
    private readonly double deltaProduct;

    /// <summary>Creates the kernel.</summary>
    /// <param name="form">Which cubic.</param>
    /// <param name="components">1 to 25 components.</param>
    /// <param name="kij">Binary parameters, N x N, symmetric, zero diagonal, row-major.</param>
    /// <param name="gasConstant">J/(mol K).</param>
    /// <param name="inverseTemperatureCoefficients">
    /// c of k(T) = k + c (298.15 K/T - 1), N x N, symmetric, zero diagonal, row-major; empty when no pair has one.
    /// </param>
    public CubicMixture(
        CubicForm form,
        ReadOnlySpan<CubicComponent> components,
        ReadOnlySpan<double> kij,
        double gasConstant = 8.314462618,
        ReadOnlySpan<double> inverseTemperatureCoefficients = default)
    {
        this.form = form;
        this.components = components.ToArray();
        count = components.Length;
        this.gasConstant = gasConstant;
        criticalCovolume = new double[count];
        rootOfCriticalAttraction = new double[count];
        volumeShift = new double[count];
        oneMinusKij = new double[count * count];
        HighestTemperature = 1000;
        for (int i = 0; i < count; i++)
        {
            CubicComponent component = components[i];
            double rtc = gasConstant * component.CriticalTemperature;
            criticalCovolume[i] = form.OmegaB * rtc / component.CriticalPressure;
            rootOfCriticalAttraction[i] = Math.Sqrt(form.OmegaA / component.CriticalPressure) * rtc;
            volumeShift[i] = component.VolumeShift;
            shifted |= component.VolumeShift != 0;
            HighestTemperature = Math.Min(HighestTemperature, AttractionEnds(component));
            hasCovolumeFunction |= component.Covolume is not null;
            for (int j = 0; j < count; j++)
            {
                oneMinusKij[(i * count) + j] = 1 - kij[(i * count) + j];
            }
        }

        LowestTemperature = this.components.Max(
            c => c.Covolume is null ? UsualLowestTemperature : LowestReducedTemperature * c.CriticalTemperature);
        inverseCoefficients = inverseTemperatureCoefficients.ToArray();
        hasInteractionSlopes = Array.Exists(inverseCoefficients, c => c != 0);
        interactionStart = (hasCovolumeFunction ? 8 : 5) * count;
        for (int i = 0; i < inverseCoefficients.Length; i++)
        {
            if (inverseCoefficients[i] is not 0 and var c)
            {
                (double coldest, double warmest) = InteractionRange(kij[i], c);
                LowestTemperature = Math.Max(LowestTemperature, coldest);
                HighestTemperature = Math.Min(HighestTemperature, warmest);
            }
        }

        deltaDifference = form.Delta1 - form.Delta2;
        deltaSum = form.Delta1 + form.Delta2;
        deltaProduct = form.Delta1 * form.Delta2;
    }

    /// <inheritdoc/>
    public override int ComponentCount => count;

    /// <inheritdoc/>
    public override double GasConstant => gasConstant;

    /// <summary>
    /// sqrt(a_i) with two temperature derivatives, two working columns; b_i with two temperature derivatives where one depends on it; the matrices
    /// of 1 - k_ij and of its temperature derivative where one does.
    /// </summary>
    public override int ScratchLength => interactionStart + (hasInteractionSlopes ? 2 * count * count : 0);

    /// <summary>
    /// 10 K; 0.42 of the highest critical temperature among components whose covolume depends on temperature, if higher or without others; where
    /// k(T) of a pair leaves -1 to 1, if higher.
    /// </summary>
    public override double LowestTemperature { get; }

    /// <summary>
    /// 1000 K, or where the attraction of the first component vanishes: neon's at 770 K with Peng-Robinson, at 500 K with Soave-Redlich-Kwong;
    /// where k(T) of a pair leaves -1 to 1, if lower.
    /// </summary>
    public override double HighestTemperature { get; }

    /// <inheritdoc/>
    public override double LowestPressure => 1e-3;

    /// <inheritdoc/>
    public override double HighestPressure => 2e8;

    /// <inheritdoc/>
    public override void SetTemperature(double temperature, Span<double> scratch)
    {
        for (int i = 0; i < count; i++)
        {
            double critical = rootOfCriticalAttraction[i];
            scratch[i] = critical * components[i].Alpha.SquareRoot(temperature, out double first, out double second);
            scratch[count + i] = critical * first;
            scratch[(2 * count) + i] = critical * second;
        }

        if (hasCovolumeFunction)
        {
            SetCovolumes(temperature, scratch);
        }

        if (hasInteractionSlopes)
        {
            SetInteractions(temperature, scratch);
        }
    }

    /// <inheritdoc/>
    public override double LnFugacityCoefficients(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, Span<double> lnPhi, out DensityRoot found)
    {
        double rt = gasConstant * temperature;
        Span<double> pull = scratch.Slice(3 * count, count);
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        double attraction = Attraction(x, scratch, out double b);
        double capitalA = attraction * pressure / (rt * rt);
        double capitalB = b * pressure / rt;
        double z = SolveCompressibility(capitalA, capitalB, root, out found);

        double lnGap = Math.Log(z - capitalB);
        double lnRatio = LnRatio(z, capitalB);
        double strength = attraction / (b * rt * deltaDifference) * lnRatio;
        double repulsive = ((z - 1) + strength) / b;
        double twice = 2 * strength / attraction;
        for (int i = 0; i < count; i++)
        {
            lnPhi[i] = (repulsive * covolume[i]) - lnGap - (twice * pull[i]);
        }

        double volume = z * rt / pressure;
        if (shifted)
        {
            double factor = pressure / rt;
            for (int i = 0; i < count; i++)
            {
                lnPhi[i] -= factor * volumeShift[i];
                volume -= x[i] * volumeShift[i];
            }
        }

        return 1 / volume;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivatives(
        double temperature,
        double pressure,
        ReadOnlySpan<double> x,
        DensityRoot root,
        Span<double> scratch,
        Span<double> lnPhi,
        Span<double> byAmount,
        Span<double> byTemperature,
        Span<double> byPressure,
        out DensityRoot found)
    {
        double rt = gasConstant * temperature;
        ReadOnlySpan<double> rootA = scratch[..count];
        ReadOnlySpan<double> rootAByT = scratch.Slice(count, count);
        Span<double> pull = scratch.Slice(3 * count, count);
        Span<double> amountOfPressure = scratch.Slice(4 * count, count);
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        ReadOnlySpan<double> interaction = Interactions(scratch);
        double attraction = Attraction(x, scratch, out double b);
        double z = SolveCompressibility(attraction * pressure / (rt * rt), b * pressure / rt, root, out found);
        double volume = z * rt / pressure;
        Partial f = PartialDerivatives(temperature, volume, b, attraction);

        double pressureByVolume = -(rt * f.FVV) - (rt / (volume * volume));
        double lnZ = Math.Log(z);
        double shiftFactor = pressure / rt;
        for (int i = 0; i < count; i++)
        {
            double di = 2 * pull[i];
            double byVolume = f.FnV + (f.FBV * covolume[i]) + (f.FDV * di);
            amountOfPressure[i] = (rt / volume) - (rt * byVolume);
            lnPhi[i] = f.Fn + (f.FB * covolume[i]) + (f.FD * di) - lnZ - (shiftFactor * volumeShift[i]);
        }

        for (int i = 0; i < count; i++)
        {
            double di = 2 * pull[i];
            double bi = covolume[i];
            double rowFactor = amountOfPressure[i] / (rt * pressureByVolume);
            for (int j = 0; j <= i; j++)
            {
                double dj = 2 * pull[j];
                double bj = covolume[j];
                double dij = 2 * rootA[i] * rootA[j] * interaction[(i * count) + j];
                double value = (f.FnB * (bi + bj)) + (f.FBD * ((bi * dj) + (bj * di))) + (f.FBB * bi * bj) + (f.FD * dij)
                    + 1 + (rowFactor * amountOfPressure[j]);
                byAmount[(i * count) + j] = value;
                byAmount[(j * count) + i] = value;
            }
        }

        double shift = 0;
        if (shifted)
        {
            for (int i = 0; i < count; i++)
            {
                shift += x[i] * volumeShift[i];
            }
        }

        if (!byPressure.IsEmpty)
        {
            for (int i = 0; i < count; i++)
            {
                byPressure[i] = ((-amountOfPressure[i] / pressureByVolume) - volumeShift[i]) / rt - (1 / pressure);
            }
        }

        if (!byTemperature.IsEmpty)
        {
            double attractionByT = 0;
            for (int i = 0; i < count; i++)
            {
                attractionByT += 2 * x[i] * pull[i] * rootAByT[i] / rootA[i];
            }

            if (hasInteractionSlopes)
            {
                attractionByT += SlopeOfInteractions(x, scratch, rootA);
            }

            double covolumeByT = CovolumeSlope(x, scratch);
            double pressureByT = (pressure / temperature) - (rt * (f.FTV + (f.FDV * attractionByT) + (f.FBV * covolumeByT)));
            for (int i = 0; i < count; i++)
            {
                double fiByT = FirstByTemperature(i, x, scratch, f, attractionByT, covolumeByT);
                double partialVolume = -amountOfPressure[i] / pressureByVolume;
                byTemperature[i] = fiByT + (1 / temperature) - (partialVolume * pressureByT / rt)
                    + (pressure * volumeShift[i] / (rt * temperature));
            }
        }

        return 1 / (volume - shift);
    }

    /// <inheritdoc/>
    public override ResidualProperties Residual(
        double temperature, double pressure, ReadOnlySpan<double> x, DensityRoot root, Span<double> scratch, out DensityRoot found)
    {
        double rt = gasConstant * temperature;
        ReadOnlySpan<double> rootA = scratch[..count];
        Span<double> pull = scratch.Slice(3 * count, count);
        double attraction = Attraction(x, scratch, out double b);
        double z = SolveCompressibility(attraction * pressure / (rt * rt), b * pressure / rt, root, out found);
        double volume = z * rt / pressure;

        // First and second temperature derivative of D = sum x_i x_j a_ij.
        ReadOnlySpan<double> interaction = Interactions(scratch);
        double dFirst = 0;
        double dSecond = 0;
        for (int i = 0; i < count; i++)
        {
            double cross = 0;
            for (int j = 0; j < count; j++)
            {
                cross += x[j] * scratch[count + j] * interaction[(i * count) + j];
            }

            dFirst += 2 * x[i] * pull[i] * scratch[count + i] / rootA[i];
            dSecond += 2 * x[i] * ((pull[i] * scratch[(2 * count) + i] / rootA[i]) + (cross * scratch[count + i]));
        }

        if (hasInteractionSlopes)
        {
            // D'' holds 2 sum (x_i x_j s_i s_j)' (1 - k_ij)' and sum x_i x_j s_i s_j (1 - k_ij)'', and (1 - k)'' = -2/T (1 - k)'.
            double bySlopes = SlopeOfInteractions(x, scratch, rootA);
            dFirst += bySlopes;
            dSecond += (4 * SlopeOfInteractions(x, scratch, scratch.Slice(count, count))) - (2 * bySlopes / temperature);
        }

        Partial f = PartialDerivatives(temperature, volume, b, attraction);
        double fT = f.FT + (f.FD * dFirst);
        double fTT = f.FTT + (2 * f.FDT * dFirst) + (f.FD * dSecond);
        double fTV = f.FTV + (f.FDV * dFirst);
        if (hasCovolumeFunction)
        {
            double bFirst = CovolumeSlope(x, scratch);
            double bSecond = 0;
            for (int i = 0; i < count; i++)
            {
                bSecond += x[i] * scratch[(7 * count) + i];
            }

            fT += f.FB * bFirst;
            fTT += (2 * bFirst * (f.FBT + (f.FBD * dFirst))) + (f.FBB * bFirst * bFirst) + (f.FB * bSecond);
            fTV += f.FBV * bFirst;
        }

        double pressureByVolume = -(rt * f.FVV) - (rt / (volume * volume));
        double pressureByT = (pressure / temperature) - (rt * fTV);
        double enthalpy = (-rt * temperature * fT) + (rt * (z - 1));
        double entropy = (-gasConstant * (f.F + (temperature * fT))) + (gasConstant * Math.Log(z));
        double isochoric = -gasConstant * temperature * ((temperature * fTT) + (2 * fT));
        double isobaric = isochoric - gasConstant - (temperature * pressureByT * pressureByT / pressureByVolume);

        double shift = 0;
        if (shifted)
        {
            for (int i = 0; i < count; i++)
            {
                shift += x[i] * volumeShift[i];
            }
        }

        return new(
            1 / (volume - shift), enthalpy - (pressure * shift), entropy, isochoric, isobaric, pressureByT, pressureByVolume);
    }

    /// <inheritdoc/>
    public override double Pressure(double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, out double byVolume)
    {
        double rt = gasConstant * temperature;
        double attraction = Attraction(x, scratch, out double b);
        double volume = 1 / molarDensity;
        for (int i = 0; i < count; i++)
        {
            volume += x[i] * volumeShift[i];
        }

        double gap = volume - b;
        double first = volume + (form.Delta1 * b);
        double second = volume + (form.Delta2 * b);
        double product = first * second;
        byVolume = (-rt / (gap * gap)) + (attraction * (first + second) / (product * product));
        return (rt / gap) - (attraction / product);
    }

    /// <inheritdoc/>
    public override double LnFugacityAtDensity(
        double temperature, double molarDensity, ReadOnlySpan<double> x, Span<double> scratch, Span<double> lnFugacityOverFraction)
    {
        double rt = gasConstant * temperature;
        Span<double> pull = scratch.Slice(3 * count, count);
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        double attraction = Attraction(x, scratch, out double b);
        double volume = 1 / molarDensity;
        for (int i = 0; i < count; i++)
        {
            volume += x[i] * volumeShift[i];
        }

        Partial f = PartialDerivatives(temperature, volume, b, attraction);
        double pressure = (rt / volume) - (rt * f.FV);
        double lnIdeal = Math.Log(rt / volume);
        for (int i = 0; i < count; i++)
        {
            lnFugacityOverFraction[i] = f.Fn + (f.FB * covolume[i]) + (2 * f.FD * pull[i]) + lnIdeal - (pressure * volumeShift[i] / rt);
        }

        return pressure;
    }

    /// <inheritdoc/>
    public override double LnFugacityDerivativesAtDensity(
        double temperature,
        double molarDensity,
        ReadOnlySpan<double> x,
        Span<double> scratch,
        Span<double> lnFugacityOverFraction,
        Span<double> byAmount,
        Span<double> byTemperature,
        out double pressureByTemperature)
    {
        double rt = gasConstant * temperature;
        ReadOnlySpan<double> rootA = scratch[..count];
        ReadOnlySpan<double> rootAByT = scratch.Slice(count, count);
        Span<double> pull = scratch.Slice(3 * count, count);
        Span<double> amountOfPressure = scratch.Slice(4 * count, count);
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        double attraction = Attraction(x, scratch, out double b);
        double volume = 1 / molarDensity;
        double attractionByT = 0;
        for (int i = 0; i < count; i++)
        {
            volume += x[i] * volumeShift[i];
            attractionByT += 2 * x[i] * pull[i] * rootAByT[i] / rootA[i];
        }

        ReadOnlySpan<double> interaction = Interactions(scratch);
        if (hasInteractionSlopes)
        {
            attractionByT += SlopeOfInteractions(x, scratch, rootA);
        }

        Partial f = PartialDerivatives(temperature, volume, b, attraction);
        double covolumeByT = CovolumeSlope(x, scratch);
        double pressure = (rt / volume) - (rt * f.FV);
        double pressureByVolume = -(rt * f.FVV) - (rt / (volume * volume));
        pressureByTemperature = (pressure / temperature) - (rt * (f.FTV + (f.FDV * attractionByT) + (f.FBV * covolumeByT)));
        double lnIdeal = Math.Log(rt / volume);
        for (int i = 0; i < count; i++)
        {
            double di = 2 * pull[i];
            double byVolume = f.FnV + (f.FBV * covolume[i]) + (f.FDV * di);
            amountOfPressure[i] = (rt / volume) - (rt * byVolume);
            lnFugacityOverFraction[i] = f.Fn + (f.FB * covolume[i]) + (f.FD * di) + lnIdeal - (pressure * volumeShift[i] / rt);
            byTemperature[i] = FirstByTemperature(i, x, scratch, f, attractionByT, covolumeByT) + (1 / temperature)
                - (volumeShift[i] * (pressureByTemperature - (pressure / temperature)) / rt);
        }

        for (int i = 0; i < count; i++)
        {
            double di = 2 * pull[i];
            double bi = covolume[i];
            double ci = volumeShift[i];
            for (int j = 0; j <= i; j++)
            {
                double dj = 2 * pull[j];
                double bj = covolume[j];
                double cj = volumeShift[j];
                double dij = 2 * rootA[i] * rootA[j] * interaction[(i * count) + j];

                // With a shift, constant volume means that the unshifted volume grows by c_j with each mole.
                double value = (f.FnB * (bi + bj)) + (f.FBD * ((bi * dj) + (bj * di))) + (f.FBB * bi * bj) + (f.FD * dij)
                    - (((amountOfPressure[i] * cj) + (amountOfPressure[j] * ci) + (pressureByVolume * ci * cj)) / rt);
                byAmount[(i * count) + j] = value;
                byAmount[(j * count) + i] = value;
            }
        }

        return pressure;
    }

    /// <inheritdoc/>
    public override void Virials(
        double temperature, ReadOnlySpan<double> x, Span<double> scratch, out double second, out double secondByTemperature, out double third)
    {
        double rt = gasConstant * temperature;
        ReadOnlySpan<double> pull = scratch.Slice(3 * count, count);
        double attraction = Attraction(x, scratch, out double b);
        double byTemperature = 0;
        double shift = 0;
        for (int i = 0; i < count; i++)
        {
            byTemperature += 2 * x[i] * pull[i] * scratch[count + i] / scratch[i];
            shift += x[i] * volumeShift[i];
        }

        if (hasInteractionSlopes)
        {
            byTemperature += SlopeOfInteractions(x, scratch, scratch[..count]);
        }

        double unshifted = b - (attraction / rt);
        second = unshifted - shift;
        secondByTemperature = CovolumeSlope(x, scratch) + (attraction / (rt * temperature)) - (byTemperature / rt);
        third = (b * b) + (deltaSum * b * attraction / rt) - (2 * shift * unshifted) + (shift * shift);
    }

    /// <inheritdoc/>
    public override double ReducedVolume(double molarDensity, ReadOnlySpan<double> x)
    {
        double volume = 1 / molarDensity;
        double b = 0;
        for (int i = 0; i < count; i++)
        {
            b += x[i] * criticalCovolume[i];
            volume += x[i] * volumeShift[i];
        }

        return volume / (b * CriticalVolumeOverCovolume);
    }

    /// <inheritdoc/>
    public override double DensityLimit(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch)
    {
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        double smallest = 0;
        for (int i = 0; i < count; i++)
        {
            smallest += x[i] * (covolume[i] - volumeShift[i]);
        }

        return 1 / smallest;
    }

    /// <summary>Wilson's estimate, ln K = ln(pc/p) + 5.373 (1 + w)(1 - Tc/T); Wilson, 65th AIChE meeting (1968), from memory.</summary>
    public override void EstimateLnK(double temperature, double pressure, Span<double> lnK)
    {
        for (int i = 0; i < count; i++)
        {
            CubicComponent c = components[i];
            lnK[i] = Math.Log(c.CriticalPressure / pressure) + (5.373 * (1 + c.AcentricFactor) * (1 - (c.CriticalTemperature / temperature)));
        }
    }

    /// <inheritdoc/>
    public override double CriticalTemperature(int component) => components[component].CriticalTemperature;

    /// <inheritdoc/>
    public override double CriticalPressure(int component) => components[component].CriticalPressure;

    /// <inheritdoc/>
    public override double CriticalDensity(int component) =>
        1 / ((criticalCovolume[component] * CriticalVolumeOverCovolume) - volumeShift[component]);

    /// <summary>
    /// Compressibility factor at reduced attraction A = a p/(RT)^2 and covolume B = b p/(RT). Newton from outside the
    /// outermost roots, where the cubic is convex (right) or concave (left), converges monotonically and keeps all digits
    /// at very low pressure, which the trigonometric solution does not. Where there are three roots it starts from a
    /// polynomial close to that solution instead, as long as the root is not small against its error.
    /// </summary>
    internal double SolveCompressibility(double a, double b, DensityRoot root, out DensityRoot found)
    {
        double c2 = -(1 + b - (deltaSum * b));
        double c1 = a + (deltaProduct * b * b) - (deltaSum * b) - (deltaSum * b * b);
        double c0 = -((a * b) + (deltaProduct * b * b * (1 + b)));
        double inflection = -c2 / 3;
        double discriminant = (inflection * inflection) - (c1 / 3);

        // With z = z0 + r w around the inflection z0, r^2 the discriminant, the cubic is r^3 (w^3 - 3 w + q): three roots for -2 < q < 2.
        double atInflection = Polynomial(inflection, c2, c1, c0);
        double square = atInflection * atInflection;
        double cube = discriminant * discriminant * discriminant;
        bool hasLeft;
        bool hasRight = true;
        if (square < (4 - RepeatedRootMargin) * cube && discriminant > 0)
        {
            // The covolume lies left of all roots, or between the second and the third.
            hasLeft = b < inflection && Slope(b, c2, c1) > 0;
            if (hasLeft)
            {
                double reach = Math.Sqrt(discriminant);
                return OuterRoots(a, b, c2, c1, c0, inflection, reach, atInflection / (reach * discriminant), root, out found);
            }
        }
        else if (square > (4 + RepeatedRootMargin) * cube)
        {
            hasLeft = atInflection > 0 && inflection > b;
            hasRight = !hasLeft;
        }
        else
        {
            TurningPoints(b, c2, c1, c0, inflection, discriminant, out hasLeft, out hasRight);
        }

        if (hasLeft && hasRight)
        {
            found = DensityRoot.Liquid;
            if (root == DensityRoot.Liquid)
            {
                return NewtonFrom(b, c2, c1, c0);
            }

            double vapor = NewtonFrom(1 + b, c2, c1, c0);
            if (root == DensityRoot.Stable && NewtonFrom(b, c2, c1, c0) is var liquid && GibbsDifference(liquid, vapor, a, b) < 0)
            {
                return liquid;
            }

            found = DensityRoot.Vapor;
            return vapor;
        }

        double only = NewtonFrom(hasLeft ? b : 1 + b, c2, c1, c0);
        found = only > b * CriticalVolumeOverCovolume ? DensityRoot.Vapor : DensityRoot.Liquid;
        return only;
    }

    // Three roots well apart: Newton from next to the wanted one.
    private double OuterRoots(
        double a, double b, double c2, double c1, double c0, double inflection, double reach, double q, DensityRoot root, out DensityRoot found)
    {
        found = DensityRoot.Vapor;
        double vapor = 0;
        if (root != DensityRoot.Liquid)
        {
            vapor = NewtonFrom(Fma(reach, OuterRoot(2 - q), inflection), c2, c1, c0);
            if (root == DensityRoot.Vapor)
            {
                return vapor;
            }
        }

        double near = Fma(-reach, OuterRoot(2 + q), inflection);
        double liquid = NewtonFrom(near > b && near > SmallestByPolynomial * reach ? near : b, c2, c1, c0);
        if (root == DensityRoot.Stable && !(GibbsDifference(liquid, vapor, a, b) < 0))
        {
            return vapor;
        }

        found = DensityRoot.Liquid;
        return liquid;
    }

    // Near a double root, as at very low pressure, the signs at the turning points tell which roots there are.
    private static void TurningPoints(
        double b, double c2, double c1, double c0, double inflection, double discriminant, out bool hasLeft, out bool hasRight)
    {
        if (discriminant > 0)
        {
            double reach = Math.Sqrt(discriminant);
            double right = inflection + reach;

            // The smaller turning point without cancellation: their product is c1/3.
            double left = right > 0 ? c1 / (3 * right) : inflection - reach;
            hasLeft = left > b && Polynomial(left, c2, c1, c0) >= 0;
            hasRight = !(right > b) || Polynomial(right, c2, c1, c0) <= 0 || !hasLeft;
        }
        else
        {
            hasLeft = inflection > b && Polynomial(inflection, c2, c1, c0) > 0;
            hasRight = !hasLeft;
        }
    }

    /// <summary>
    /// The largest root 2 cos(acos(-q/2)/3) of w^3 - 3 w + q as a polynomial in s = sqrt(2 - q), 0 to 2, within 1.1e-9. The function
    /// 2 cos(2/3 acos(s/2)) is smooth there; coefficients by interpolation in Chebyshev points, computed here.
    /// </summary>
    private static double OuterRoot(double twoMinusQ)
    {
        double s = Math.Sqrt(twoMinusQ);
        double s2 = s * s;
        double s4 = s2 * s2;
        double low = Fma(Fma(s, 0.013352298477974056, -0.055553708836291314), s2, Fma(s, 0.5773501595549314, 1.0000000010918488));
        double middle = Fma(Fma(s, 0.00010495739689559968, -0.0004177427815712065), s2, Fma(s, 0.001341747804582738, -0.004072683881401319));
        double high = Fma(s, 1.3938774316102354e-06, -1.7537241211584843e-05);
        return Fma(Fma(high, s4, middle), s4, low);
    }

    private static double Polynomial(double z, double c2, double c1, double c0) => Fma(Fma(z + c2, z, c1), z, c0);

    private static double Slope(double z, double c2, double c1) => Fma(Fma(3, z, 2 * c2), z, c1);

    // One rounding where the processor has the instruction, two where not.
    private static double Fma(double a, double b, double c) => double.MultiplyAddEstimate(a, b, c);

    private static double NewtonFrom(double start, double c2, double c1, double c0)
    {
        double z = start;
        for (int iteration = 0; iteration < 100; iteration++)
        {
            double value = Polynomial(z, c2, c1, c0);
            double slope = Slope(z, c2, c1);
            double step = value / slope;
            double next = z - step;

            // What is left after a step is f''/(2 f') times its square.
            if (Math.Abs(Fma(3, z, c2) * step * step) <= 2e-17 * Math.Abs(z * slope))
            {
                return next;
            }

            if (Math.Abs(next - z) <= 4e-16 * z || !double.IsFinite(next))
            {
                return double.IsFinite(next) ? next : z;
            }

            // Monotone up to rounding: once the step turns back, the digits are used up.
            if (iteration > 1 && (next > z) == (start > z) && Math.Abs(next - z) < 1e-13 * z)
            {
                return next;
            }

            z = next;
        }

        return z;
    }

    // A Soave-type function falls through zero far above the critical temperature; beyond that the pair attraction
    // sqrt(a_i a_j) would change its sign.
    private static double AttractionEnds(CubicComponent component)
    {
        const double Searched = 5000;
        const double Smallest = 0.01;
        if (component.Alpha.SquareRoot(Searched, out _, out _) > Smallest)
        {
            return double.PositiveInfinity;
        }

        double low = component.CriticalTemperature;
        double high = Searched;
        while (high - low > 1e-6 * high)
        {
            double middle = 0.5 * (low + high);
            if (component.Alpha.SquareRoot(middle, out _, out _) > Smallest)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    // dF_i/dT at constant volume and amounts, F_i = F_n + F_B b_i + F_D D_i, in which T, D, B, b_i and D_i change.
    private double FirstByTemperature(int i, ReadOnlySpan<double> x, ReadOnlySpan<double> scratch, in Partial f, double attractionByT, double covolumeByT)
    {
        ReadOnlySpan<double> rootA = scratch[..count];
        ReadOnlySpan<double> rootAByT = scratch.Slice(count, count);
        double di = 2 * scratch[(3 * count) + i];

        // dD_i/dT = 2 sum_j x_j d(a_ij)/dT, with a_ij = s_i s_j (1 - k_ij).
        ReadOnlySpan<double> interaction = Interactions(scratch);
        double cross = hasInteractionSlopes ? PullOfSlopes(i, x, scratch) : 0;
        for (int j = 0; j < count; j++)
        {
            cross += x[j] * rootAByT[j] * interaction[(i * count) + j];
        }

        double diByT = (di * rootAByT[i] / rootA[i]) + (2 * rootA[i] * cross);
        double fiByT = ((f.FBT + (f.FBD * attractionByT) + (f.FBB * covolumeByT)) * Covolumes(scratch)[i])
            + ((f.FDT + (f.FBD * covolumeByT)) * di) + (f.FD * diByT) + (f.FnB * covolumeByT);
        return hasCovolumeFunction ? fiByT + (f.FB * scratch[(6 * count) + i]) : fiByT;
    }

    private double CriticalVolumeOverCovolume => form.CriticalCompressibility / form.OmegaB;

    private double LnRatio(double z, double b)
    {
        // ln((Z + d1 B)/(Z + d2 B)); the log1p form keeps its digits for dilute gas.
        double small = deltaDifference * b / (z + (form.Delta2 * b));
        return small < 1e-3 ? Log1PlusSmall(small) : Math.Log(1 + small);
    }

    private static double Log1PlusSmall(double x) =>
        x * (1 - (x * (0.5 - (x * ((1.0 / 3) - (x * (0.25 - (x * (0.2 - (x / 6))))))))));

    // Gibbs energy over R T of the liquid less that of the vapour.
    private double GibbsDifference(double liquid, double vapor, double a, double b)
    {
        double attraction = (liquid + (form.Delta1 * b)) * (vapor + (form.Delta2 * b)) / ((liquid + (form.Delta2 * b)) * (vapor + (form.Delta1 * b)));
        return liquid - vapor - Math.Log((liquid - b) / (vapor - b)) - (a / (b * deltaDifference) * Math.Log(attraction));
    }

    // Covolumes at the temperature of the scratch.
    private ReadOnlySpan<double> Covolumes(ReadOnlySpan<double> scratch) =>
        hasCovolumeFunction ? scratch.Slice(5 * count, count) : criticalCovolume;

    // 1 - k_ij at the temperature of the scratch.
    private ReadOnlySpan<double> Interactions(ReadOnlySpan<double> scratch) =>
        hasInteractionSlopes ? scratch.Slice(interactionStart, count * count) : oneMinusKij;

    private void SetInteractions(double temperature, Span<double> scratch)
    {
        double inverse = ReferenceTemperature / temperature;
        Span<double> values = scratch.Slice(interactionStart, count * count);
        Span<double> slopes = scratch.Slice(interactionStart + (count * count), count * count);
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = oneMinusKij[i] - (inverseCoefficients[i] * (inverse - 1));
            slopes[i] = inverseCoefficients[i] * inverse / temperature;
        }
    }

    // sum_j x_j s_j d(1 - k_ij)/dT
    private double PullOfSlopes(int i, ReadOnlySpan<double> x, ReadOnlySpan<double> scratch)
    {
        ReadOnlySpan<double> slopes = scratch.Slice(interactionStart + (count * count) + (i * count), count);
        double sum = 0;
        for (int j = 0; j < slopes.Length; j++)
        {
            sum += x[j] * scratch[j] * slopes[j];
        }

        return sum;
    }

    // sum_ij x_i f_i x_j s_j d(1 - k_ij)/dT
    private double SlopeOfInteractions(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch, ReadOnlySpan<double> factors)
    {
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            sum += x[i] * factors[i] * PullOfSlopes(i, x, scratch);
        }

        return sum;
    }

    // Where k + c (298.15 K/T - 1) reaches -1 or 1 on the cold and on the warm side of 298.15 K; the warm one may not exist.
    private static (double Coldest, double Warmest) InteractionRange(double k, double c)
    {
        double cold = 1 + ((1 - (Math.Sign(c) * k)) / Math.Abs(c));
        double warm = 1 - ((1 + (Math.Sign(c) * k)) / Math.Abs(c));
        return (ReferenceTemperature / cold, warm > 0 ? ReferenceTemperature / warm : double.PositiveInfinity);
    }

    private double CovolumeSlope(ReadOnlySpan<double> x, ReadOnlySpan<double> scratch)
    {
        if (!hasCovolumeFunction)
        {
            return 0;
        }

        double sum = 0;
        ReadOnlySpan<double> slopes = scratch.Slice(6 * count, count);
        for (int i = 0; i < slopes.Length; i++)
        {
            sum += x[i] * slopes[i];
        }

        return sum;
    }

    private void SetCovolumes(double temperature, Span<double> scratch)
    {
        for (int i = 0; i < count; i++)
        {
            double ratio = 1;
            double first = 0;
            double second = 0;
            if (components[i].Covolume is { } function)
            {
                ratio = function.Ratio(temperature, out first, out second);
            }

            double critical = criticalCovolume[i];
            scratch[(5 * count) + i] = critical * ratio;
            scratch[(6 * count) + i] = critical * first;
            scratch[(7 * count) + i] = critical * second;
        }
    }

    private double Attraction(ReadOnlySpan<double> x, Span<double> scratch, out double b)
    {
        // pull_i = sum_j x_j a_ij = s_i sum_j (x_j s_j)(1 - k_ij)
        ReadOnlySpan<double> rootA = scratch[..count];
        ReadOnlySpan<double> covolume = Covolumes(scratch);
        ReadOnlySpan<double> interaction = Interactions(scratch);
        Span<double> pull = scratch.Slice(3 * count, count);
        Span<double> weighted = scratch.Slice(4 * count, count);
        b = 0;
        for (int j = 0; j < weighted.Length; j++)
        {
            weighted[j] = x[j] * rootA[j];
            b += x[j] * covolume[j];
        }

        double total = 0;
        for (int i = 0; i < pull.Length; i++)
        {
            double sum = 0;
            ReadOnlySpan<double> row = interaction.Slice(i * count, count);
            for (int j = 0; j < row.Length; j++)
            {
                sum += weighted[j] * row[j];
            }

            pull[i] = sum * rootA[i];
            total += sum * weighted[i];
        }

        return total;
    }

    private Partial PartialDerivatives(double t, double v, double b, double d)
    {
        double first = v + (form.Delta1 * b);
        double second = v + (form.Delta2 * b);
        double gap = v - b;
        double g = -LnVolumeOverGap(b / v);
        double gV = b / (v * gap);
        double gB = -1 / gap;
        double gVV = (-1 / (gap * gap)) + (1 / (v * v));
        double gBV = 1 / (gap * gap);
        double gBB = -1 / (gap * gap);
        double small = deltaDifference * b / second;
        double lnRatio = small < 1e-3 ? Log1PlusSmall(small) : Math.Log(first / second);
        double f = lnRatio / (gasConstant * b * deltaDifference);
        double fV = -1 / (gasConstant * first * second);
        double fVV = (first + second) / (gasConstant * first * first * second * second);
        double fB = -(f + (v * fV)) / b;
        double fBV = -((2 * fV) + (v * fVV)) / b;
        double fBB = -((2 * fB) + (v * fBV)) / b;
        return new(
            F: -g - (d * f / t),
            Fn: -g,
            FV: -gV - (d * fV / t),
            FT: d * f / (t * t),
            FB: -gB - (d * fB / t),
            FD: -f / t,
            FnV: -gV,
            FnB: -gB,
            FTT: -2 * d * f / (t * t * t),
            FBT: d * fB / (t * t),
            FDT: f / (t * t),
            FBV: -gBV - (d * fBV / t),
            FBB: -gBB - (d * fBB / t),
            FDV: -fV / t,
            FBD: -fB / t,
            FTV: d * fV / (t * t),
            FVV: -gVV - (d * fVV / t));
    }

    /// <summary>-ln(1 - y), with its digits kept for small y.</summary>
    private static double LnVolumeOverGap(double y) => y < 1e-3 ? -Log1PlusSmall(-y) : -Math.Log(1 - y);

    private readonly record struct Partial(
        double F,
        double Fn,
        double FV,
        double FT,
        double FB,
        double FD,
        double FnV,
        double FnB,
        double FTT,
        double FBT,
        double FDT,
        double FBV,
        double FBB,
        double FDV,
        double FBD,
        double FTV,
        double FVV);
}
