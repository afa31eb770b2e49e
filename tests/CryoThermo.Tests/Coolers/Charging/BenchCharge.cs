using CryoThermo.Coolers.Charging;
using UnitsNet;

namespace CryoThermo.Tests.Coolers.Charging;

/// <summary>The bench cooler while it is charged: a warm compressor shell, an after-cooler, a recuperator and a buffer.</summary>
internal static class BenchCharge
{
    public static readonly Pressure Atmosphere = Pressure.FromPascals(101325);

    public static readonly IReadOnlyList<MachineVolume> Machine =
    [
        new("compressor shell", Volume.FromLiters(1.8), Temperature.FromDegreesCelsius(35)),
        new("after-cooler", Volume.FromLiters(0.25), Temperature.FromDegreesCelsius(24)),
        new("recuperator", Volume.FromLiters(0.6), Temperature.FromDegreesCelsius(22)),
        new("buffer", Volume.FromLiters(4), Temperature.FromDegreesCelsius(22)),
    ];

    public static readonly WorkingFluid Blend =
        WorkingFluid.Mixture(("nitrogen", 0.14), ("methane", 0.30), ("ethane", 0.24), ("propane", 0.14), ("isobutane", 0.18));

    public static readonly IReadOnlyList<GasBottle> Bottles =
    [
        GasBottle.Liquefied("isobutane", Temperature.FromDegreesCelsius(22), Mass.FromKilograms(9.4)),
        GasBottle.Liquefied("propane", Temperature.FromDegreesCelsius(22), Mass.FromKilograms(11.2)),
        GasBottle.Liquefied("ethane", Temperature.FromDegreesCelsius(22)),
        GasBottle.Compressed("methane", Temperature.FromDegreesCelsius(22), Pressure.FromBars(120), Volume.FromLiters(10)),
        GasBottle.Compressed("nitrogen", Temperature.FromDegreesCelsius(22), Pressure.FromBars(150), Volume.FromLiters(10)),
    ];

    public static ChargeRequest Request(double bars = 6, ResidualContents? residual = null) => new()
    {
        Wanted = Blend,
        Volumes = Machine,
        LocalAtmosphere = Atmosphere,
        FinalPressure = Pressure.FromBars(bars),
        Residual = residual,
        Bottles = Bottles,
        AllowedPressure = Pressure.FromBars(25),
    };

    /// <summary>Volume of each space, m3, with its temperature, K.</summary>
    public static IEnumerable<(double Volume, double Kelvins)> Spaces(IReadOnlyList<MachineVolume> machine) =>
        machine.Select(v => (v.Volume.CubicMeters, v.Temperature.Kelvins));
}
