using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>
/// A compressor from its nameplate. Displacement times filling and the efficiency at the rating follow from capacity and power; how both change with pressure is taken
/// from its class, with a spread. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// At the rating itself nothing is left open but the tolerance of the nameplate. Away from it three things are: the clearance (least and greatest of the class), the
/// steepness of the efficiency (its tilt), and, for another fluid than that of the rating, 5 % of the filling and 10 % of the efficiency (judged here, no source: heat
/// taken up at the suction, leaks and valve losses differ). No set of published points of one machine was at hand to test the spread on.
/// </remarks>
public sealed class RatedCompressor
{
    private const double OtherFluidFilling = 0.05;
    private const double OtherFluidEfficiency = 0.10;

    private readonly Compressor[] fillings;
    private readonly PressureRatioCurve[] efficiencies;

    /// <summary>Solves for what the rating tells.</summary>
    /// <param name="rating">The nameplate.</param>
    /// <param name="kind">Kind of machine; it gives what the rating leaves open.</param>
    /// <param name="shellHeatLossFraction">Share of the power that leaves as heat through the shell, 0 to 0.95. It moves the discharge temperature, not flow and power.</param>
    /// <exception cref="ArgumentException">
    /// The refrigerant has no such condition, or capacity and power ask for more than a perfect machine gives, or the clearance gas would fill the cylinder.
    /// </exception>
    public RatedCompressor(CompressorRating rating, CompressorClass kind, double shellHeatLossFraction = 0)
    {
        ArgumentNullException.ThrowIfNull(rating);
        ArgumentNullException.ThrowIfNull(kind);
        (State suction, Pressure discharge, State liquid) = rating.Condition.Of(rating.Refrigerant);
        double effect = suction.MolarEnthalpy.JoulesPerMole - liquid.MolarEnthalpy.JoulesPerMole;
        double flow = (double)rating.Capacity.Watts / effect;
        double ratio = discharge.Pascals / suction.Pressure.Pascals;
        State isentropic = rating.Refrigerant.AtEntropy(discharge, suction.MolarEntropy);
        double ideal = flow * (isentropic.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole);
        double efficiency = ideal / (double)rating.Power.Watts;
        if (!(efficiency <= 1))
        {
            throw new ArgumentException(
                $"rating: {rating.Capacity.Watts:G5} W of cooling at {rating.Condition.Name} with {rating.Refrigerant.Composition} takes at least {ideal:G5} W; the power is {rating.Power.Watts:G5} W. Check refrigerant, condition and units.",
                nameof(rating));
        }

        Rating = rating;
        Kind = kind;
        SuctionAtRating = suction;
        LiquidAtRating = liquid;
        DischargePressureAtRating = discharge;
        EfficiencyAtRating = efficiency;
        efficiencies =
        [
            kind.Efficiency.Through(ratio, efficiency),
            kind.Efficiency.Through(ratio, efficiency, -kind.TiltSpread),
            kind.Efficiency.Through(ratio, efficiency, kind.TiltSpread),
        ];
        fillings = [.. ((double[])[kind.ClearanceFraction.Nominal, kind.ClearanceFraction.Least, kind.ClearanceFraction.Greatest]).Select(clearance =>
        {
            CylinderFilling filling = new(clearance, CompressorClass.Typical.Leak, CompressorClass.Typical.Heating);
            double swept = flow / (suction.MolarDensity.MolesPerCubicMeter * Compressor.Fill(filling, suction, discharge, out _, out _));
            return new Compressor(VolumeFlow.FromCubicMetersPerSecond(swept), filling, efficiencies[0], shellHeatLossFraction);
        })];
    }

    /// <summary>The nameplate.</summary>
    public CompressorRating Rating { get; }

    /// <summary>Kind of machine.</summary>
    public CompressorClass Kind { get; }

    /// <summary>State at the suction in the rating.</summary>
    public State SuctionAtRating { get; }

    /// <summary>State before the throttle in the rating.</summary>
    public State LiquidAtRating { get; }

    /// <summary>Absolute discharge pressure in the rating.</summary>
    public Pressure DischargePressureAtRating { get; }

    /// <summary>Isentropic work over electrical power in the rating.</summary>
    public double EfficiencyAtRating { get; }

    /// <summary>Whether the efficiency is within what the class lets expect; where not, look for a wrong refrigerant, condition or unit.</summary>
    public bool IsEfficiencyExpected
    {
        get
        {
            FigureBand<double> band = Kind.EfficiencyBand(DischargePressureAtRating.Pascals / SuctionAtRating.Pressure.Pascals);
            return EfficiencyAtRating >= band.Least && EfficiencyAtRating <= band.Greatest;
        }
    }

    /// <summary>With the nominal figures of the class: to build a cooler on.</summary>
    public Compressor Nominal => fillings[0];

    /// <summary>Displacement times speed: with the nominal clearance, and as the clearance leaves it open.</summary>
    public FigureBand<VolumeFlow> SweptVolumeFlow => new(
        fillings[0].SweptVolumeFlow,
        fillings.MinBy(f => f.SweptVolumeFlow.CubicMetersPerSecond)!.SweptVolumeFlow,
        fillings.MaxBy(f => f.SweptVolumeFlow.CubicMetersPerSecond)!.SweptVolumeFlow);

    /// <summary>Compresses from a suction state to a discharge pressure.</summary>
    /// <param name="suction">State at the suction port, of any fluid.</param>
    /// <param name="dischargePressure">Absolute, above the suction pressure.</param>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="Compressor.Compress"/>, with every clearance of the class.</exception>
    public CompressorEstimate Compress(State suction, Pressure dischargePressure)
    {
        ArgumentNullException.ThrowIfNull(suction);
        CompressorResult nominal = Nominal.Compress(suction, dischargePressure);
        double ratio = nominal.PressureRatio;
        bool isOther = !SameFluid(suction.Fluid);
        double tolerance = Rating.Tolerance;
        double flow = nominal.MassFlow.KilogramsPerSecond;
        double nominalFilled = Nominal.SweptVolumeFlow.CubicMetersPerSecond * nominal.VolumetricEfficiency;
        double least = 1;
        double greatest = 1;
        foreach (Compressor corner in fillings)
        {
            double filled = corner.SweptVolumeFlow.CubicMetersPerSecond * Compressor.Fill(corner.Filling, suction, dischargePressure, out _, out _) / nominalFilled;
            least = Math.Min(least, filled);
            greatest = Math.Max(greatest, filled);
        }

        least *= isOther ? 1 - OtherFluidFilling : 1;
        greatest *= isOther ? 1 + OtherFluidFilling : 1;
        double low = efficiencies.Min(e => e.At(ratio)) / efficiencies[0].At(ratio) * (isOther ? 1 - OtherFluidEfficiency : 1);
        double high = efficiencies.Max(e => e.At(ratio)) / efficiencies[0].At(ratio) * (isOther ? 1 + OtherFluidEfficiency : 1);

        // Flow follows the capacity of the nameplate, power its power; so the efficiency has both tolerances.
        double power = (double)nominal.Power.Watts;
        double mostEfficient = Math.Min(1 / nominal.IsentropicEfficiency, high * (1 + tolerance) / (1 - tolerance));
        double leastEfficient = low * (1 - tolerance) / (1 + tolerance);
        List<string> remarks = [];
        if (isOther)
        {
            remarks.Add($"The rating is for {Rating.Refrigerant.Composition}; another fluid adds {100 * OtherFluidFilling:F0} % to the spread of the flow and {100 * OtherFluidEfficiency:F0} % to that of the efficiency (judged here).");
        }

        if (nominal.IsEfficiencyExtrapolated)
        {
            remarks.Add($"A pressure ratio of {ratio:G3} lies beyond the class values ({Kind.Efficiency.Points[0].PressureRatio:G3} to {Kind.Efficiency.Points[^1].PressureRatio:G3}): the last of them stands.");
        }

        return new(
            nominal,
            new(nominal.MassFlow, MassFlow.FromKilogramsPerSecond(flow * least * (1 - tolerance)), MassFlow.FromKilogramsPerSecond(flow * greatest * (1 + tolerance))),
            new(nominal.Power, Power.FromWatts(power * least / high * (1 - tolerance)), Power.FromWatts(power * greatest / low * (1 + tolerance))),
            new(nominal.Discharge.Temperature, Discharge(mostEfficient), Discharge(leastEfficient)),
            remarks);

        Temperature Discharge(double share)
        {
            double kept = (nominal.Discharge.MolarEnthalpy.JoulesPerMole - suction.MolarEnthalpy.JoulesPerMole) / share;
            return Compressor.Discharge(suction, dischargePressure, suction.MolarEnthalpy.JoulesPerMole + kept, nominal.Discharge).Temperature;
        }
    }

    private bool SameFluid(WorkingFluid fluid)
    {
        Composition rated = Rating.Refrigerant.Composition;
        Composition other = fluid.Composition;
        return rated.Components.Count == other.Components.Count
            && rated.Components.Select(c => c.Name).SequenceEqual(other.Components.Select(c => c.Name))
            && rated.MoleFractions.Zip(other.MoleFractions, (a, b) => Math.Abs(a - b)).All(d => d < 0.01);
    }
}
