using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Safety;

/// <summary>
/// A closed refrigerant circuit as the safety rules see it, whatever machine it belongs to: what is in it, at which pressures
/// and temperatures, and what is next to it. Immutable and thread-safe. What is not known is left at its default, which is the
/// cautious one where there is a choice.
/// </summary>
public sealed class Circuit
{
    private const double SumTolerance = 1e-6;

    /// <summary>The charge: substances and mole fractions that sum to 1 within 1e-6.</summary>
    /// <exception cref="ArgumentException">The list is empty, a fraction is outside 0 to 1, or the sum is off.</exception>
    public required IReadOnlyList<SubstanceShare> Contents
    {
        get;
        init => field = CheckedShares(value, nameof(Contents));
    }

    /// <summary>The absolute pressure of the low side at the compressor in service.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public required Pressure LowPressure
    {
        get;
        init
        {
            Guard.Positive(value.Pascals, "Pa absolute", nameof(LowPressure));
            field = value;
        }
    }

    /// <summary>The absolute pressure of the high side at the compressor in service.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public required Pressure HighPressure
    {
        get;
        init
        {
            Guard.Positive(value.Pascals, "Pa absolute", nameof(HighPressure));
            field = value;
        }
    }

    /// <summary>The atmosphere around the circuit, absolute.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public required Pressure LocalAtmosphere
    {
        get;
        init
        {
            Guard.Positive(value.Pascals, "Pa absolute", nameof(LocalAtmosphere));
            field = value;
        }
    }

    /// <summary>The lowest temperature anywhere in the circuit in service.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not above absolute zero.</exception>
    public required Temperature ColdestSurface
    {
        get;
        init
        {
            Guard.Positive(value.Kelvins, "K", nameof(ColdestSurface));
            field = value;
        }
    }

    /// <summary>The gas temperature at the compressor discharge; null when it is not known, which leaves its rule out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not above absolute zero.</exception>
    public Temperature? DischargeTemperature
    {
        get;
        init
        {
            if (value is { } temperature)
            {
                Guard.Positive(temperature.Kelvins, "K", nameof(DischargeTemperature));
            }

            field = value;
        }
    }

    /// <summary>The compressor maker's limit of the discharge temperature; null takes the rule's default, 110 degC.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is not above absolute zero.</exception>
    public Temperature? DischargeTemperatureLimit
    {
        get;
        init
        {
            if (value is { } temperature)
            {
                Guard.Positive(temperature.Kelvins, "K", nameof(DischargeTemperatureLimit));
            }

            field = value;
        }
    }

    /// <summary>The absolute pressure at which the relief device of the high side opens; null when there is none or it is not known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is not above zero.</exception>
    public Pressure? HighPressureReliefSetting
    {
        get;
        init
        {
            if (value is { } pressure)
            {
                Guard.Positive(pressure.Pascals, "Pa absolute", nameof(HighPressureReliefSetting));
            }

            field = value;
        }
    }

    /// <summary>
    /// Whether cold liquid, of the charge or of a feed, can be shut in between two shut-off points or in a closed vessel.
    /// True unless stated otherwise.
    /// </summary>
    public bool ColdLiquidCanBeShutIn { get; init; } = true;

    /// <summary>The gases led to the cold end; empty when there are none.</summary>
    /// <exception cref="ArgumentException">A feed's composition is empty, has a fraction outside 0 to 1 or a sum that is off.</exception>
    public IReadOnlyList<FeedGas> Feeds
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            foreach (FeedGas feed in value)
            {
                ArgumentNullException.ThrowIfNull(feed);
                CheckedShares(feed.Composition, $"{nameof(Feeds)} ({feed.Name})");
                Guard.Positive(feed.FeedPressure.Pascals, "Pa absolute", $"{nameof(FeedGas.FeedPressure)} of {feed.Name}");
            }

            field = [.. value];
        }
    } = [];

    /// <summary>The cold surfaces of the circuit and its feeds that room air can reach; empty when all are vapour-tight or in vacuum.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A surface temperature is not above absolute zero.</exception>
    public IReadOnlyList<ExposedSurface> SurfacesOpenToRoomAir
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            foreach (ExposedSurface surface in value)
            {
                ArgumentNullException.ThrowIfNull(surface);
                Guard.Positive(surface.Temperature.Kelvins, "K", $"{nameof(ExposedSurface.Temperature)} of {surface.Name}");
            }

            field = [.. value];
        }
    } = [];

    /// <summary>The parts whose material or rating is told; empty when none is.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature, pressure or rating is not above zero.</exception>
    public IReadOnlyList<CircuitPart> Parts
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            foreach (CircuitPart part in value)
            {
                ArgumentNullException.ThrowIfNull(part);
                ArgumentException.ThrowIfNullOrWhiteSpace(part.Name, nameof(Parts));
                Guard.Positive(part.Coldest.Kelvins, "K", $"{nameof(CircuitPart.Coldest)} of {part.Name}");
                Guard.Positive(part.Highest.Pascals, "Pa absolute", $"{nameof(CircuitPart.Highest)} of {part.Name}");
                Guard.Positive(part.Rating?.Pascals ?? 1, "Pa absolute", $"{nameof(CircuitPart.Rating)} of {part.Name}");
            }

            field = [.. value];
        }
    } = [];

    private static SubstanceShare[] CheckedShares(IReadOnlyList<SubstanceShare> shares, string parameter)
    {
        ArgumentNullException.ThrowIfNull(shares, parameter);
        if (shares.Count == 0)
        {
            throw new ArgumentException($"{parameter} is empty; at least one substance is needed.", parameter);
        }

        double sum = 0;
        foreach (SubstanceShare share in shares)
        {
            ArgumentNullException.ThrowIfNull(share, parameter);
            ArgumentException.ThrowIfNullOrWhiteSpace(share.Substance, parameter);
            sum += Guard.InRange(share.MoleFraction, 0, 1, "mol/mol", $"{parameter}: {share.Substance}");
        }

        if (Math.Abs(sum - 1) > SumTolerance)
        {
            throw new ArgumentException(
                $"the mole fractions of {parameter} sum to {sum:G9}; allowed is 1 within {SumTolerance:G1}.", parameter);
        }

        return [.. shares];
    }
}
