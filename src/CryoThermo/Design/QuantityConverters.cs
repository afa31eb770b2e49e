using System.Text.Json;
using System.Text.Json.Serialization;
using UnitsNet;

namespace CryoThermo.Design;

/// <summary>A quantity as a number in the unit its JSON name tells.</summary>
internal abstract class QuantityConverter<T>(Func<T, double> toNumber, Func<double, T> fromNumber) : JsonConverter<T>
{
    public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => fromNumber(reader.GetDouble());

    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteNumberValue(toNumber(value));
}

/// <summary>Kelvins.</summary>
internal sealed class KelvinsConverter() : QuantityConverter<Temperature>(t => t.Kelvins, x => Temperature.FromKelvins(x));

/// <summary>Kelvins of difference.</summary>
internal sealed class KelvinDifferenceConverter() : QuantityConverter<TemperatureDelta>(t => t.Kelvins, x => TemperatureDelta.FromKelvins(x));

/// <summary>Pascals, absolute.</summary>
internal sealed class PascalsConverter() : QuantityConverter<Pressure>(p => p.Pascals, x => Pressure.FromPascals(x));

/// <summary>Litres.</summary>
internal sealed class LitersConverter() : QuantityConverter<Volume>(v => v.Liters, x => Volume.FromLiters(x));

/// <summary>Litres a second.</summary>
internal sealed class LitersPerSecondConverter() : QuantityConverter<VolumeFlow>(v => v.LitersPerSecond, x => VolumeFlow.FromLitersPerSecond(x));

/// <summary>Joules a mole.</summary>
internal sealed class JoulesPerMoleConverter() : QuantityConverter<MolarEnergy>(e => e.JoulesPerMole, x => MolarEnergy.FromJoulesPerMole(x));

/// <summary>Watts.</summary>
internal sealed class WattsConverter() : QuantityConverter<Power>(p => (double)p.Watts, w => Power.FromWatts(w));
