namespace CryoThermo.Equilibrium.Solids;

/// <summary>
/// Looks along an isobar, from warm to cold, for the temperatures at which components begin to freeze. A solid can dissolve again on further
/// cooling, when the fluid condenses: hence a scan, not one root.
/// </summary>
internal sealed class FreezeScan
{
    // Step of the scan, K: a component that freezes and dissolves again within it is missed.
    private const double Step = 1;
    private const double Tolerance = 1e-7;
    private const int MostSteps = 80;

    private readonly List<FreezeCrossing> crossings = [];

    private FreezeScan()
    {
    }

    /// <summary>All crossings found, from warm to cold.</summary>
    public IReadOnlyList<FreezeCrossing> Crossings => crossings;

    /// <summary>Lowest temperature reached, K: that of the model, or where it lost its fluid phases.</summary>
    public double LowestTemperature { get; private set; }

    /// <summary>Scans.</summary>
    /// <param name="solids">The solids.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="z">Composition of the fluid.</param>
    /// <param name="lnAmounts">ln of the amount of each component, traces included.</param>
    /// <param name="lowest">Where to end, K.</param>
    /// <param name="firstOnly">Whether to end at the first solid.</param>
    public static FreezeScan Along(SolidMixture solids, double pressure, double[] z, double[] lnAmounts, double lowest, bool firstOnly)
    {
        FreezeScan scan = new();
        int n = z.Length;
        double temperature = double.NegativeInfinity;
        for (int i = 0; i < n; i++)
        {
            if (solids[i] is { } solid && !double.IsNegativeInfinity(lnAmounts[i]))
            {
                temperature = Math.Max(temperature, solid.Bound(pressure));
            }
        }

        temperature = Math.Min(temperature, solids.Fluid.HighestTemperature);
        double end = Math.Max(Math.Max(lowest, solids.Fluid.LowestTemperature), solids.Fluid.Equation.LowestTemperatureAt(pressure));
        scan.LowestTemperature = Math.Max(end, double.IsNegativeInfinity(temperature) ? end : Math.Min(temperature, end));
        if (temperature <= end)
        {
            return scan;
        }

        double[] values = new double[n];
        double[] previous = new double[n];
        if (!TryAt(temperature, previous))
        {
            scan.LowestTemperature = temperature;
            return scan;
        }

        while (temperature > end)
        {
            double next = Math.Max(temperature - Step, end);
            if (!TryAt(next, values))
            {
                break;
            }

            for (int i = 0; i < n; i++)
            {
                if (values[i] > 0 != previous[i] > 0)
                {
                    scan.Refine(solids, pressure, z, lnAmounts, i, temperature, previous[i], next, values[i]);
                }
            }

            (values, previous) = (previous, values);
            temperature = next;
            if (firstOnly && scan.crossings.Count > 0)
            {
                break;
            }
        }

        scan.LowestTemperature = temperature;
        scan.crossings.Sort((a, b) => b.Temperature.CompareTo(a.Temperature));
        return scan;

        bool TryAt(double t, double[] into)
        {
            try
            {
                solids.LnSaturation(t, pressure, z, lnAmounts, into);
                return true;
            }
            catch (ArgumentOutOfRangeException)
            {
                // The equation has no fluid phase so cold.
                return false;
            }
        }
    }

    // Regula falsi with halved weights (Illinois); fugacities are continuous along an isobar.
    private void Refine(
        SolidMixture solids, double pressure, double[] z, double[] lnAmounts, int component, double warm, double atWarm, double cold, double atCold)
    {
        double[] values = new double[z.Length];
        bool freezes = atCold > 0;
        int side = 0;
        for (int step = 0; step < MostSteps && warm - cold > Tolerance; step++)
        {
            double middle = double.IsFinite(atWarm) && double.IsFinite(atCold) && step < 40
                ? warm - ((warm - cold) * atWarm / (atWarm - atCold))
                : 0.5 * (warm + cold);
            middle = Math.Clamp(middle, cold + (0.1 * Tolerance), warm - (0.1 * Tolerance));
            solids.LnSaturation(middle, pressure, z, lnAmounts, values);
            double value = values[component];
            if (Math.Abs(value) < 1e-11)
            {
                warm = middle;
                cold = middle;
                break;
            }

            if (value > 0 == atWarm > 0)
            {
                warm = middle;
                atWarm = value;
                atCold *= side > 0 ? 0.5 : 1;
                side = 1;
            }
            else
            {
                cold = middle;
                atCold = value;
                atWarm *= side < 0 ? 0.5 : 1;
                side = -1;
            }
        }

        double found = 0.5 * (warm + cold);
        crossings.Add(new(component, found, freezes, solids.Fluid.At(found, pressure, z)));
    }
}
