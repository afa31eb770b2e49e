using CryoThermo.Design;
using UnitsNet;

namespace CryoThermo.Checks.Blends;

/// <summary>A composition from a publication with temperatures and pressures to judge it by.</summary>
/// <param name="Name">Short name.</param>
/// <param name="Parts">Substances and mole fractions.</param>
/// <param name="ColdKelvins">Cold temperature, K.</param>
/// <param name="WarmKelvins">Warm end, K.</param>
/// <param name="LowBars">Low pressure, bar absolute.</param>
/// <param name="HighBars">High pressure, bar absolute.</param>
/// <param name="Source">Where it comes from and what of it is assumed.</param>
public sealed record PublishedBlend(
    string Name, (string Substance, double MoleFraction)[] Parts, double ColdKelvins, double WarmKelvins, double LowBars, double HighBars, string Source)
{
    /// <summary>All compositions at hand.</summary>
    public static IReadOnlyList<PublishedBlend> All { get; } =
    [
        new(
            "methane, ethane, isobutane at 150 K",
            [("methane", 0.39), ("ethane", 0.20), ("isobutane", 0.41)],
            150,
            295,
            1.3,
            9.4,
            "Derking et al., Cryogenics 57 (2013) 26, abstract; warm end not stated there, 295 K assumed"),
        new(
            "nitrogen and three alkanes at 80 K",
            [("nitrogen", 0.30), ("methane", 0.30), ("ethane", 0.20), ("propane", 0.20)],
            80,
            295,
            1,
            50,
            "British patent 1,336,892 (1973), composition from memory"),
        new(
            "five alkanes at 200 K, pressure ratio 4",
            [("methane", 0.08), ("ethane", 0.46), ("propane", 0.14), ("n-butane", 0.06), ("n-pentane", 0.26)],
            200,
            295,
            1,
            4,
            "Lewis, Lee, Radebaugh and others, papers of 2010 to 2012, composition from memory, low confidence"),
        new(
            "liquefier refrigerant, judged at 120 K",
            [("nitrogen", 0.064), ("methane", 0.333), ("ethane", 0.353), ("n-butane", 0.25)],
            120,
            303,
            4.445,
            22,
            "Jensen, Skogestad, ADCHEM (2006), from memory; made for a load along the exchanger, not for one at the cold end"),
        new(
            "argon with oxygen at 88 K",
            [("argon", 0.8), ("oxygen", 0.2)],
            88,
            300,
            1.01325,
            300,
            "Int. J. Refrigeration 60 (2015) 54, abstract; chosen there for its freezing, which is not asked for here"),
        new(
            "R-14, R-23, R-218 at 170 K, pre-cooled",
            [("R-14", 0.7), ("R-23", 0.1), ("R-218", 0.2)],
            170,
            240,
            3,
            20,
            "14th IEA Heat Pump Conference (2023), presentation 86, abstract; pressures assumed"),
        new(
            "butane, propane, R-23, R-116, R-14 at 173 K",
            [("n-butane", 0.2411), ("propane", 0.3178), ("R-23", 0.1601), ("R-116", 0.1218), ("R-14", 0.1592)],
            173,
            300,
            1.5,
            18,
            "US patent 10,005,939, a composition inside its claim 1; pressures assumed"),
        new(
            "nitrogen and four alkanes at 150 K, pre-cooled (not published)",
            [("nitrogen", 0.30), ("methane", 0.25), ("ethane", 0.20), ("propane", 0.10), ("isobutane", 0.15)],
            150,
            280,
            1.5,
            15,
            "a benchmark of ours, not published"),
    ];

    /// <summary>The search problem of the same components, temperatures and pressures.</summary>
    public BlendProblem Problem => new()
    {
        Components = [.. Parts.Select(p => new BlendComponent(p.Substance))],
        ColdTemperature = Temperature.FromKelvins(ColdKelvins),
        WarmEnd = Temperature.FromKelvins(WarmKelvins),
        LeastLowPressure = Pressure.FromBars(LowBars),
        GreatestLowPressure = Pressure.FromBars(LowBars),
        LeastHighPressure = Pressure.FromBars(HighBars),
        GreatestHighPressure = Pressure.FromBars(HighBars),
    };

    /// <summary>The composition as published.</summary>
    public BlendCandidate Candidate => new([.. Parts.Select(p => p.MoleFraction)], Pressure.FromBars(LowBars), Pressure.FromBars(HighBars));
}
