using System.Globalization;
using CryoThermo.Substances;
using UnitsNet;

namespace CryoThermo.Fitting;

/// <summary>Reads measurement files and holds the rules of their format (docs/formats/measurement-file.md).</summary>
internal sealed class MeasurementFileReader(string file, SubstanceCatalog catalog)
{
    private const string Liquid = "liquid_";
    private const string Vapor = "vapor_";
    private const string Overall = "overall_";

    /// <summary>Quantities by header, with the factor and offset to SI.</summary>
    private static readonly Dictionary<string, Quantity> Quantities = new(StringComparer.Ordinal)
    {
        ["temperature_K"] = new("temperature", 1, 0, 2, 2000),
        ["temperature_degC"] = new("temperature", 1, 273.15, 2, 2000),
        ["pressure_Pa"] = new("pressure", 1, 0, 1e-3, 1e9),
        ["pressure_kPa"] = new("pressure", 1e3, 0, 1e-3, 1e9),
        ["pressure_bar"] = new("pressure", 1e5, 0, 1e-3, 1e9),
        ["pressure_MPa"] = new("pressure", 1e6, 0, 1e-3, 1e9),
        ["density_kg_per_m3"] = new("density", 1, 0, 1e-6, 1e5),
        ["density_mol_per_m3"] = new("density_molar", 1, 0, 1e-6, 1e6),
        ["speed_of_sound_m_per_s"] = new("speed_of_sound", 1, 0, 1, 1e5),
        ["excess_gibbs_energy_J_per_mol"] = new("excess_gibbs_energy", 1, 0, -1e5, 1e5),
        ["pressure_uncertainty_percent"] = new("pressure_uncertainty", 0.01, 0, 1e-6, 1),
        ["temperature_uncertainty_K"] = new("temperature_uncertainty", 1, 0, 1e-4, 100),
        ["liquid_fraction_uncertainty"] = new("liquid_fraction_uncertainty", 1, 0, 0, 1),
        ["vapor_fraction_uncertainty"] = new("vapor_fraction_uncertainty", 1, 0, 1e-6, 1),
        ["density_uncertainty_percent"] = new("density_uncertainty", 0.01, 0, 1e-6, 1),
        ["speed_of_sound_uncertainty_percent"] = new("speed_of_sound_uncertainty", 0.01, 0, 1e-6, 1),
        ["excess_gibbs_energy_uncertainty_J_per_mol"] = new("excess_gibbs_energy_uncertainty", 1, 0, 1e-3, 1000),
    };

    private static readonly Dictionary<string, MeasurementKind> ComparedNames = new(StringComparer.Ordinal)
    {
        ["bubble pressure"] = MeasurementKind.BubblePressure,
        ["bubble temperature"] = MeasurementKind.BubbleTemperature,
        ["dew pressure"] = MeasurementKind.DewPressure,
        ["dew temperature"] = MeasurementKind.DewTemperature,
        ["vapor composition"] = MeasurementKind.VaporComposition,
    };

    private readonly Dictionary<string, (double Value, int Line)> defaults = new(StringComparer.Ordinal);
    private readonly List<Substance> components = [];
    private string[] header = [];
    private int headerLine;
    private string? source;
    private string? name;
    private bool fromMemory;
    private MeasurementKind? compared;

    public MeasurementSet Read(string text)
    {
        List<Measurement> points = [];
        int line = 0;
        foreach (string raw in text.ReplaceLineEndings("\n").Split('\n'))
        {
            line++;
            string content = raw.Trim().TrimStart('\uFEFF');
            if (content.Length == 0)
            {
                continue;
            }

            if (content[0] == '#')
            {
                Setting(content[1..].Trim(), line);
            }
            else if (headerLine == 0)
            {
                Header(content, line);
            }
            else
            {
                points.Add(Point(content, line));
            }
        }

        if (headerLine == 0)
        {
            throw Broken(Math.Max(line, 1), string.Empty, "there is no line of column headers");
        }

        if (source is null)
        {
            throw Broken(1, "source", "is missing; give a line '# source = publication or notebook'");
        }

        return points.Count == 0
            ? throw Broken(line, string.Empty, "there are no points after the column headers")
            : new MeasurementSet(name ?? Path.GetFileNameWithoutExtension(file), new(source, fromMemory), components, points);
    }

    // Lines "# name = value" set something when the name is known; all other lines that begin with # are remarks.
    private void Setting(string content, int line)
    {
        int equals = content.IndexOf('=', StringComparison.Ordinal);
        if (equals <= 0)
        {
            return;
        }

        string setting = content[..equals].Trim();
        string value = content[(equals + 1)..].Trim();
        switch (setting)
        {
            case "source":
                source = value.Length > 0 ? value : throw Broken(line, setting, "must not be empty");
                break;
            case "set":
                name = value.Length > 0 ? value : throw Broken(line, setting, "must not be empty");
                break;
            case "from memory":
                fromMemory = value switch
                {
                    "yes" => true,
                    "no" => false,
                    _ => throw Broken(line, setting, $"must be 'yes' or 'no', found '{value}'"),
                };
                break;
            case "compared":
                compared = ComparedNames.TryGetValue(value, out MeasurementKind kind)
                    ? kind
                    : throw Broken(line, setting, $"must be one of {string.Join(", ", ComparedNames.Keys.Select(k => $"'{k}'"))}, found '{value}'");
                break;
            default:
                if (setting.Contains("_uncertainty", StringComparison.Ordinal))
                {
                    Quantity quantity = Quantities.TryGetValue(setting, out Quantity? found)
                        ? found
                        : throw Broken(line, setting, $"is no known uncertainty; known are {string.Join(", ", Quantities.Keys.Where(k => k.Contains("_uncertainty", StringComparison.Ordinal)))}");
                    defaults[quantity.Name] = (Number(value, setting, quantity, line), line);
                }

                break;
        }
    }

    private void Header(string content, int line)
    {
        headerLine = line;
        header = [.. content.Split(',').Select(h => h.Trim())];
        HashSet<string> seen = new(StringComparer.Ordinal);
        foreach (string column in header)
        {
            string key = column;
            if (Quantities.TryGetValue(column, out Quantity? quantity))
            {
                key = quantity.Name;
            }
            else if (PrefixOf(column) is { } prefix)
            {
                string substance = column[prefix.Length..];
                if (!catalog.Identities.TryFind(substance, out SubstanceIdentity? identity))
                {
                    throw Broken(line, column, catalog.Identities.UnknownMessage(substance));
                }

                if (!catalog.TryFind(identity.Name, out Substance? found))
                {
                    throw Broken(line, column, $"the catalogue holds no data for {identity.Name}");
                }

                key = prefix + identity.Key;
                if (!components.Exists(c => c.Identity.Equals(identity)))
                {
                    components.Add(found);
                }
            }
            else
            {
                throw Broken(
                    line,
                    column,
                    $"is no known column; known are {string.Join(", ", Quantities.Keys)}, and {Liquid}, {Vapor} or {Overall} followed by a substance");
            }

            if (!seen.Add(key))
            {
                throw Broken(line, column, "is given a second time");
            }
        }

        if (!seen.Contains("temperature"))
        {
            throw Broken(line, "temperature_K", "is missing");
        }

        if (!seen.Contains("pressure") && !seen.Contains("excess_gibbs_energy"))
        {
            throw Broken(line, "pressure_Pa", "is missing");
        }

        if (components.Count < 2)
        {
            throw Broken(line, string.Empty, $"names {components.Count} components; two or more are needed, each with its mole-fraction column");
        }
    }

    private Measurement Point(string content, int line)
    {
        string[] cells = [.. content.Split(',').Select(c => c.Trim())];
        if (cells.Length != header.Length)
        {
            throw Broken(line, string.Empty, $"has {cells.Length} values; the header has {header.Length} columns");
        }

        Dictionary<string, double> values = defaults.ToDictionary(d => d.Key, d => d.Value.Value, StringComparer.Ordinal);
        Dictionary<string, double?[]> fractions = new(StringComparer.Ordinal);
        for (int i = 0; i < cells.Length; i++)
        {
            if (cells[i].Length == 0)
            {
                continue;
            }

            if (Quantities.TryGetValue(header[i], out Quantity? quantity))
            {
                values[quantity.Name] = Number(cells[i], header[i], quantity, line);
                continue;
            }

            string prefix = PrefixOf(header[i])!;
            SubstanceIdentity identity = catalog.Identities.Find(header[i][prefix.Length..]);
            if (!fractions.TryGetValue(prefix, out double?[]? list))
            {
                fractions[prefix] = list = new double?[components.Count];
            }

            list[components.FindIndex(c => c.Identity.Equals(identity))] = Number(cells[i], header[i], new("mole fraction", 1, 0, 0, 1), line);
        }

        MeasurementUncertainty uncertainty = UncertaintyOf(values);
        Temperature temperature = Temperature.FromKelvins(Required("temperature", "temperature_K"));
        double[]? liquid = Complete(Liquid);
        double[]? vapor = Complete(Vapor);
        double[]? overall = Complete(Overall);
        if (values.TryGetValue("excess_gibbs_energy", out double excess))
        {
            return Placed(Measurement.OfExcessGibbsEnergy(temperature, liquid ?? overall ?? throw Missing(Liquid), MolarEnergy.FromJoulesPerMole(excess), uncertainty));
        }

        Pressure pressure = Pressure.FromPascals(Required("pressure", "pressure_Pa"));
        double[] described = overall ?? liquid ?? vapor ?? throw Missing(Liquid);
        Density? density = DensityOf(described);
        if (overall is not null)
        {
            if (liquid is not null || vapor is not null)
            {
                throw Broken(line, string.Empty, $"gives {Overall} mole fractions of one phase together with those of liquid or vapour; give either");
            }

            if (values.TryGetValue("speed_of_sound", out double speed))
            {
                return density is null
                    ? Placed(Measurement.OfSpeedOfSound(temperature, pressure, overall, Speed.FromMetersPerSecond(speed), uncertainty))
                    : throw Broken(line, "speed_of_sound_m_per_s", "stands beside a density; give each its own line");
            }

            return Placed(Measurement.OfDensity(
                temperature, pressure, overall, density ?? throw Broken(line, "density_kg_per_m3", "is missing; nor is there a speed of sound"), uncertainty));
        }

        MeasurementKind kind = compared ?? (liquid is null ? MeasurementKind.DewPressure : MeasurementKind.BubblePressure);
        bool needsLiquid = kind is MeasurementKind.BubblePressure or MeasurementKind.BubbleTemperature;
        double[] whole = (needsLiquid ? liquid : vapor) ?? throw Missing(needsLiquid ? Liquid : Vapor);
        return Placed(kind switch
        {
            MeasurementKind.BubblePressure => Measurement.OfBubblePressure(temperature, pressure, whole, vapor, density, uncertainty),
            MeasurementKind.BubbleTemperature => Measurement.OfBubbleTemperature(temperature, pressure, whole, vapor, density, uncertainty),
            MeasurementKind.DewPressure => Measurement.OfDewPressure(temperature, pressure, whole, uncertainty),
            MeasurementKind.DewTemperature => Measurement.OfDewTemperature(temperature, pressure, whole, uncertainty),
            _ when whole.Length == 2 => Measurement.OfVaporComposition(temperature, pressure, whole, uncertainty),
            _ => throw Broken(line, string.Empty, $"a vapour composition at temperature and pressure needs two components, found {whole.Length}"),
        });

        Measurement Placed(Measurement point) => point with { Place = $"{file}, line {line}" };

        double Required(string quantity, string column) => values.TryGetValue(quantity, out double value) ? value : throw Broken(line, column, "is missing");

        MeasurementFileException Missing(string prefix) => Broken(line, prefix + components[0].Name.Replace(' ', '_'), "is missing");

        Density? DensityOf(double[] x)
        {
            if (values.TryGetValue("density_molar", out double molar))
            {
                return Density.FromKilogramsPerCubicMeter(molar * components.Select((c, i) => x[i] * c.MolarMass).Sum());
            }

            return values.TryGetValue("density", out double mass) ? Density.FromKilogramsPerCubicMeter(mass) : null;
        }

        // One mole fraction may be left out of a phase: it is the balance.
        double[]? Complete(string prefix)
        {
            if (!fractions.TryGetValue(prefix, out double?[]? given))
            {
                return null;
            }

            double sum = given.Sum(f => f ?? 0);
            int missing = given.Count(f => f is null);
            if (missing > 1)
            {
                throw Broken(line, prefix + components[Array.FindIndex(given, f => f is null)].Name.Replace(' ', '_'), "is missing; one component of a phase may be left out as the balance, not more");
            }

            if (sum > 1 + Composition.SumTolerance || (missing == 0 && sum < 1 - Composition.SumTolerance))
            {
                throw Broken(line, prefix + "...", $"mole fractions add up to {sum:G9}; allowed is {(missing == 0 ? "1" : "at most 1")} within {Composition.SumTolerance:G1}");
            }

            double scale = missing == 0 || sum > 1 ? sum : 1;
            return [.. given.Select(f => f is { } fraction ? fraction / scale : Math.Max(0, 1 - sum))];
        }
    }

    private static MeasurementUncertainty UncertaintyOf(Dictionary<string, double> values)
    {
        MeasurementUncertainty standard = MeasurementUncertainty.Default;
        return new()
        {
            PressureRelative = values.GetValueOrDefault("pressure_uncertainty", standard.PressureRelative),
            TemperatureKelvins = values.GetValueOrDefault("temperature_uncertainty", standard.TemperatureKelvins),
            LiquidFraction = values.GetValueOrDefault("liquid_fraction_uncertainty", standard.LiquidFraction),
            VaporFraction = values.GetValueOrDefault("vapor_fraction_uncertainty", standard.VaporFraction),
            DensityRelative = values.GetValueOrDefault("density_uncertainty", standard.DensityRelative),
            SpeedOfSoundRelative = values.GetValueOrDefault("speed_of_sound_uncertainty", standard.SpeedOfSoundRelative),
            ExcessGibbsEnergyJoulesPerMole = values.GetValueOrDefault("excess_gibbs_energy_uncertainty", standard.ExcessGibbsEnergyJoulesPerMole),
        };
    }

    private double Number(string cell, string column, Quantity quantity, int line)
    {
        if (!double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
        {
            throw Broken(line, column, $"must be a finite number with a point as decimal mark, found '{cell}'");
        }

        double value = (number * quantity.Factor) + quantity.Offset;
        return value >= quantity.Lowest * (1 - 1e-12) && value <= quantity.Highest
            ? value
            : throw Broken(
                line,
                column,
                $"must lie from {(quantity.Lowest - quantity.Offset) / quantity.Factor:G6} to {(quantity.Highest - quantity.Offset) / quantity.Factor:G6}, found {cell}");
    }

    private static string? PrefixOf(string column) =>
        new[] { Liquid, Vapor, Overall }.FirstOrDefault(p => column.StartsWith(p, StringComparison.Ordinal) && column.Length > p.Length);

    private MeasurementFileException Broken(int line, string column, string rule) => new(file, line, column, rule);

    private sealed record Quantity(string Name, double Factor, double Offset, double Lowest, double Highest);
}
