using UnitsNet;

namespace CryoThermo.Coolers.Rating;

/// <summary>
/// The machine of a cooler file: what it is built of and what was filled into it, so that its pressures follow instead of being held. It is made by
/// <see cref="CoolerDescriptionReader"/> only. Immutable and thread-safe.
/// </summary>
public sealed class MachineDescription
{
    private readonly Cooler cooler;
    private readonly MixtureDescription mixture;
    private readonly FluidModel model;

    internal MachineDescription(
        Cooler cooler,
        MixtureDescription mixture,
        FluidModel model,
        Mass? chargeMass,
        GaugePressure? standingPressure,
        Temperature? standingTemperature,
        UncertaintyDescription uncertainty)
    {
        this.cooler = cooler;
        this.mixture = mixture;
        this.model = model;
        ChargeMass = chargeMass;
        StandingPressure = standingPressure;
        StandingTemperature = standingTemperature;
        Uncertainty = uncertainty;
    }

    /// <summary>What was filled, by mass; null where the file gives the standing pressure.</summary>
    public Mass? ChargeMass { get; }

    /// <summary>Pressure of the whole machine warm and at rest; null where the file gives the mass.</summary>
    public GaugePressure? StandingPressure { get; }

    /// <summary>Temperature of the whole machine at that pressure; null where the file gives the mass.</summary>
    public Temperature? StandingTemperature { get; }

    /// <summary>How exactly the machine is known, as far as the file tells.</summary>
    public UncertaintyDescription Uncertainty { get; }

    /// <summary>All that the charge fills: the spaces and both sides of the recuperator.</summary>
    public Volume TotalVolume => Volume.FromCubicMeters(cooler.TotalVolume);

    /// <summary>The machine, to be rated.</summary>
    public Cooler ToCooler() => cooler;

    /// <summary>The charge. By its standing pressure it is the density of the equilibrium state there times <see cref="TotalVolume"/>, condensed where it condenses.</summary>
    /// <exception cref="ArgumentException">A substance is unknown, or the model has no figures of one.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The standing state is outside the range of the model.</exception>
    /// <exception cref="Diagnostics.ConvergenceException">The standing state was not found.</exception>
    public CoolerCharge ToCharge()
    {
        WorkingFluid fluid = WorkingFluid.Mixture(mixture.ToComposition()).WithModel(model);
        double moles = ChargeMass is { } mass
            ? mass.Kilograms / fluid.Composition.MolarMass.KilogramsPerMole
            : fluid.At(StandingTemperature!.Value, StandingPressure!.Value.Absolute).MolarDensity.MolesPerCubicMeter * cooler.TotalVolume;
        return new(fluid, AmountOfSubstance.FromMoles(moles));
    }
}
