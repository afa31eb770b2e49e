using CryoThermo.Coolers.Rating;
using UnitsNet;

namespace CryoThermo.Coolers;

/// <summary>
/// A mixed-gas throttle cooler as its builder describes it in a cooler file. It is made by <see cref="CoolerDescriptionReader"/>
/// only, so its values are in range and do not contradict one another. Immutable and thread-safe.
/// </summary>
public sealed class CoolerDescription
{
    internal CoolerDescription(
        string title,
        Pressure atmosphere,
        Length? altitude,
        FluidModel model,
        MixtureDescription charge,
        GaugePressure lowPressure,
        GaugePressure highPressure,
        Temperature ambientTemperature,
        Temperature afterCoolerOutletTemperature,
        Temperature? preCoolerOutletTemperature,
        CompressorDescription compressor,
        RecuperatorDescription recuperator,
        Power heatLeak,
        LoadDescription load,
        CoolingCurveDescription? coolingCurve,
        IReadOnlyList<FeedDescription> feeds,
        IReadOnlyList<PartDescription> parts,
        SurroundingsDescription surroundings,
        MachineDescription? machine)
    {
        Title = title;
        Atmosphere = atmosphere;
        Altitude = altitude;
        Model = model;
        Charge = charge;
        LowPressure = lowPressure;
        HighPressure = highPressure;
        AmbientTemperature = ambientTemperature;
        AfterCoolerOutletTemperature = afterCoolerOutletTemperature;
        PreCoolerOutletTemperature = preCoolerOutletTemperature;
        Compressor = compressor;
        Recuperator = recuperator;
        HeatLeak = heatLeak;
        Load = load;
        CoolingCurve = coolingCurve;
        Feeds = feeds;
        Parts = parts;
        Surroundings = surroundings;
        Machine = machine;
    }

    /// <summary>What the cooler is called.</summary>
    public string Title { get; }

    /// <summary>The local atmosphere, absolute, from the barometer or the altitude.</summary>
    public Pressure Atmosphere { get; }

    /// <summary>The altitude above sea level; null when the file gives a barometer reading.</summary>
    public Length? Altitude { get; }

    /// <summary>The fluid model; in the file one of <see cref="CoolerDescriptionReader.ModelNames"/>.</summary>
    public FluidModel Model { get; }

    /// <summary>The refrigerant as charged.</summary>
    public MixtureDescription Charge { get; }

    /// <summary>The pressure at the compressor suction.</summary>
    public GaugePressure LowPressure { get; }

    /// <summary>The pressure at the compressor discharge.</summary>
    public GaugePressure HighPressure { get; }

    /// <summary>The room temperature.</summary>
    public Temperature AmbientTemperature { get; }

    /// <summary>The temperature of the high-pressure stream after the after-cooler.</summary>
    public Temperature AfterCoolerOutletTemperature { get; }

    /// <summary>The temperature after a pre-cooler, not above that after the after-cooler; null without pre-cooler.</summary>
    public Temperature? PreCoolerOutletTemperature { get; }

    /// <summary>The temperature at which the high-pressure stream enters the recuperator.</summary>
    public Temperature WarmEndTemperature => PreCoolerOutletTemperature ?? AfterCoolerOutletTemperature;

    /// <summary>The compressor.</summary>
    public CompressorDescription Compressor { get; }

    /// <summary>The recuperator.</summary>
    public RecuperatorDescription Recuperator { get; }

    /// <summary>The heat that leaks into the cold end, zero or more.</summary>
    public Power HeatLeak { get; }

    /// <summary>The load.</summary>
    public LoadDescription Load { get; }

    /// <summary>The range of the cooling curve; null when not given.</summary>
    public CoolingCurveDescription? CoolingCurve { get; }

    /// <summary>The gases to be condensed on the cold end; empty when there are none.</summary>
    public IReadOnlyList<FeedDescription> Feeds { get; }

    /// <summary>Parts whose material or rating is told, for the safety rules; empty when there are none.</summary>
    public IReadOnlyList<PartDescription> Parts { get; }

    /// <summary>Relief and surroundings, for the safety rules.</summary>
    public SurroundingsDescription Surroundings { get; }

    /// <summary>The machine as built and filled, to be rated instead of having its pressures held; null when not given.</summary>
    public MachineDescription? Machine { get; }
}
