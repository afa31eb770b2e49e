using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.Safety;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>A pre-cooler in its steady state. Immutable and thread-safe.</summary>
public sealed class PreCoolerResult
{
    private const int Steps = 24;

    internal PreCoolerResult(
        State streamInlet,
        State streamOutlet,
        MolarFlow streamFlow,
        CompressorResult compression,
        AmbientCoolerResult condensing,
        State afterThrottle,
        RecuperatorResult evaporator,
        double shellSurroundings)
    {
        StreamInlet = streamInlet;
        StreamOutlet = streamOutlet;
        StreamFlow = streamFlow;
        Compression = compression;
        Condensing = condensing;
        AfterThrottle = afterThrottle;
        Evaporator = evaporator;
        double refrigerant = compression.MolarFlow.MolesPerSecond;
        CompressorEntropyProductionPerSecond = Entropy.FromJoulesPerKelvin(
            (refrigerant * (compression.Discharge.MolarEntropy - compression.Suction.MolarEntropy).JoulesPerMoleKelvin) + ((double)compression.ShellHeat.Watts / shellSurroundings));
        ThrottleEntropyProductionPerSecond = Entropy.FromJoulesPerKelvin(
            refrigerant * (afterThrottle.MolarEntropy - condensing.Outlet.MolarEntropy).JoulesPerMoleKelvin);
        EvaporatorEntropyProductionPerSecond = Entropy.FromJoulesPerKelvin(
            (refrigerant * (compression.Suction.MolarEntropy - afterThrottle.MolarEntropy).JoulesPerMoleKelvin)
            + (streamFlow.MolesPerSecond * (streamOutlet.MolarEntropy - streamInlet.MolarEntropy).JoulesPerMoleKelvin));
    }

    /// <summary>The stream before the evaporator.</summary>
    public State StreamInlet { get; }

    /// <summary>The stream behind it.</summary>
    public State StreamOutlet { get; }

    /// <summary>Flow of the stream.</summary>
    public MolarFlow StreamFlow { get; }

    /// <summary>The compressor: suction, discharge, flow of refrigerant, power.</summary>
    public CompressorResult Compression { get; }

    /// <summary>The condenser; its outlet is the liquid before the throttle.</summary>
    public AmbientCoolerResult Condensing { get; }

    /// <summary>Refrigerant behind the throttle.</summary>
    public State AfterThrottle { get; }

    /// <summary>The evaporator: duty, the conductance used (less than it has where the streams touch and more does not count), where its pinch is, temperatures along it.</summary>
    public RecuperatorResult Evaporator { get; }

    /// <summary>Heat taken from the stream.</summary>
    public Power Duty => Evaporator.Duty;

    /// <summary>Absolute pressure in the evaporator.</summary>
    public Pressure EvaporatingPressure => Compression.Suction.Pressure;

    /// <summary>Absolute pressure in the condenser.</summary>
    public Pressure CondensingPressure => Condensing.Outlet.Pressure;

    /// <summary>What to mind of the refrigerant's circuit at one standard atmosphere outside, the gravest first; the stream's own circuit has its own.</summary>
    public IReadOnlyList<Caution> Cautions => CautionRules.Assess(new Circuit
    {
        Contents = [.. Compression.Suction.Fluid.Composition.Components.Select((c, i) => new SubstanceShare(c.Name, Compression.Suction.Fluid.Composition.MoleFractions[i]))],
        LowPressure = EvaporatingPressure,
        HighPressure = Compression.Discharge.Pressure,
        LocalAtmosphere = Pressure.FromPascals(101325),
        ColdestSurface = AfterThrottle.Temperature,
        DischargeTemperature = Compression.Discharge.Temperature,
    });

    /// <summary>Heat taken from the stream over the compressor's power.</summary>
    public double CoefficientOfPerformance => (double)(Duty.Watts / Compression.Power.Watts);

    /// <summary>Entropy produced each second in the compressor; the shell gives its heat to the medium's temperature.</summary>
    public Entropy CompressorEntropyProductionPerSecond { get; }

    /// <summary>Entropy produced each second in the throttle.</summary>
    public Entropy ThrottleEntropyProductionPerSecond { get; }

    /// <summary>Entropy produced each second in the evaporator, both streams.</summary>
    public Entropy EvaporatorEntropyProductionPerSecond { get; }

    /// <summary>Refrigerant in the running machine.</summary>
    /// <param name="volumes">Inner volumes of the parts.</param>
    /// <remarks>
    /// Along condenser and evaporator each bit of heat takes a share of the volume that goes with its temperature difference; both phases by the void fraction of Zivi
    /// (<see cref="VoidFraction"/>).
    /// </remarks>
    public PreCoolerCharge Charge(PreCoolerVolumes volumes)
    {
        ArgumentNullException.ThrowIfNull(volumes);
        double[] condenser = Contents(
            Condensing.Outlet.Pressure, Compression.Discharge.MolarEnthalpy.JoulesPerMole, Condensing.Outlet.MolarEnthalpy.JoulesPerMole, (_, t) => t - Condensing.MediumInlet.Kelvins);
        double[] evaporator = Contents(
            EvaporatingPressure, Compression.Suction.MolarEnthalpy.JoulesPerMole, AfterThrottle.MolarEnthalpy.JoulesPerMole, (share, t) => StreamAt(1 - share) - t);
        double liquid = volumes.LiquidLine.CubicMeters * Condensing.Outlet.Density.KilogramsPerCubicMeter;
        double vapor = (volumes.SuctionSide.CubicMeters * Compression.Suction.Density.KilogramsPerCubicMeter)
            + (volumes.DischargeSide.CubicMeters * Compression.Discharge.Density.KilogramsPerCubicMeter);
        double[] total = [.. Enumerable.Range(0, 3).Select(i => (volumes.Condenser.CubicMeters * condenser[i]) + (volumes.Evaporator.CubicMeters * evaporator[i]) + liquid + vapor)];
        return new(
            Mass.FromKilograms(volumes.Condenser.CubicMeters * condenser[1]),
            Mass.FromKilograms(liquid),
            Mass.FromKilograms(volumes.Evaporator.CubicMeters * evaporator[1]),
            Mass.FromKilograms(vapor),
            new(Mass.FromKilograms(total[1]), Mass.FromKilograms(total[0]), Mass.FromKilograms(total[2])));
    }

    /// <summary>The steady state as a table for notebooks and reports.</summary>
    public ResultTable ToTable() => new(
        $"Pre-cooler with {Compression.Suction.Fluid.Composition}",
        ["figure", "value"],
        [
            ["stream, in and out, K", $"{StreamInlet.Temperature.Kelvins:F2} to {StreamOutlet.Temperature.Kelvins:F2}"],
            ["heat taken from the stream, W", $"{Duty.Watts:F2}"],
            ["evaporating, bar absolute", $"{EvaporatingPressure.Bars:F4}"],
            ["condensing, bar absolute", $"{CondensingPressure.Bars:F4}"],
            ["refrigerant, g/s", $"{Compression.MassFlow.GramsPerSecond:F4}"],
            ["suction, K", $"{Compression.Suction.Temperature.Kelvins:F2}"],
            ["discharge, K", $"{Compression.Discharge.Temperature.Kelvins:F2}"],
            ["power, W", $"{Compression.Power.Watts:F2}"],
            ["heat over power", $"{CoefficientOfPerformance:F3}"],
            ["heat of the condenser, W", $"{Condensing.Duty.Watts:F2}"],
            ["least difference in the evaporator, K", $"{Evaporator.Pinch.Approach.Kelvins:F2} ({Evaporator.Pinch.Location})"],
        ]);

    /// <summary>Temperature of the stream at a share of the duty from the warm end.</summary>
    private double StreamAt(double shareFromColdEnd)
    {
        double target = shareFromColdEnd * (double)Duty.Watts;
        IReadOnlyList<RecuperatorPoint> points = Evaporator.Profile;
        int i = 1;
        while (i < points.Count - 1 && (double)points[i].DutyFromColdEnd.Watts < target)
        {
            i++;
        }

        double from = (double)points[i - 1].DutyFromColdEnd.Watts;
        double to = (double)points[i].DutyFromColdEnd.Watts;
        double share = to > from ? Math.Clamp((target - from) / (to - from), 0, 1) : 0;
        return points[i - 1].Hot.Kelvins + (share * (points[i].Hot.Kelvins - points[i - 1].Hot.Kelvins));
    }

    /// <summary>Mean density in kg/m3 without slip, with the slip of Zivi, and with twice its liquid, from the vapour end to the liquid end.</summary>
    private double[] Contents(Pressure pressure, double vaporEnd, double liquidEnd, Func<double, double, double> difference)
    {
        double[] sums = new double[3];
        double weights = 0;
        for (int i = 0; i < Steps; i++)
        {
            double share = (i + 0.5) / Steps;
            State state = Compression.Suction.Fluid.AtEnthalpy(pressure, MolarEnergy.FromJoulesPerMole(vaporEnd + (share * (liquidEnd - vaporEnd))));
            double weight = 1 / Math.Max(1e-3, difference(share, state.Temperature.Kelvins));
            double[] densities = Densities(state);
            for (int k = 0; k < 3; k++)
            {
                sums[k] += weight * densities[k];
            }

            weights += weight;
        }

        return [.. sums.Select(s => s / weights)];
    }

    private static double[] Densities(State state)
    {
        double whole = state.Density.KilogramsPerCubicMeter;
        double quality = state.VaporMassFraction;
        if (quality is <= 0 or >= 1)
        {
            return [whole, whole, whole];
        }

        double vapor = state.Phases.Single(p => p.Kind == PhaseKind.Vapor).Density.KilogramsPerCubicMeter;
        double liquid = (1 - quality) / ((1 / whole) - (quality / vapor));
        double wet = 1 - VoidFraction.Zivi(quality, Math.Min(1, vapor / liquid));
        double wetter = Math.Min(1, 2 * wet);
        return [whole, (wet * liquid) + ((1 - wet) * vapor), (wetter * liquid) + ((1 - wetter) * vapor)];
    }
}
