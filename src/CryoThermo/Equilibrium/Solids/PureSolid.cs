using CryoThermo.EquationsOfState;
using CryoThermo.Substances;

namespace CryoThermo.Equilibrium.Solids;

/// <summary>
/// Fugacity of the pure solid of one component of a mixture kernel. Down to <see cref="JoinTemperature"/> it is that of the subcooled liquid
/// of the same equation of state times <see cref="FusionRatio"/>, so that errors of the equation in the liquid cancel as far as they can.
/// Colder, where the liquid of an equation is extrapolated too far or does not exist, it goes on from there along the published sublimation
/// lines of the substance, and where those end with the enthalpy of sublimation kept constant but for transitions. Immutable and thread-safe.
/// </summary>
internal sealed class PureSolid
{
    /// <summary>
    /// Liquid equations are extrapolated down to this share of the triple temperature: ratios from vapour pressures and from calorimetry
    /// drift apart by 3 % and more below it (nitrogen, methane, ethane; computed here when the data were collected).
    /// </summary>
    public const double LiquidFollowedTo = 0.75;

    // Enthalpies of sublimation change by some percent between there and the triple point. Where the equation of the liquid makes one change by
    // more than this share, it has lost its way (the short equation of neon at 0.9 of the triple temperature). Common practice, no source.
    private const double LargestChange = 0.2;
    private const double SearchStep = 0.025;

    // Step of the numerical slope of ln fugacity, relative.
    private const double SlopeStep = 1e-3;

    // Pressure at which slopes are taken, Pa: low enough for no pressure term.
    private const double SlopePressure = 1;

    private readonly MixtureKernel liquid;
    private readonly double[] fractions;
    private readonly int index;
    private readonly double pressureFactor;
    private readonly SaturationCurve[] lines;
    private readonly Lazy<double> join;
    private readonly Lazy<double> joinEnthalpy;
    private readonly Lazy<double> volume;

    /// <summary>Takes the component's kernel.</summary>
    /// <param name="mixture">The equation of state of the mixture.</param>
    /// <param name="component">Which component.</param>
    /// <param name="substance">Its substance, with solid figures.</param>
    public PureSolid(MixtureKernel mixture, int component, Substance substance)
    {
        Properties = substance.Solid!;
        MixtureKernel? alone = mixture.PureKernel(component);
        liquid = alone ?? mixture;
        index = alone is null ? component : 0;
        fractions = new double[liquid.ComponentCount];
        fractions[index] = 1;
        pressureFactor = alone is null ? 1 : alone.GasConstant / mixture.GasConstant;
        join = new(FindJoin);
        lines =
        [
            .. Properties.SublimationPressures
                .Concat(substance.Equations.Select(e => e.SublimationPressure).OfType<SaturationCurve>())
                .OrderBy(line => line.LowestTemperature),
        ];
        joinEnthalpy = new(EnthalpyAtJoin);
        volume = new(VolumeAtJoin);
    }

    /// <summary>Figures of the solid.</summary>
    public SolidProperties Properties { get; }

    /// <summary>Down to here the liquid of the equation of state is followed, K.</summary>
    public double JoinTemperature => join.Value;

    /// <summary>Molar volume of the solid, m3/mol: the known one, or that of the equation's cold liquid less the volume change.</summary>
    public double MolarVolume => volume.Value;

    /// <summary>Temperature that no mixture freezes this component above, K: its melting line at the pressure, with a margin.</summary>
    /// <param name="pressure">Pa.</param>
    public double Bound(double pressure) =>
        (Properties.TripleTemperature * (1 + (Math.Max(0, Properties.VolumeChange ?? 0) * pressure / Properties.FusionEnthalpy))) + 1.5;

    /// <summary>ln of the fugacity over 1 Pa.</summary>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is above what the equation of state reaches.</exception>
    public double LnFugacity(double temperature, double pressure)
    {
        if (temperature >= JoinTemperature)
        {
            return LnAboveJoin(temperature, pressure);
        }

        double rt = SubstanceReader.GasConstant * temperature;
        double atJoin = SubstanceReader.GasConstant * JoinTemperature;
        return LnAboveJoin(JoinTemperature, pressure) + LnBelowJoin(temperature) + (MolarVolume * pressure * ((1 / rt) - (1 / atJoin)));
    }

    /// <summary>
    /// ln of liquid over solid fugacity of the pure component: negative above its melting temperature. The volume change is taken as constant.
    /// </summary>
    /// <param name="temperature">K.</param>
    /// <param name="pressure">Pa.</param>
    public double LnLiquidOverSolid(double temperature, double pressure) => VolumeTerm(temperature, pressure) - FusionRatio.Ln(Properties, temperature);

    /// <summary>How the fugacity at a temperature is found, for a note; null where it is the ordinary route.</summary>
    /// <param name="temperature">K.</param>
    public string? BasisNote(double temperature)
    {
        if (temperature >= JoinTemperature)
        {
            return null;
        }

        double at = JoinTemperature;
        double end = JoinTemperature;
        while (LineFrom(at) is { } line)
        {
            end = Math.Max(temperature, line.LowestTemperature);
            if (end <= temperature)
            {
                return $"solid continued from {JoinTemperature:0.0} K along its published sublimation line: the liquid of the equation of state is not followed further down";
            }

            at = end;
        }

        return end < JoinTemperature
            ? $"solid continued from {JoinTemperature:0.0} K along its published sublimation line to {end:0.0} K, then with a constant enthalpy of sublimation"
            : $"solid continued from {JoinTemperature:0.0} K with a constant enthalpy of sublimation: no sublimation line is known there";
    }

    private double FindJoin()
    {
        double triple = Properties.TripleTemperature;
        double lowest = Math.Max(LiquidFollowedTo * triple, liquid.LowestTemperature);
        double found = Math.Max(triple, lowest);
        double reference = SublimationEnthalpy(found);
        while (found > lowest)
        {
            double next = Math.Max(found - (SearchStep * triple), lowest);
            double enthalpy = SublimationEnthalpy(next);
            foreach (SolidTransition transition in Properties.Transitions)
            {
                enthalpy -= transition.Temperature > next ? transition.Enthalpy : 0;
            }

            if (!(Math.Abs((enthalpy / reference) - 1) <= LargestChange))
            {
                break;
            }

            found = next;
        }

        return found;
    }

    // Where the liquid was left early, its slope is on the way to be wrong: the enthalpy of sublimation at the triple point is the better one.
    private double EnthalpyAtJoin()
    {
        double triple = Properties.TripleTemperature;
        if (JoinTemperature >= triple || JoinTemperature <= Math.Max(LiquidFollowedTo * triple, liquid.LowestTemperature))
        {
            return SublimationEnthalpy(JoinTemperature);
        }

        double enthalpy = SublimationEnthalpy(triple);
        foreach (SolidTransition transition in Properties.Transitions)
        {
            enthalpy += transition.Temperature > JoinTemperature ? transition.Enthalpy : 0;
        }

        return enthalpy;
    }

    private double VolumeTerm(double temperature, double pressure) =>
        (Properties.VolumeChange ?? 0) * (pressure - (Properties.TriplePressure ?? 0)) / (SubstanceReader.GasConstant * temperature);

    private double LnAboveJoin(double temperature, double pressure) =>
        LnLiquid(temperature, pressure, out _) + FusionRatio.Ln(Properties, temperature) - VolumeTerm(temperature, pressure);

    private double LnLiquid(double temperature, double pressure, out double density)
    {
        Span<double> scratch = stackalloc double[liquid.ScratchLength];
        Span<double> lnPhi = stackalloc double[fractions.Length];
        liquid.SetTemperature(temperature, scratch);
        density = liquid.LnFugacityCoefficients(temperature, pressure * pressureFactor, fractions, DensityRoot.Liquid, scratch, lnPhi, out _);
        return lnPhi[index] + Math.Log(pressure);
    }

    private double VolumeAtJoin()
    {
        if (Properties.MolarVolume is { } known)
        {
            return known;
        }

        LnLiquid(JoinTemperature, SlopePressure, out double density);
        return (1 / density) - (Properties.VolumeChange ?? 0);
    }

    private double LnBelowJoin(double temperature)
    {
        double at = JoinTemperature;
        double ln = 0;
        double enthalpy = joinEnthalpy.Value;
        while (at > temperature && LineFrom(at) is { } line)
        {
            double to = Math.Max(temperature, line.LowestTemperature);
            ln += Math.Log(line.At(to) / line.At(at));
            double step = SlopeStep * to;
            enthalpy = SubstanceReader.GasConstant * to * to * Math.Log(line.At(to + step) / line.At(to)) / step * (1 + SlopeStep);
            at = to;
        }

        foreach (SolidTransition transition in Properties.Transitions)
        {
            if (transition.Temperature < at && transition.Temperature > temperature)
            {
                ln -= enthalpy / SubstanceReader.GasConstant * ((1 / transition.Temperature) - (1 / at));
                at = transition.Temperature;
                enthalpy += transition.Enthalpy;
            }
        }

        return ln - (enthalpy / SubstanceReader.GasConstant * ((1 / temperature) - (1 / at)));
    }

    // The line that leads furthest down from a temperature within it.
    private SaturationCurve? LineFrom(double temperature)
    {
        foreach (SaturationCurve line in lines)
        {
            if (temperature <= line.HighestTemperature && temperature > line.LowestTemperature * (1 + (2 * SlopeStep)))
            {
                return line;
            }
        }

        return null;
    }

    private double SublimationEnthalpy(double temperature)
    {
        double step = SlopeStep * temperature;
        double warm = LnAboveJoin(temperature + step, SlopePressure);
        double cold = LnAboveJoin(temperature, SlopePressure);
        return SubstanceReader.GasConstant * temperature * (temperature + step) * (warm - cold) / step;
    }
}
