using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Coolers.Charging;

/// <summary>What is to be charged into which machine. Immutable and thread-safe.</summary>
public sealed class ChargeRequest
{
    /// <summary>The wanted charge: components, mole fractions, catalogue and model.</summary>
    /// <exception cref="ArgumentException">It is a mixture described as if it were pure (air).</exception>
    public required WorkingFluid Wanted
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            field = value.IsPseudoPure
                ? throw new ArgumentException($"{nameof(Wanted)} is {value.Composition}, a mixture described as if it were pure: name its components.", nameof(value))
                : value;
        }
    }

    /// <summary>The volumes the charge reaches; one pressure and one composition reign in all of them.</summary>
    /// <exception cref="ArgumentException">The list is empty or two volumes have one name.</exception>
    public required IReadOnlyList<MachineVolume> Volumes
    {
        get;
        init => field = Checked(value);
    }

    /// <summary>The atmosphere round the gauge, absolute: 25 to 115 kPa (<see cref="GaugePressure.StandardAtmosphere"/> gives that of an altitude).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Out of its range.</exception>
    public required Pressure LocalAtmosphere
    {
        get;
        init
        {
            _ = GaugePressure.FromAbsolute(Pressure.FromPascals(1), value);
            field = value;
        }
    }

    /// <summary>Absolute pressure after the last component; give this or <see cref="Amount"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public Pressure? FinalPressure
    {
        get;
        init
        {
            if (value is { } pressure)
            {
                Guard.Positive(pressure.Pascals, "Pa absolute", nameof(FinalPressure));
            }

            field = value;
        }
    }

    /// <summary>Amount of the wanted components together, what the machine already holds of them included; give this or <see cref="FinalPressure"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public AmountOfSubstance? Amount
    {
        get;
        init
        {
            if (value is { } amount)
            {
                Guard.Positive(amount.Moles, "mol", nameof(Amount));
            }

            field = value;
        }
    }

    /// <summary>What the machine holds at the start; null for a perfect vacuum.</summary>
    public ResidualContents? Residual { get; init; }

    /// <summary>The bottles at hand; the limit of a component without one is not judged.</summary>
    /// <exception cref="ArgumentException">A bottle is null.</exception>
    public IReadOnlyList<GasBottle> Bottles
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            field = value.Any(b => b is null) ? throw new ArgumentException($"{nameof(Bottles)} holds null.", nameof(value)) : [.. value];
        }
    } = [];

    /// <summary>Absolute pressure the machine may hold by the rating of its weakest part; null when it is not stated: then it is not judged.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public Pressure? AllowedPressure
    {
        get;
        init
        {
            if (value is { } pressure)
            {
                Guard.Positive(pressure.Pascals, "Pa absolute", nameof(AllowedPressure));
            }

            field = value;
        }
    }

    /// <summary>Absolute pressure at which the machine's relief device opens; null when there is none or it is not known.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public Pressure? ReliefSetting
    {
        get;
        init
        {
            if (value is { } pressure)
            {
                Guard.Positive(pressure.Pascals, "Pa absolute", nameof(ReliefSetting));
            }

            field = value;
        }
    }

    internal static IReadOnlyList<MachineVolume> Checked(IReadOnlyList<MachineVolume> volumes)
    {
        ArgumentNullException.ThrowIfNull(volumes);
        if (volumes.Count == 0 || volumes.Any(v => v is null))
        {
            throw new ArgumentException($"volumes holds {volumes.Count} spaces; at least one is needed, none of them null.", nameof(volumes));
        }

        string? twice = volumes.GroupBy(v => v.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1)?.Key;
        return twice is null ? [.. volumes] : throw new ArgumentException($"volumes holds two spaces named '{twice}'.", nameof(volumes));
    }
}
