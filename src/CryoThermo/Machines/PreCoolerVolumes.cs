using CryoThermo.Diagnostics;
using UnitsNet;

namespace CryoThermo.Machines;

/// <summary>Inner volumes of a pre-cooler's parts, for its charge. Immutable and thread-safe.</summary>
public sealed record PreCoolerVolumes
{
    /// <summary>Names the volumes.</summary>
    /// <param name="condenser">Inside the condenser, zero to 1 m3.</param>
    /// <param name="liquidLine">Line, drier and receiver full of liquid, zero to 1 m3.</param>
    /// <param name="evaporator">Inside the evaporator, zero to 1 m3.</param>
    /// <param name="suctionSide">Suction line and shell at suction pressure, zero to 1 m3.</param>
    /// <param name="dischargeSide">Discharge line, and a shell at discharge pressure, zero to 1 m3.</param>
    /// <exception cref="ArgumentOutOfRangeException">A volume is out of its range.</exception>
    public PreCoolerVolumes(Volume condenser, Volume liquidLine, Volume evaporator, Volume suctionSide, Volume dischargeSide = default)
    {
        Guard.InRange(condenser.CubicMeters, 0, 1, "m3", nameof(condenser));
        Guard.InRange(liquidLine.CubicMeters, 0, 1, "m3", nameof(liquidLine));
        Guard.InRange(evaporator.CubicMeters, 0, 1, "m3", nameof(evaporator));
        Guard.InRange(suctionSide.CubicMeters, 0, 1, "m3", nameof(suctionSide));
        Guard.InRange(dischargeSide.CubicMeters, 0, 1, "m3", nameof(dischargeSide));
        Condenser = condenser;
        LiquidLine = liquidLine;
        Evaporator = evaporator;
        SuctionSide = suctionSide;
        DischargeSide = dischargeSide;
    }

    /// <summary>Inside the condenser.</summary>
    public Volume Condenser { get; }

    /// <summary>Line, drier and receiver full of liquid.</summary>
    public Volume LiquidLine { get; }

    /// <summary>Inside the evaporator.</summary>
    public Volume Evaporator { get; }

    /// <summary>Suction line and shell at suction pressure.</summary>
    public Volume SuctionSide { get; }

    /// <summary>Discharge line, and a shell at discharge pressure.</summary>
    public Volume DischargeSide { get; }
}
