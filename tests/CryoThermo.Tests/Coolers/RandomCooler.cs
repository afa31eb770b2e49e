using System.Text.Json.Nodes;

namespace CryoThermo.Tests.Coolers;

/// <summary>Cooler files from a seed: plausible ones for balances, wild ones for the fuzz. Every one of them is valid.</summary>
internal static class RandomCooler
{
    private static readonly string[][] Ladder =
    [
        ["nitrogen", "argon"],
        ["methane", "tetrafluoromethane"],
        ["ethane", "ethylene"],
        ["propane", "propylene"],
        ["isobutane", "n-butane"],
        ["isopentane"],
    ];

    private static readonly string[] Anything =
    [
        "neon", "nitrogen", "argon", "oxygen", "methane", "krypton", "tetrafluoromethane", "ethylene", "ethane", "trifluoromethane",
        "hexafluoroethane", "xenon", "propane", "propylene", "octafluoropropane", "isobutane", "n-butane", "isopentane", "n-pentane", "hydrogen", "carbon dioxide",
    ];

    private static readonly string[] Feeds = ["nitrogen", "oxygen", "argon", "methane", "air", "hydrogen", "neon", "carbon dioxide", "water", "xenon"];

    /// <summary>Three to six components of the ladder of boiling points, and figures as small machines have them.</summary>
    public static JsonObject Plausible(int seed)
    {
        Random random = new(seed);
        int first = random.Next(2);
        int count = 3 + random.Next(4 - first);
        string[] blend = [.. Ladder.Skip(first).Take(count).Select(rung => rung[random.Next(rung.Length)])];
        double low = Between(random, 0.9, 3.5);
        double high = low * Between(random, 4, 12);
        double ambient = Between(random, 285, 303);
        double afterCooler = ambient + Between(random, 1, 10);
        JsonObject cooler = new()
        {
            ["title"] = $"cooler {seed}",
            ["atmosphere"] = new JsonObject { ["barometer"] = Absolute(1.0) },
            ["model"] = random.Next(2) == 0 ? "peng-robinson" : "soave-redlich-kwong",
            ["charge"] = Charge(random, blend),
            ["lowPressure"] = Absolute(low),
            ["highPressure"] = Absolute(high),
            ["ambientTemperature"] = Kelvins(ambient),
            ["afterCoolerOutletTemperature"] = Kelvins(afterCooler),
            ["compressor"] = new JsonObject
            {
                ["displacementPerRevolution"] = Value(Between(random, 5, 50), "cm3"),
                ["speed"] = Value(Between(random, 1400, 3500), "1/min"),
                ["isentropicEfficiency"] = Between(random, 0.4, 0.85),
                ["volumetricEfficiency"] = Between(random, 0.5, 0.95),
                ["shellHeatLossFraction"] = random.Next(3) == 0 ? 0 : Between(random, 0.05, 0.5),
            },
            ["recuperator"] = new JsonObject
            {
                ["conductance"] = Value(Logarithmic(random, 2, 500), "W/K"),
                ["lowSidePressureDrop"] = Drop(random.Next(3) == 0 ? 0 : Between(random, 0.01, 0.15) * low),
                ["highSidePressureDrop"] = Drop(random.Next(3) == 0 ? 0 : Between(random, 0.01, 0.1) * high),
            },
            ["heatLeak"] = Value(Between(random, 0, 6), "W"),
            ["load"] = new JsonObject { ["temperature"] = Kelvins(Between(random, 95, 190)), ["power"] = Value(Between(random, 0, 40), "W") },
        };
        if (random.Next(2) == 0)
        {
            cooler["preCoolerOutletTemperature"] = Kelvins(afterCooler - Between(random, 3, 50));
        }

        return cooler;
    }

    /// <summary>One to seven components of any kind, figures to the edge of sense and beyond it.</summary>
    public static JsonObject Wild(int seed)
    {
        Random random = new(seed);
        string[] blend = [.. Anything.OrderBy(_ => random.Next()).Take(1 + random.Next(7))];
        double low = Logarithmic(random, 0.05, 20);
        double high = low * (1 + Logarithmic(random, 0.02, 40));
        double afterCooler = Between(random, 250, 330);
        double warm = random.Next(3) == 0 ? afterCooler - Between(random, 0, 60) : afterCooler;
        double cold = Math.Min(Between(random, 16, 240), warm - Logarithmic(random, 0.5, 100));
        double drop = random.Next(2) == 0 ? 0 : Math.Min(90, Logarithmic(random, 1e-4, 0.45) * (high - low));
        JsonObject cooler = new()
        {
            ["title"] = $"wild cooler {seed}",
            ["atmosphere"] = new JsonObject { ["altitude"] = Value(Between(random, -100, 4000), "m") },
            ["model"] = random.Next(2) == 0 ? "peng-robinson" : "soave-redlich-kwong",
            ["charge"] = Charge(random, blend),
            ["lowPressure"] = Absolute(low),
            ["highPressure"] = Absolute(high),
            ["ambientTemperature"] = Kelvins(Between(random, 260, 320)),
            ["afterCoolerOutletTemperature"] = Kelvins(afterCooler),
            ["compressor"] = new JsonObject
            {
                ["sweptVolumeFlow"] = Value(Logarithmic(random, 0.01, 1000), "L/min"),
                ["isentropicEfficiency"] = Between(random, 0.2, 1),
                ["volumetricEfficiency"] = Between(random, 0.1, 1),
                ["shellHeatLossFraction"] = random.Next(2) == 0 ? 0 : Between(random, 0, 0.95),
            },
            ["recuperator"] = new JsonObject
            {
                ["conductance"] = Value(Logarithmic(random, 1e-3, 1e5), "W/K"),
                ["lowSidePressureDrop"] = Drop(drop),
                ["highSidePressureDrop"] = Drop(drop),
            },
            ["heatLeak"] = Value(random.Next(3) == 0 ? 0 : Logarithmic(random, 1e-3, 1e3), "W"),
            ["load"] = new JsonObject { ["temperature"] = Kelvins(cold), ["power"] = Value(random.Next(4) == 0 ? 0 : Logarithmic(random, 1e-3, 1e5), "W") },
        };
        if (warm < afterCooler)
        {
            cooler["preCoolerOutletTemperature"] = Kelvins(warm);
        }

        if (random.Next(2) == 0)
        {
            double lowest = Between(random, 15, warm - 0.2);
            cooler["coolingCurve"] = new JsonObject { ["lowest"] = Kelvins(lowest), ["highest"] = Kelvins(Between(random, lowest + 0.1, warm)) };
        }

        if (random.Next(2) == 0)
        {
            cooler["feeds"] = new JsonArray(
                [
                    .. Feeds.OrderBy(_ => random.Next()).Take(3).Select(JsonNode (name) => new JsonObject
                    {
                        ["name"] = name,
                        ["letDownPressure"] = Absolute(Logarithmic(random, 0.2, 5)),
                        ["condensingApproach"] = Value(Between(random, 0.5, 30), "K"),
                    }),
                ]);
        }

        return cooler;
    }

    private static JsonObject Charge(Random random, string[] blend)
    {
        double[] amounts = [.. blend.Select(_ => Between(random, 0.1, 1))];
        (string basis, double whole) = random.Next(4) switch
        {
            0 => ("mole percent", 100.0),
            1 => ("mass fraction", 1.0),
            2 => ("partial pressure", 3.7),
            _ => ("mole fraction", 1.0),
        };
        double sum = amounts.Sum();
        JsonObject components = [];
        for (int i = 0; i < blend.Length; i++)
        {
            components[blend[i]] = amounts[i] * whole / sum;
        }

        return new JsonObject { ["basis"] = basis, ["components"] = components };
    }

    private static double Between(Random random, double from, double to) => from + ((to - from) * random.NextDouble());

    private static double Logarithmic(Random random, double from, double to) => from * Math.Pow(to / from, random.NextDouble());

    private static JsonObject Value(double value, string unit) => new() { ["value"] = value, ["unit"] = unit };

    private static JsonObject Kelvins(double value) => Value(value, "K");

    private static JsonObject Absolute(double bar) => new() { ["value"] = bar, ["unit"] = "bar", ["reference"] = "absolute" };

    private static JsonObject Drop(double bar) => new() { ["value"] = bar, ["unit"] = "bar", ["reference"] = "difference" };
}
