using CryoThermo.Coolers.Rating;
using CryoThermo.Diagnostics;
using CryoThermo.Flow;
using CryoThermo.HeatTransfer;
using CryoThermo.Insulation;
using CryoThermo.Machines;
using CryoThermo.Materials;
using UnitsNet;

namespace CryoThermo.Tests.Coolers.Rating;

/// <summary>Coolers of the demo's kind, rated once for all tests. Invented machines.</summary>
public sealed class RatedCoolers
{
    private readonly Lazy<CoolerRating> plain = new(() => Plain.Rate(Charge(1.0), Room, Power.FromWatts(10)));
    private readonly Lazy<CoolerRating> homogeneous = new(() => (Plain with { HoldUp = HoldUpModel.Homogeneous }).Rate(Charge(1.0), Room, Power.FromWatts(10)));
    private readonly Lazy<CoolerState> plainAt150 = new(() => At150(Plain));
    private readonly Lazy<CoolerState> preCooledAt150 = new(() => At150(Plain with { PreCooling = PreCooling.To(Temperature.FromKelvins(268)) }));
    private readonly Lazy<CoolerRating> tubes = new(() => OfTubes.Rate(Charge(0.8), Room, Power.FromWatts(5)));

    /// <summary>The room.</summary>
    public static Temperature Room { get; } = Temperature.FromDegreesCelsius(20);

    /// <summary>The blend of the demo.</summary>
    public static WorkingFluid Blend { get; } = WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.22), ("isobutane", 0.10)).WithModel(FluidModel.PengRobinson);

    /// <summary>A blend without nitrogen, whose cold states have one liquid.</summary>
    public static WorkingFluid MethaneBlend { get; } = WorkingFluid.Mixture(("methane", 0.36), ("ethane", 0.24), ("propane", 0.24), ("isobutane", 0.16)).WithModel(FluidModel.PengRobinson);

    /// <summary>A charge of it.</summary>
    public static CoolerCharge MethaneCharge { get; } = new(MethaneBlend, AmountOfSubstance.FromMoles(1.0));

    /// <summary>Spaces of the demo's kind.</summary>
    public static IReadOnlyList<CoolerSpace> Spaces { get; } =
    [
        new("shell and buffer", Volume.FromLiters(3), SpacePlace.Suction),
        new("discharge line", Volume.FromLiters(0.1), SpacePlace.Discharge),
        new("after-cooler and drier", Volume.FromLiters(0.15), SpacePlace.WarmHighSide),
        new("line before the valve", Volume.FromLiters(0.01), SpacePlace.ThrottleInlet),
        new("cold head", Volume.FromLiters(0.05), SpacePlace.ColdHead),
    ];

    /// <summary>A leak of 4 W.</summary>
    public static HeatLeakItem Leak { get; } = HeatLeakItem.Known("box", new(Power.FromWatts(4), Power.FromWatts(3), Power.FromWatts(6)), Source.CommonPractice);

    /// <summary>By conductance, with a valve.</summary>
    public static Cooler Plain { get; } = new(
        new Compressor(VolumeFlow.FromCubicMetersPerSecond(12e-6 * 2900 / 60), 0.60, 0.75, 0.6),
        AfterCooling.WithApproach(TemperatureDelta.FromKelvins(4)),
        CoolerRecuperator.OfConductance(40, Volume.FromLiters(0.15), Volume.FromLiters(0.35), Pressure.FromBars(0.2), Pressure.FromBars(0.1)),
        new ControlValve(0.004, ValveStyle.Needle),
        Spaces,
        [Leak]);

    /// <summary>By its tubes, with a capillary and a compressor with clearance.</summary>
    public static Cooler OfTubes { get; } = new(
        new Compressor(VolumeFlow.FromCubicMetersPerSecond(12e-6 * 2900 / 60), new CylinderFilling(0.02, 0.02, 0.92), new([(2, 0.62), (6, 0.60), (12, 0.5)]), 0.5),
        AfterCooling.WithApproach(TemperatureDelta.FromKelvins(4), Pressure.FromBars(0.05)),
        CoolerRecuperator.OfTubes(TubeRecuperator.TubesInTube(
            Length.FromMeters(10),
            new TubeWall(SolidMaterial.Named("phosphorus-deoxidised copper"), Length.FromMillimeters(6), Length.FromMillimeters(0.8)),
            new TubeWall(SolidMaterial.Named("phosphorus-deoxidised copper"), Length.FromMillimeters(12.7), Length.FromMillimeters(0.8)),
            coilDiameter: Length.FromMillimeters(250))),
        new Capillary(Length.FromMillimeters(0.8), Length.FromMeters(1.5)),
        Spaces,
        [Leak]);

    /// <summary>By conductance, with a valve.</summary>
    public CoolerRating PlainRating => plain.Value;

    /// <summary>The same with the least liquid that can be held.</summary>
    public CoolerRating HomogeneousRating => homogeneous.Value;

    /// <summary>By conductance, with a valve, the cold head at 150 K.</summary>
    public CoolerState PlainAt150 => plainAt150.Value;

    /// <summary>The same pre-cooled to 268 K.</summary>
    public CoolerState PreCooledAt150 => preCooledAt150.Value;

    /// <summary>By its tubes, with a capillary.</summary>
    public CoolerRating TubeRating => tubes.Value;

    /// <summary>A charge of the blend.</summary>
    public static CoolerCharge Charge(double moles) => new(Blend, AmountOfSubstance.FromMoles(moles));

    /// <summary>A cooler with its cold head at 150 K, whatever load that takes.</summary>
    internal static CoolerState At150(Cooler cooler)
    {
        CoolerPoint point = new CoolerRater(cooler, Charge(1.0), Room).PointAt(150, 2e-5);
        CoolerSolver solver = new(cooler, Charge(1.0), Room);
        return new(cooler, solver, solver.Polish(point, null, 1e-10), Room.Kelvins, true);
    }
}
