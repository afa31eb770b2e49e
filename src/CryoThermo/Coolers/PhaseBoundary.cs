using CryoThermo.Equilibrium;

namespace CryoThermo.Coolers;

/// <summary>A bubble or dew point of an isobar, seen from a temperature.</summary>
/// <param name="Kind">Bubble or dew point.</param>
/// <param name="Temperature">Its temperature, K.</param>
/// <param name="Distance">Its temperature less the temperature it is seen from, K: positive when it lies above.</param>
internal readonly record struct PhaseBoundary(PhaseBoundaryKind Kind, double Temperature, double Distance)
{
    /// <summary>The bubble point of an isobar, K; null where it has none.</summary>
    public static double? Bubble(IsobarTable isobar) => Find(isobar, PhaseBoundaryKind.Bubble);

    /// <summary>The dew point of an isobar, K; null where it has none (above the critical region, or outside the table).</summary>
    public static double? Dew(IsobarTable isobar) => Find(isobar, PhaseBoundaryKind.Dew);

    /// <summary>The boundary nearest to a temperature; null where the isobar has none.</summary>
    public static PhaseBoundary? Nearest(IsobarTable isobar, double temperature)
    {
        PhaseBoundary? nearest = null;
        for (int i = 1; i < isobar.Regions.Length; i++)
        {
            if (KindAt(isobar, i) is { } kind)
            {
                double distance = isobar.NodeTemperatures[i] - temperature;
                if (nearest is null || Math.Abs(distance) < Math.Abs(nearest.Value.Distance))
                {
                    nearest = new PhaseBoundary(kind, isobar.NodeTemperatures[i], distance);
                }
            }
        }

        return nearest;
    }

    private static double? Find(IsobarTable isobar, PhaseBoundaryKind wanted)
    {
        // With retrograde behaviour there are several; the outermost one bounds the two-phase stretch.
        double? found = null;
        for (int i = 1; i < isobar.Regions.Length; i++)
        {
            if (KindAt(isobar, i) == wanted && (wanted == PhaseBoundaryKind.Dew || found is null))
            {
                found = isobar.NodeTemperatures[i];
            }
        }

        return found;
    }

    private static PhaseBoundaryKind? KindAt(IsobarTable isobar, int node)
    {
        bool boilingBelow = HasLiquidAndVapor(isobar.Regions[node - 1]);
        bool boilingAbove = HasLiquidAndVapor(isobar.Regions[node]);
        if (boilingBelow == boilingAbove)
        {
            return null;
        }

        PhaseRegion single = boilingBelow ? isobar.Regions[node] : isobar.Regions[node - 1];
        return single == PhaseRegion.Vapor ? PhaseBoundaryKind.Dew : PhaseBoundaryKind.Bubble;
    }

    private static bool HasLiquidAndVapor(PhaseRegion region)
        => region is PhaseRegion.LiquidVapor or PhaseRegion.TwoLiquidsVapor or PhaseRegion.ConstantTemperatureBoiling or PhaseRegion.ConstantTemperatureThreePhases;
}
