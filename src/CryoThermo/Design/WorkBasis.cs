using System.Text.Json.Serialization;

namespace CryoThermo.Design;

/// <summary>Which work the percent of Carnot counts.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<WorkBasis>))]
public enum WorkBasis
{
    /// <summary>Reversible, at ambient temperature: the limit of any compressor.</summary>
    Isothermal,

    /// <summary>One adiabatic stage with the isentropic efficiency of the compressor.</summary>
    IsentropicEfficiency,
}
