using System.Text;
using System.Text.Json;
using CryoThermo.Diagnostics;
using CryoThermo.Substances;

namespace CryoThermo.Fitting;

/// <summary>Writes pair files (docs/formats/pair-file.md). The departure functions of the pairs must be known to whoever reads the file.</summary>
internal static class PairFileWriter
{
    public static string Write(IReadOnlyList<BinaryPair> pairs)
    {
        Source[] sources = [.. pairs.Select(p => p.Source with { Verified = null }).Distinct()];
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            json.WriteStartObject();
            json.WriteStartObject("sources");
            for (int i = 0; i < sources.Length; i++)
            {
                json.WriteStartObject(LabelOf(i));
                json.WriteString("publication", sources[i].Publication);
                json.WriteBoolean("fromMemory", sources[i].FromMemory);
                json.WriteEndObject();
            }

            json.WriteEndObject();
            CubicPair[] cubic = [.. pairs.OfType<CubicPair>()];
            if (cubic.Length > 0)
            {
                json.WriteStartArray("pairs");
                foreach (CubicPair pair in cubic)
                {
                    WriteHead(json, pair, LabelOf(Array.IndexOf(sources, pair.Source with { Verified = null })));
                    json.WriteStartObject(pair.Model == CubicModelKind.PengRobinson ? "pengRobinson" : "soaveRedlichKwong");
                    json.WriteNumber("interaction", pair.InteractionParameter);
                    if (pair.StandardError is { } error)
                    {
                        json.WriteNumber("standardError", error);
                    }

                    if (pair.InverseTemperatureCoefficient != 0)
                    {
                        json.WriteNumber("inverseTemperatureCoefficient", pair.InverseTemperatureCoefficient);
                        if (pair.InverseTemperatureStandardError is { } slopeError)
                        {
                            json.WriteNumber("inverseTemperatureStandardError", slopeError);
                        }
                    }

                    WriteVerified(json, pair.Source);
                    json.WriteEndObject();
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            MultiFluidPair[] multi = [.. pairs.OfType<MultiFluidPair>()];
            if (multi.Length > 0 || cubic.Length == 0)
            {
                json.WriteStartArray("multiFluidPairs");
                foreach (MultiFluidPair pair in multi)
                {
                    WriteHead(json, pair, LabelOf(Array.IndexOf(sources, pair.Source with { Verified = null })));
                    WriteReducing(json, "volumeReducing", pair.Volume);
                    WriteReducing(json, "temperatureReducing", pair.Temperature);
                    if (pair.Departure is not null)
                    {
                        json.WriteString("departure", pair.Departure.Name);
                        json.WriteNumber("departureWeight", pair.DepartureWeight);
                    }

                    if (pair.Basis is not null)
                    {
                        json.WriteString("basis", pair.Basis);
                    }

                    WriteVerified(json, pair.Source);
                    if (pair.StandardErrors is { } errors)
                    {
                        json.WriteStartObject("standardErrors");
                        WriteError(json, "volumeBeta", errors.VolumeBeta);
                        WriteError(json, "volumeGamma", errors.VolumeGamma);
                        WriteError(json, "temperatureBeta", errors.TemperatureBeta);
                        WriteError(json, "temperatureGamma", errors.TemperatureGamma);
                        WriteError(json, "departureWeight", errors.DepartureWeight);
                        json.WriteEndObject();
                    }

                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";

        static string LabelOf(int index) => $"source {index + 1}";
    }

    private static void WriteHead(Utf8JsonWriter json, BinaryPair pair, string source)
    {
        json.WriteStartObject();
        json.WriteString("first", pair.First.Name);
        json.WriteString("second", pair.Second.Name);
        json.WriteString("tier", pair.Tier switch
        {
            PairTier.Published => "published",
            PairTier.FittedHere => "fitted here",
            _ => throw new ArgumentException($"{pair.First.Name} and {pair.Second.Name} are estimated; only published and fitted pairs go into a file.", nameof(pair)),
        });
        json.WriteString("source", source);
        if (pair.FittedTo is not null)
        {
            json.WriteString("fittedTo", pair.FittedTo);
        }
    }

    private static void WriteReducing(Utf8JsonWriter json, string name, ReducingParameters parameters)
    {
        json.WriteStartObject(name);
        json.WriteNumber("beta", parameters.Beta);
        json.WriteNumber("gamma", parameters.Gamma);
        json.WriteEndObject();
    }

    private static void WriteError(Utf8JsonWriter json, string name, double error)
    {
        if (error > 0)
        {
            json.WriteNumber(name, error);
        }
    }

    private static void WriteVerified(Utf8JsonWriter json, Source source)
    {
        if (source.Verified is not null)
        {
            json.WriteString("verified", source.Verified);
        }
    }
}
