using CryoThermo.EquationsOfState;

namespace CryoThermo.Equilibrium.Solids;

/// <summary>Mole fraction of a component in a liquid that is in equilibrium with its pure solid.</summary>
internal static class SolidSolubility
{
    private const double Step = 0.25;
    private const double Tolerance = 1e-12;

    /// <summary>
    /// The smallest mole fraction at which liquid and solid fugacity are equal; false when there is none up to the pure component, which is
    /// then liquid itself. The liquid root is forced, also where the liquid would boil or split.
    /// </summary>
    /// <param name="solids">The solids.</param>
    /// <param name="component">The component that freezes.</param>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <param name="solvent">Mole fractions of the solvent, zero for the component.</param>
    /// <param name="x">Receives the composition of the solution.</param>
    /// <param name="isLiquid">Whether the density root of the solution is liquid-like.</param>
    public static bool TrySolve(
        SolidMixture solids, int component, double temperature, double pressure, ReadOnlySpan<double> solvent, Span<double> x, out bool isLiquid)
    {
        MixtureKernel equation = solids.Fluid.Equation;
        double[] scratch = new double[equation.ScratchLength];
        double[] composition = solvent.ToArray();
        double[] lnPhi = new double[composition.Length];
        double[] pure = solvent.ToArray();
        equation.SetTemperature(temperature, scratch);
        double target = solids[component]!.LnFugacity(temperature, pressure) - Math.Log(pressure);
        DensityRoot found = DensityRoot.Liquid;
        double start = Miss(double.NegativeInfinity);
        double low = Math.Min(-start - 3, -1e-3);
        double atLow = Miss(low);
        for (int step = 0; atLow > 0 && step < 200; step++)
        {
            low -= Math.Max(1, atLow);
            atLow = Miss(low);
        }

        while (true)
        {
            double high = Math.Min(low + Step, 0);
            double atHigh = Miss(high);
            if (atHigh >= 0)
            {
                Refine(low, atLow, high, atHigh);
                composition.CopyTo(x);
                isLiquid = found == DensityRoot.Liquid;
                return true;
            }

            if (high >= 0)
            {
                composition.CopyTo(x);
                isLiquid = found == DensityRoot.Liquid;
                return false;
            }

            low = high;
            atLow = atHigh;
        }

        double Miss(double lnFraction)
        {
            double fraction = Math.Exp(lnFraction);
            for (int i = 0; i < composition.Length; i++)
            {
                composition[i] = i == component ? fraction : pure[i] * (1 - fraction);
            }

            equation.LnFugacityCoefficients(temperature, pressure, composition, DensityRoot.Liquid, scratch, lnPhi, out found);
            return (fraction > 0 ? lnFraction : 0) + lnPhi[component] - target;
        }

        void Refine(double cold, double atCold, double warm, double atWarm)
        {
            int side = 0;
            for (int step = 0; step < 100 && warm - cold > Tolerance; step++)
            {
                double middle = step < 60 ? warm - ((warm - cold) * atWarm / (atWarm - atCold)) : 0.5 * (warm + cold);
                double value = Miss(middle);
                if (Math.Abs(value) < Tolerance)
                {
                    return;
                }

                if (value > 0)
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

            Miss(0.5 * (warm + cold));
        }
    }
}
